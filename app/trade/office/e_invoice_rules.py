"""The sums of an e-invoice worked out anew, by the rules BR-CO-10 to BR-CO-18 and BR-S-08 and its kin (EN 16931-1);
and what they need to be sums of money at all: a currency (BR-05), at most two decimals (BR-DEC-*).

The official schematron lets the tax of a group be wrong by up to one unit of money; here every cent counts.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal, localcontext

from app.trade.money import decimals
from app.trade.office.e_invoice_figures import Figures, GroupFigures
from app.trade.sentence import Sentence

_NONE = Decimal(0)
_PLACES = 2


@dataclass(frozen=True, slots=True)
class Ruled:
    """One rule and what became of it; ``broken`` is None where it is kept."""

    rule: str
    what: Sentence
    broken: Sentence | None = None


def check_sums(figures: Figures) -> tuple[Ruled, ...]:
    """Every rule in its order, kept or broken."""
    with localcontext() as exact:
        exact.prec = 60
        return (_currency(figures), *_totals(figures), *_groups(figures), *_decimals(figures))


def _currency(f: Figures) -> Ruled:
    wrong = None if f.currency else Sentence("BR-05: the invoice names no currency.")
    return Ruled("BR-05", Sentence("currency (BT-5)"), wrong)


def _totals(f: Figures) -> Iterator[Ruled]:
    discounts = sum((a.amount for a in f.adjustments if not a.charge), _NONE)
    charges = sum((a.amount for a in f.adjustments if a.charge), _NONE)
    lines = sum((line.net for line in f.lines), _NONE)
    taxes = sum((group.tax for group in f.groups), _NONE)
    net = _said(f.lines_net) - _said(f.discount) + _said(f.charge)
    due = _said(f.gross) - _said(f.prepaid) + _said(f.rounding)
    yield _sum("BR-CO-10", Sentence("sum of the lines (BT-106)"), lines, f.lines_net, needed=True)
    yield _sum("BR-CO-11", Sentence("sum of the discounts (BT-107)"), discounts, f.discount)
    yield _sum("BR-CO-12", Sentence("sum of the charges (BT-108)"), charges, f.charge)
    yield _sum("BR-CO-13", Sentence("sum without VAT (BT-109)"), net, f.net, needed=True)
    yield _sum("BR-CO-14", Sentence("sum of the VAT (BT-110)"), taxes, f.vat)
    gross = _said(f.net) + _said(f.vat)
    yield _sum("BR-CO-15", Sentence("sum with VAT (BT-112)"), gross, f.gross, needed=True)
    yield _sum("BR-CO-16", Sentence("amount to pay (BT-115)"), due, f.due, needed=True)


def _groups(f: Figures) -> Iterator[Ruled]:
    for group in f.groups:
        worked = _tax(group, _PLACES)
        coarse = _tax(
            group, min(_PLACES, decimals(f.currency))
        )  # a currency without decimals rounds to its own
        what = Sentence("VAT of {rate} % (BT-117)", {"rate": _plain(group.rate)})
        yield _sum("BR-CO-17", what, group.tax if group.tax == coarse else worked, group.tax)
    yield Ruled(
        "BR-CO-18",
        Sentence("VAT groups (BG-23)"),
        None if f.groups else Sentence("BR-CO-18: the invoice has no VAT group."),
    )
    yield from _bases(f)


def _bases(f: Figures) -> Iterator[Ruled]:
    """BR-S-08 and its kin: what a group is taken on comes from its lines, discounts and charges."""
    bases: defaultdict[tuple[str, Decimal], Decimal] = defaultdict(lambda: _NONE)
    for line in f.lines:
        bases[line.category, line.rate] += line.net
    for adjustment in f.adjustments:
        signed = adjustment.amount if adjustment.charge else -adjustment.amount
        bases[adjustment.category, adjustment.rate] += signed
    said = {(group.category, group.rate): group.base for group in f.groups}
    for category, rate in sorted(bases.keys() | said.keys(), key=lambda key: (key[0], -key[1])):
        what = Sentence("base of the VAT of {rate} % (BT-116)", {"rate": _plain(rate)})
        rule = f"BR-{category or '?'}-08"
        yield _sum(rule, what, bases.get((category, rate), _NONE), said.get((category, rate)), needed=True)


def _decimals(f: Figures) -> Iterator[Ruled]:
    """One rule where all amounts are written with two decimals at most; else each that is not, by its own."""
    broken = [
        Ruled(
            rule,
            what,
            Sentence(
                "{rule}: the {what} has more than two decimals: {said}.",
                {"rule": rule, "what": what, "said": format(amount, "f")},
            ),
        )
        for rule, what, amount in _written(f)
        if amount is not None and int(amount.as_tuple().exponent) < -_PLACES
    ]
    yield from broken or (Ruled("BR-DEC", Sentence("at most two decimals in every amount")),)


def _written(f: Figures) -> Iterator[tuple[str, Sentence, Decimal | None]]:
    """Every amount with the rule about its decimals; numbers as the official schematron has them."""
    for line in f.lines:
        yield "BR-DEC-23", Sentence("amount of a line (BT-131)"), line.net
    for adjustment in f.adjustments:
        yield (
            ("BR-DEC-05", Sentence("amount of a charge (BT-99)"), adjustment.amount)
            if adjustment.charge
            else ("BR-DEC-01", Sentence("amount of a discount (BT-92)"), adjustment.amount)
        )
    yield "BR-DEC-09", Sentence("sum of the lines (BT-106)"), f.lines_net
    yield "BR-DEC-10", Sentence("sum of the discounts (BT-107)"), f.discount
    yield "BR-DEC-11", Sentence("sum of the charges (BT-108)"), f.charge
    yield "BR-DEC-12", Sentence("sum without VAT (BT-109)"), f.net
    # This one alone asks the official schematron by value: 16.210 passes.
    yield "BR-DEC-13", Sentence("sum of the VAT (BT-110)"), None if f.vat is None else f.vat.normalize()
    yield "BR-DEC-14", Sentence("sum with VAT (BT-112)"), f.gross
    yield "BR-DEC-16", Sentence("amount paid before (BT-113)"), f.prepaid
    yield "BR-DEC-17", Sentence("rounding of the amount to pay (BT-114)"), f.rounding
    yield "BR-DEC-18", Sentence("amount to pay (BT-115)"), f.due
    for group in f.groups:
        rate = {"rate": _plain(group.rate)}
        yield "BR-DEC-19", Sentence("base of the VAT of {rate} % (BT-116)", rate), group.base
        yield "BR-DEC-20", Sentence("VAT of {rate} % (BT-117)", rate), group.tax


def _said(amount: Decimal | None) -> Decimal:
    return _NONE if amount is None else amount


def _tax(group: GroupFigures, places: int) -> Decimal:
    step = Decimal(1).scaleb(-places)
    return (group.base * group.rate / 100).quantize(step, rounding=ROUND_HALF_UP)


def _plain(value: Decimal) -> str:
    return format(value.normalize() + 0, "f")


def _coins(amount: Decimal) -> str:
    """An amount with two decimals, or more where it has more."""
    exponent = amount.normalize().as_tuple().exponent
    return f"{amount:.{max(_PLACES, -int(exponent))}f}"


def _sum(rule: str, what: Sentence, worked: Decimal, said: Decimal | None, *, needed: bool = False) -> Ruled:
    """A sum as worked out against the one that stands there; a missing one is zero unless it is needed."""
    if said is None and (needed or worked):
        told = Sentence(
            "{rule}: the {what} is missing; it comes to {worked}.",
            {"rule": rule, "what": what, "worked": _coins(worked)},
        )
        return Ruled(rule, what, told)
    if worked == _said(said):
        return Ruled(rule, what)
    return Ruled(
        rule,
        what,
        Sentence(
            "{rule}: the {what} comes to {worked}, the invoice says {said}.",
            {"rule": rule, "what": what, "worked": _coins(worked), "said": _coins(_said(said))},
        ),
    )
