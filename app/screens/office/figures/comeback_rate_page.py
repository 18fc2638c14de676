"""Which repairs come back: the page of rates, with each group explained against the rest and parted once more."""

from __future__ import annotations

from functools import partial
from typing import Any

from app.screens.bench.failures import tell
from app.screens.office.figures.figure_page import FigurePage
from app.screens.office.figures.group_reasons import GroupReasons
from app.trade.statistics.comeback_rates import Rate
from app.trade.statistics.table import Line, Table
from app.work.statistics.comeback_rate import ComebackRates, RateRow
from app.work.statistics.group_reasons import Parted, parted_again, rates_of

FIGURE = "comeback-rate"


class ComebackRatePage(FigurePage):
    """The page ``figure`` of comeback rates. Marking a group explains it; which parts of it stand out is counted
    meanwhile."""

    def __init__(self, desk: Any, key: str = FIGURE, parent: Any = None) -> None:
        super().__init__(desk, key, parent)
        self.reasons = (GroupReasons(), GroupReasons())
        self._rates: dict[str, Rate] = {}
        self._parting: Any = None
        for view, reasons in zip((self.why, self.why_below), self.reasons, strict=True):
            view.group_column.add(reasons)
            view.own_stops = [reasons.counted, reasons.came, reasons.all_jobs, reasons.split]
            reasons.opened.connect(self.show_jobs)

    def put_away(self) -> None:
        super().put_away()
        if self._parting is not None:
            self._parting.cancel()

    def shown(self) -> None:
        assert self.found is not None
        assert isinstance(self.found.answer, ComebackRates)
        self._rates = rates_of(self.found.answer)
        super().shown()

    def explain(self, table: Table, line: Line) -> None:
        super().explain(table, line)
        row = self._row(line.key)
        for view, reasons in zip((self.why, self.why_below), self.reasons, strict=True):
            view.show_own(row is not None)
            if row is not None and self.found is not None:
                rate = self._rates[row.label]
                view.title.setText(reasons.show_rate(row, rate, self.found.answer.question))
        if row is not None:
            self._part(row)

    def _row(self, label: str) -> RateRow | None:
        answer = self.found.answer if self.found is not None else None
        rows = answer.rows if isinstance(answer, ComebackRates) else ()
        return next((row for row in rows if row.label == label), None)

    def _part(self, row: RateRow) -> None:
        assert self.found is not None
        if self._parting is not None:
            self._parting.cancel()
        self._parting = self.desk.doors.look_up(
            self,
            partial(parted_again, self.desk.book, self.found.answer.question, row),
            self._parted,
            partial(tell, self.trouble),
        )

    def _parted(self, parted: Parted) -> None:
        for reasons in self.reasons:
            reasons.show_parted(parted)
