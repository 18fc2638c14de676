"""How far a value that somebody entered says what the truth is."""

from __future__ import annotations

from enum import StrEnum


class Bound(StrEnum):
    """``EXACT``: the value itself. ``MORE``: a lower bound, typed with ``>``. ``OPEN``: no circuit, no value."""

    EXACT = ""
    MORE = ">"
    OPEN = "open"
