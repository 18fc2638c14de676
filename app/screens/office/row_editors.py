"""Editors for settings that are a list: closed days, VAT rates, terms. One row each, added and removed."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Row, clear_layout
from app.screens.kit.buttons import Button
from app.screens.kit.combo import Combo
from app.screens.kit.day_field import DayField
from app.screens.kit.fields import Field, TextArea
from app.screens.kit.label import Label
from app.screens.language import current, say
from app.screens.office.setting_editors import Editor
from app.trade.calendar.promise import Closed
from app.trade.office.amounts import parse_percent
from app.trade.office.vat import WORDS, VatCategory, VatRate, percent
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings.terms import TERMS, Term


class Line(QWidget):
    """One row of a list: its fields, and a link that removes it. `typed` tells every change."""

    typed = Signal()
    gone = Signal()

    def __init__(self, number: int) -> None:
        super().__init__()
        self.number = number
        self.remove = Button(say("Remove"), self.gone.emit, kind="quiet")
        self.remove.setAccessibleName(say("Remove row {n}", n=number))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def value(self) -> Any:
        """The value of the row. Raises Refusal."""
        raise NotImplementedError

    def draft(self) -> list[str]:
        """What stands in its fields."""
        raise NotImplementedError


class RowsEditor(Editor):
    """A list of rows with a link that adds one. ``make(number, plain)`` makes a row from a draft, or empty."""

    def __init__(
        self,
        make: Callable[[int, list[str] | None], Line],
        add_words: str,
        to_draft: Callable[[Any], list[str]],
    ) -> None:
        self._box = QWidget()
        super().__init__(self._box)
        self._make, self._to_draft = make, to_draft
        self.lines: list[Line] = []
        self._fixed = False
        self._rows = Column(gap=7)
        self.add = Button(add_words, self._add, kind="quiet")
        column = Column(self._box, gap=7)
        column.addLayout(self._rows)
        column.addWidget(self.add, 0, Qt.AlignmentFlag.AlignLeft)
        self.setFocusProxy(self.add)
        self._box.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def set_name(self, name: str) -> None:
        self.setAccessibleName(name)

    def set_fixed(self, fixed: bool) -> None:
        self._fixed = fixed
        for line in self.lines:
            line.setEnabled(not fixed)
            line.remove.setVisible(not fixed)
        self.add.setVisible(not fixed)

    def value(self) -> Any:
        return tuple(line.value() for line in self.lines)

    def set_value(self, value: Any) -> None:
        self.put_draft([self._to_draft(item) for item in value])

    def draft(self) -> Any:
        return [line.draft() for line in self.lines]

    def put_draft(self, plain: Any) -> None:
        clear_layout(self._rows)
        self.lines = []
        for row in plain:
            self._put(row)

    def _put(self, row: list[str] | None) -> Line:
        line = self._make(len(self.lines) + 1, row)
        line.typed.connect(self.changed)
        line.gone.connect(partial(self._remove, line))
        line.setEnabled(not self._fixed)
        self.lines.append(line)
        self._rows.addWidget(line)
        return line

    def _add(self) -> None:
        line = self._put(None)
        first = next((child for child in line.findChildren(QWidget) if _takes_focus(child)), line)
        first.setFocus(Qt.FocusReason.OtherFocusReason)
        self.changed.emit()

    def _remove(self, line: Line) -> None:
        self.lines.remove(line)
        self._rows.removeWidget(line)
        line.hide()
        line.deleteLater()
        self.add.setFocus(Qt.FocusReason.OtherFocusReason)
        self.changed.emit()


def _takes_focus(child: QWidget) -> bool:
    return child.focusPolicy() != Qt.FocusPolicy.NoFocus and child.focusProxy() is None


# closed days


class _ClosedLine(Line):
    def __init__(self, today: Callable[[], date], number: int, plain: list[str] | None) -> None:
        super().__init__(number)
        first, last, words = plain or ["", "", ""]
        self.first = DayField(say("Closed from, row {n}", n=number), today, width=150)
        self.last = DayField(say("Closed to, row {n}", n=number), today, width=150)
        self.words = Field(say("Why, row {n}", n=number), text=words, hint=say("holiday, weeks away"))
        for field, text in ((self.first, first), (self.last, last)):
            _put_day(field, text)
            field.changed.connect(lambda _: self.typed.emit())
        self.words.changed.connect(lambda _: self.typed.emit())
        row = Row(self, gap=9)
        row.addWidget(self.first, 0, Qt.AlignmentFlag.AlignTop)
        row.add(Label(say("to"), "soft"))
        row.addWidget(self.last, 0, Qt.AlignmentFlag.AlignTop)
        row.add(self.words, stretch=1)
        row.add(self.remove)

    def value(self) -> Closed:
        first = self.first.day()
        if first is None or self.last.is_wrong:
            raise Refusal(Sentence("No day can be read from this. Write 27 Nov, +8 or Fri."))
        return Closed(first, self.last.day() or first, self.words.text())

    def draft(self) -> list[str]:
        return [self.first.text(), self.last.text(), self.words.text()]


def _put_day(field: DayField, text: str) -> None:
    """A day of a draft, or whatever was half typed."""
    try:
        field.set_day(date.fromisoformat(text))
    except ValueError:
        field.set_text(text)


def closed_days_editor(today: Callable[[], date]) -> RowsEditor:
    """For holidays and weeks away; the last day may stay empty for a single day."""
    return RowsEditor(
        lambda number, plain: _ClosedLine(today, number, plain),
        say("Add days"),
        lambda closed: [closed.first.isoformat(), closed.last.isoformat(), closed.words],
    )


# VAT rates


class _RateLine(Line):
    def __init__(self, number: int, plain: list[str] | None) -> None:
        super().__init__(number)
        rate, kind, reason = plain or ["", VatCategory.STANDARD.value, ""]
        self.rate = Field(say("VAT rate, row {n}", n=number), text=rate, width=70)
        kinds = [(category.value, say(WORDS[category])) for category in VatCategory]
        self.kind = Combo(say("Kind of VAT, row {n}", n=number), kinds, kind)
        self.reason = Field(
            say("Why no VAT, row {n}", n=number),
            text=reason,
            hint=say("why no VAT: it stands on the invoice"),
        )
        self.rate.changed.connect(lambda _: self.typed.emit())
        self.kind.changed.connect(lambda _: self._kind_changed())
        self.reason.changed.connect(lambda _: self.typed.emit())
        row = Row(self, gap=9)
        row.add(self.rate, Label("%", "soft"), self.kind)
        row.add(self.reason, stretch=1000)
        row.add(self.remove)
        row.addStretch(1)
        self._kind_changed(tell=False)

    def value(self) -> VatRate:
        kind = VatCategory(self.kind.value())
        reason = self.reason.text() if kind is not VatCategory.STANDARD else ""
        return VatRate(parse_percent(self.rate.text()), kind, reason)

    def draft(self) -> list[str]:
        return [self.rate.text(), str(self.kind.value()), self.reason.text()]

    def _kind_changed(self, *, tell: bool = True) -> None:
        self.reason.setVisible(self.kind.value() != VatCategory.STANDARD)
        if tell:
            self.typed.emit()


def vat_rates_editor() -> RowsEditor:
    """For the shop's VAT rates; the first one is proposed."""
    return RowsEditor(
        _RateLine,
        say("Add a rate"),
        lambda rate: [current().number(percent(rate.rate).value), rate.category.value, rate.reason],
    )


# terms


class _TermLine(Line):
    def __init__(self, number: int, plain: list[str] | None) -> None:
        super().__init__(number)
        lead, text = plain or ["", ""]
        self.lead = Field(
            say("Heading of term {n}", n=number), text=lead, hint=say("printed heavier, may be empty")
        )
        self.text = TextArea(say("Text of term {n}", n=number), text=text, lines=2)
        self.lead.changed.connect(lambda _: self.typed.emit())
        self.text.changed.connect(self.typed)
        top = Row(gap=9)
        top.add(self.lead, stretch=1)
        top.add(self.remove)
        column = Column(self, gap=5)
        column.addLayout(top)
        column.add(self.text)

    def value(self) -> Term:
        """What still reads as it shipped stays that, so that papers go on translating it."""
        lead, text = self.lead.text(), self.text.text()
        return next(
            (term for term in TERMS.default if (say(term.lead), say(term.text)) == (lead, text)),
            Term(lead, text),
        )

    def draft(self) -> list[str]:
        return [self.lead.text(), self.text.text()]


def terms_editor() -> RowsEditor:
    """For the short paragraphs on the intake ticket."""
    return RowsEditor(_TermLine, say("Add a term"), lambda term: [say(term.lead), say(term.text)])
