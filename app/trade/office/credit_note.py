"""What is left of an invoice to credit, and a credit note of it: whole, or some of its lines.

A credit note is worked out like an invoice, from the same frozen prices, so that every rule of EN 16931-1 holds
in it by itself. Since VAT is rounded in each of them, several notes can come to a cent more or less than their
invoice. The last one evens that out in its rounding (BT-114): together they come to the invoice, never above.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TypeAlias

from app.trade.money import Money
from app.trade.office.amounts import shown
from app.trade.office.invoice import (
    Adjustment,
    Draft,
    LineKind,
    Totals,
    line_net,
    rounded,
    work_out,
)
from app.trade.office.invoice_check import check_words
from app.trade.office.vat import VatCategory
from app.trade.sentence import Measure, Sentence

Group: TypeAlias = tuple[VatCategory, int]


@dataclass(frozen=True, slots=True)
class Taken:
    """What an earlier credit note took from its invoice: by the place of the line quantity and line discount,
    by the place of the document discount or charge its amount, and the sum that it credited."""

    quantities: Mapping[int, int]
    discounts: Mapping[int, int]
    adjustments: Mapping[int, int]
    amount: int


@dataclass(frozen=True, slots=True)
class Left:
    """What is left to credit. ``quantities`` (millionths) and ``discounts`` by line, a text line has nothing;
    ``adjustments``: first the discounts, then the charges of the invoice, without a sign; ``amount`` to pay.
    ``free``: the invoice asks for nothing and stands, so that a note can only take it back as a whole."""

    quantities: tuple[int, ...]
    discounts: tuple[int, ...]
    adjustments: tuple[int, ...]
    amount: Money
    free: bool = False

    @property
    def something(self) -> bool:
        """Whether a credit note can be written at all."""
        return self.amount.minor > 0 or self.free


@dataclass(frozen=True, slots=True)
class CreditDraft:
    """A credit note before its number. ``of`` has the place of each line on the invoice; ``adjustments`` what it
    takes of each discount and charge of the invoice, by its place there."""

    draft: Draft
    totals: Totals
    of: tuple[int, ...]
    adjustments: Mapping[int, int]


def left_to_credit(invoice: Draft, payable: Money, earlier: Sequence[Taken] = ()) -> Left:
    """What the notes so far left. ``payable``: total with VAT and rounding, before any payment."""

    def rest(whole: int, taken: Sequence[Mapping[int, int]], at: int) -> int:
        return max(0, whole - sum(one.get(at, 0) for one in taken))

    quantities = [one.quantities for one in earlier]
    discounts = [one.discounts for one in earlier]
    adjustments = [one.adjustments for one in earlier]
    return Left(
        tuple(
            0 if line.kind is LineKind.TEXT else rest(line.quantity, quantities, at)
            for at, line in enumerate(invoice.lines)
        ),
        tuple(rest(line.discount, discounts, at) for at, line in enumerate(invoice.lines)),
        tuple(
            rest(one.amount, adjustments, at) for at, one in enumerate((*invoice.discounts, *invoice.charges))
        ),
        Money(max(0, payable.minor - sum(one.amount for one in earlier)), payable.currency),
        free=not payable.minor and not earlier,
    )


def everything(left: Left) -> dict[int, int]:
    """All that is left, as a wish: quantity by line."""
    return {at: quantity for at, quantity in enumerate(left.quantities) if quantity}


def credit(invoice: Draft, left: Left, wanted: Mapping[int, int]) -> CreditDraft:
    """The credit note of these quantities by line, with their share of discounts and charges.

    ``wanted`` is right: `check_credit` found nothing in it. ``invoice.round_due_to`` rounds this note, too.
    """
    of = tuple(sorted(wanted))
    lines = tuple(
        replace(
            invoice.lines[at], quantity=wanted[at], discount=_discount_share(invoice, left, at, wanted[at])
        )
        for at in of
    )
    exhausted = all(quantity == wanted.get(at, 0) for at, quantity in enumerate(left.quantities))
    shares = _adjustment_shares(invoice, left, wanted, Draft(invoice.currency, lines), exhausted)
    places = enumerate((*invoice.discounts, *invoice.charges))
    parts = {at: replace(one, amount=shares[at]) for at, one in places if shares[at]}
    first_charge = len(invoice.discounts)
    draft = Draft(
        invoice.currency,
        lines,
        tuple(one for at, one in parts.items() if at < first_charge),
        tuple(one for at, one in parts.items() if at >= first_charge),
        round_due_to=invoice.round_due_to,
    )
    totals = work_out(draft)
    due = left.amount if exhausted else min(totals.due, left.amount)
    return CreditDraft(draft, replace(totals, due=due, rounding=due - totals.gross), of, shares)


def _discount_share(invoice: Draft, left: Left, at: int, quantity: int) -> int:
    """The part of a line's discount that goes with this quantity; with the rest of the line, the rest of it."""
    line = invoice.lines[at]
    if quantity == left.quantities[at]:
        share = left.discounts[at]
    else:
        share = min(left.discounts[at], rounded(Decimal(line.discount) * quantity / line.quantity))
    whole = line_net(replace(line, quantity=quantity, discount=0), invoice.currency).minor
    return min(share, whole)


def _adjustment_shares(
    invoice: Draft, left: Left, wanted: Mapping[int, int], credited: Draft, exhausted: bool
) -> dict[int, int]:
    """Of each document discount and charge the part that goes with the credited lines of its VAT group.

    The rest of it goes with the last line of the group, or of the invoice where the group has no line. Never so
    much discount that a group would come out below zero.
    """
    whole: defaultdict[Group, int] = defaultdict(int)
    now: defaultdict[Group, int] = defaultdict(int)
    open_after: set[Group] = set()
    for at, line in enumerate(invoice.lines):
        if line.kind is not LineKind.TEXT:
            whole[line.category, line.vat_rate] += line_net(line, invoice.currency).minor
            if left.quantities[at] != wanted.get(at, 0):
                open_after.add((line.category, line.vat_rate))
    for line in credited.lines:
        now[line.category, line.vat_rate] += line_net(line, invoice.currency).minor

    def share(at: int, one: Adjustment) -> int:
        group = (one.category, one.vat_rate)
        if exhausted or (whole[group] and group not in open_after):
            return left.adjustments[at]
        if not whole[group]:
            return 0
        return min(left.adjustments[at], rounded(Decimal(one.amount) * now[group] / whole[group]))

    shares: dict[int, int] = {}
    first_charge = len(invoice.discounts)
    for at, charge in enumerate(invoice.charges, start=first_charge):
        shares[at] = share(at, charge)
        now[charge.category, charge.vat_rate] += shares[at]
    for at, discount in enumerate(invoice.discounts):
        group = (discount.category, discount.vat_rate)
        shares[at] = min(share(at, discount), now[group])
        now[group] -= shares[at]
    return shares


def check_credit(invoice: Draft, left: Left, wanted: Mapping[int, int], reason: str) -> dict[str, Sentence]:
    """What cannot be right in a credit note, by field: ``lines``, ``lines.2.quantity``, ``reason``."""
    wrong: dict[str, Sentence] = {}
    for at, quantity in wanted.items():
        most = left.quantities[at] if 0 <= at < len(left.quantities) else 0
        if not most:
            wrong[f"lines.{at}.quantity"] = Sentence("Nothing of this line is left to credit.")
        elif quantity <= 0:
            wrong[f"lines.{at}.quantity"] = Sentence("What is credited is above zero.")
        elif quantity > most:
            wrong[f"lines.{at}.quantity"] = Sentence(
                "Of this line {most} is left to credit.", {"most": Measure(shown(most))}
            )
    if not reason.strip():
        wrong["reason"] = Sentence("Write the reason: it stands on the credit note.")
    elif words := check_words(reason):
        wrong["reason"] = words
    if left.free:
        if wanted != everything(left):
            wrong["lines"] = Sentence("An invoice that asks for nothing is taken back as a whole.")
    elif not left.amount.minor:
        wrong["lines"] = Sentence("Nothing is left to credit on this invoice.")
    elif not wanted:
        wrong["lines"] = Sentence("Choose at least one line to credit.")
    elif (
        not any(key.startswith("lines") for key in wrong)
        and not credit(invoice, left, wanted).totals.due.minor
    ):
        wrong["lines"] = Sentence("These lines cost nothing: there is nothing to credit.")
    return wrong
