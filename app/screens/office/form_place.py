"""A place on a sheet where one inline form stands open at a time."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.bench.inline_form import InlineForm
from app.screens.kit.boxes import Column


class FormPlace(QWidget):
    """``open(form, back_to)`` shows a form; saved or left it goes, and the focus goes back to ``back_to``.

    `saved` brings what the deed gave, `failed` an error that belongs to no field with the call that tries
    again, `closed` that the place is empty.
    """

    saved = Signal(object)
    failed = Signal(object, object)
    closed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.form: InlineForm | None = None
        self._back_to: QWidget | None = None
        self._after: Callable[[Any], object] | None = None
        self._column = Column(self)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.hide()

    def open(
        self,
        form: InlineForm,
        back_to: QWidget | None = None,
        *,
        after: Callable[[Any], object] | None = None,
        focus: bool = True,
    ) -> None:
        """Show ``form`` with its draft if there is one, in place of the one before; ``after`` is told the
        result when it was saved."""
        self.close_form(focus=False)
        self.form, self._back_to, self._after = form, back_to, after
        form.saved.connect(self._saved)
        form.failed.connect(self.failed)
        form.left.connect(self.close_form)
        self._column.addWidget(form)
        form.show()
        self.show()
        form.take_draft()
        if focus:
            form.focus_first()

    def close_form(self, *, focus: bool = True) -> None:
        """The form goes; what was typed stays in its draft."""
        form, self.form = self.form, None
        if form is None:
            return
        form.hide()
        self._column.removeWidget(form)
        form.deleteLater()
        self.hide()
        self.closed.emit()
        if focus and self._back_to is not None and self._back_to.isVisible():
            self._back_to.setFocus(Qt.FocusReason.OtherFocusReason)

    def _saved(self, result: Any) -> None:
        after = self._after
        self.close_form()
        self.saved.emit(result)
        if after is not None:
            after(result)
