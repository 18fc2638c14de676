"""What to order: parts at or below their reorder point by supplier, with use, waiting time and how many."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from decimal import Decimal
from functools import partial
from itertools import groupby
from pathlib import Path
from typing import Any

from PySide6.QtWidgets import QFileDialog, QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column, Figure, Group, Leave, Row, Words
from app.screens.kit.choice import Choice
from app.screens.language import current, near_day, number, say
from app.screens.office.form_place import FormPlace
from app.screens.office.list_page import ListPage
from app.screens.office.order_list_form import OrderListForm
from app.screens.office.reorder_words import rounded, why_words
from app.trade.money import total
from app.trade.office.invoice import unit_words
from app.trade.sentence import Sentence
from app.trade.upkeep.csv_text import mark_like
from app.work.office.reorder_csv import save_reorder_list
from app.work.office.reorder_list import ReorderLine, reorder_list

DUE, COMING, EVERY = "due", "coming", "every"


class ReorderPage(ListPage):
    """Registered as ``reorder``; its key is which parts stand in it. Enter opens a part."""

    help_topic = "reorder"
    record = "part"
    words = Sentence("What to order")
    add_words = Sentence("Go to the parts in stock")
    empty_words = (
        Sentence("No part has to be ordered now"),
        Sentence(
            "A part stands here as soon as no more is on hand or on order than its use and its supplier's time ask for."
        ),
    )
    leaving = (Leave("lead"), Leave("use"), Leave("cost"), Leave("there"), Leave("due"), Leave("point"))
    kinds = frozenset({"parts", "part_moves", "part_orders", "settings"})
    has_former = False

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self._lines: tuple[ReorderLine, ...] = ()
        self.which = Choice(
            say("Which parts"),
            [(DUE, say("To order now")), (COMING, say("On order")), (EVERY, say("All parts"))],
            key or DUE,
        )
        self.which.changed.connect(lambda _: self.reload())
        self.heading.add(self.which, 4)
        self.file_button = Button(say("Save as CSV…"), self.save_asked, kind="quiet")
        self.print_button = Button(say("Print this list"), self.print_list, key="Ctrl+P")
        self.order_button = Button(say("Write down as ordered…"), self.order_asked, kind="quiet")
        self.head.set_buttons(self.order_button, self.file_button, self.print_button)
        self.place = FormPlace()
        self.place.failed.connect(partial(tell, self.trouble))
        self.heading.add(self.place)

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("code", say("Code"), 100),
            Column("part", say("Part"), 0, least=170),
            Column("there", say("Order number"), 130),
            Column("hand", say("On hand"), 84, number=True),
            Column("coming", say("On order"), 84, number=True, tip=say("Ordered and not here yet")),
            Column("due", say("Expected"), 146, tip=say("The first of what is on order")),
            Column(
                "use",
                say("Used a month"),
                116,
                number=True,
                tip=say("Fitted less returned, by the last year"),
            ),
            Column("lead", say("Takes"), 92, number=True, tip=say("From ordering until it comes in")),
            Column(
                "point",
                say("Order at"),
                84,
                number=True,
                tip=say(
                    "The least stock that is enough until an order comes in, as often as it is wanted to be"
                ),
            ),
            Column("order", say("Order"), 110, number=True),
            Column("cost", say("Cost, without VAT"), 150, number=True),
        )

    def fetch(self) -> Any:
        which = self.which.value()
        lines = reorder_list(self.desk.book, every=which != DUE)
        return tuple(line for line in lines if line.part.on_order) if which == COMING else lines

    def rows(self, found: Any) -> list[Row | Group]:
        rows: list[Row | Group] = []
        for supplier, lines in groupby(found, key=lambda line: line.part.supplier):
            lines_here = list(lines)
            rows.append(Group(supplier or say("No supplier named"), _counted(lines_here)))
            rows += [_row(line, self.desk.today()) for line in lines_here]
        return rows

    def below(self, found: Any) -> str:
        due = [line for line in found if line.found.order]
        costs = [line.cost for line in due if line.cost is not None]
        if not costs:
            return ""
        unknown = len(due) - len(costs)
        sum_words = say("What is to order costs {sum} without VAT.", sum=total(costs, costs[0].currency))
        if not unknown:
            return sum_words
        rest = (
            say("Of 1 the cost is not known.")
            if unknown == 1
            else say("Of {n} the cost is not known.", n=unknown)
        )
        return f"{sum_words} {rest}"

    def told(self) -> tuple[str, ...]:
        return (self.which.word(),)

    def add(self) -> None:
        self.desk.open("parts")

    def commands(self) -> Mapping[str, Callable[[], object]]:
        """While orders are written down, saving and leaving mean that form."""
        form = self.place.form
        if form is not None:
            return {**super().commands(), "save": form.save, "leave": self.place.close_form}
        if self.order_button.isHidden():
            return super().commands()
        return {**super().commands(), "order_part": self.order_asked}

    def order_asked(self) -> None:
        """Open the form that writes down what was ordered of a supplier."""
        self.place.open(OrderListForm(self.desk, self._lines), self.order_button)

    def save_asked(self) -> None:
        """Ask where to, then write what is shown."""
        day = self.desk.today().isoformat()
        name, _ = QFileDialog.getSaveFileName(
            self, say("Save the list as CSV"), f"{say('What to order')} {day}.csv", say("CSV (*.csv)")
        )
        if name:
            self.save_to(Path(name))

    def save_to(self, path: Path) -> None:
        """Write the list with the decimal mark of the language."""
        self.desk.doors.look_up(
            self,
            partial(
                save_reorder_list,
                path,
                self._lines,
                self.desk.shop.currency,
                mark=mark_like(current().decimal_mark),
            ),
            lambda _: self.head.set_below(say("Saved as {path}.", path=str(path))),
            partial(tell, self.trouble),
        )

    def _show(self, found: Any) -> None:
        self._lines = found
        super()._show(found)
        set_shown(self.add_button, False)
        for button in (self.file_button, self.print_button):
            set_shown(button, bool(found))
        set_shown(self.order_button, any(line.found.order and line.part.supplier for line in found))


def _counted(lines: list[ReorderLine]) -> str:
    return say("1 part") if len(lines) == 1 else say("{n} parts", n=len(lines))


def _row(line: ReorderLine, today: date) -> Row:
    part, found = line.part, line.found
    return Row(
        part.id,
        (
            Words(part.code, strong=True),
            Words(part.words, part.rating, tip=f"{part.words}\n{why_words(line)}"),
            Words(part.order_code),
            Figure(number(part.on_hand), soft=not part.on_hand),
            Figure(number(part.on_order)) if part.on_order else None,
            _expected(part.expected_on, today),
            Figure(rounded(found.per_month), soft=not found.per_month),
            Figure(number(line.lead_days), say("days")),
            Figure(number(found.point)),
            Figure(number(found.order), say(unit_words(part.unit, Decimal(found.order))), strong=True)
            if found.order
            else None,
            Figure(number(line.cost.amount, grouped=True), line.cost.currency)
            if line.cost is not None and found.order
            else None,
        ),
    )


def _expected(day: date | None, today: date) -> Words | None:
    """The day of the first order that is to come; a past one stands out."""
    if day is None:
        return None
    late = day < today
    return Words(near_day(day, today), say("late") if late else "", strong=late)
