"""One record of the bench knowledge: its fields, what ships beside it, and how it stood before."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.kit.tick import Tick
from app.screens.language import moment, say
from app.screens.office.pairs_field import PairsField
from app.screens.office.record_page import RecordPage
from app.trade.bench.kinds import KnowledgeKind
from app.work.office.former_lines import FormerLine
from app.work.office.knowledge_list import (
    KnowledgeLine,
    KnowledgeLists,
    bring_back,
    former_records,
    knowledge_line,
    knowledge_lists,
    put_back,
    save_record,
)

Pairs = Sequence[tuple[str, str]]


class KnowledgeRecordPage(RecordPage):
    """A kind of record overrides ``make_fields``, ``offer``, ``put_content``, ``content`` and ``told``; its key is
    the code, None for a new one."""

    help_topic = "knowledge"
    knowledge = KnowledgeKind.SUSPECT
    can_retire = True

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent, label_width=190)
        self.lists: KnowledgeLists | None = None
        self._ships = Label("", "soft", wrap=True)
        self.take_back = Button(say("Take back what ships"), self._take_back, kind="quiet")
        self.head.set_buttons(self.take_back)
        self.heading.add(self._ships)
        self.make_fields()
        self.retired = self.add("retired", Tick(say("no longer used")))
        line = self.form.row("", self.retired)
        self.form.show_rows((line,), self.can_retire and key is not None)
        for hidden in (self._ships, self.take_back):
            set_shown(hidden, False)

    # for kinds of record to override

    def make_fields(self) -> None:
        """Make the fields, named by the keys of the record."""
        raise NotImplementedError

    def offer(self, lists: KnowledgeLists) -> None:
        """Fill the lists of choices."""

    def put_content(self, content: Mapping[str, Any], base: Mapping[str, Any]) -> None:
        """Put a record into the fields."""
        raise NotImplementedError

    def content(self, base: Mapping[str, Any]) -> dict[str, Any]:
        """What stands in the fields, as a record has it. Raises FieldRefusal."""
        raise NotImplementedError

    def told(self, content: Mapping[str, Any]) -> Sequence[tuple[str, str]]:
        """Label and words of what a record says."""
        raise NotImplementedError

    def record_title(self, content: Mapping[str, Any]) -> str:
        """What a record is called."""
        return say(str(content["words"]))

    # fields of the kinds

    def text_row(self, key: str, label: str, *, width: float | None = None) -> Field:
        """A field of words in its own row."""
        field: Field = self.add(key, Field("", width=width))
        self.form.row(label, field)
        return field

    def often_row(self, key: str, label: str, *, text: str = "") -> Field:
        """How often something is seen by itself, in its own row."""
        field: Field = self.add(key, Field("", text=text, width=64))
        self.form.row(label, field, say("% of players, whatever is wrong"))
        return field

    def ratio_note(self) -> None:
        """What a ratio means, below the ratios."""
        told = say("Above 1 raises a suspect, below 1 lowers it; from 0.1 to 10, so that no word settles it.")
        self.form.row("", Label(told, "soft", wrap=True), stretch_last=True)

    def ratios(self, key: str, label: str) -> PairsField:
        """Suspects with their ratio, in its own row."""
        field: PairsField = self.add(
            key, PairsField(say("Name a suspect"), partial(Field, "", width=80), unit=say("times"))
        )
        self.form.row(label, field)
        return field

    # what the base does

    def fetch(self) -> Any:
        book, key = self.desk.book, self.key
        line = None if key is None else knowledge_line(book, self.knowledge, key)
        return knowledge_lists(book), line

    def former_lines(self) -> Sequence[FormerLine[KnowledgeLine]]:
        return former_records(self.desk.book, self.knowledge, self.key)

    def show_found(self, found: Any) -> Any:
        lists, line = found
        self.lists = lists
        self._filling, before = True, self._filling
        self.offer(lists)
        self._filling = before
        return line

    def named_title(self, line: KnowledgeLine) -> str:
        return self.record_title(line.content)

    def put(self, line: KnowledgeLine) -> None:
        self.put_content(line.content, line.base or {})
        self.retired.setChecked(line.retired)
        self._ships.setText(_came(line))
        set_shown(self._ships, True)
        set_shown(self.take_back, line.changed)

    def entry(self) -> KnowledgeLine:
        line: KnowledgeLine | None = self.line
        blank = KnowledgeLine(kind=self.knowledge, code=self.key or "", content={}, base=None)
        base = line.base if line is not None else None
        return replace(
            line or blank,
            content={**self._unseen(), **self.content(base or {})},
            retired=self.retired.isChecked(),
            version=self.version if line is not None else 0,
        )

    def _unseen(self) -> dict[str, Any]:
        """What a record has that no field shows: its id, or rung and arrangement."""
        keys = ("id", "rung", "arrangement")
        return {} if self.line is None else {k: v for k, v in self.line.content.items() if k in keys}

    def deed(self, who: int, entry: KnowledgeLine) -> Callable[[], Any]:
        return partial(
            save_record,
            self.desk.book,
            who,
            entry.kind,
            entry.code,
            entry.content,
            version=entry.version if entry.code else None,
            retired=entry.retired,
        )

    def facts(self, line: KnowledgeLine) -> Sequence[tuple[str, str]]:
        used = say("yes") if line.retired else say("no")
        return (*(self.told(line.content) if line.content else ()), (say("no longer used"), used))

    def _take_back(self) -> None:
        """Let it stand as it ships; what the shop had made of it stays among the former texts."""
        staff = self.desk.staff
        if staff is None:
            self.trouble.show_trouble(say("Say first who works here now, with Ctrl+U."))
            return
        deed = partial(put_back, self.desk.book, staff.id, self.knowledge, self.key, version=self.version)
        self.desk.change(self, deed, self._was_saved, self._not_saved)

    def take_former(self, line: KnowledgeLine) -> None:
        """Let it stand as it once did; what stands there now becomes a former text."""
        staff = self.desk.staff
        if staff is None:
            self.trouble.show_trouble(say("Say first who works here now, with Ctrl+U."))
            return
        deed = partial(bring_back, self.desk.book, staff.id, line, version=self.version)
        self.desk.change(self, deed, self._was_saved, self._not_saved)


def _came(line: KnowledgeLine) -> str:
    """Whether it stands as it ships, and who changed it when."""
    if line.at is None:
        return say("As it ships with the program.")
    values = {"name": line.by, "when": moment(line.at)}
    if line.base is None:
        return say("The shop's own; by {name}, {when}.", **values)
    if line.changed:
        return say("Changed by {name}, {when}; what ships can be taken back.", **values)
    return say("As it ships with the program; taken back by {name}, {when}.", **values)
