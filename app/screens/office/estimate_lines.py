"""The lines of an option as a table, its words beside their labels, and what it comes to."""

from __future__ import annotations

from app.screens.bench.text_lines import TextLine
from app.screens.kit.cells import Column, Figure, Leave, Row, Words
from app.screens.kit.table import SmallTable
from app.screens.language import current, number, say
from app.screens.office.invoice_lines import SumLine
from app.trade.money import Money, decimals
from app.trade.office.amounts import shown
from app.trade.office.estimate import OptionEntry, Taken
from app.trade.office.invoice import LineKind, Totals, unit_words
from app.trade.office.vat import percent
from app.work.office.estimate_rows import LineKept
from app.work.office.estimate_view import OptionView


def option_table() -> SmallTable:
    """An empty table of the lines of an option; a row is opened by Enter."""
    return SmallTable(
        say("Lines of the option"),
        (
            Column("what", say("What"), 0, least=150),
            Column("quantity", say("How much"), 86, number=True),
            Column("unit", "", 68),
            Column("each", say("Each"), 92, number=True),
            Column("vat", say("VAT"), 78, number=True, tip=say("Value added tax")),
            Column("net", say("Net"), 100, number=True, tip=say("Without value added tax")),
        ),
        leaving=(Leave("each"), Leave("unit"), Leave("vat")),
        opens=True,
    )


def option_rows(option: OptionView) -> list[Row]:
    """The lines of an option, each under its key in the book."""
    return [_row(kept, net) for kept, net in zip(option.kept.lines, option.totals.line_nets, strict=True)]


def _row(kept: LineKept, net: Money) -> Row:
    line = kept.line
    if line.kind is LineKind.TEXT:
        return Row(kept.id, (Words(line.words, tip=line.words, soft=True), None, None, None, None, None))
    return Row(
        kept.id,
        (
            Words(line.words, tip=line.words),
            Figure(number(shown(line.quantity))),
            Words(say(unit_words(line.unit, shown(line.quantity))), soft=True),
            Figure(number(shown(line.price, decimals(net.currency)), grouped=True)),
            Figure(number(percent(line.vat_rate).value), "%"),
            Figure(number(net.amount, grouped=True)),
        ),
    )


def option_words(entry: OptionEntry) -> list[TextLine]:
    """What is said of an option, as far as something was written."""
    told = (
        ("what", say("What we do"), entry.what),
        ("design", say("Maker's design"), entry.design or say("kept")),
        ("risk", say("May go wrong"), entry.risk),
        ("guarantee", say("Guarantee"), entry.guarantee),
        ("ready", say("Ready"), entry.ready),
    )
    return [TextLine(key, label, text) for key, label, text in told if text]


def taken_words(taken: Taken) -> str:
    """What the invoice takes over, in words."""
    return {
        Taken.AS_WORKED: say("time and parts as worked, with its fixed charges"),
        Taken.AS_ESTIMATED: say("its lines as estimated"),
        Taken.FEES_ONLY: say("fees only"),
    }[taken]


def option_sums(totals: Totals, ceiling: Money) -> list[SumLine]:
    """Net, VAT, the sum with VAT, and the amount that it never goes above where that is another."""
    lines = [SumLine(say("Without VAT"), totals.net)]
    for group in totals.groups:
        lines.append(SumLine(say("VAT {rate}", rate=current().value(percent(group.rate))), group.tax))
    if totals.rounding.minor:
        lines.append(SumLine(say("Rounding"), totals.rounding))
    lines.append(SumLine(say("With VAT"), totals.due, "large"))
    if ceiling != totals.due:
        lines.append(SumLine(say("Never above"), ceiling))
    return lines
