"""The lines of an invoice as a table, and its sums below them, worked out while something is typed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.cells import Column, Figure, Leave, Row, Words
from app.screens.kit.measure import px
from app.screens.kit.strokes import RIGHT, hline, words
from app.screens.kit.table import SmallTable
from app.screens.language import current, money, number, say
from app.trade.money import Money, decimals
from app.trade.office.amounts import shown
from app.trade.office.invoice import Line, LineKind, Totals, unit_words
from app.trade.office.on_the_bill import OnBill
from app.trade.office.vat import WORDS, VatCategory, percent
from app.work.office.invoices import InvoiceDraft


def lines_table() -> SmallTable:
    """An empty table of lines; charges and discounts bring their key when marked."""
    return SmallTable(
        say("Lines of the invoice"),
        (
            Column("what", say("What"), 0, least=150),
            Column("quantity", say("How much"), 86, number=True),
            Column("unit", "", 68),
            Column("each", say("Each"), 92, number=True),
            Column("vat", say("VAT"), 78, number=True, tip=say("Value added tax")),
            Column("net", say("Net"), 100, number=True, tip=say("Without value added tax")),
        ),
        leaving=(Leave("each"), Leave("unit"), Leave("vat")),
    )


def line_rows(drafted: InvoiceDraft) -> list[Row]:
    """Lines, then what moves the whole. The key of a row is its place among the lines, or its kind and place."""
    draft = drafted.draft
    rows = [
        _line_row(at, line, net)
        for at, (line, net) in enumerate(zip(draft.lines, drafted.totals.line_nets, strict=True))
    ]
    for kind, moved, sign in ((OnBill.DISCOUNT, draft.discounts, -1), (OnBill.SURCHARGE, draft.charges, 1)):
        word = say("Discount") if sign < 0 else say("On top")
        rows += [
            Row(
                (kind, at),
                (
                    Words(word, one.reason),
                    None,
                    None,
                    None,
                    _percent(one.vat_rate),
                    Figure(number(Money(sign * one.amount, draft.currency).amount, grouped=True)),
                ),
            )
            for at, one in enumerate(moved)
        ]
    if drafted.behind.no_vat_id is not None and drafted.totals.groups:
        free = drafted.totals.groups[0]
        why = Words(say("No VAT on the whole"), free.reason or say(WORDS[free.category]))
        rows.append(Row((OnBill.NO_VAT, 0), (why, None, None, None, None, None)))
    return rows


def _line_row(at: int, line: Line, net: Money) -> Row:
    if line.kind is LineKind.TEXT:
        return Row(at, (Words(line.words, soft=True), None, None, None, None, None))
    return Row(
        at,
        (
            Words(line.words, _less(line, net), tip=f"{line.words} {_less(line, net)}".rstrip()),
            Figure(number(shown(line.quantity))),
            Words(say(unit_words(line.unit, shown(line.quantity))), soft=True),
            Figure(number(shown(line.price, decimals(net.currency)), grouped=True)),
            _percent(line.vat_rate),
            Figure(number(net.amount, grouped=True)),
        ),
    )


def _less(line: Line, net: Money) -> str:
    """What was taken off the line, and why."""
    if not line.discount:
        return ""
    return say("less {off}: {why}", off=Money(line.discount, net.currency), why=line.discount_reason)


def _percent(rate: int) -> Figure:
    return Figure(number(percent(rate).value), "%")


def rate_words(rate: int, category: VatCategory) -> str:
    """A VAT rate in words: 19 %, or 0 % with its reason's kind."""
    text = current().value(percent(rate))
    return text if category is VatCategory.STANDARD else f"{text}, {say(WORDS[category])}"


@dataclass(frozen=True)
class SumLine:
    """One sum: its words and the amount; ``weight`` plain, strong or large."""

    words: str
    amount: Money
    weight: str = "plain"


def sum_lines(totals: Totals) -> list[SumLine]:
    """The sums of a draft, in the order of the paper."""
    lines = []
    if totals.discount.minor or totals.charge.minor:
        lines.append(SumLine(say("Lines"), totals.lines_net))
    if totals.discount.minor:
        lines.append(SumLine(say("Discount"), -totals.discount))
    if totals.charge.minor:
        lines.append(SumLine(say("On top"), totals.charge))
    lines.append(SumLine(say("Without VAT"), totals.net))
    for group in totals.groups:
        rate = percent(group.rate)
        words = (
            say("VAT {rate}", rate=rate)
            if len(totals.groups) == 1
            else say("VAT {rate} on {base}", rate=rate, base=group.base)
        )
        lines.append(SumLine(words, group.tax))
    lines.append(SumLine(say("Total"), totals.gross, "strong"))
    if totals.prepaid.minor:
        lines.append(SumLine(say("Paid before"), -totals.prepaid))
    if totals.rounding.minor:
        lines.append(SumLine(say("Rounding"), totals.rounding))
    owed = totals.due.minor >= 0
    lines.append(SumLine(say("To pay") if owed else say("To give back"), _size(totals.due), "large"))
    return lines


def issued_sums(gross: Money, credited: Money, paid: Money, rest: Money) -> list[SumLine]:
    """The sums of an issued invoice with everything credited and paid on it so far."""
    lines = [SumLine(say("Total with VAT"), gross, "strong")]
    if credited.minor:
        lines.append(SumLine(say("Credited"), -credited))
    if paid.minor:
        lines.append(SumLine(say("Paid"), -paid))
    rounding = rest - (gross - credited - paid)
    if rounding.minor:
        lines.append(SumLine(say("Rounding"), rounding))
    owed = rest.minor >= 0
    lines.append(SumLine(say("Still to pay") if owed else say("To give back"), _size(rest), "large"))
    return lines


def _size(amount: Money) -> Money:
    return amount if amount.minor >= 0 else -amount


class SumsView(QWidget):
    """The sums, right-aligned under the amounts of the table; while a line is typed they count it, too."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.lines: tuple[SumLine, ...] = ()
        self.thought = False
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def set_sums(self, lines: Sequence[SumLine], *, thought: bool = False) -> None:
        """Show these; ``thought``: they count a line that is not saved yet."""
        self.lines, self.thought = tuple(lines), thought
        told = [f"{line.words} {money(line.amount)}" for line in self.lines]
        self.setAccessibleName(say("Sums"))
        self.setAccessibleDescription("; ".join(told))
        self.updateGeometry()
        self.update()

    def refit(self) -> None:
        self.updateGeometry()

    def _height(self, line: SumLine) -> int:
        return px(38) if line.weight == "large" else px(26)

    def sizeHint(self) -> QSize:
        return QSize(px(320), sum(self._height(line) for line in self.lines) + px(2))

    def minimumSizeHint(self) -> QSize:
        return QSize(px(240), self.sizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        y = 0.0
        right = self.width() - px(9)
        for line in self.lines:
            tall = self._height(line)
            font = {"strong": measure.strong(), "large": measure.large()}.get(line.weight, measure.body())
            if line.weight != "plain":
                hline(p, right - px(330), self.width(), y, "edge" if line.weight == "large" else "line")
            amount = money(line.amount)
            wide = measure.width(amount, font)
            words(p, QRectF(right - wide, y, wide, tall), amount, font=font, align=RIGHT, elide=False)
            label = right - max(wide + px(27), px(140))
            of = "text" if line.weight != "plain" else "soft"
            said = measure.width(line.words, font)
            words(
                p, QRectF(label - said, y, said, tall), line.words, font=font, of=of, align=RIGHT, elide=False
            )
            y += tall
        if self.thought:
            room = QRectF(0, y - px(38), right - px(340), px(38))
            words(p, room, say("with the line being typed"), font=measure.body(), of="soft", align=RIGHT)
