"""The intake ticket: two halves that hold what was said, and further pages for what they cannot hold."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from app.papers.facts import Caution, Clause, Customer, PaperSize, Player, Row, Sign, Tick
from app.papers.intake_ticket_facts import IntakeTicketFacts, Mark
from app.trade.sentence import Sentence
from tests.papers.conftest import pdf_of
from tests.papers.reading import letters, texts, whole, without_spaces
from tests.papers.story import FAULT, SHEET, TICKET, instant

Press = Callable[..., bytes]
LONG = (
    "It began in the second winter after we moved, and "
    + "then it grew worse with every month, " * 30
    + "to the end."
)


def halves(pdf: bytes, height: float = 297) -> tuple[str, str]:
    """Letters of the upper and the lower half of the first page, without spaces."""
    found = letters(pdf)
    upper = "".join(one.text for one in found if one.bottom < height / 2 - 3)
    return upper, "".join(one.text for one in found if one.top > height / 2 + 3)


def test_both_halves_say_number_player_and_fault() -> None:
    for half in halves(pdf_of("ticket")):
        for words in ("2131", "Quellmar Larch 2", FAULT, "serial 0420 158", "220.00 EUR", "class II mains"):
            assert without_spaces(words) in half


def test_the_customers_half_says_what_was_agreed() -> None:
    upper, lower = halves(pdf_of("ticket"))
    for words in (
        "half 1 of 2", "What we agree", "Looking costs 45.00 EUR", "Deposit paid", "40.00 EUR, cash",
        "Wed 25 Nov, after 16:00", "19 Nov 2026, 10:20, by Mirr", "Transit lock: released",
        "1 disc, in the tray", "Not left: leads", "Invisible laser light inside.", "We may go ahead up to",
    ):  # fmt: skip
        assert without_spaces(words) in upper
    assert "half2of2" in lower


def test_the_shops_half_says_who_where_and_what_to_mind() -> None:
    _, lower = halves(pdf_of("ticket"))
    for words in (
        "Benedikt Arnsvik", "C 0418", "Flat 2, 18 Nowhere Lane", "+44 1632 960 244", "Shelf B 3",
        "promised Fri 27 Nov", "Velk A1 no. 55 871", "screws complete", "Caution.", "A disc of the customer",
        "Note. Here once before", "safety test", "final readings", "told and agreed", "scratch 40 mm",
        "customer: signature", "counter: signature", "J2131",
    ):  # fmt: skip
        assert without_spaces(words) in lower


def test_a_number_before_a_mark_stands_for_a_circle_on_the_outline(press: Press) -> None:
    """Without circles "2 chips" would be read as a count."""
    lower = halves(pdf_of("ticket"))[1]
    assert "1scratch40mm·2chip3mm" in lower
    loose = tuple(replace(mark, face=None) for mark in TICKET.marks)
    lower = halves(press(replace(TICKET, marks=loose)))[1]
    assert "scratchonthecover,frontleft·chiponthefront,rightcorner" in lower


def test_who_took_it_in_stands_on_the_customers_half_where_the_line_has_room(press: Press) -> None:
    upper, lower = halves(press(replace(TICKET, taken_by_short="Maximiliane von Übermaß")))
    assert "Maximiliane" not in upper
    assert "19Nov2026,10:20" in upper
    assert "byMirrQuistan" in lower


def test_cautions_stand_before_notes() -> None:
    lower = halves(pdf_of("ticket"))[1]
    assert lower.index("Caution.") < lower.index("Note.")


def test_a_short_ticket_is_one_page_and_does_not_count_pages(press: Press) -> None:
    bare = IntakeTicketFacts(
        SHEET, 7, Customer("A"), Player("Larch"), instant(1, "09:00"), "Mirr Quistan", fault="silent"
    )
    text = whole(press(bare))
    assert "page" not in text
    for words in (
        "serial not readable",
        "No limit agreed",
        "No go-ahead limit",
        "No flag.",
        "With it: nothing",
    ):
        assert words in text


@pytest.mark.parametrize("size", list(PaperSize))
def test_a_long_fault_stands_in_full_on_further_pages_for_both_readers(press: Press, size: PaperSize) -> None:
    pages = texts(press(replace(TICKET, fault=LONG, sheet=replace(SHEET, size=size))))
    assert "in full on page 2" in pages[0]
    assert "in full on page 3" in pages[0]
    assert "your half, continued" in pages[1]
    assert "shop half, continued" in pages[2]
    for page in pages[1:]:
        assert without_spaces(LONG) in without_spaces(page)
    for number, page in enumerate(pages, 1):
        assert f"page {number} of 3" in page


def test_everything_absurdly_long_is_still_all_there(press: Press) -> None:
    word = "verylong" * 12
    facts = replace(
        TICKET,
        customer=Customer(
            f"Name {LONG}", "C 1", tuple(f"Street {n} {word}" for n in range(5)), "+44 1632 960 244"
        ),
        player=replace(TICKET.player, name=f"Maker {LONG}", transport=f"Transport {LONG}"),
        fault=LONG,
        ring_when=f"Ring {LONG}",
        marks=tuple(Mark(f"mark {n} {word}") for n in range(30)),
        things=tuple(Tick(f"thing {n} {word}", n % 2 == 0) for n in range(30)),
        condition=tuple(Row(f"Smell {n}", word) for n in range(9)),
        terms=tuple(Clause(f"Term {n}", LONG) for n in range(6)),
    )
    pdf = press(facts)
    text = without_spaces(whole(pdf))
    for words in (
        f"Name {LONG}",
        f"Maker {LONG}",
        f"Transport {LONG}",
        f"Ring {LONG}",
        "mark 29",
        "thing 29",
        "thing 28",
    ):
        assert without_spaces(words) in text
    assert text.count(without_spaces(LONG)) >= 12
    for number in range(len(texts(pdf))):
        assert all(one.right < 205 and one.bottom < 293 for one in letters(pdf, number))


def test_every_caution_given_prints_and_no_other(press: Press) -> None:
    notes = (
        *TICKET.cautions_user,
        Caution(
            "C5", Sign.GENERAL, Sentence("Do not use."), Sentence("Do not plug it in before it is mended.")
        ),
    )
    text = whole(press(replace(TICKET, cautions_user=notes)))
    assert "Invisible laser light inside." in text
    assert "Do not use. Do not plug it in before it is mended." in text
    none = whole(press(replace(TICKET, cautions_user=())))
    assert "Invisible" not in none
    assert "Do not use" not in none


def test_what_was_noted_of_the_fault_stands_below_the_words(press: Press) -> None:
    noted = replace(
        TICKET, fault_words=(Sentence("skips, when warm"), "reads no disc"), error_shown="no dISC"
    )
    assert whole(press(noted)).count("Noted: skips, when warm; reads no disc; shows no dISC.") == 2


@pytest.mark.parametrize(
    ("wanted", "words"), [(True, "Old parts: to be given back."), (False, "Old parts: not wanted.")]
)
def test_what_becomes_of_old_parts_is_said(press: Press, wanted: bool, words: str) -> None:
    text = whole(press(replace(TICKET, parts_back=wanted)))
    assert words in text
    assert ("old parts, to give back" in text) is wanted
