"""Climbs of the start-up ladder."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from app.book.door import Book
from app.book.tables import StartUpResult
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


def check_start_up(entry: StartUpEntry) -> dict[str, Sentence]:
    """A sentence under each field that cannot be right."""
    wrong: dict[str, Sentence] = {}
    if not 0 <= entry.rung <= HIGHEST_RUNG:
        wrong["rung"] = Sentence(
            "The ladder has rungs 1 to {top}; 0 is not even power.", {"top": HIGHEST_RUNG}
        )
    if not 1 <= entry.tries <= 99:
        wrong["tries"] = Sentence("Say how many tries there were, from 1 to 99.")
    elif entry.stopped_in is not None and not 0 <= entry.stopped_in <= entry.tries:
        wrong["stopped_in"] = Sentence("It cannot stop in more tries than there were.")
    if entry.warm_minutes is not None and not 0 <= entry.warm_minutes <= 24 * 60:
        wrong["warm_minutes"] = Sentence("Minutes of warming up, from 0 to a day.")
    if entry.room is not None and not Decimal(-20) <= entry.room <= Decimal(60):
        wrong["room"] = Sentence("The room is between −20 and 60 °C.")
    return wrong


def record_start_up(book: Book, who: int, job_id: int, entry: StartUpEntry) -> Done[int]:
    """Record how far the player came. Raises FieldRefusal."""
    wrong = check_start_up(entry)
    if wrong:
        raise FieldRefusal(wrong)
    stopped = entry.stopped_in
    if stopped is None:
        stopped = 0 if entry.rung == HIGHEST_RUNG else entry.tries
    with book.change(who, Sentence("recorded how far the player starts up")) as change:
        job = open_job(change, job_id)
        transport = transport_in(change, job)
        row = change.add(
            StartUpResult(
                job_id=job.id,
                transport_id=transport.id if transport else None,
                rung=entry.rung,
                seen=entry.seen,
                tries=entry.tries,
                stopped_in=stopped,
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
