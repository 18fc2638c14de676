"""A page that is one form: Enter goes on, Ctrl+Enter saves, Esc leaves and keeps the draft."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.form import LABEL, Form
from app.screens.kit.heading import Heading
from app.screens.language import clock_time, say
from app.screens.page import Page
from app.trade.refusal import FieldRefusal


class FormPage(Page):
    """A form overrides ``draft_key``, ``values()``, ``fill(values)`` and ``save()``.

    What is typed goes to the drafts a second later; ``save`` calls ``saved()`` when the book has it. A
    `FieldRefusal` handed to ``refuse`` puts its sentences under the fields named in ``self.named``.
    """

    draft_key = ""

    def __init__(
        self, desk: Desk, title: str, parent: QWidget | None = None, *, label_width: float = LABEL
    ) -> None:
        super().__init__(desk, parent)
        self.set_title(title)
        self.form = Form(label_width=label_width)
        self.named: dict[str, Any] = {}
        self._filling = False
        self._below = ""
        self.head = Heading(title)
        self.heading.add(self.head)
        self.sheet.add(self.form)
        self.form.typed.connect(self._typed)
        self.form.save_asked.connect(self.save)
        self.form.leave_asked.connect(self.leave_form)
        desk.drafts.kept.connect(self._kept)

    # for forms to override

    def values(self) -> dict[str, Any]:
        """What stands in the form, as JSON can hold it."""
        return {}

    def fill(self, values: Mapping[str, Any]) -> None:
        """Put a draft's values into the fields."""

    def save(self) -> None:
        """Ctrl+Enter."""

    # what the base does

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"save": self.save, "leave": self.leave_form}

    def arrive(self) -> None:
        self.form.first()

    def take_draft(self) -> bool:
        """Fill the form from its draft; False when there is none. Call it once the fields are made."""
        draft = self.desk.drafts.read(self.draft_key) if self.draft_key else None
        if not draft:
            return False
        self._filling = True
        try:
            self.fill(draft)
        finally:
            self._filling = False
        self.tell_below(say("Taken from the draft that was kept."))
        return True

    def set_below(self, below: str) -> None:
        """The soft line under the title, e.g. number and day; the draft's time is told behind it."""
        self._below = below
        self.head.set_below(below)

    def tell_below(self, more: str) -> None:
        """Tell something behind the soft line."""
        self.head.set_below(f"{self._below} {more}".strip())

    def saved(self) -> None:
        """The book has it: forget the draft."""
        if self.draft_key:
            self.desk.drafts.drop(self.draft_key)
        self.head.set_below(self._below)

    def leave_form(self) -> None:
        """Esc: go back; what was typed is kept."""
        self.keep_draft()
        self.desk.back()

    def leave(self) -> bool:
        self.keep_draft()
        return True

    def keep_draft(self) -> None:
        """Hand what stands in the form to the drafts, if anything was typed."""
        if self.draft_key and self._touched:
            self.desk.drafts.keep(self.draft_key, self.values())

    _touched = False

    def refuse(self, refusal: FieldRefusal) -> None:
        """Put each sentence under its field and the focus into the first of them."""
        first: Any = None
        rest: list[str] = []
        for name, field in self.named.items():
            sentence = refusal.fields.get(name)
            if hasattr(field, "set_error"):
                field.set_error(say(sentence) if sentence is not None else "")
                if sentence is not None and first is None:
                    first = field
            elif sentence is not None:
                rest.append(say(sentence))
        rest += [say(s) for name, s in refusal.fields.items() if name not in self.named]
        if rest:
            self.trouble.show_trouble(say("This cannot be saved yet."), " ".join(rest))
        elif first is not None:
            first.setFocus()

    def clear_errors(self) -> None:
        """Take all sentences under fields away."""
        for field in self.named.values():
            if hasattr(field, "set_error"):
                field.set_error("")

    def _typed(self) -> None:
        if not self._filling:
            self._touched = True
            self.keep_draft()

    def _kept(self, form: str) -> None:
        if form == self.draft_key and self._touched and self.isVisible():
            self.tell_below(say("Draft kept, {time}.", time=clock_time(self.desk.now())))
