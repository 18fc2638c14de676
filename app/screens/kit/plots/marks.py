"""A mark of a picture as someone meets it: by the pointer, by the keys, by the ear."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF

from app.screens.language import current
from app.trade.sentence import Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """``panel`` counts the panels of the picture from 0; ``told`` says the mark in the window's language; ``jobs``
    are the keys of the jobs behind it."""

    panel: int
    key: str
    name: str
    told: str
    jobs: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """Where a mark stands, in px of its panel: it answers to the pointer within ``rect``. The keys go along ``along``
    within a ``line`` and from line to line."""

    mark: Mark
    line: int
    along: float
    at: QPointF
    rect: QRectF


def worded(value: Value) -> str:
    """A name in the window's language, in one line."""
    return " ".join(current().value(value).split())
