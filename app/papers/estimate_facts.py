"""What stands on an estimate, sums worked out already: the paper adds nothing up."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from app.papers.facts import Customer, Player, Said, SheetFacts
from app.papers.facts_json import Frozen
from app.papers.invoice_facts import VatGroup
from app.trade.money import Money


@dataclass(frozen=True)
class EstimateLine(Frozen):
    """One line of an option. A line of text has no ``net``; ``quantity`` is None where one of it is meant."""

    words: str
    net: Money | None = None
    quantity: Decimal | None = None
    unit: Said = ""


@dataclass(frozen=True)
class EstimateOption(Frozen):
    """One column. ``design`` says what departs from the maker's design; empty: it is kept."""

    letter: str
    title: str
    lines: tuple[EstimateLine, ...]
    net: Money
    vat: tuple[VatGroup, ...]
    total: Money  # with VAT
    what: str = ""
    design: str = ""
    risk: str = ""
    guarantee: str = ""
    ready: str = ""
    rounding: Money | None = None  # of prices typed with VAT
    never_above: Money | None = None


@dataclass(frozen=True)
class EstimateFacts(Frozen):
    """An estimate. ``number`` is empty on a draft. All amounts are in one currency."""

    sheet: SheetFacts
    number: str
    job: int
    issued: date
    valid_until: date
    customer: Customer
    player: Player
    options: tuple[EstimateOption, ...]
    intro: str = ""  # what was seen and tried
    cause: Said = ""  # that it is not established
    looked_at_by: str = ""
    limit: Money | None = None  # named at taking in
    fee: Money | None = None  # told beforehand for looking, with VAT
    fee_told: date | None = None
    deposit: bool = False  # money was paid already: it counts against the fee
