"""Climbs of the start-up ladder."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass
from decimal import Decimal

from app.book.door import Book
from app.book.tables import StartUpResult, TransportType
from app.trade.bench import start_up
from app.trade.bench.kinds import HowSeen, Warmth
from app.trade.bench.quantities import HIGHEST_RUNG
from app.trade.bench.stages import Moment
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.open_job import open_job, transport_in
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True, kw_only=True)
class StartUpEntry:
    """A climb as entered. ``rung`` is the highest reached, 0 when not even power came on."""

    rung: int
    moment: Moment
    seen: HowSeen = HowSeen.NORMAL_USE
    tries: int = 1
    stopped_in: int | None = None  # None: in all of them, or in none when every rung was reached
    error_shown: str = ""
    disc: str = ""
    warmth: Warmth = Warmth.BETWEEN
    warm_minutes: int | None = None
    room: Decimal | None = None
    trial_id: int | None = None
    trial_side: str = ""
    note: str = ""

    @property
    def result(self) -> start_up.StartUpResult:
        """The climb as the ladder reads it."""
        stopped = self.stopped_in
        if stopped is None:
            stopped = 0 if self.rung == HIGHEST_RUNG else self.tries
        return start_up.StartUpResult(
            rung=self.rung,
            tries=self.tries,
            stopped_in=stopped,
            seen=self.seen,
            warmth=self.warmth,
            warm_minutes=self.warm_minutes,
            room=self.room,
            disc=self.disc.strip(),
            error_shown=self.error_shown.strip(),
        )


def check_start_up(entry: StartUpEntry, not_testable: Container[int] = ()) -> dict[str, Sentence]:
    """A sentence under each field that cannot be right, where ``not_testable`` are the rungs that cannot be seen
    on the transport's type."""
    wrong = start_up.fields_refused(entry.result, not_testable)
    if entry.warm_minutes is not None and not 0 <= entry.warm_minutes <= 24 * 60:
        wrong["warm_minutes"] = Sentence("Minutes of warming up, from 0 to a day.")
    if entry.room is not None and not Decimal(-20) <= entry.room <= Decimal(60):
        wrong["room"] = Sentence("The room is between −20 and 60 °C.")
    return wrong


def record_start_up(book: Book, who: int, job_id: int, entry: StartUpEntry) -> Done[int]:
    """Record how far the player came. Raises FieldRefusal."""
    with book.change(who, Sentence("recorded how far the player starts up")) as change:
        job = open_job(change, job_id)
        transport = transport_in(change, job)
        kind = change.session.get(TransportType, transport.type_id) if transport is not None else None
        if wrong := check_start_up(entry, kind.not_testable if kind is not None else ()):
            raise FieldRefusal(wrong)
        row = change.add(
            StartUpResult(
                job_id=job.id,
                transport_id=transport.id if transport else None,
                rung=entry.rung,
                seen=entry.seen,
                tries=entry.tries,
                stopped_in=entry.result.stopped_in,
                error_shown=entry.error_shown.strip(),
                disc=entry.disc.strip(),
                warmth=entry.warmth,
                warm_minutes=entry.warm_minutes,
                room=entry.room,
                moment=entry.moment,
                trial_id=entry.trial_id,
                trial_side=entry.trial_side,
                note=entry.note.strip(),
                at=change.now,
                by=change.by,
            )
        )
    return Done(row.id, change.changes)
