"""Moving transports: noting the one found, taking it out onto the shelf, putting another in, renewing a part of it."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from enum import StrEnum
from functools import partial
from typing import TYPE_CHECKING, Any

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.trade.bench.part_entries import LASER_LABEL
from app.trade.bench.typed_value import parse_value, read_value, typed_form
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence, words
from app.work.bench.transport_life import transport_life
from app.work.bench.transports import (
    TransportChoice,
    change_label,
    note_transport,
    put_in,
    renew_part,
    take_out,
    transports_on_hand,
)
from app.work.office.shop_lists import TypeLine, transport_types

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class Move(StrEnum):
    """What is done with the transport."""

    NOTE = words("note the one found")
    OUT = words("take it out")
    IN = words("put one in")
    LABEL = words("correct its marking")
    RENEW = words("renew a part of it")


class TransportForm(InlineForm):
    """Only what can be done now is offered: with a transport inside it is taken out first."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Do this"))
        self.page = page
        inside = page.facts.transport_id is not None
        moves = (Move.OUT, Move.LABEL, Move.RENEW) if inside else (Move.NOTE, Move.IN)
        self.what = self.add("move", Choice("", [(m, say(m.value)) for m in moves], moves[0]))
        self.form.row(say("The transport"), self.what)
        self.type = self.add("type", Combo("", (), width=230))
        self.marking = self.add("marking", Field("", width=150))
        self.label_current = self.add("label_current", Field("", width=80))
        self._type_row = self.form.row(say("Type"), self.type)
        self._marking_row = self.form.row(
            say("Marking"), self.marking, say("label current, mA"), self.label_current
        )
        self.chosen = self.add("transport", Combo("", (), width=420))
        self._chosen_row = self.form.row(say("Which one"), self.chosen)
        self.belongs = self.add(
            "belongs_type", Field("", width=230, hint=say("only where another type belongs here"))
        )
        self._belongs_row = self.form.row(say("Belongs here"), self.belongs)
        self.shelf = self.add("shelf", Field("", width=130))
        self._shelf_row = self.form.row(say("Shelf"), self.shelf)
        self.part = self.add("words", Field("", hint=say("pick-up, spindle motor, …")))
        self.same = self.add("same_type", Tick(say("of the same type"), True))
        self._part_row = self.form.row(say("Part"), self.part)
        self._same_row = self.form.row("", self.same)
        self.nothing = told()
        self._nothing_row = self.form.row("", self.nothing)
        self._version = 1
        self.desk.doors.look_up(self, partial(transport_types, self.desk.book), self._show_types)
        self.desk.doors.look_up(self, partial(transports_on_hand, self.desk.book), self._show_choices)
        if page.facts.transport_id is not None:
            ask = partial(transport_life, self.desk.book, page.facts.transport_id)
            self.desk.doors.look_up(self, ask, self._show_life)
        self.changed()

    def _show_types(self, lines: Sequence[TypeLine]) -> None:
        self.type.set_options([(line.id, line.name) for line in lines], self.type.value())

    def _show_choices(self, choices: Sequence[TransportChoice]) -> None:
        offered = [
            (c.id, ", ".join(part for part in (f"{c.type_name} {c.marking}".strip(), c.where) if part))
            for c in choices
        ]
        self.chosen.set_options(offered, self.chosen.value())
        self.nothing.setText("" if offered else say("No transport lies on a shelf or in a donor."))
        self.changed()

    def _show_life(self, life: Any) -> None:
        self._version = life.version
        if not self.desk.drafts.read(self.key):
            self._filling = True
            self.marking.set_text(life.marking)
            self.label_current.set_text(
                typed_form(life.label.value, LASER_LABEL.unit) if life.label is not None else ""
            )
            self._filling = False

    def changed(self) -> None:
        move = self._move()
        form = self.form
        form.show_rows([self._type_row], move is Move.NOTE)
        form.show_rows([self._marking_row], move in (Move.NOTE, Move.LABEL, Move.RENEW))
        self.marking.setVisible(move in (Move.NOTE, Move.LABEL))
        form.show_rows([self._chosen_row], move is Move.IN)
        form.show_rows([self._belongs_row], move in (Move.NOTE, Move.IN))
        form.show_rows([self._shelf_row], move is Move.OUT)
        form.show_rows([self._part_row, self._same_row], move is Move.RENEW)
        form.show_rows([self._nothing_row], move is Move.IN and bool(self.nothing.text()))
        text = self.label_current.text()
        read = read_value(text, LASER_LABEL) if text else None
        self.label_current.set_error("")
        self.label_current.set_echo("" if read is None or isinstance(read, Sentence) else say(read.echo))

    def _move(self) -> Move:
        return Move(self.what.value())

    def _label(self) -> Decimal | None:
        text = self.label_current.text()
        return parse_value(text, LASER_LABEL, "label_current").value if text else None

    def deed(self, who: int) -> Deed:
        book, job, move = self.desk.book, self.page.job_id, self._move()
        if move is Move.OUT:
            return partial(take_out, book, who, job, shelf=self.shelf.text())
        if move is Move.RENEW:
            return partial(
                renew_part,
                book,
                who,
                job,
                self.part.text(),
                same_type=self.same.isChecked(),
                label_after=self._label(),
            )
        if move is Move.LABEL:
            transport = self.page.facts.transport_id
            assert transport is not None  # offered only where one is inside
            return partial(
                change_label, book, who, transport, self.marking.text(), self._label(), version=self._version
            )
        if move is Move.NOTE:
            if self.type.value() is None:
                raise FieldRefusal({"type": Sentence("Choose its type. The Office keeps the list of types.")})
            return partial(
                note_transport,
                book,
                who,
                job,
                self.type.value(),
                self.marking.text(),
                self._label(),
                belongs_type=self.belongs.text(),
            )
        if self.chosen.value() is None:
            raise FieldRefusal({"transport": Sentence("Choose which transport is put in.")})
        return partial(put_in, book, who, job, self.chosen.value(), belongs_type=self.belongs.text())
