"""A text and its picture on the clipboard together, for as long as the window is there."""

from __future__ import annotations

from PySide6.QtCore import QMimeData
from PySide6.QtGui import QGuiApplication, QImage

OURS = "application/x-spindlebook-copied"


def copy_both(text: str, image: QImage | None) -> None:
    """Put the text there and the picture beside it: what pastes them takes what it can."""
    both = QMimeData()
    both.setText(text)
    both.setData(OURS, b"1")
    if image is not None:
        both.setImageData(image)
    QGuiApplication.clipboard().setMimeData(both)


def leave_text() -> None:
    """As the window goes: of what `copy_both` put there the text stays. The object with both was made by Python and
    would outlive it, and Qt would end in a crash."""
    clipboard = QGuiApplication.clipboard()
    held: QMimeData | None = clipboard.mimeData()  # none where nothing was ever copied
    if held is not None and held.hasFormat(OURS):
        clipboard.setText(clipboard.text())
