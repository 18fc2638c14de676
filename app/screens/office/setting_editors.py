"""An editor for each plain kind of setting: it reads what is typed, shows it, and says what cannot be right."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Flow
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field, Sentence, TextArea
from app.screens.kit.measure import fix
from app.screens.kit.tick import Tick
from app.screens.language import current, say
from app.trade.money import decimals
from app.trade.office.amounts import parse_price, shown
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence as Said

MOST_WORDS = 5  # more than five choices stand in a combo box
TEXT_WIDTH = 440


class Editor(QWidget):
    """One editor. ``value()`` raises Refusal for what cannot be read; ``draft`` and ``put_draft`` keep what
    stands in it as JSON, also while it cannot be read. `changed` tells every change by hand."""

    changed = Signal()

    def __init__(self, inner: QWidget, *, wide: bool = True) -> None:
        super().__init__()
        self.inner = inner
        self._error = Sentence(self)
        self._error.hide()
        Column(self, gap=2).add(inner, self._error)
        self.setFocusProxy(inner)
        self.setSizePolicy(
            QSizePolicy.Policy.Expanding if wide else QSizePolicy.Policy.Preferred,
            QSizePolicy.Policy.Minimum,
        )

    def set_name(self, name: str) -> None:
        """What a screen reader calls it."""
        self.setAccessibleName(name)
        namer: Any = self.inner
        if hasattr(namer, "set_name"):
            namer.set_name(name)
        else:
            self.inner.setAccessibleName(name)

    def set_error(self, sentence: str) -> None:
        """Why it cannot be right, below it; empty for none."""
        self._error.setText(sentence)
        self._error.setVisible(bool(sentence))
        self.inner.setAccessibleDescription(sentence)
        self.inner.setProperty("wrong", bool(sentence))
        self.inner.update()

    def error(self) -> str:
        """The sentence below it."""
        return self._error.text()

    def set_fixed(self, fixed: bool) -> None:
        """Only to be read."""
        self.inner.setEnabled(not fixed)

    def value(self) -> Any:
        """The value as read. Raises Refusal."""
        raise NotImplementedError

    def set_value(self, value: Any) -> None:
        """Put a value in."""
        raise NotImplementedError

    def draft(self) -> Any:
        """What stands in it, as JSON can hold it."""
        raise NotImplementedError

    def put_draft(self, plain: Any) -> None:
        """Put back what `draft` gave."""
        raise NotImplementedError


class TypedEditor(Editor):
    """One line that is read by ``parse`` and written by ``write``."""

    def __init__(
        self,
        parse: Callable[[str], Any],
        write: Callable[[Any], str],
        *,
        width: float | None = None,
        seen: Sequence[str] = (),
        hint: str = "",
    ) -> None:
        self.field = Field("", width=width, seen=seen, hint=hint)
        super().__init__(self.field, wide=width is None)
        self._parse, self._write = parse, write
        self.field.changed.connect(lambda _: self.changed.emit())

    def set_error(self, sentence: str) -> None:
        self.field.set_error(sentence)

    def error(self) -> str:
        return self.field.error()

    def set_fixed(self, fixed: bool) -> None:
        self.field.set_fixed(fixed)

    def value(self) -> Any:
        return self._parse(self.field.text())

    def set_value(self, value: Any) -> None:
        self.field.set_text(self._write(value))

    def draft(self) -> Any:
        return self.field.text()

    def put_draft(self, plain: Any) -> None:
        self.field.set_text(str(plain))


class AreaEditor(Editor):
    """Several lines: a paragraph, or with ``by_line`` one value for each line.

    ``shipped`` is the text that came with the program: while it reads as that, papers go on translating it.
    """

    def __init__(self, *, by_line: bool = False, lines: int = 3, shipped: str = "") -> None:
        self.area = TextArea("", lines=lines)
        super().__init__(self.area, wide=not by_line)
        if by_line:
            fix(self.area, width=TEXT_WIDTH)
        self._by_line, self._shipped = by_line, shipped
        self.area.changed.connect(self.changed)

    def set_fixed(self, fixed: bool) -> None:
        self.area.setReadOnly(fixed)
        self.area.setProperty("fixed", fixed)

    def value(self) -> Any:
        text = self.area.text()
        if not self._by_line:
            return self._shipped if self._shipped and text == say(self._shipped) else text
        return tuple(line.strip() for line in text.split("\n")) if text else ()

    def set_value(self, value: Any) -> None:
        if self._by_line:
            self.area.set_text("\n".join(value))
        else:
            self.area.set_text(say(value) if value and value == self._shipped else value)

    def draft(self) -> Any:
        return self.area.text()

    def put_draft(self, plain: Any) -> None:
        self.area.set_text(str(plain))


class ChoiceEditor(Editor):
    """One of the values offered: up to five in a row, else a combo box."""

    def __init__(self, options: Sequence[tuple[Any, str]]) -> None:
        self._choice: Any = Choice("", options) if len(options) <= MOST_WORDS else Combo("", options)
        super().__init__(self._choice, wide=False)
        self._keys = [key for key, _ in options]
        self._choice.changed.connect(lambda _: self.changed.emit())

    def value(self) -> Any:
        return self._choice.value()

    def set_value(self, value: Any) -> None:
        self._choice.set_value(value if value in self._keys else None)

    def draft(self) -> Any:
        return self.value()

    def put_draft(self, plain: Any) -> None:
        self.set_value(plain)


class YesNoEditor(Editor):
    """A box to tick, with the words of the setting beside it."""

    def __init__(self, words: str) -> None:
        self.tick = Tick(words)
        super().__init__(self.tick, wide=False)
        self.tick.toggled.connect(lambda _: self.changed.emit())

    def value(self) -> Any:
        return self.tick.isChecked()

    def set_value(self, value: Any) -> None:
        self.tick.setChecked(bool(value))

    def draft(self) -> Any:
        return self.value()

    def put_draft(self, plain: Any) -> None:
        self.set_value(plain)


class WeekdaysEditor(Editor):
    """Seven boxes, Monday first."""

    def __init__(self, names: Sequence[str]) -> None:
        self._box = QWidget()
        self.ticks = [Tick(name) for name in names]
        Flow(self._box, gap=14, line_gap=2).add(*self.ticks)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self._box.setSizePolicy(policy)
        super().__init__(self._box)
        self.setFocusProxy(self.ticks[0])
        for tick in self.ticks:
            tick.toggled.connect(lambda _: self.changed.emit())

    def set_name(self, name: str) -> None:
        self.setAccessibleName(name)
        for tick in self.ticks:
            tick.setAccessibleName(f"{name}: {tick.text()}")

    def value(self) -> Any:
        return frozenset(day for day, tick in enumerate(self.ticks, start=1) if tick.isChecked())

    def set_value(self, value: Any) -> None:
        for day, tick in enumerate(self.ticks, start=1):
            tick.setChecked(day in value)

    def draft(self) -> Any:
        return sorted(self.value())

    def put_draft(self, plain: Any) -> None:
        self.set_value(frozenset(plain))


def whole(text: str) -> int:
    """A whole number as typed. Raises Refusal."""
    if not text.isascii() or not text.isdigit() or len(text) > 9:
        raise Refusal(Said("Write a whole number."))
    return int(text)


def decimal(text: str) -> Decimal:
    """A number as typed, with point or comma. Raises Refusal."""
    plain = text.replace(",", ".")
    figures = plain.replace(".", "", 1)
    if not figures.isascii() or not figures.isdigit() or len(figures) > 12:
        raise Refusal(Said("Write a number, such as 1.5."))
    return Decimal(plain)


def whole_editor() -> TypedEditor:
    """For a whole number."""
    return TypedEditor(whole, str, width=90)


def decimal_editor() -> TypedEditor:
    """For a number with decimals."""
    return TypedEditor(decimal, lambda value: current().number(value), width=90)


def price_editor(currency: str) -> TypedEditor:
    """For a price in millionths of the shop's money."""
    return TypedEditor(
        lambda text: parse_price(text, currency) if text else 0,
        lambda micro: current().number(shown(micro, decimals(currency))),
        width=110,
    )


def text_editor(seen: Sequence[str] = ()) -> TypedEditor:
    """For one line of words."""
    return TypedEditor(str.strip, str, width=TEXT_WIDTH, seen=seen)
