"""The credit note of the story: a quarter of an hour and the booklet of invoice 2026-0412, paid out in cash."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from app.papers.credit_note_facts import CreditedLine, CreditNoteFacts, StandLine
from app.papers.invoice_facts import InvoiceLine, VatGroup
from app.trade.sentence import Sentence
from tests.papers.story_shop import CUSTOMER, PLAYER, SHEET, euro

PAID = "Paid on {day} {means}"
CREDIT_NOTE = CreditNoteFacts(
    SHEET,
    number="2026-0019",
    job=2131,
    issued=date(2026, 11, 30),
    invoice="2026-0412",
    invoice_issued=date(2026, 11, 26),
    customer=CUSTOMER,
    player=PLAYER,
    heading=Sentence("Correction of invoice {number}", {"number": "2026-0412"}),
    reason="the care booklet was out of stock and was not handed over; the bench clock shows 2.00 hours, not 2.25.",
    lines=(
        CreditedLine(
            InvoiceLine(
                "Bench work charged too high",
                Decimal("0.25"),
                "h",
                Decimal("62.00"),
                Decimal(19),
                euro("15.50"),
            ),
            1,
        ),
        CreditedLine(
            InvoiceLine(
                "Printed care booklet", Decimal(1), "piece", Decimal("6.50"), Decimal(7), euro("6.50")
            ),
            6,
        ),
    ),
    lines_net=euro("22.00"),
    net=euro("22.00"),
    vat=(
        VatGroup(Decimal(19), euro("15.50"), euro("2.95")),
        VatGroup(Decimal(7), euro("6.50"), euro("0.46")),
    ),
    total=euro("25.41"),
    credited=euro("25.41"),
    how=Sentence("Paid out in cash on {day} against the signature below.", {"day": date(2026, 11, 30)}),
    signed=True,
    stand=(
        StandLine(Sentence("Invoice {number}, with VAT", {"number": "2026-0412"}), euro("199.32")),
        StandLine(Sentence("Credit note {number}", {"number": "2026-0019"}), euro("-25.41")),
        StandLine(Sentence(PAID, {"day": date(2026, 11, 19), "means": Sentence("in cash")}), euro("-40")),
        StandLine(Sentence(PAID, {"day": date(2026, 11, 27), "means": Sentence("by card")}), euro("-159.32")),
        StandLine(
            Sentence(
                "Given back on {day} {means}", {"day": date(2026, 11, 30), "means": Sentence("in cash")}
            ),
            euro("25.41"),
        ),
    ),
    open=euro("0"),
)
