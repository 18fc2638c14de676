"""Moving transports: noting the one found, taking it out, putting another in its place, renewing a part of it."""

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
    TransportChoices,
    change_label,
    move_transport,
    note_transport,
    renew_part,
    take_out,
    transports_for,
)
from app.work.office.shop_lists import TypeLine, transport_types

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class Move(StrEnum):
    """What is done with the transport."""

    NOTE = words("note the one found")
    OUT = words("take it out")
    SWAP = words("put another in its place")
    IN = words("put one in")
    LABEL = words("correct its marking")
    RENEW = words("renew a part of it")


class TransportForm(InlineForm):
    """Only what can be done now is offered. Another one comes in one step: out of a shelf, a donor or another player
    that is on a job here, and the one inside goes onto the shelf."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Do this"))
        self.page = page
        inside = page.facts.transport_id is not None
        moves = (Move.OUT, Move.SWAP, Move.LABEL, Move.RENEW) if inside else (Move.NOTE, Move.IN)
        self.what = self.add("move", Choice("", [(m, say(m.value)) for m in moves], moves[0]))
        self.form.row(say("The transport"), self.what)
        self.type = self.add("type", Combo("", (), width=230))
        self.marking = self.add("marking", Field("", width=150))
        self._type_row = self.form.row(say("Type"), self.type)
        self._marking_row = self.form.row(say("Marking"), self.marking)
        self.chosen = self.add("transport", Combo("", (), width=420))
        self._chosen_row = self.form.row(say("Which one"), self.chosen)
        self.nothing = told()
        self._nothing_row = self.form.row("", self.nothing)
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
        self.label_current = self.add("label_current", Field("", width=80))
        self._label_row = self.form.row(say("Label current"), self.label_current, LASER_LABEL.unit.shown)
        self._version = 1
        self.desk.doors.look_up(self, partial(transport_types, self.desk.book), self._show_types)
        self._choices: dict[int, TransportChoice] = {}
        self._belongs = ""
        ask_all = partial(transports_for, self.desk.book, page.job_id)
        self.desk.doors.look_up(self, ask_all, self._show_choices)
        if page.facts.transport_id is not None:
            ask = partial(transport_life, self.desk.book, page.facts.transport_id)
            self.desk.doors.look_up(self, ask, self._show_life)
        self.changed()

    def _show_types(self, lines: Sequence[TypeLine]) -> None:
        self.type.set_options([(line.id, line.name) for line in lines], self.type.value())
        self.belongs.set_seen([line.name for line in lines])

    def _show_choices(self, found: TransportChoices) -> None:
        self._choices, self._belongs = {c.id: c for c in found.choices}, found.belongs
        offered = [(c.id, choice_words(c)) for c in found.choices]
        self.chosen.set_options(offered, self.chosen.value())
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
        form.show_rows([self._marking_row], move in (Move.NOTE, Move.LABEL))
        form.show_rows([self._label_row], move in (Move.NOTE, Move.LABEL, Move.RENEW))
        comes = move in (Move.IN, Move.SWAP)
        form.show_rows([self._chosen_row], comes)
        form.show_rows([self._belongs_row], move is Move.NOTE or (comes and self._may_belong()))
        form.show_rows([self._shelf_row], move in (Move.OUT, Move.SWAP))
        form.show_rows([self._part_row, self._same_row], move is Move.RENEW)
        self.nothing.setText(self._of_choice() if comes else "")
        form.show_rows([self._nothing_row], bool(self.nothing.text()))
        text = self.label_current.text()
        read = read_value(text, LASER_LABEL) if text else None
        self.label_current.set_error("")
        self.label_current.set_echo("" if read is None or isinstance(read, Sentence) else say(read.echo))

    def _may_belong(self) -> bool:
        """Whether another type may belong here: asked only then, and what was typed stays in sight."""
        choice = self._choices.get(self.chosen.value())
        return bool(self.belongs.text()) or (choice is not None and (choice.other_type or not self._belongs))

    def refuse(self, refusal: FieldRefusal) -> None:
        if "belongs_type" in refusal.fields:
            self.form.show_rows([self._belongs_row], True)
        super().refuse(refusal)

    def _of_choice(self) -> str:
        """What has to be known of the transport that is chosen."""
        if not self._choices:
            return say("No transport lies on a shelf, in a donor or in another player on a job here.")
        choice = self._choices.get(self.chosen.value())
        if choice is None:
            return ""
        told = []
        if choice.other_type:
            told.append(
                say(
                    "{belongs} belongs in this player, and this is {own}. Name {belongs} below to fit it all the"
                    " same; it becomes a caution.",
                    belongs=self._belongs,
                    own=choice.type_name,
                )
            )
        if choice.job_number is not None:
            told.append(
                say(
                    "It leaves {player} without a transport; job {number} keeps that in its history.",
                    player=choice.where,
                    number=str(choice.job_number),
                )
            )
        return " ".join(told)

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
        return partial(
            move_transport,
            book,
            who,
            job,
            self.chosen.value(),
            belongs_type=self.belongs.text(),
            shelf=self.shelf.text() if move is Move.SWAP else "",
        )


def choice_words(choice: TransportChoice) -> str:
    """A transport in the list: type, marking, and where it is now."""
    where = choice.where
    if choice.job_number is not None:
        where = say("in {player}, job {number}", player=where, number=str(choice.job_number))
    parts = [f"{choice.type_name} {choice.marking}".strip(), where]
    if choice.other_type:
        parts.append(say("another type"))
    return ", ".join(part for part in parts if part)
