"""Transports: noted, taken out, put in, laid on the shelf; each keeps its whole life."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from sqlalchemy import select

from app.book.door import Book, Change
from app.book.tables import Fitting, Job, PartChange, Transport, TransportType, Unit
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.bench.open_job import open_job, take_as_opened
from app.work.shop_book import Done

LABEL_LOW, LABEL_HIGH = Decimal("0.01"), Decimal("0.2")  # A; refuses typing slips


@dataclass(frozen=True, slots=True)
class TransportChoice:
    """A transport that could be put in: on the shelf, or in a donor."""

    id: int
    type_name: str
    marking: str
    where: str


def note_transport(
    book: Book,
    who: int,
    job_id: int,
    type_id: int,
    marking: str,
    label_current: Decimal | None = None,
    *,
    belongs_type: str = "",
) -> Done[int]:
    """Note the transport found in the job's unit. ``belongs_type`` when another type belongs there."""
    _check_label(label_current)
    with book.change(who, Sentence("noted the transport in the player")) as change:
        job = open_job(change, job_id)
        row = change.add(
            Transport(
                type_id=type_id, marking=marking.strip(), label_current=label_current, created_at=change.now
            )
        )
        _fit(change, row.id, job, belongs_type)
    return Done(row.id, change.changes)


def change_label(
    book: Book, who: int, transport_id: int, marking: str, label_current: Decimal | None, *, version: int
) -> Done[int]:
    """Correct what is written on a transport. Raises StaleRow, FieldRefusal."""
    _check_label(label_current)
    with book.change(who, Sentence("corrected what is written on a transport")) as change:
        row = change.get(Transport, transport_id, version=version)
        row.marking, row.label_current = marking.strip(), label_current
    return Done(transport_id, change.changes)


def take_out(book: Book, who: int, job_id: int, *, shelf: str = "") -> Done[int]:
    """Take the transport out of the job's unit and lay it on a shelf."""
    with book.change(who, Sentence("took the transport out")) as change:
        job = open_job(change, job_id)
        fitting = _open_fitting(change, job)
        if fitting is None:
            raise Refusal(Sentence("No transport is noted in this player."))
        take_as_opened(change, job, change.now, Sentence("a transport taken out"))
        fitting.removed_at, fitting.removed_job_id = change.now, job.id
        change.get(Transport, fitting.transport_id).shelf = shelf.strip()
    return Done(fitting.transport_id, change.changes)


def put_in(book: Book, who: int, job_id: int, transport_id: int, *, belongs_type: str = "") -> Done[int]:
    """Put a transport from the shelf (or out of a donor) into the job's unit. Raises Refusal."""
    with book.change(who, Sentence("put a transport in")) as change:
        job = open_job(change, job_id)
        elsewhere = change.session.scalars(
            select(Fitting).where(Fitting.transport_id == transport_id, Fitting.removed_at.is_(None))
        ).first()
        if elsewhere is not None:
            if not change.get(Unit, elsewhere.unit_id).is_donor:
                raise Refusal(Sentence("This transport is in another unit. Take it out there first."))
            elsewhere.removed_at, elsewhere.removed_job_id = change.now, job.id
        take_as_opened(change, job, change.now, Sentence("a transport put in"))
        change.get(Transport, transport_id).shelf = ""
        change.session.flush()
        _fit(change, transport_id, job, belongs_type)
    return Done(transport_id, change.changes)


def renew_part(
    book: Book,
    who: int,
    job_id: int,
    words: str,
    *,
    same_type: bool = True,
    label_after: Decimal | None = None,
) -> Done[int]:
    """Record that a part of the transport was renewed (pick-up, motor); a new label current may come with it."""
    if not words.strip():
        raise FieldRefusal({"words": Sentence("Say which part was renewed.")})
    _check_label(label_after)
    with book.change(who, Sentence("renewed a part of the transport")) as change:
        job = open_job(change, job_id)
        fitting = _open_fitting(change, job)
        if fitting is None:
            raise Refusal(Sentence("No transport is noted in this player."))
        transport = change.get(Transport, fitting.transport_id)
        take_as_opened(change, job, change.now, Sentence("a part renewed"))
        row = change.add(
            PartChange(
                transport_id=transport.id,
                job_id=job.id,
                words=words.strip(),
                same_type=same_type,
                label_before=transport.label_current,
                label_after=label_after,
                at=change.now,
                by=change.by,
            )
        )
        if label_after is not None:
            transport.label_current = label_after
    return Done(row.id, change.changes)


def _fit(change: Change, transport_id: int, job: Job, belongs_type: str) -> None:
    change.add(
        Fitting(
            transport_id=transport_id,
            unit_id=job.unit_id,
            fitted_at=change.now,
            fitted_job_id=job.id,
            as_maker=not belongs_type.strip(),
            belongs_type=belongs_type.strip(),
        )
    )


def _open_fitting(change: Change, job: Job) -> Fitting | None:
    return change.session.scalars(
        select(Fitting).where(Fitting.unit_id == job.unit_id, Fitting.removed_at.is_(None))
    ).first()


def _check_label(current: Decimal | None) -> None:
    if current is not None and not LABEL_LOW <= current <= LABEL_HIGH:
        raise FieldRefusal({"label_current": Sentence("A label current lies between 10 and 200 mA.")})


def transports_on_hand(book: Book) -> tuple[TransportChoice, ...]:
    """Transports that lie on a shelf or sit in a donor, by type."""
    with book.ask() as session:
        rows = session.execute(
            select(Transport, TransportType.name, Unit.maker, Unit.model, Unit.is_donor)
            .join(TransportType, TransportType.id == Transport.type_id)
            .outerjoin(Fitting, (Fitting.transport_id == Transport.id) & Fitting.removed_at.is_(None))
            .outerjoin(Unit, Unit.id == Fitting.unit_id)
            .where(Transport.scrapped_at.is_(None), (Fitting.id.is_(None)) | Unit.is_donor)
            .order_by(TransportType.name, Transport.marking)
        ).all()
        return tuple(
            TransportChoice(row.id, kind, row.marking, f"{maker} {model}" if donor else row.shelf)
            for row, kind, maker, model, donor in rows
        )
