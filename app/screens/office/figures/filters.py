"""What is asked for on the pages of figures, kept while one walks from question to question."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from PySide6.QtCore import QObject, Qt

from app.screens.desk import Desk
from app.screens.office.figures.figure_kinds import FigureKind
from app.trade.bench.kinds import Arrangement, FaultGroup
from app.trade.statistics.comebacks import By
from app.trade.statistics.definition import Followed

WHOLE, YEAR, THREE, CHOSEN = "whole", "year", "three", "chosen"


@dataclass(frozen=True, slots=True, kw_only=True)
class Filters:
    """``period`` is one of the words above or a year; the days count where it is chosen. ``window`` and
    ``followed`` are None while the shop's own stand. The others as in a question."""

    period: str | int = WHOLE
    since: date | None = None
    until: date | None = None
    window: int | None = None
    by: By = By.TRANSPORT_TYPE
    transport_type: str = ""
    arrangement: Arrangement | None = None
    maker: str = ""
    model: str = ""
    group: FaultGroup | None = None
    change: str = ""
    technician: int | None = None
    modified: bool | None = None
    followed: Followed | None = None

    def but(self, **changed: Any) -> Filters:
        """The same with some of it changed."""
        return replace(self, **changed)

    def days(self, today: date) -> tuple[date | None, date | None]:
        """From which day of handing back to which; None for an open end."""
        if self.period == CHOSEN:
            return self.since, self.until
        if self.period == YEAR:
            return years_back(today, 1), None
        if self.period == THREE:
            return years_back(today, 3), None
        if isinstance(self.period, int):
            return date(self.period, 1, 1), date(self.period, 12, 31)
        return None, None

    def asked(self, kind: FigureKind, today: date) -> Mapping[str, Any]:
        """What of a question is asked for on a page of this kind; the rest is the shop's own."""
        since, until = self.days(today)
        found: dict[str, Any] = {"since": since, "until": until}
        for name in _EVERY:
            found[name] = getattr(self, name)
        if kind.parted:
            found["by"] = self.by
        if kind.within and self.window is not None:
            found["window"] = self.window
        if kind.modified:
            found["modified"] = self.modified
        if kind.followed and self.followed is not None:
            found["followed"] = self.followed
        return found

    def narrowed(self, kind: FigureKind) -> bool:
        """Whether any filter that stands on a page of this kind keeps jobs out."""
        usual = Filters()
        names = ("period", *_EVERY, *(("modified",) if kind.modified else ()))
        return any(getattr(self, name) != getattr(usual, name) for name in names)

    def cleared(self) -> Filters:
        """Every job again; what they are parted by, the window and what is followed stay."""
        return Filters(by=self.by, window=self.window, followed=self.followed)


_EVERY = ("transport_type", "arrangement", "maker", "model", "group", "change", "technician")


def years_back(day: date, years: int) -> date:
    """The same day of an earlier year; of 29 February the 28th."""
    try:
        return day.replace(year=day.year - years)
    except ValueError:
        return day.replace(year=day.year - years, day=28)


class Asked(QObject):
    """The filters of one window: what was set on one page of figures is asked on the next."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.filters = Filters()


def asked_at(desk: Desk) -> Asked:
    """What the window of this desk asks for."""
    found = desk.findChild(Asked, options=Qt.FindChildOption.FindDirectChildrenOnly)
    return found if found is not None else Asked(desk)
