"""The story that the papers are judged by: Lanternfield Workshop, job 2131, and the unsafe player of job 2119."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from app.papers.facts import (
    Clause,
    Flag,
    FlagLevel,
    Player,
    Row,
    Sign,
    TagSize,
    Tick,
)
from app.papers.hand_back_receipt_facts import Collector, HandBackReceiptFacts
from app.papers.intake_ticket_facts import Face, IntakeTicketFacts, Mark
from app.papers.invoice_facts import (
    Discount,
    InvoiceFacts,
    InvoiceLine,
    PaymentLine,
    PaymentPanel,
    VatGroup,
)
from app.papers.labels_facts import BenchTagFacts, ModifiedLabelFacts
from app.papers.modification_facts import Measured, ModificationFacts, WorkedOut
from app.papers.unsafe_return_facts import Offer, UnsafeReturnFacts
from app.trade.sentence import Measure, Sentence
from tests.papers.story_shop import (
    C1_TICKET,
    COIL_UP,
    CUSTOMER,
    DISC_INSIDE,
    ENGLISH,
    FAULT,
    HERE_BEFORE,
    LONG_WORDS,
    PLAYER,
    SHEET,
    SHOP,
    TECHNICIAN_NOTES,
    TERMS,
    USER_NOTES,
    euro,
    instant,
)

__all__ = [
    "C1_TICKET",
    "COIL_UP",
    "CUSTOMER",
    "DISC_INSIDE",
    "ENGLISH",
    "FAULT",
    "HERE_BEFORE",
    "INVOICE",
    "LABEL",
    "LONG_WORDS",
    "MODIFICATION",
    "PLAYER",
    "RECEIPT",
    "SHEET",
    "SHOP",
    "SMALL_TAG",
    "TAG",
    "TECHNICIAN_NOTES",
    "TERMS",
    "TICKET",
    "UNSAFE",
    "USER_NOTES",
    "euro",
    "instant",
]

TICKET = IntakeTicketFacts(
    SHEET,
    job=2131,
    customer=CUSTOMER,
    player=PLAYER,
    taken_in=instant(19, "10:20"),
    taken_by="Mirr Quistan",
    taken_by_short="Mirr",
    fault=FAULT,
    marks=(
        Mark("scratch on the cover, front left", "scratch 40 mm", Face.TOP, 160, 620),
        Mark("chip on the front, right corner", "chip 3 mm", Face.FRONT, 1000, 950),
    ),
    condition=(Row(Sentence("Transit lock"), Sentence("released")),),
    condition_short=(Sentence("screws complete"),),
    things=(
        Tick("remote control", True),
        Tick("2 batteries", True),
        Tick("1 disc, in the tray", True, strong=True),
        Tick("leads", False),
    ),
    here_before="once, job 1206, loading belt, March 2021",
    deposit=euro("40"),
    deposit_means=Sentence("cash"),
    diagnosis_fee=euro("45"),
    ring_by=date(2026, 11, 25),
    ring_when="after 16:00",
    promised=date(2026, 11, 27),
    limit=euro("220"),
    shelf="B 3",
    flags=(DISC_INSIDE, HERE_BEFORE),
    still_to_do=(Sentence("safety test"), Sentence("final readings"), Sentence("told and agreed")),
    terms=TERMS,
    cautions_user=(C1_TICKET,),
)
TAG = BenchTagFacts(
    SHEET,
    job=2131,
    player=PLAYER,
    fault="Hangs, then stops, on a jump to the last songs",
    taken_in=date(2026, 11, 19),
    flags=(DISC_INSIDE,),
    promised=date(2026, 11, 27),
    shelf="B 3",
    limit=euro("220"),
)
SMALL_TAG = replace(TAG, size=TagSize.SHEET_70X36)
LABEL = ModifiedLabelFacts(
    SHEET,
    job=2131,
    day=date(2026, 11, 24),
    what="R314: 5.6 Ω in place of 6.8 Ω",
    factors=Sentence(
        "coil current × {k}, coil heat × {heat}", {"k": Decimal("1.214"), "heat": Decimal("1.474")}
    ),
    undo="fit 6.8 Ω again; read drive and seek",
)
RECEIPT = HandBackReceiptFacts(
    SHEET,
    job=2131,
    customer_name="Benedikt Arnsvik",
    player=PLAYER,
    handed_back=instant(27, "16:40"),
    counter="Mirr Quistan",
    outcome=Sentence("mended with a modification"),
    collector=Collector.CUSTOMER,
    given_back=(
        Tick(Sentence("the player"), True),
        Tick("remote control", True),
        Tick("two batteries, in the remote", True),
        Tick("the disc, out of the tray: one", True),
        Tick("old part: R314, 6.8 Ω, in a bag", True),
        Tick("old parts not wanted", False),
    ),
    shown_told=(
        Tick("played track 1, then the last track", True),
        Tick("modification, and its label", True),
        Tick("invoice 2026-0412", True),
        Tick("service report, 3 pages", True),
        Tick("care booklet: out of stock", False),
        Tick("transit lock explained", True),
    ),
    done=(
        Sentence("Safety test passed {day}.", {"day": date(2026, 11, 26)}),
        Sentence("Final readings {day}.", {"day": date(2026, 11, 26)}),
        Sentence("Told and agreed {day} by telephone (Mirr Quistan).", {"day": date(2026, 11, 24)}),
    ),
    payment_lead=Sentence("Paid"),
    payment=Sentence(
        "{day}: {amount}, card; nothing open.", {"day": date(2026, 11, 27), "amount": euro("159.32")}
    ),
    flags=(
        Flag(
            FlagLevel.CAUTION,
            Sentence(
                "Modified: R314 is 5.6 Ω in place of 6.8 Ω, coil current × 1.214. Page 2 of the invoice says "
                "how to undo it; keep it with the player."
            ),
        ),
    ),
    declaration=Sentence("I have received what is ticked above and was told about the modification."),
)
MODIFICATION = ModificationFacts(
    paragraphs=(
        Clause(
            Sentence("What."),
            Sentence(
                "R314, which sets the current of the radial coil (the drive that swings the arm), was replaced: "
                "6.8 Ω before, 5.6 Ω now (0.6 W, 5 %). Nothing else departs from the maker’s design."
            ),
        ),
        Clause(
            Sentence("Why."),
            Sentence(
                "Three other changes made no difference (service report, trials 1 to 3). With this one it seeks "
                "to the last track and plays the outer tracks."
            ),
            Sentence("Cause not established."),
        ),
        Clause(
            Sentence("Agreed."),
            Sentence(
                "You agreed to this on 24 Nov 2026 by telephone (Mirr Quistan), at 14:05, before it was done."
            ),
        ),
        Clause(
            Sentence("To undo it."),
            Sentence(
                "Fit 6.8 Ω at R314 again; the old part was given back to you. Then read radial drive and seek "
                "time again. A label inside the cover says so."
            ),
        ),
    ),
    worked_out=(
        WorkedOut("Setting resistor R314", Measure(Decimal("6.8"), "Ω"), Measure(Decimal("5.6"), "Ω")),
        WorkedOut(Sentence("Coil current"), "× 1", "× 1.214"),
        WorkedOut(Sentence("Heat in the coil"), "× 1", "× 1.474"),
        WorkedOut(
            Sentence("Loop gain"), Measure(Decimal(0), "dB"), Measure(Decimal("1.69"), "dB", signed=True)
        ),
    ),
    measured=(
        Measured(Sentence("Driver temperature"), Measure(Decimal(48), "°C"), "≤ 70 °C", Decimal("1.5")),
        Measured(Sentence("Coil warming"), Measure(Decimal(9), "K"), "≤ 40 K", Decimal(1)),
        Measured(Sentence("Dropout passed"), Measure(Decimal("0.8"), "mm"), "≥ 0.5 mm", Decimal("0.1")),
    ),
    measured_when=Sentence("Measured, 30 min warm"),
    fine_print=Sentence(
        "Coil: 14.0 to 14.5 Ω, room 22 °C. Dropout before: 0.8 mm. Parts are ±5 %: current × 1.128 to × 1.300 "
        "likely."
    ),
    flags=(COIL_UP,),
)
INVOICE = InvoiceFacts(
    SHEET,
    number="2026-0412",
    job=2131,
    issued=date(2026, 11, 26),
    customer=CUSTOMER,
    player=PLAYER,
    heading=Sentence("Repair of your disc player"),
    lines=(
        InvoiceLine(
            "Bench work: bring-up and four trials",
            Decimal("2.25"),
            "h",
            Decimal("62.00"),
            Decimal(19),
            euro("139.50"),
        ),
        InvoiceLine(
            "Resistor 5.6 Ω 0.6 W, R314 (“Modification”)",
            Decimal(1),
            "piece",
            Decimal("0.35"),
            Decimal(19),
            euro("0.35"),
        ),
        InvoiceLine(
            "Solder and small parts, joints at the radial driver",
            Decimal(1),
            "job",
            Decimal("1.80"),
            Decimal(19),
            euro("1.80"),
        ),
        InvoiceLine(
            "Running in, with final readings", Decimal(1), "job", Decimal("18.00"), Decimal(19), euro("18.00")
        ),
        InvoiceLine(
            "Electrical safety test after repair, with record",
            Decimal(1),
            "job",
            Decimal("12.00"),
            Decimal(19),
            euro("12.00"),
        ),
        InvoiceLine("Printed care booklet", Decimal(1), "piece", Decimal("6.50"), Decimal(7), euro("6.50")),
    ),
    lines_net=euro("178.15"),
    net=euro("168.15"),
    vat=(
        VatGroup(Decimal(19), euro("161.65"), euro("30.71")),
        VatGroup(Decimal(7), euro("6.50"), euro("0.46")),
    ),
    total=euro("199.32"),
    balance=euro("159.32"),
    intro=Sentence(
        "You agreed to option B of estimate 2026-0148 on {day} by telephone.", {"day": date(2026, 11, 24)}
    ),
    work_from=date(2026, 11, 24),
    work_to=date(2026, 11, 26),
    pay_by=date(2026, 11, 30),
    discounts=(Discount(Sentence("Discount for a returning customer"), Decimal(19), euro("10")),),
    payments=(
        PaymentLine(
            Sentence("Deposit paid {day}, {means}", {"day": date(2026, 11, 19), "means": Sentence("cash")}),
            euro("40"),
        ),
    ),
    panel=PaymentPanel(
        date(2026, 11, 30),
        Sentence("in cash or by card at the counter, or"),
        "Lanternfield Workshop",
        "XX00 SPEC IMEN 0000 0000 00",
        "",
        "RF00 SPECIMEN 2131",
    ),
    guarantee=Sentence(
        "Six months from 27 November 2026 on the work and parts listed above: if the same fault returns, bring "
        "the player with this invoice and we put it right without charge. Laser and arm are not new and are not "
        "covered. Your rights under the law stay as they are."
    ),
    modifications=(MODIFICATION,),
    cautions_user=USER_NOTES,
    cautions_technician=TECHNICIAN_NOTES,
)
UNSAFE = UnsafeReturnFacts(
    SHEET,
    job=2119,
    day=date(2026, 11, 26),
    customer_name="Wilma Achterberg",
    player=Player(
        "Zindermoor Zelkova 9", "Z 07 331", mains=Sentence("class I"), transport="Murn A7 no. 60 214"
    ),
    warning=Sentence(
        "This player can start a fire or give an electric shock. It left our shop unrepaired. Tell everybody who "
        "may find it; do not lend, sell or give it away as it is."
    ),
    unsafe=(
        Sentence(
            "Fuse F1 (mains side): maker T 315 mA, 250 V; found bridged with metal foil. A fault inside can no "
            "longer blow it."
        ),
    ),
    not_measured=Sentence(
        "Not measured, since the repair was declined: protective earth, insulation. Take them as unknown, not as "
        "good. Nothing was changed by us; the foil is still in place. The cover is closed."
    ),
    first_steps=(
        Sentence("Leave it unplugged. Leave the tag on the plug."),
        Sentence(
            "A competent person fits the right fuse, finds out why it was bridged, mends that and passes a full "
            "safety test."
        ),
        Sentence(
            "The law where you live may forbid using, selling or passing on such a player, and may ask more than "
            "this sheet. That law comes first."
        ),
    ),
    signs=(Sign.GENERAL, Sign.ELECTRIC, Sign.PLUG),
    offers=(
        Offer(Sentence("repair and test, {amount}", {"amount": euro("148.75")}), Sentence("declined")),
        Offer(Sentence("foil taken out free, stays dead"), Sentence("declined")),
        Offer(Sentence("left here, or scrapped"), Sentence("declined")),
    ),
    answered=Sentence("{day}, by telephone (Mirr Quistan)", {"day": date(2026, 11, 26)}),
    owner="Ine Varloes",
    owner_reason=(
        "It is her player. She declined the repair and every other way we offered, and wants it back. The law "
        "here was looked at first: it does not let us keep it. It goes back unrepaired, marked, plug tagged."
    ),
    decided=instant(26, "17:25"),
    declaration=Sentence(
        "I was told what is unsafe. I take the player back unrepaired, will not use it or plug it in, and will "
        "pass this sheet on with it. My rights under the law stay as they are."
    ),
    fee=euro("45"),
    tag_hazard=Sentence("Fuse bridged with foil."),
    tag_risk=Sentence("Risk of fire and electric shock."),
)
