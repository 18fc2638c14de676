"""What stands beside the value that is being typed: where it lies, what was read before, and why its verdict."""

from __future__ import annotations

from decimal import Decimal
from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.gauge_view import GaugeView
from app.screens.bench.inline_form import InlineForm, told
from app.screens.bench.reading_rows import gauge_facts, limit_words, verdict_words
from app.screens.kit.cells import Words
from app.screens.language import moment, say
from app.screens.threads import Ticket
from app.trade.bench.guard_band import guard_words
from app.trade.bench.quantities import Quantity
from app.trade.bench.verdict import VerdictWord
from app.work.bench.earlier_values import NOTHING, EarlierValues, earlier_values
from app.work.bench.readings import Judged
from app.work.bench.sheet_lines import ReadingLine

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class BesideLines:
    """Two lines under the value of a reading's form: why its verdict, and what was read before."""

    def __init__(self, form: InlineForm, page: JobSheetPage) -> None:
        self._form, self._page = form, page
        self._asked: Ticket | None = None
        self.earlier = NOTHING
        self.why, self.known = told(), told()
        self._rows = [(label, form.form.row("", label)) for label in (self.why, self.known)]
        self._show()

    def ask(self, quantity: Quantity | None, detail: str) -> None:
        """Look up what was read of a quantity before."""
        self._tell(NOTHING)
        if self._asked is not None:
            self._asked.cancel()
        if quantity is not None:
            desk, which = self._page.desk, detail if quantity.asks_name else ""
            ask = partial(earlier_values, desk.book, self._page.job_id, quantity.id, which)
            self._asked = desk.doors.look_up(
                self._form, ask, self._tell, lambda error: self._form.failed.emit(error, None)
            )

    def _tell(self, earlier: EarlierValues) -> None:
        self.earlier = earlier
        self.known.setText(known_words(earlier))
        self._show()

    def show_judged(self, gauge: GaugeView, judged: Judged, asked: bool) -> None:
        """The gauge with the verdict behind it, and under it why; the guard band where ``asked`` for."""
        self.why.setText(why_words(judged, asked))
        self._show()
        verdict, unit = judged.verdict, judged.typed.unit
        if verdict is None:
            gauge.show_value(None, Words(say("no limit"), soft=True))
            return
        low, high = _shown_ends(judged)
        said = verdict_words(verdict.word, verdict.probability)
        second = ", ".join(part for part in (said.second, limit_words(low, high)) if part)
        facts = None
        if judged.typed.shown is not None:
            u = None if judged.uncertainty is None else unit.to_shown(judged.uncertainty)
            last = None if self.earlier.last is None else self.earlier.last.value
            facts = gauge_facts(judged.typed.shown, u, low, high, verdict.word, last)
        gauge.show_value(facts, Words(said.text, second, said.strong, ink=said.ink))

    def clear(self) -> None:
        """Nothing is judged."""
        self.why.setText("")
        self._show()

    def _show(self) -> None:
        for label, row in self._rows:
            self._form.form.show_rows([row], bool(label.text()))


def known_words(known: EarlierValues) -> str:
    """This transport's last value, and the shop's median of its type."""
    said = []
    if known.last is not None and known.last_at is not None:
        when = moment(known.last_at, "d MMM y")
        said.append(say("Last {value}, {day}, job {job}.", value=known.last, day=when, job=known.last_job))
    if known.median is not None:
        said.append(
            say("Median of {n} other {type}: {value}.", n=known.count, type=known.type, value=known.median)
        )
    return " ".join(said)


def why_words(judged: Judged, asked: bool) -> str:
    """What follows from the value, and the guard band where it is asked for or decides."""
    said = [say(judged.besides)] if judged.besides is not None else []
    verdict = judged.verdict
    if (
        verdict is not None
        and judged.uncertainty is not None
        and (asked or verdict.word is VerdictWord.CLOSE)
    ):
        unit, (low, high) = judged.typed.unit, _shown_ends(judged)
        u = unit.to_shown(judged.uncertainty)
        said += [say(s) for s in guard_words(low, high, u, verdict.probability, unit.shown)]
    return " ".join(said)


def guard_of_line(line: ReadingLine) -> str:
    """The guard band of a reading in the book, as it stood that day; empty where it had no limit."""
    if line.verdict is None or line.uncertainty is None or (line.low is None and line.high is None):
        return ""
    return " ".join(
        say(s) for s in guard_words(line.low, line.high, line.uncertainty, line.probability, line.unit)
    )


def _shown_ends(judged: Judged) -> tuple[Decimal | None, Decimal | None]:
    assert judged.verdict is not None
    low, high = judged.verdict.limit.low, judged.verdict.limit.high
    to_shown = judged.typed.unit.to_shown
    return None if low is None else to_shown(low), None if high is None else to_shown(high)
