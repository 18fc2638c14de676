"""Who the story of the papers is about, what they say and which notes and terms stand on them.

Shop, makers, people and account are invented; texts are those of the reference pictures.
"""

from __future__ import annotations

from datetime import UTC, date, datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from app.papers.facts import (
    Caution,
    Clause,
    Customer,
    Flag,
    FlagLevel,
    Player,
    SheetFacts,
    Shop,
    Sign,
)
from app.trade.money import Money
from app.trade.sentence import Sentence
from app.trade.wording import Wording, plain

ENGLISH = plain(ZoneInfo("Europe/Berlin"))


def _longer(key: str) -> str:
    """Every template about 25 % longer in its words, braces untouched: what German does to a layout."""
    words = []
    for word in key.split(" "):
        plain_word = "{" not in word and "}" not in word
        grown = word[:3] + "ungs" + word[3:] if plain_word and len(word) > 6 else word
        words.append(grown)
    return " ".join(words)


LONG_WORDS = Wording(_longer, "de", ZoneInfo("Europe/Berlin"))


def euro(amount: str) -> Money:
    return Money.of(Decimal(amount), "EUR")


def instant(day: int, clock: str, month: int = 11) -> datetime:
    hour, minute = (int(part) for part in clock.split(":"))
    return datetime(2026, month, day, hour - 1, minute, tzinfo=UTC)


SHOP = Shop(
    name="Lanternfield Workshop",
    trade_line="Repairs to disc players",
    address=("3 Mossgate Quay", "43117 Mossgate"),
    phone="+44 1632 960 017",
    email="desk@lanternfield.example",
    vat_id="(specimen)",
)
SHEET = SheetFacts(SHOP, zone="Europe/Berlin", specimen=True)
CUSTOMER = Customer(
    "Benedikt Arnsvik", "C 0418", ("Flat 2, 18 Nowhere Lane", "43117 Mossgate"), "+44 1632 960 244"
)
PLAYER = Player(
    "Quellmar Larch 2",
    "0420 158",
    looks="disc player, black",
    mains=Sentence("class II mains"),
    class_ii=True,
    transport="Velk A1 no. 55 871",
    transport_kind=Sentence("swing arm"),
    transport_type="Velk A1",
)
FAULT = "Plays nicely from the start, but when I jump to the last songs it hangs for ages and then stops."
DISC_INSIDE = Flag(
    FlagLevel.CAUTION,
    Sentence("A disc of the customer’s is in the tray: return it and tick it."),
    Sentence("Disc inside"),
)
HERE_BEFORE = Flag(
    FlagLevel.NOTE,
    Sentence(
        "Here once before: job {job}, loading belt, back {day}. Another fault group, so no comeback.",
        {"job": "1206", "day": date(2021, 3, 12)},
    ),
)
COIL_UP = Flag(
    FlagLevel.CAUTION,
    Sentence(
        "Current in the radial coil is {k} times the maker’s, coil heat {heat} times ({where}). Stays on every "
        "paper until it is put back.",
        {"k": Decimal("1.214"), "heat": Decimal("1.474"), "where": "R314"},
    ),
    Sentence("Modified"),
)
C1_TICKET = Caution(
    "C1",
    Sign.LASER,
    Sentence("Invisible laser light inside."),
    Sentence(
        "Keep the cover closed. If, after the repair, it smells, smokes or runs hot: switch off, pull the plug "
        "and bring it back."
    ),
)
USER_NOTES = (
    Caution(
        "C1",
        Sign.LASER,
        Sentence("Invisible laser light inside."),
        Sentence("Leave the cover closed. Do not open the player or hold down its disc switch."),
    ),
    Caution(
        "C2",
        Sign.PLUG,
        Sentence("Pull the mains plug"),
        Sentence("before cleaning or moving it, and if liquid or a small object has fallen in."),
    ),
    Caution(
        "C3",
        None,
        Sentence("Modified."),
        Sentence(
            "One part of this player no longer follows its maker’s design. It can be put back. Keep this sheet "
            "with it and pass it on."
        ),
    ),
    Caution(
        "C4",
        None,
        Sentence("Smell, smoke, heat or a new noise?"),
        Sentence(
            "Switch off, pull the plug and bring it to a competent person. Leave air around the player."
        ),
    ),
)
TECHNICIAN_NOTES = (
    Caution(
        "T1",
        Sign.LASER,
        Sentence("Laser."),
        Sentence(
            "With the cover off or a switch bridged, an unseen beam near 780 nm can leave the lens. Never look "
            "into the lens or its reflection; use a meter or detector card."
        ),
    ),
    Caution(
        "T2",
        Sign.ELECTRIC,
        Sentence("Mains and stored charge."),
        Sentence(
            "Parts on the mains side can be live; capacitors can stay charged after unplugging. Measure before "
            "touching."
        ),
    ),
    Caution(
        "T3",
        Sign.STATIC,
        Sentence("Static."),
        Sentence(
            "The laser diode is easily destroyed. Wear a tested wrist strap; close the shorting bridge before "
            "the ribbon is unplugged."
        ),
    ),
    Caution(
        "T4",
        None,
        Sentence("Modification."),
        Sentence(
            "Radial-coil current is 21 % above the maker’s figure on purpose (R314). Read “Modification” "
            "before judging readings."
        ),
    ),
    Caution(
        "T5",
        None,
        Sentence("After any repair:"),
        Sentence(
            "tests by a competent person under the rules that apply where you are. Those rules come before "
            "this sheet."
        ),
    ),
)
TERMS = (
    Clause(
        Sentence("Looking costs {fee}", {"fee": euro("45")}),
        Sentence("with VAT if you then decline. It is not charged if you go ahead."),
    ),
    Clause(
        Sentence("Nothing above the limit"),
        Sentence("is done without your word, which we record with day and time."),
    ),
    Clause(
        Sentence("An estimate"),
        Sentence("is open for 30 days. Parts taken out are kept for you until you collect."),
    ),
    Clause(
        Sentence("Please collect within 30 days"),
        Sentence("of our message. After that we write to you before any charge or step the law allows."),
    ),
    Clause(
        Sentence("Your data"),
        Sentence("are kept for this repair and for as long as the law asks. Ask at the counter to see them."),
    ),
    Clause(
        Sentence("Modified?"),
        Sentence("A change outside the maker’s design is made only with your recorded yes."),
    ),
)
