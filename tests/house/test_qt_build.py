"""The Qt build that the lock file names is one that does not lose references."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import PySide6

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot


def test_thirty_thousand_texts_leave_the_reference_count_of_none_alone(qtbot: QtBot) -> None:
    # PySide6 6.12.0 on CPython 3.11 drops a reference to None at every call and crashes after some 5,000.
    from PySide6.QtWidgets import QLabel

    label = QLabel()
    qtbot.addWidget(label)
    before = sys.getrefcount(None)
    for number in range(30_000):
        label.setText(f"{number}")
        if number == 1000:  # said here, before the process aborts
            assert abs(sys.getrefcount(None) - before) < 500
    assert label.text() == "29999"
    assert abs(sys.getrefcount(None) - before) < 1000


def test_the_build_is_the_one_that_this_python_needs() -> None:
    if sys.version_info < (3, 12):
        assert PySide6.__version__ == "6.11.2"
    else:
        assert PySide6.__version_info__ >= (6, 12)
