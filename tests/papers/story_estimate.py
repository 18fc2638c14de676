"""The estimate of job 2131: two ways to mend it, as the picture of the papers has them."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from app.papers.estimate_facts import EstimateFacts, EstimateLine, EstimateOption
from app.papers.invoice_facts import VatGroup
from app.trade.sentence import Sentence
from tests.papers.story_shop import CUSTOMER, PLAYER, SHEET, euro

A = EstimateOption(
    letter="A",
    title="another transport",
    what="Replace the whole optical transport by a used one of the same type (Velk A1), tested here.",
    risk="The replacement is old too; its remaining life is not known.",
    guarantee="12 months on work, 6 on transport",
    ready="about 3 weeks, part on order",
    lines=(
        EstimateLine("Bench work", euro("186.00"), Decimal("3.00"), Sentence("h")),
        EstimateLine("Transport Velk A1, used", euro("98.00")),
        EstimateLine("Running in, final readings", euro("18.00")),
        EstimateLine("Electrical safety test", euro("12.00")),
    ),
    net=euro("314.00"),
    vat=(VatGroup(Decimal(19), euro("314.00"), euro("59.66")),),
    total=euro("373.66"),
    never_above=euro("390.00"),
)
B = EstimateOption(
    letter="B",
    title="modified, yours kept",
    what="Keep your transport. Raise the current of its radial coil by 21 %: resistor R314, 5.6 Ω in place of 6.8 Ω.",
    design="changed in one point; undone by fitting 6.8 Ω again",
    risk="The coil runs warmer (heat × 1.474, worked out). It may not help; then 6.8 Ω goes back in.",
    guarantee="6 months on work and parts",
    ready="Friday 27 November",
    lines=(
        EstimateLine("Bench work", euro("139.50"), Decimal("2.25"), Sentence("h")),
        EstimateLine("Resistor 5.6 Ω", euro("2.15")),
        EstimateLine("Running in, final readings", euro("18.00")),
        EstimateLine("Electrical safety test", euro("12.00")),
    ),
    net=euro("171.65"),
    vat=(VatGroup(Decimal(19), euro("171.65"), euro("32.61")),),
    total=euro("204.26"),
    never_above=euro("215.00"),
)
ESTIMATE = EstimateFacts(
    sheet=SHEET,
    number="0148",
    job=2131,
    issued=date(2026, 11, 24),
    valid_until=date(2026, 12, 24),
    customer=CUSTOMER,
    player=PLAYER,
    options=(A, B),
    intro="It plays the first track, but stopped at the long seek in 3 of 3 tries (rung 11 of 12): 4.8 s, limit 1.5 s."
    " Three changes made no difference.",
    cause=Sentence("The cause is not established."),
    looked_at_by="Tobbe Ruskamp",
    limit=euro("120.00"),
    fee=euro("45.00"),
    fee_told=date(2026, 11, 19),
    deposit=True,
)
