"""The time zone that this computer keeps, by its name in the IANA list."""

from __future__ import annotations

from contextlib import suppress
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from PySide6.QtCore import QTimeZone


def own_zone() -> str:
    """A name such as ``Europe/Berlin``; empty when the system names none that is known here."""
    name = bytes(QTimeZone.systemTimeZoneId().data()).decode("ascii", "replace")
    with suppress(ZoneInfoNotFoundError, ValueError, OSError):
        return ZoneInfo(name).key
    return ""
