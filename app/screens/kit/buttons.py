"""Buttons: one main one a page, plain ones, quiet links, and blocked ones that say what holds them."""

from __future__ import annotations

import re
from collections.abc import Callable

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QEnterEvent, QFont, QFontMetricsF, QKeyEvent, QKeySequence, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.shapes import flag_shape, open_box
from app.screens.kit.strokes import LEFT, box, underline, words

_MNEMONIC = re.compile(r"&(?=[^&])")


def key_words(key: str) -> str:
    """A key as this platform writes it, e.g. ``Ctrl+N``."""
    if not key:
        return ""
    native = QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText)
    return native.replace("Return", "Enter")


class Button(QAbstractButton):
    """A button of kind ``main``, ``plain`` or ``quiet`` (a link). ``key`` is shown soft inside; the key
    itself belongs to the action in the menu.

    `done` is emitted when it is pressed and free; while blocked, pressing it emits `held` instead.
    """

    done = Signal()
    held = Signal()

    def __init__(
        self,
        text: str,
        done: Callable[[], object] | None = None,
        *,
        kind: str = "plain",
        key: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.kind = kind
        self._hint = key_words(key)
        self._block = ""
        self._block_level = "gate"
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor if kind == "quiet" else Qt.CursorShape.ArrowCursor)
        self.setText(text)
        self.clicked.connect(self._route)
        if done is not None:
            self.done.connect(done)

    def setText(self, text: str) -> None:
        super().setText(text)
        self._name()
        self.updateGeometry()

    def block(self, reason: str, level: str = "gate") -> None:
        """Hold the button: its words become ``text: reason``, with an open box, or an octagon for ``stop``."""
        self._block, self._block_level = reason, level
        self._name()
        self.updateGeometry()
        self.update()

    def free(self) -> None:
        """Lift the block."""
        self.block("")

    @property
    def blocked(self) -> bool:
        """Whether something holds it."""
        return bool(self._block)

    def words(self) -> str:
        """The words it shows."""
        plain = _MNEMONIC.sub("", self.text()).replace("&&", "&")
        return f"{plain}: {self._block}" if self._block else plain

    def _name(self) -> None:
        self.setAccessibleName(self.words())

    def _route(self) -> None:
        (self.held if self._block else self.done).emit()

    def _font(self) -> QFont:
        return measure.strong() if self.kind == "main" and not self._block else measure.body()

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        wide = QFontMetricsF(self._font()).horizontalAdvance(self.words())
        hint = self._hint_width()
        if self.kind == "quiet" and not self._block:
            return QSize(round(wide + hint + 0.5) + px(4), px(22))
        mark = px(22) if self._block else 0
        return QSize(round(wide + hint + mark + 0.5) + 2 * px(13.5), px(32))

    def minimumSizeHint(self) -> QSize:
        """Without the key, which gives way where there is no room."""
        whole = self.sizeHint()
        return QSize(whole.width() - self._hint_width(), whole.height())

    def _hint_width(self) -> int:
        return measure.width(self._hint) + px(9) if self._hint and not self._block else 0

    def _shows_hint(self) -> bool:
        return bool(self._hint) and self.width() >= self.sizeHint().width()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.modifiers() & (
            Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier
        ):
            self.click()
            return
        super().keyPressEvent(event)

    def enterEvent(self, event: QEnterEvent) -> None:
        self.update()
        super().enterEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        self.update()
        super().leaveEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        if self._block:
            self._paint_blocked(p)
        elif self.kind == "quiet":
            self._paint_quiet(p)
        else:
            self._paint_box(p)

    def _paint_blocked(self, p: QPainter) -> None:
        if self.hasFocus():
            box(p, self.rect(), border="accent", width=2)
        else:
            box(p, self.rect(), border="edge", dashed=True)
        size = px(14)
        mark = QRectF(px(13.5), (self.height() - size) / 2, size, size)
        if self._block_level == "stop":
            flag_shape(p, mark, "stop")
        else:
            open_box(p, mark.adjusted(1, 1, -1, -1), of="soft")
        left = px(13.5) + px(22)
        words(
            p,
            QRect(left, 0, self.width() - left - px(9), self.height()),
            self.words(),
            of="soft",
            font=measure.body(),
        )

    def _paint_quiet(self, p: QPainter) -> None:
        font = measure.body()
        taken = words(
            p, self.rect().adjusted(px(2), 0, 0, 0), self.words(), font=font, of="accent", elide=False
        )
        metrics = QFontMetricsF(font)
        baseline = (self.height() + metrics.ascent() - metrics.descent()) / 2
        hover = self.underMouse() or self.isDown()
        underline(p, px(2), taken, baseline, "accent" if not hover else "text")
        if self._shows_hint():
            words(p, self.rect().adjusted(round(taken) + px(11), 0, 0, 0), self._hint, of="soft", elide=False)
        if self.hasFocus():
            box(p, QRectF(0, 0, taken + px(4), self.height()), border="accent", width=2)

    def _paint_box(self, p: QPainter) -> None:
        main = self.kind == "main"
        rect = QRectF(self.rect())
        if main:
            box(p, rect, fill="accent", border=None)
            if self.isDown() or self.underMouse():
                box(p, rect, fill=ink("on_accent", 0.18 if self.isDown() else 0.08), border=None)
            if self.hasFocus():
                box(p, rect.adjusted(2, 2, -2, -2), border="base", width=2, radius=1)
        else:
            fill = "tint" if self.isDown() else "base" if self.underMouse() else "button"
            focused = self.hasFocus()
            box(p, rect, fill=fill, border="accent" if focused else "edge", width=2 if focused else 1)
        role = "on_accent" if main else "text"
        room = self.rect().adjusted(px(13.5), 0, -px(9), 0)
        taken = words(p, room, self.words(), font=self._font(), of=role, align=LEFT, elide=False)
        if self._shows_hint():
            soft = ink("on_accent", 0.8) if main else ink("soft")
            words(
                p,
                room.adjusted(round(taken) + px(9), 0, 0, 0),
                self._hint,
                font=measure.body(),
                of=soft,
                elide=False,
            )
