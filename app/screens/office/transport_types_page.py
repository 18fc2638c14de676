"""Transport types: arrangement, transit lock, rungs that cannot be seen, and the order of the sheet."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column, Group, Leave, Row, Words
from app.screens.kit.choice import Choice
from app.screens.kit.fields import Field, TextArea
from app.screens.kit.label import Label
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.screens.office.ladder_names import ladder_names
from app.screens.office.list_page import ListPage
from app.screens.office.record_page import RecordPage
from app.screens.office.rungs_field import RungsField
from app.screens.office.sheet_editor import SheetEditor
from app.trade.bench.kinds import Arrangement
from app.trade.sentence import Sentence
from app.work.bench.standing import ladder_of
from app.work.office.former_lines import FormerLine, former_types
from app.work.office.quantity_list import quantity_list
from app.work.office.shop_lists import TypeLine, save_transport_type, transport_types


class TransportTypesPage(ListPage):
    """Registered as ``transport_types``."""

    help_topic = "transport_types"
    record = "transport_type"
    words = Sentence("Transport types")
    add_words = Sentence("Add a transport type")
    empty_words = (
        Sentence("The types of mechanism that come to the shop stand here"),
        Sentence("Each with its sheet of readings, its limits, and what cannot be seen on it."),
    )
    leaving = (Leave("note"), Leave("unseen"))
    kinds = frozenset({"transport_types"})

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("name", say("Type"), 170),
            Column("arrangement", say("Arrangement"), 200),
            Column("lock", say("Transit lock"), 110),
            Column("sheet", say("Sheet"), 120),
            Column("unseen", say("Cannot be seen"), 150, tip=say("Rungs of the ladder that cannot be seen")),
            Column("note", say("Note"), 0, least=100),
        )

    def fetch(self) -> Any:
        return transport_types(self.desk.book, retired=self.former)

    def rows(self, found: Any) -> list[Row | Group]:
        return [_row(line) for line in found]


def _row(line: TypeLine) -> Row:
    count = len(line.sheet)
    sheet = say("1 reading") if count == 1 else say("{n} readings", n=count)
    rungs = ", ".join(str(rung) for rung in line.not_testable)
    return Row(
        line.id,
        (
            Words(line.name, say("no longer used") if line.retired else "", strong=not line.retired),
            Words(say(line.arrangement.value)),
            Words(say("has one") if line.has_transit_lock else "", soft=True),
            Words(sheet if count else say("none yet"), soft=not count),
            Words(say("rung {rungs}", rungs=rungs) if rungs else "", soft=True),
            Words(line.note, soft=True, tip=line.note),
        ),
    )


class TransportTypePage(RecordPage):
    """Registered as ``transport_type``; its key is the id."""

    help_topic = "transport_types"
    kind = "transport type"
    new_words = Sentence("A new transport type")
    save_words = Sentence("Save the type")

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self.limits = Button(say("Limits of this type"), self._open_limits)
        self.head.set_buttons(self.limits)
        set_shown(self.limits, key is not None)
        self.form.section(say("What"))
        self.name = self.add("name", Field("", width=260, hint=say("as it is stamped on it")))
        arrangements = [(kind.value, say(kind.value)) for kind in Arrangement]
        self.arrangement = self.add("arrangement", Choice("", arrangements, arrangements[0][0]))
        self.lock = self.add("has_transit_lock", Tick(say("has a transit lock")))
        self.form.row(say("Type"), self.name)
        self.form.row(say("Arrangement"), self.arrangement)
        self.form.row("", self.lock)
        self.form.section(say("Sheet"))
        self.sheet_order = self.add(
            "sheet", SheetEditor(say("Readings in their order"), say("Add a reading"))
        )
        self.form.row(say("Readings"), self.sheet_order)
        told = say(
            "In this order they are offered on the bench, each at the stage that stands behind it. "
            "Without any, every quantity that fits is."
        )
        self.form.row("", Label(told, "soft", wrap=True), stretch_last=True)
        self.form.section(say("Ladder"))
        self.unseen = self.add("not_testable", RungsField(ladder_names(None)))
        self.form.row(say("Cannot be seen"), self.unseen)
        self.form.section(say("Note"))
        self.note = self.add("note", TextArea("", lines=3))
        self.form.row(say("For the next one"), self.note)
        self.retired = self.add("retired", Tick(say("no longer used")))
        self.form.row("", self.retired)

    def fetch(self) -> Any:
        lines = transport_types(self.desk.book, retired=True) if self.key is not None else ()
        line = next((line for line in lines if line.id == self.key), None)
        return line, quantity_list(self.desk.book), ladder_of(self.desk.book)

    def former_lines(self) -> Sequence[FormerLine[TypeLine]]:
        return former_types(self.desk.book, self.key)

    def show_found(self, found: Any) -> Any:
        line, quantities, ladder = found
        self.unseen.set_names(ladder_names(ladder))
        self.sheet_order.set_offers([(q.id, say(q.words)) for q in quantities if not q.worked_out])
        return line

    def named_title(self, line: TypeLine) -> str:
        return line.name

    def put(self, line: TypeLine) -> None:
        self.name.set_text(line.name)
        self.arrangement.set_value(line.arrangement.value)
        self.lock.setChecked(line.has_transit_lock)
        self.sheet_order.set_value(line.sheet)
        self.unseen.set_value(line.not_testable)
        self.note.set_text(line.note)
        self.retired.setChecked(line.retired)

    def entry(self) -> TypeLine:
        return TypeLine(
            name=self.name.text(),
            arrangement=Arrangement(self.arrangement.value()),
            has_transit_lock=self.lock.isChecked(),
            not_testable=tuple(self.unseen.value()),
            sheet=tuple(self.sheet_order.value()),
            note=self.note.text(),
            retired=self.retired.isChecked(),
            id=self.key or 0,
            version=self.version,
        )

    def deed(self, who: int, entry: TypeLine) -> Callable[[], Any]:
        return partial(save_transport_type, self.desk.book, who, entry)

    def facts(self, line: TypeLine) -> Sequence[tuple[str, str]]:
        words = self.sheet_order.words_of
        return (
            (say("Type"), line.name),
            (say("Arrangement"), say(line.arrangement.value)),
            (say("Transit lock"), say("has one") if line.has_transit_lock else say("none")),
            (say("Readings"), ", ".join(words(code) for code in line.sheet)),
            (say("Cannot be seen"), ", ".join(str(rung) for rung in line.not_testable)),
            (say("Note"), line.note),
            (say("no longer used"), say("yes") if line.retired else say("no")),
        )

    def _open_limits(self) -> None:
        self.desk.open("limits", self.key)
