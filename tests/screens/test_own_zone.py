"""The time zone of this computer, as far as the system names one that is known here."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QByteArray, QTimeZone

from app.screens.own_zone import own_zone


@pytest.mark.parametrize(
    ("told", "zone"),
    [
        (b"Asia/Tokyo", "Asia/Tokyo"),
        (b"UTC", "UTC"),
        (b"CET-1CEST", ""),  # a rule written out, as TZ may hold it (POSIX), is no name
        (b"<+1245>-12:45", ""),
        (b"", ""),
        (b"../etc/passwd", ""),
        ("Zürich".encode("latin-1"), ""),
    ],
)
def test_a_zone_that_is_known_here_is_named_and_nothing_else_is(
    monkeypatch: pytest.MonkeyPatch, told: bytes, zone: str
) -> None:
    monkeypatch.setattr(QTimeZone, "systemTimeZoneId", staticmethod(lambda: QByteArray(told)))
    assert own_zone() == zone
