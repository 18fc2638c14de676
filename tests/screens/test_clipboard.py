"""What is copied, and what of it outlives the window."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QClipboard, QGuiApplication, QImage
from PySide6.QtWidgets import QApplication

from app.screens.clipboard import copy_both, leave_text


def test_text_and_picture_go_together_and_the_text_outlives_the_window(qapp: QApplication) -> None:
    clipboard = QGuiApplication.clipboard()
    copy_both("Velk A1\t8", QImage(2, 2, QImage.Format.Format_RGB32))
    assert (clipboard.text(), clipboard.mimeData().hasImage()) == ("Velk A1\t8", True)
    leave_text()
    assert (clipboard.text(), clipboard.mimeData().hasImage()) == ("Velk A1\t8", False)


def test_what_others_copied_is_left_alone(qapp: QApplication) -> None:
    clipboard = QGuiApplication.clipboard()
    clipboard.setImage(QImage(2, 2, QImage.Format.Format_RGB32))
    leave_text()
    assert clipboard.mimeData().hasImage()
    clipboard.clear()


def test_an_empty_clipboard_is_left_alone(qapp: QApplication, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QClipboard, "mimeData", lambda *_: None)
    leave_text()


def test_a_text_without_a_picture_is_copied_too(qapp: QApplication) -> None:
    copy_both("nothing", None)
    assert not QGuiApplication.clipboard().mimeData().hasImage()
    leave_text()
