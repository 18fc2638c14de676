"""A field for a day, typed as people write it; the day read is shown beside it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.screens import language
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.calendar.day_words import read_day


class DayField(Field):
    """``27 Nov``, ``27.11.``, ``+8``, ``Fri``, ``yesterday``. On leaving it, what was read replaces what was typed.

    ``day()`` is None when it is empty; ``is_wrong`` tells words that are no day. `day_changed` carries the day.
    """

    day_changed = Signal(object)

    def __init__(
        self,
        name: str,
        today: Callable[[], date],
        *,
        day: date | None = None,
        width: float = 140,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(name, width=width, hint=say("27 Nov, +8, Fri"), parent=parent)
        self._today = today
        self._day: date | None = None
        self.changed.connect(self._read)
        self.left.connect(self._settle)
        self.entered.connect(self._settle)
        self.set_day(day)

    def day(self) -> date | None:
        """The day that was read."""
        return self._day

    @property
    def is_wrong(self) -> bool:
        """Whether something stands in it that is no day."""
        return bool(self.text()) and self._day is None

    def set_day(self, day: date | None) -> None:
        """Put a day in, written in full."""
        self.set_text(self._written(day) if day is not None else "")
        self.set_echo("")

    def _written(self, day: date) -> str:
        return language.day(day, "EEE d MMM y").replace("\u00a0", " ")

    def _read(self, text: str) -> None:
        before = self._day
        self._day = read_day(text, self._today()) if text.strip() else None
        if self._day is None:
            self.set_echo("")
        else:
            self.set_error("")
            written = self._written(self._day)
            away = (self._day - self._today()).days
            self.set_echo(_how_far(away) if text.strip() == written else f"{written}, {_how_far(away)}")
        if self._day != before:
            self.day_changed.emit(self._day)

    def _settle(self) -> None:
        if self._day is not None:
            if self.text() != self._written(self._day):
                self.set_text(self._written(self._day))
        elif self.text():
            self.set_error(say("No day can be read from this. Write 27 Nov, +8 or Fri."))


def _how_far(days: int) -> str:
    match days:
        case 0:
            return say("today")
        case 1:
            return say("tomorrow")
        case -1:
            return say("yesterday")
        case _ if days > 0:
            return say("in {count} days", count=days)
        case _:
            return say("{count} days ago", count=-days)
