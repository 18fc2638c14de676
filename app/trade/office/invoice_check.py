"""What cannot stand on an invoice, field by field, before anything is added up."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from app.trade.money import MICRO
from app.trade.office.invoice import UNITS, Adjustment, Draft, Line, LineKind, line_net, work_out
from app.trade.office.vat import VatCategory, check_vat, percent
from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed

MOST_LINES = 500
LONGEST_WORDS = 300
HIGHEST_QUANTITY = 1_000_000 * MICRO
HIGHEST_PRICE = 1_000_000_000 * MICRO
HIGHEST_AMOUNT = 10**15  # minor units: above every invoice, below what 64 bits hold


def check_words(text: str, longest: int = LONGEST_WORDS) -> Sentence | None:
    """Why this cannot be printed as words, or None."""
    if not text.strip():
        return Sentence("Write what it is.")
    return check_typed(text, longest, lines=True)


def check_line(line: Line, currency: str, *, fees_only: bool = False) -> dict[str, Sentence]:
    """What cannot be right in one line, by the name of its field."""
    wrong: dict[str, Sentence] = {}
    if words := check_words(line.words):
        wrong["words"] = words
    if line.kind is LineKind.TEXT:
        if line.quantity or line.price or line.discount:
            wrong["kind"] = Sentence("A text line charges nothing.")
        return wrong
    if fees_only and line.kind is not LineKind.FEE:
        wrong["kind"] = Sentence(
            "The player goes back unrepaired and unsafe: only fees (diagnosis, estimate, storage) are invoiced."
        )
    if line.quantity <= 0:
        wrong["quantity"] = Sentence("A quantity is above zero. To take something back, write a credit note.")
    elif line.quantity > HIGHEST_QUANTITY:
        wrong["quantity"] = Sentence("That quantity is too large to be meant.")
    if line.unit not in UNITS:
        wrong["unit"] = Sentence("Choose a unit.")
    if line.price < 0:
        wrong["price"] = Sentence("A price is not below zero. A discount is entered as one.")  # BR-27
    elif line.price > HIGHEST_PRICE:
        wrong["price"] = Sentence("That price is too high to be meant.")
    if vat := check_vat(line.vat_rate, line.category, line.vat_reason):
        wrong["vat_rate"] = vat
    if line.discount < 0:
        wrong["discount"] = Sentence("A discount is entered without a minus.")
    elif line.discount and not wrong and line_net(line, currency).minor < 0:
        wrong["discount"] = Sentence("The discount is larger than the line.")
    elif line.discount and not line.discount_reason.strip():
        wrong["discount_reason"] = Sentence("A discount needs its reason: it stands on the invoice.")
    elif line.discount and (words := check_words(line.discount_reason)):
        wrong["discount_reason"] = words
    return wrong


def check_adjustment(adjustment: Adjustment) -> dict[str, Sentence]:
    """What cannot be right in a discount or charge on the whole, by the name of its field."""
    wrong: dict[str, Sentence] = {}
    if adjustment.amount <= 0:
        wrong["amount"] = Sentence("Enter an amount above zero.")
    elif adjustment.amount > HIGHEST_AMOUNT:
        wrong["amount"] = Sentence("That amount is too high to be meant.")
    if not adjustment.reason.strip():  # BR-CO-21 to BR-CO-24
        wrong["reason"] = Sentence("Write the reason: it stands on the invoice.")
    elif words := check_words(adjustment.reason):
        wrong["reason"] = words
    if vat := check_vat(adjustment.vat_rate, adjustment.category, adjustment.vat_reason):
        wrong["vat_rate"] = vat
    return wrong


def check_draft(draft: Draft, *, fees_only: bool = False) -> dict[str, Sentence]:
    """What cannot be right in a draft, by field: ``lines``, ``lines.2.price``, ``discounts.0.reason``.

    ``fees_only``: the player goes back unrepaired and unsafe, so only fees and text may stand on it.
    """
    wrong: dict[str, Sentence] = {}

    def gather(place: str, found: Mapping[str, Sentence]) -> None:
        wrong.update({f"{place}.{field}": why for field, why in found.items()})

    charged = [line for line in draft.lines if line.kind is not LineKind.TEXT]
    if not charged:  # BR-16: an invoice has a line, and BR-CO-18 a VAT group
        wrong["lines"] = Sentence("An invoice needs at least one line that charges something.")
    elif len(draft.lines) > MOST_LINES:
        wrong["lines"] = Sentence("At most {most} lines have room on one invoice.", {"most": MOST_LINES})
    for at, line in enumerate(draft.lines):
        gather(f"lines.{at}", check_line(line, draft.currency, fees_only=fees_only))
    for at, discount in enumerate(draft.discounts):
        gather(f"discounts.{at}", check_adjustment(discount))
    for at, charge in enumerate(draft.charges):
        gather(f"charges.{at}", check_adjustment(charge))
    if fees_only and draft.charges:
        wrong["charges"] = Sentence("The player goes back unrepaired and unsafe: only fees are invoiced.")
    if not 0 <= draft.prepaid <= HIGHEST_AMOUNT:
        wrong["prepaid"] = Sentence("The amount paid before cannot be right.")
    if draft.round_due_to < 1:
        wrong["round_due_to"] = Sentence("Choose one of the values offered.")
    if not wrong:
        _check_sums(draft, wrong)
    return wrong


def _check_sums(draft: Draft, wrong: dict[str, Sentence]) -> None:
    """A discount may not outweigh what it lowers, and rates of one kind have one reason."""
    for group in work_out(draft).groups:
        if group.base.minor < 0:
            at = next(
                i
                for i, d in enumerate(draft.discounts)
                if (d.vat_rate, d.category) == (group.rate, group.category)
            )
            wrong[f"discounts.{at}.amount"] = Sentence(
                "The discount is larger than what the invoice charges at {rate} VAT.",
                {"rate": percent(group.rate)},
            )
    reasons: defaultdict[VatCategory, set[str]] = defaultdict(set)
    for at, line in enumerate(draft.lines):
        if line.kind is LineKind.TEXT:
            continue
        reasons[line.category].add(line.vat_reason.strip())
        if len(reasons[line.category]) > 1:
            wrong[f"lines.{at}.vat_reason"] = Sentence("One invoice gives one reason for a kind without VAT.")
