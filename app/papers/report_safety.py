"""The electrical safety test step by step: a section of the service report."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.blocks import Block, Gap, Stack, Whole, section, section_head
from app.papers.facts import Sign
from app.papers.flow import Flow, stack
from app.papers.line_breaks import Run
from app.papers.pen import Pen
from app.papers.said import opening, shown, worded
from app.papers.service_report_facts import SafetyRecord
from app.papers.signs import draw_sign
from app.papers.tables import Column, pour_rows, table
from app.papers.text import BODY, FINE_GREY, RIGHT, set_text
from app.trade.wording import Wording


@dataclass(frozen=True)
class ClassSign(Whole):
    """Square in square, behind the head of the safety test of a class II player."""

    width: float
    height: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """At the right, in the line of the head."""
        draw_sign(pen, Sign.CLASS_II, x + self.width - 4.4, top - 5.6, 4.4)


def pour_safety(
    flow: Flow, record: SafetyRecord | None, missing: str, *, class_ii: bool, wording: Wording
) -> None:
    """The steps as a table, then the verdict; or that there is no test, and why."""
    title = wording("Electrical safety test after repair")
    if record is None:
        flow.put(section(title, flow.width, set_text(missing, BODY, flow.width)), 3.0)
        return
    columns = (
        Column(wording("Step, in this order")),
        Column(wording("measured"), 24.0, RIGHT, most=38.0),
        Column(wording("limit"), 20.0, RIGHT, most=34.0),
        Column("", 2.0),
        Column(wording("meets the limit"), 24.0, most=30.0),
        Column(wording("shop’s verdict"), 22.0, most=30.0),
    )
    cells = [
        (
            opening(step.name, wording), shown(step.measured, wording), shown(step.limit, wording), "",
            worded(step.meets, wording), worded(step.verdict, wording),
        )
        for step in record.steps
    ]  # fmt: skip
    content = table(columns, cells, flow.width)
    sign = ClassSign(flow.width) if class_ii else Gap(0.0)
    note = worded(record.edition, wording)
    head = section_head(title, flow.width, note + "\u00a0" * 9 if class_ii else note, text_from=6.6)
    result = [Run(worded(record.result, wording), bold=True), Run(" " + worded(record.about, wording))]
    said: list[Block] = [set_text(result, BODY, flow.width)]
    if record.fine_print:
        said += [Gap(0.6), set_text(worded(record.fine_print, wording), FINE_GREY, flow.width)]
    below = stack(said)
    pour_rows(
        flow,
        content.head,
        content.rows,
        opening=Stack((head, sign)),
        above=3.0,
        tail=below.height + 1.0,
        together=True,
    )
    flow.put(below, 1.0)
