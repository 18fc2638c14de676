"""The sum block and, at its left, how the balance is paid. One right edge for every amount of the page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from app.papers.blocks import Block, Gap, Stack, Whole
from app.papers.codes import draw_qr, qr_side, transfer_code
from app.papers.facts import SheetFacts
from app.papers.fonts import cleaned, pieces
from app.papers.invoice_facts import Discount, InvoiceFacts, PaymentPanel, VatGroup
from app.papers.line_breaks import Run
from app.papers.pen import GHOST, INK, POINT, Pen
from app.papers.said import amount, percent, worded
from app.papers.text import ASCENT, FINE, FINE_GREY, LEFT, RIGHT, TABLE, Style, TextBlock, natural, set_text
from app.trade.money import Money
from app.trade.office.bank_account import grouped
from app.trade.wording import MINUS, Wording

LABELS = 84.0  # from the left margin to the labels of the sums
PITCH = 4.85
MODULE = 0.62
LABEL_STYLE = Style(13, 6, bold=True)
AMOUNT_STYLE = Style(15, 6, bold=True)


@dataclass(frozen=True)
class SumRow(Whole):
    """A label and an amount. ``above`` and ``below`` are rules in points; a balance is set large."""

    label: TextBlock
    figure: TextBlock
    width: float
    above: float = 0.0
    below: float = 0.0

    @property
    def height(self) -> float:
        """Lines with what the rules need."""
        lines = PITCH + self.label.height - self.label.style.leading
        if self.below:
            return lines + 4.6
        return lines + (1.0 if self.above else 0.0)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Label and amount on one baseline, the last of the label's lines."""
        if self.above:
            pen.rule(x, top + 0.3, self.width, self.above, INK)
        if self.below:
            pen.rule(x, top + self.height - 0.1, self.width, self.below, INK)
        at = top + (1.9 if self.below else 1.0 if self.above else 0.0)
        difference = (self.figure.style.size - self.label.style.size) * ASCENT * 0.3528
        self.label.draw(pen, x, at + max(0.0, difference))
        last = at + self.label.height - self.label.style.leading
        self.figure.draw(pen, x + self.width - self.figure.width, last + max(0.0, -difference))


def sum_row(
    label: str, figure: str, width: float, *, bold: bool = False, above: float = 0.0, below: float = 0.0
) -> SumRow:
    """One row of sums; ``below`` makes it the balance."""
    style, figures = (LABEL_STYLE, AMOUNT_STYLE) if below else (TABLE, TABLE)
    right = set_text(Run(figure, bold=bold), figures, natural(Run(figure, bold=bold), figures) + 0.01, RIGHT)
    left = set_text(Run(label, bold=bold), style, width - right.width - 3)
    return SumRow(left, right, width, above, below)


def net_and_vat_rows(
    lines_net: Money,
    discounts: Sequence[Discount],
    net: Money,
    groups: Sequence[VatGroup],
    width: float,
    wording: Wording,
) -> list[Block]:
    """Lines, discounts with their reasons, net, VAT per rate with its base: in this order."""
    rows: list[Block] = []
    if discounts:
        rows.append(sum_row(wording("Sum of lines, net"), amount(lines_net, wording), width))
        for discount in discounts:
            label = wording(
                "{reason} (VAT {rate})",
                reason=worded(discount.reason, wording),
                rate=percent(discount.vat, wording),
            )
            mark = "" if discount.charge else MINUS
            rows.append(sum_row(label, mark + amount(discount.amount, wording), width))
    above = 0.5 if discounts else 0.0
    rows.append(sum_row(wording("Net"), amount(net, wording), width, bold=True, above=above))
    for group in groups:
        label = wording(
            "VAT {rate} on {base}", rate=percent(group.rate, wording), base=amount(group.base, wording)
        )
        if group.reason:
            label = f"{label}: {worded(group.reason, wording)}"
        rows.append(sum_row(label, amount(group.vat, wording), width))
    return rows


def total_row(whole: Money, width: float, wording: Wording) -> SumRow:
    """The sum with VAT."""
    return sum_row(wording("Total with VAT"), amount(whole, wording), width, bold=True, above=0.5)


def sum_rows(facts: InvoiceFacts, width: float, wording: Wording) -> Stack:
    """Lines, discount with its reason, net, VAT per rate with its base, total, payments, balance: in this order."""
    rows = net_and_vat_rows(facts.lines_net, facts.discounts, facts.net, facts.vat, width, wording)
    rows.append(total_row(facts.total, width, wording))
    for payment in facts.payments:
        mark = MINUS if payment.amount.minor > 0 else ""
        figure = mark + amount(payment.amount, wording).lstrip(MINUS)
        rows.append(sum_row(worded(payment.words, wording), figure, width))
    if facts.rounding is not None and facts.rounding.minor:
        rows.append(sum_row(wording("Rounding"), amount(facts.rounding, wording), width))
    label = wording("Balance to pay, {currency}", currency=facts.balance.currency)
    if facts.balance.minor < 0:
        label = wording("We owe you, {currency}", currency=facts.balance.currency)
    figure = amount(facts.balance, wording).lstrip(MINUS)
    rows.append(sum_row(label, figure, width, bold=True, above=1.6, below=0.5))
    return Stack(tuple(rows))


@dataclass(frozen=True)
class PaymentBlock(Whole):
    """Code of the transfer, words beside it, what the code is below; with "specimen" behind in a demo shop."""

    code: str
    words: Stack
    legend: TextBlock | None
    specimen: str = ""

    @property
    def side(self) -> float:
        """Of the code."""
        return qr_side(self.code, MODULE, "m") if self.code else 0.0

    @property
    def _beside(self) -> float:
        return self.side + 5 if self.code else 0.0

    @property
    def height(self) -> float:
        """Of code and legend, or of the words."""
        return 3.2 + self._legend_at + (self.legend.height if self.legend else 0.0)

    @property
    def _legend_at(self) -> float:
        """The legend is wider than its code: it stands below the words too."""
        return max(self.side + 2.0, self.words.height + 0.4) if self.code else self.words.height

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Ghost word first, then code and words on it."""
        top += 3.2
        if self.specimen:
            letters = pieces(cleaned(self.specimen), True)
            size = min(36.0, 57.0 / (sum(piece.width for piece in letters) * POINT / 1000))
            pen.slanted(x + self._beside + 1.5, top + 24, 17, size, letters, GHOST)
        if self.code:
            draw_qr(pen, self.code, x, top, MODULE, "m")
        self.words.draw(pen, x + self._beside, top - 0.6)
        if self.legend:
            self.legend.draw(pen, x, top + self._legend_at)


class Payable(Protocol):
    """What can be paid: an invoice, or a reminder of one."""

    @property
    def sheet(self) -> SheetFacts:
        """Its sheet."""
        ...

    @property
    def panel(self) -> PaymentPanel | None:
        """How it is paid."""
        ...

    @property
    def balance(self) -> Money:
        """What is open."""
        ...


def payment_block(facts: Payable, wording: Wording) -> PaymentBlock | None:
    """How the balance is paid; nothing where nothing is open. A draft has no code: nobody shall pay it."""
    panel = facts.panel
    if panel is None or facts.balance.minor <= 0:
        return None
    specimen = facts.sheet.specimen
    code = ""
    if panel.iban and facts.balance.currency == "EUR" and not facts.sheet.draft:
        code = transfer_code(panel.holder, panel.iban, panel.bic, facts.balance, panel.reference)
    beside = qr_side(code, MODULE, "m") + 5 if code else 0.0
    words = _panel_words(panel, LABELS - beside - 3, specimen, wording)
    legend = wording("Specimen code. A real one fills in the transfer.") if specimen else ""
    below = set_text(
        legend or wording("Code of this transfer for a banking program."), FINE_GREY, LABELS - 4, LEFT
    )
    return PaymentBlock(code, words, below if code else None, wording("specimen") if specimen else "")


def _panel_words(panel: PaymentPanel, width: float, specimen: bool, wording: Wording) -> Stack:
    parts: list[Block] = []
    if panel.pay_by:
        day = wording.day(panel.pay_by, "d MMMM y")
        parts += [set_text(Run(wording("Pay by {day}", day=day), bold=True), TABLE, width), Gap(0.4)]
    account = [panel.holder, grouped(panel.iban), panel.bic]
    if panel.reference:
        account.append(wording("reference {reference}", reference=panel.reference))
    for text in (worded(panel.how, wording), *account):
        if text:
            parts.append(set_text(text, FINE, width))
    if specimen and panel.iban:
        parts += [Gap(0.4), set_text(Run(wording("Specimen: no such account"), bold=True), FINE, width)]
    return Stack(tuple(parts))


@dataclass(frozen=True)
class SumsAndPayment:
    """Payment at the left, sums at the right: never parted."""

    payment: PaymentBlock | None
    sums: Stack

    @property
    def height(self) -> float:
        """Of the taller."""
        return 1.6 + max(self.sums.height, self.payment.height if self.payment else 0.0)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Both."""
        if self.payment:
            self.payment.draw(pen, x, top + 1.6)
        self.sums.draw(pen, x + LABELS, top + 1.6)

    def split(self, room: float) -> tuple[Block, Block] | None:
        """Between rows of sums, only where they are higher than a page; the payment stays with the first part."""
        parts = self.sums.split(room - 1.6)
        if parts is None or not isinstance(parts[0], Stack) or not isinstance(parts[1], Stack):
            return None
        return SumsAndPayment(self.payment, parts[0]), SumsAndPayment(None, parts[1])
