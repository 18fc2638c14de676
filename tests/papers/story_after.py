"""What came after the invoice of the story: a receipt, a reminder, and a notice of another job."""

from __future__ import annotations

from datetime import date

from app.papers.invoice_facts import PaymentLine, PaymentPanel
from app.papers.payment_receipt_facts import PaymentReceiptFacts
from app.papers.reminder_facts import ReminderFacts
from app.papers.uncollected_notice_facts import UncollectedNoticeFacts
from app.trade.sentence import Sentence
from app.trade.settings.owed import NOTICE_WORDS, REMINDER_WORDS
from app.trade.settings.terms import STORAGE_WORDS
from tests.papers.story_shop import CUSTOMER, PLAYER, SHEET, euro, instant

LONG = "Annabel Wibke von und zu Übermäßiglangenamen " * 7
HOSTILE = '<b>a & b</b> <img src="x"> שלום ' + LONG
REMINDER = ReminderFacts(
    SHEET,
    invoice="412",
    job=2131,
    day=date(2026, 12, 18),
    customer=CUSTOMER,
    player=PLAYER,
    issued=date(2026, 11, 26),
    pay_by=date(2026, 12, 10),
    new_day=date(2026, 12, 28),
    total=euro("199.32"),
    balance=euro("59.32"),
    text=Sentence(
        REMINDER_WORDS.default,
        {
            "invoice": "412",
            "issued": date(2026, 11, 26),
            "open": euro("59.32"),
            "pay_by": date(2026, 12, 10),
            "new_day": date(2026, 12, 28),
        },
    ),
    writer="Ine Varloes",
    payments=(
        PaymentLine(Sentence("Paid on {day} in cash", {"day": date(2026, 11, 19)}), euro("40")),
        PaymentLine(Sentence("Paid on {day} by card", {"day": date(2026, 11, 27)}), euro("100")),
    ),
    panel=PaymentPanel(
        date(2026, 12, 28),
        Sentence("At the counter in cash or by card, or by transfer to:"),
        "Lanternfield Workshop",
        "XX00 0000 0000 0000 0000 00",
        "XXXXXXXX",
        "RF00 SPECIMEN",
    ),
)
PAYMENT_RECEIPT = PaymentReceiptFacts(
    SHEET,
    number="2131-2",
    job=2131,
    customer_name="Benedikt Arnsvik",
    player=PLAYER,
    at=instant(27, "16:12"),
    amount=euro("100"),
    means=Sentence("by card"),
    taken_by="Mirr Quistan",
    invoice="412",
    note="the rest follows in December",
    total=euro("199.32"),
    paid=euro("140"),
    open=euro("59.32"),
)
UNCOLLECTED_NOTICE = UncollectedNoticeFacts(
    SHEET,
    job=2087,
    day=date(2026, 11, 25),
    customer=CUSTOMER,
    player=PLAYER,
    taken_in=date(2026, 9, 1),
    ready=date(2026, 9, 8),
    collect_by=date(2026, 12, 25),
    text=Sentence(
        NOTICE_WORDS.default,
        {"ready": date(2026, 9, 8), "collect_by": date(2026, 12, 25), "storage_days": 30},
    ),
    terms=Sentence(STORAGE_WORDS.default, {"storage_days": 30}),
    writer="Mirr Quistan",
    told=date(2026, 9, 9),
    earlier=(date(2026, 10, 20),),
    things=("remote control", "power cord"),
    open=euro("48.20"),
)
