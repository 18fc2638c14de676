"""Readings: typed as people type them, judged under the limits of the day, kept with both."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.catalogue import quantities
from app.book.door import Book, Change
from app.book.kept import kept
from app.book.tables import Fitting, Instrument, Job, Limit, Reading, Transport, TransportType, Unit
from app.trade.bench import verdict as trade
from app.trade.bench.bound import Bound
from app.trade.bench.case import opens_the_case
from app.trade.bench.quantities import Quantity
from app.trade.bench.reading_typed import read_reading
from app.trade.bench.stages import Moment
from app.trade.bench.typed_value import TypedValue
from app.trade.bench.uncertainty import Accuracy, Model, Uncertainty, reading_u, repeated_u
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.bench import worked_out
from app.work.bench.live_ratio import FOLLOWS, modifications_followed, ratio_of
from app.work.bench.open_job import open_job, take_as_opened, transport_in
from app.work.shop_book import Done

EARLIER = "earlier"  # a limit as shares of the same transport's last value before the job


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingEntry:
    """A reading as entered."""

    quantity: str
    typed: str
    moment: Moment
    detail: str = ""
    instrument_id: int | None = None
    trial_id: int | None = None
    trial_side: str = ""  # before, after
    disc: str = ""
    place: str = ""
    warm_minutes: int | None = None
    room: Decimal | None = None
    seconds: int | None = None


@dataclass(frozen=True, slots=True)
class Judged:
    """What a typed value would be: read, with its uncertainty and verdict, and what follows from it besides.
    ``uncertainty`` is SI."""

    typed: TypedValue
    uncertainty: Decimal | None
    verdict: trade.Verdict | None
    limit_words: Sentence | None
    instrument_overdue: bool
    besides: Sentence | None = None


@dataclass(frozen=True, slots=True)
class Recorded:
    """The new reading, and what the book took for granted when it was entered."""

    id: int
    assumed: Sentence | None


def judge_reading(book: Book, job_id: int, entry: ReadingEntry) -> Judged:
    """How the value would be read and judged, for the field to show while typing. Raises FieldRefusal."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        transport = session.scalars(
            select(Transport)
            .join(Fitting, Fitting.transport_id == Transport.id)
            .where(Fitting.unit_id == job.unit_id, Fitting.removed_at.is_(None))
        ).first()
        quantity = _quantity(session, entry.quantity)
        judged, _ = _judge(session, job, transport, quantity, entry, book.today())
        return replace(judged, besides=_besides(session, job, transport, quantity, entry, judged))


def _besides(
    session: Session,
    job: Job,
    transport: Transport | None,
    quantity: Quantity,
    entry: ReadingEntry,
    judged: Judged,
) -> Sentence | None:
    value, u = judged.typed.value, judged.uncertainty
    if value is None or u is None:
        return None
    if quantity.id != worked_out.CURRENT:
        limit = None if judged.verdict is None else judged.verdict.limit
        if quantity.id in FOLLOWS and limit is not None:
            changes = modifications_followed(session, job.unit_id, transport.id if transport else None)
            live = [row for row in changes if row.reversed_at is None]
            return worked_out.as_if_made(quantity, value, u, ratio_of(quantity.id, live), limit)
        said = worked_out.beside(quantity, value, u, entry.place, limit)
        other = _other_direction(session, job, quantity, entry) if said is not None else None
        if said is not None and other is not None:
            return worked_out.with_other_direction(said, quantity, value, other)
        return said
    known = quantities(session)
    if transport is None or not transport.label_current or not value or worked_out.SHARE not in known:
        return None
    _, limit = limit_for(session, job, transport, known[worked_out.SHARE])
    return worked_out.share_of_label(value, u, transport.label_current, limit, known)


def _other_direction(session: Session, job: Job, quantity: Quantity, entry: ReadingEntry) -> Decimal | None:
    """The last tilt of this job in the direction at right angles, read at the same moment of the job."""
    others = worked_out.TILTS - {quantity.id}
    if quantity.id not in worked_out.TILTS:
        return None
    return session.scalars(
        select(Reading.digits)
        .where(
            Reading.job_id == job.id,
            Reading.quantity.in_(others),
            Reading.moment == entry.moment,
            Reading.struck_at.is_(None),
            Reading.digits.is_not(None),
        )
        .order_by(Reading.at.desc(), Reading.id.desc())
        .limit(1)
    ).first()


def record_reading(book: Book, who: int, job_id: int, entry: ReadingEntry) -> Done[Recorded]:
    """Record one reading with the verdict under today's limit. Raises FieldRefusal, Refusal."""
    with book.change(who, Sentence("recorded a reading")) as change:
        job = open_job(change, job_id)
        transport = transport_in(change, job)
        quantity = _quantity(change.session, entry.quantity)
        judged, limit = _judge(change.session, job, transport, quantity, entry, change.today)
        assumed = None
        if quantity.inside and opens_the_case(quantity.id):
            assumed = take_as_opened(change, job, change.now, quantity.name)
        row = _row(change, job, transport, entry, judged, limit)
        change.add(row)
    return Done(Recorded(row.id, assumed), change.changes)


def _row(
    change: Change,
    job: Job,
    transport: Transport | None,
    entry: ReadingEntry,
    judged: Judged,
    limit: Any,
) -> Reading:
    typed, verdict = judged.typed, judged.verdict
    return Reading(
        job_id=job.id,
        transport_id=transport.id if transport else None,
        quantity=entry.quantity,
        detail=entry.detail.strip(),
        typed=typed.typed,
        value=None if typed.value is None else float(typed.value),
        digits=typed.value,
        unit=typed.unit.shown,
        bound=typed.bound.value,
        uncertainty=None if judged.uncertainty is None else float(judged.uncertainty),
        instrument_id=entry.instrument_id,
        instrument_overdue=judged.instrument_overdue,
        moment=entry.moment,
        trial_id=entry.trial_id,
        trial_side=entry.trial_side,
        disc=entry.disc.strip(),
        place=entry.place.strip(),
        warm_minutes=entry.warm_minutes,
        room=entry.room,
        seconds=entry.seconds,
        verdict="" if verdict is None else verdict.word.value,
        probability=None if verdict is None else verdict.probability,
        limit_id=limit.id if limit is not None else None,
        limit_low=None if verdict is None else verdict.limit.low,
        limit_high=None if verdict is None else verdict.limit.high,
        limit_source="" if verdict is None else verdict.limit.source,
        limit_must=verdict is not None and verdict.limit.must,
        rule="" if verdict is None else f"{verdict.rule}, {verdict.rule_version}",
        at=change.now,
        by=change.by,
    )


def _quantity(session: Session, code: str) -> Quantity:
    found = quantities(session).get(code)
    if found is None or found.worked_out:
        raise FieldRefusal({"quantity": Sentence("Choose a quantity from the list.")})
    return found


def _judge(
    session: Session,
    job: Job,
    transport: Transport | None,
    quantity: Quantity,
    entry: ReadingEntry,
    today: date,
) -> tuple[Judged, Any]:
    typed = read_reading(quantity, entry.typed, entry.place)
    if isinstance(typed, Sentence):
        raise FieldRefusal({"value": typed})
    if quantity.asks_name and not entry.detail.strip():
        raise FieldRefusal({"detail": Sentence("Say which one, for example +8 V.")})
    instrument = _instruments(session)[entry.instrument_id] if entry.instrument_id else None
    overdue = instrument is not None and instrument.due_on is not None and instrument.due_on < today
    uncertainty = _uncertainty(quantity, instrument, typed, entry)
    row, limit = limit_for(session, job, transport, quantity, entry.detail.strip())
    if limit is None:
        return Judged(typed, uncertainty, None, None, overdue), None
    found = trade.judge(typed.value, uncertainty or Decimal(0), limit, typed.bound)
    return Judged(typed, uncertainty, found, quantity.limit_words(limit), overdue), row


def _uncertainty(
    quantity: Quantity, instrument: Any, typed: TypedValue, entry: ReadingEntry
) -> Decimal | None:
    """By the instrument's own accuracy where it was entered, else by the quantity's usual one."""
    if typed.value is None or typed.bound is not Bound.EXACT:
        return None
    seconds = None if entry.seconds is None else Decimal(entry.seconds)
    worked: Uncertainty
    own = _accuracy_of(instrument, quantity.model)
    if own is not None:
        model = own
        if typed.repeats:
            worked = repeated_u(model, typed.repeats, seconds)
        else:
            worked = reading_u(model, quantity.repeatability, typed.value, seconds)
    else:
        worked = quantity.uncertainty(typed.repeats or [typed.value], seconds)
    return worked.u


def _accuracy_of(instrument: Any, usual: Model) -> Accuracy | None:
    """An instrument's own accuracy, where it was entered and the quantity is read by one at all."""
    if instrument is None or not isinstance(usual, Accuracy):
        return None
    if instrument.percent is None and instrument.range_percent is None:
        return None
    return Accuracy(
        instrument.percent or Decimal(0),
        instrument.digits or Decimal(0),
        usual.step if instrument.step is None else instrument.step,
        (instrument.range_percent or Decimal(0)) / 100 * (instrument.range_end or Decimal(0)),
    )


def _limits(session: Session) -> dict[str, list[Any]]:
    """The limits in use, by quantity."""

    def read() -> dict[str, list[Any]]:
        found: dict[str, list[Any]] = {}
        limits = Limit.__table__
        for row in session.execute(select(limits).where(limits.c.retired.is_(False)).order_by(limits.c.id)):
            found.setdefault(row.quantity, []).append(row)
        return found

    return kept(session, "limits", read)


def _instruments(session: Session) -> dict[int, Any]:
    """The instruments, by id; retired ones too."""
    instruments = Instrument.__table__
    return kept(session, "instruments", lambda: {row.id: row for row in session.execute(select(instruments))})


def _types(session: Session) -> dict[int, Any]:
    """The transport types, by id."""
    types = TransportType.__table__
    return kept(session, "types", lambda: {row.id: row for row in session.execute(select(types))})


def limit_for(
    session: Session, job: Job, transport: Transport | None, quantity: Quantity, detail: str = ""
) -> tuple[Any, trade.Limit | None]:
    """The limit that holds today: the unit model's, else the transport type's, else the usual window.

    First its row in the shop's list (None for the usual window), then the limit itself.
    """
    kind = _types(session)[transport.type_id] if transport else None
    rows = [row for row in _limits(session).get(quantity.id, ()) if row.detail in ("", detail)]
    of_models = [row for row in rows if row.transport_type_id is None]
    unit = session.get_one(Unit, job.unit_id) if of_models else None
    own_model = [r for r in of_models if unit and (r.unit_maker, r.unit_model) == (unit.maker, unit.model)]
    own_type = [r for r in rows if kind is not None and r.transport_type_id == kind.id]
    for row in sorted(own_model, key=lambda r: -len(r.detail)) + sorted(
        own_type, key=lambda r: -len(r.detail)
    ):
        share = Decimal(1)
        if row.relative_to == "label":
            if transport is None or transport.label_current is None:
                continue
            share = transport.label_current
        elif row.relative_to == EARLIER:
            before = _earlier(session, job, transport, quantity, detail)
            if not before:
                continue
            share = before
        low, high = (None if end is None else end * share for end in (row.low, row.high))
        if share < 0:  # the larger share of a value below 0 is the lower one
            low, high = high, low
        return row, trade.Limit(low, high, row.source, row.version, row.must)
    if quantity.asks_name:
        return None, None
    return None, quantity.window(kind.arrangement if kind else None)


def _earlier(
    session: Session, job: Job, transport: Transport | None, quantity: Quantity, detail: str
) -> Decimal | None:
    """The same transport's last value before this job."""
    if transport is None:
        return None
    return session.scalars(
        select(Reading.digits)
        .where(
            Reading.transport_id == transport.id,
            Reading.quantity == quantity.id,
            Reading.detail == detail,
            Reading.job_id != job.id,
            Reading.at < job.taken_in_at,
            Reading.struck_at.is_(None),
            Reading.bound == "",
            Reading.digits.is_not(None),
        )
        .order_by(Reading.at.desc(), Reading.id.desc())
        .limit(1)
    ).first()


def correct_reading(book: Book, who: int, reading_id: int, typed: str, reason: str) -> Done[Recorded]:
    """Strike a reading out and record the right value under the same conditions, in one action."""
    if not reason.strip():
        raise FieldRefusal(
            {"reason": Sentence("Say why it is struck out: it stays legible with the reason.")}
        )
    with book.change(who, Sentence("corrected a reading")) as change:
        old = change.get(Reading, reading_id)
        job = open_job(change, old.job_id)
        if old.struck_at is not None:
            raise Refusal(Sentence("This is struck out already."))
        entry = ReadingEntry(
            quantity=old.quantity,
            typed=typed,
            moment=old.moment,
            detail=old.detail,
            instrument_id=old.instrument_id,
            trial_id=old.trial_id,
            trial_side=old.trial_side,
            disc=old.disc,
            place=old.place,
            warm_minutes=old.warm_minutes,
            room=old.room,
            seconds=old.seconds,
        )
        transport = change.session.get(Transport, old.transport_id) if old.transport_id else None
        quantity = _quantity(change.session, old.quantity)
        judged, limit = _judge(change.session, job, transport, quantity, entry, change.today)
        old.struck_at, old.struck_by, old.struck_reason = change.now, change.by, reason.strip()
        row = change.add(_row(change, job, transport, entry, judged, limit))
    return Done(Recorded(row.id, None), change.changes)
