"""The wheel never changes a value in a field that has no focus: it scrolls the sheet instead."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import QAbstractSlider, QAbstractSpinBox, QApplication, QComboBox, QScrollBar, QWidget

_FIELDS = (QComboBox, QAbstractSpinBox, QAbstractSlider)


class WheelGuard(QObject):
    """An event filter for the whole program; make it once, with the application as its parent."""

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        app.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Polish and isinstance(watched, _FIELDS):
            if watched.focusPolicy() == Qt.FocusPolicy.WheelFocus:
                watched.setFocusPolicy(Qt.FocusPolicy.StrongFocus)  # else the wheel itself gives the focus
            return False
        if event.type() != QEvent.Type.Wheel or not isinstance(watched, QWidget):
            return False
        field = _value_field(watched)
        if field is None or field.hasFocus():
            return False
        event.ignore()  # so that it goes on to the sheet around the field
        return True


def _value_field(watched: QWidget) -> QWidget | None:
    """The field whose value a wheel on ``watched`` would change."""
    for widget in (watched, watched.parentWidget()):
        if isinstance(widget, QScrollBar):
            return None
        if isinstance(widget, _FIELDS):
            return widget
    return None
