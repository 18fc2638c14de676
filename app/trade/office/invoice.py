"""Invoice arithmetic by EN 16931-1: lines, VAT per rate, discount, payments before, rounding, balance.

Rule numbers (BR-CO-10 and so on) and term numbers (BT-106) are those of the standard. Amounts here are
integers of the currency's smallest unit, quantities and unit prices integers of 10^-6, rates of 10^-4.
Every rounding is half away from zero.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal, localcontext
from enum import StrEnum

from app.trade.money import MICRO, Money, decimals
from app.trade.office.vat import VatCategory
from app.trade.sentence import Sentence, words

RATE_UNIT = 10_000


class LineKind(StrEnum):
    """What a line charges for. A text line charges nothing. Only fees may be charged on an unsafe return."""

    LABOUR = words("labour")
    PART = words("part")
    FIXED_CHARGE = words("fixed charge")
    FEE = words("fee")
    TEXT = words("text")


# UN/ECE recommendation 20 unit codes, with the words that stand on paper. C62 is "one": fees and fixed charges
# are counted by it. H87 is a piece: parts.
UNITS = {"HUR": words("h"), "C62": words("each"), "H87": words("piece")}
_MANY = {"H87": words("pieces")}


def unit_words(code: str, quantity: Decimal) -> Sentence:
    """The unit behind a quantity: 1 piece, 2 pieces, 1.5 h. A code of another program stands as it is."""
    several = abs(quantity) != 1
    return Sentence(_MANY[code] if several and code in _MANY else UNITS.get(code, code))


@dataclass(frozen=True)
class Line:
    """One line as entered. ``price`` is net; ``price_with_vat`` is what was typed when it was typed with VAT.

    ``discount`` (BT-136) is a net amount of this line in minor units, ``discount_reason`` its reason.
    """

    words: str
    kind: LineKind
    quantity: int
    unit: str
    price: int
    vat_rate: int
    category: VatCategory = VatCategory.STANDARD
    vat_reason: str = ""
    discount: int = 0
    discount_reason: str = ""
    price_with_vat: int | None = None


@dataclass(frozen=True)
class Adjustment:
    """A discount or charge on the whole document, net, with the VAT rate of the group that it moves."""

    amount: int
    reason: str
    vat_rate: int
    category: VatCategory = VatCategory.STANDARD
    vat_reason: str = ""


@dataclass(frozen=True)
class Draft:
    """An invoice before its totals. ``round_due_to`` is a step in minor units to which the balance is rounded."""

    currency: str
    lines: tuple[Line, ...]
    discounts: tuple[Adjustment, ...] = ()
    charges: tuple[Adjustment, ...] = ()
    prepaid: int = 0
    round_due_to: int = 1


@dataclass(frozen=True)
class VatGroup:
    """One VAT breakdown (BG-23): ``base`` is BT-116, ``tax`` BT-117."""

    rate: int
    category: VatCategory
    base: Money
    tax: Money
    reason: str = ""


@dataclass(frozen=True)
class Totals:
    """The worked-out invoice. ``due`` may be below zero: then the customer gets money back."""

    line_nets: tuple[Money, ...]  # BT-131, in the order of the lines; zero for a text line
    lines_net: Money  # BT-106
    discount: Money  # BT-107
    charge: Money  # BT-108
    net: Money  # BT-109
    groups: tuple[VatGroup, ...]  # BG-23, highest rate first
    vat: Money  # BT-110
    gross: Money  # BT-112
    prepaid: Money  # BT-113
    rounding: Money  # BT-114
    due: Money  # BT-115

    @property
    def asked(self) -> Money:
        """What the invoice asks for in all, before what is paid already: with VAT, rounded as it is paid."""
        return self.gross + self.rounding


def rounded(amount: Decimal) -> int:
    """To a whole number, half away from zero."""
    return int(amount.quantize(Decimal(1), rounding=ROUND_HALF_UP))


def net_of(price_with_vat: int, vat_rate: int) -> int:
    """The net unit price, in millionths, of a price typed with VAT: converted once, then kept."""
    with localcontext() as exact:
        exact.prec = 50
        return rounded(Decimal(price_with_vat) * RATE_UNIT / (RATE_UNIT + vat_rate))


def share_of(amount: int, share: int) -> int:
    """A share of an amount, e.g. a discount of 10 %: ``share`` in 10^-4, result in minor units."""
    return rounded(Decimal(amount) * share / RATE_UNIT)


def _extended(quantity: int, price: int, currency: str) -> int:
    """Quantity times unit price in minor units."""
    with localcontext() as exact:
        exact.prec = 60
        return rounded(Decimal(quantity) * price * Decimal(10) ** decimals(currency) / (MICRO * MICRO))


def line_net(line: Line, currency: str) -> Money:
    """BT-131: quantity times net price, rounded to the currency, less the line's discount."""
    if line.kind is LineKind.TEXT:
        return Money(0, currency)
    return Money(_extended(line.quantity, line.price, currency) - line.discount, currency)


def work_out(draft: Draft) -> Totals:
    """All totals of a draft (BR-CO-10 to BR-CO-17). The draft is right: `check_draft` found nothing."""
    currency = draft.currency
    charged = [line for line in draft.lines if line.kind is not LineKind.TEXT]
    nets = tuple(line_net(line, currency) for line in draft.lines)
    bases: defaultdict[tuple[VatCategory, int], int] = defaultdict(int)
    reasons: dict[tuple[VatCategory, int], str] = {}
    for line in charged:
        key = (line.category, line.vat_rate)
        bases[key] += line_net(line, currency).minor
        reasons.setdefault(key, line.vat_reason)
    for adjustment, sign in [(d, -1) for d in draft.discounts] + [(c, 1) for c in draft.charges]:
        key = (adjustment.category, adjustment.vat_rate)
        bases[key] += sign * adjustment.amount
        reasons.setdefault(key, adjustment.vat_reason)
    groups = tuple(
        VatGroup(rate, category, Money(base, currency), Money(share_of(base, rate), currency), reasons[key])
        for key, base in sorted(bases.items(), key=lambda item: (-item[0][1], item[0][0]))
        for category, rate in [key]
    )
    lines_net = sum(net.minor for net in nets)  # BR-CO-10
    discount = sum(d.amount for d in draft.discounts)  # BR-CO-11
    charge = sum(c.amount for c in draft.charges)  # BR-CO-12
    net = lines_net - discount + charge  # BR-CO-13
    vat = sum(group.tax.minor for group in groups)  # BR-CO-14, each by BR-CO-17
    gross = net + vat  # BR-CO-15
    rounding = _unrestored(draft, groups)
    due = gross - draft.prepaid + rounding  # BR-CO-16
    stepped = rounded(Decimal(due) / draft.round_due_to) * draft.round_due_to
    return Totals(
        line_nets=nets,
        lines_net=Money(lines_net, currency),
        discount=Money(discount, currency),
        charge=Money(charge, currency),
        net=Money(net, currency),
        groups=groups,
        vat=Money(vat, currency),
        gross=Money(gross, currency),
        prepaid=Money(draft.prepaid, currency),
        rounding=Money(rounding + stepped - due, currency),
        due=Money(stepped, currency),
    )


def asked_with_vat(draft: Draft) -> Money:
    """What a draft asks for with VAT, before any payment and without rounding to a coin.

    Prices typed with VAT come back to the cent here, which the gross (BT-112) cannot always restore.
    """
    return work_out(replace(draft, prepaid=0, round_due_to=1)).due


def _unrestored(draft: Draft, groups: tuple[VatGroup, ...]) -> int:
    """What the prices typed with VAT ask for, less what net plus VAT comes to (goes into BT-114).

    A group of net prices only gives exactly zero, since its wanted sum is its base plus its rounded tax.
    """
    missing = 0
    for group in groups:
        lines = [
            line
            for line in draft.lines
            if line.kind is not LineKind.TEXT
            and line.price_with_vat is not None
            and (line.category, line.vat_rate) == (group.category, group.rate)
        ]
        asked = sum(_extended(line.quantity, line.price_with_vat or 0, draft.currency) for line in lines)
        converted = sum(_extended(line.quantity, line.price, draft.currency) for line in lines)
        if converted and not group.base.minor:
            continue  # all of it was taken off: nothing is asked for
        rest = group.base.minor - converted
        missing += asked + rounded(Decimal(rest) * (RATE_UNIT + group.rate) / RATE_UNIT)
        missing -= group.base.minor + group.tax.minor
    return missing
