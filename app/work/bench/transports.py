"""Transports: noted, taken out, put in, moved from one player into another; each keeps its whole life."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from sqlalchemy import select

from app.book.door import Book, Change
from app.book.tables import Fitting, Job, PartChange, Transport, TransportType, Unit
from app.trade.bench.stages import Stage
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.bench.belonging import checked_type, type_that_belongs
from app.work.bench.open_job import open_job, take_as_opened
from app.work.shop_book import Done

LABEL_LOW, LABEL_HIGH = Decimal("0.01"), Decimal("0.2")  # A; refuses typing slips


@dataclass(frozen=True, slots=True)
class TransportChoice:
    """A transport that could be put in: on the shelf, in a donor, or in another player that is on a job here.
    ``job_number`` is that of the other job; ``other_type``: it is not of the type that belongs in this player."""

    id: int
    type_name: str
    marking: str
    where: str
    job_number: int | None = None
    other_type: bool = False


@dataclass(frozen=True, slots=True)
class TransportChoices:
    """What could be put into the player of a job, those of the type that ``belongs`` there first. ``belongs`` is
    empty where the book does not know it."""

    belongs: str
    choices: tuple[TransportChoice, ...]


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
    """Put a transport from the shelf (or out of a donor) into the job's unit. Raises Refusal, FieldRefusal."""
    with book.change(who, Sentence("put a transport in")) as change:
        job = open_job(change, job_id)
        elsewhere = _where(change, transport_id)
        if elsewhere is not None and not change.get(Unit, elsewhere.unit_id).is_donor:
            raise Refusal(Sentence("This transport is in another unit. Take it out there first."))
        _bring(change, job, transport_id, elsewhere, belongs_type)
    return Done(transport_id, change.changes)


def move_transport(
    book: Book, who: int, job_id: int, transport_id: int, *, belongs_type: str = "", shelf: str = ""
) -> Done[int]:
    """In one step: out of where it is, into the job's unit; what was in there goes onto ``shelf``.

    It may come from a shelf, from a donor, or from another player that is on a job here; both jobs and both
    players keep it in their history. Raises Refusal where the other player is with its customer, FieldRefusal
    where another type belongs in this unit and ``belongs_type`` does not say so.
    """
    source = _named(book, transport_id)
    with book.change(who, source) as change:
        job = open_job(change, job_id)
        elsewhere = _where(change, transport_id)
        if elsewhere is not None and elsewhere.unit_id == job.unit_id:
            raise Refusal(Sentence("This transport is in this player already."))
        before = _open_fitting(change, job)
        if before is not None:
            before.removed_at, before.removed_job_id = change.now, job.id
            change.get(Transport, before.transport_id).shelf = shelf.strip()
        _bring(change, job, transport_id, elsewhere, belongs_type)
    return Done(transport_id, change.changes)


def _named(book: Book, transport_id: int) -> Sentence:
    """What history calls the move: which transport, and where it came from."""
    with book.ask() as session:
        row, kind, unit = session.execute(_PLACES.where(Transport.id == transport_id)).one()
        of: Unit | None = unit
        moved = {"transport": f"{kind} {row.marking}".strip()}
        if of is None:
            return Sentence("moved transport {transport} here from the shelf", moved)
        name = f"{of.maker} {of.model}".strip()
        return Sentence("moved transport {transport} here out of {player}", {**moved, "player": name})


def _where(change: Change, transport_id: int) -> Fitting | None:
    return change.session.scalars(
        select(Fitting).where(Fitting.transport_id == transport_id, Fitting.removed_at.is_(None))
    ).first()


def _bring(change: Change, job: Job, transport_id: int, elsewhere: Fitting | None, belongs_type: str) -> None:
    """End its stay elsewhere and begin the one here; the other player's own job, if it has one, did the ending."""
    transport = change.get(Transport, transport_id)
    belongs = checked_type(change.session, job, transport, belongs_type)
    if elsewhere is not None:
        giver = _job_of(change, elsewhere.unit_id)
        elsewhere.removed_at, elsewhere.removed_job_id = change.now, (giver or job).id
        if giver is not None:
            take_as_opened(change, giver, change.now, Sentence("a transport taken out"))
    take_as_opened(change, job, change.now, Sentence("a transport put in"))
    transport.shelf = ""
    change.session.flush()
    _fit(change, transport_id, job, belongs)


def _job_of(change: Change, unit_id: int) -> Job | None:
    """The job that a player is here for; None for a donor. Raises Refusal where it is with its customer."""
    job = change.session.scalars(
        select(Job).where(Job.unit_id == unit_id, Job.stage != Stage.HANDED_BACK)
    ).first()
    if job is None and not change.get(Unit, unit_id).is_donor:
        raise Refusal(
            Sentence("This transport is in a player that is not in the shop."),
            Sentence("If it is on the bench all the same, take that player in first."),
        )
    return job


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


_PLACES = (
    select(Transport, TransportType.name, Unit)
    .join(TransportType, TransportType.id == Transport.type_id)
    .outerjoin(Fitting, (Fitting.transport_id == Transport.id) & Fitting.removed_at.is_(None))
    .outerjoin(Unit, Unit.id == Fitting.unit_id)
    .where(Transport.scrapped_at.is_(None))
)


def transports_on_hand(book: Book) -> tuple[TransportChoice, ...]:
    """Transports that lie on a shelf or sit in a donor, by type."""
    with book.ask() as session:
        rows = session.execute(
            _PLACES.where((Fitting.id.is_(None)) | Unit.is_donor).order_by(
                TransportType.name, Transport.marking
            )
        ).all()
        return tuple(_choice(row, kind, unit) for row, kind, unit in rows)


def transports_for(book: Book, job_id: int) -> TransportChoices:
    """What could go into the player of a job: as `transports_on_hand`, and out of other players on jobs here."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        belongs = type_that_belongs(session, job.unit_id) or ""
        rows = session.execute(
            _PLACES.add_columns(Job.number)
            .outerjoin(Job, (Job.unit_id == Unit.id) & (Job.stage != Stage.HANDED_BACK))
            .where(
                (Fitting.id.is_(None)) | Unit.is_donor | Job.id.is_not(None),
                (Unit.id.is_(None)) | (Unit.id != job.unit_id),
            )
            .order_by(TransportType.name, Transport.marking)
        ).all()
        choices = [
            replace(_choice(row, kind, unit), job_number=number, other_type=bool(belongs) and kind != belongs)
            for row, kind, unit, number in rows
        ]
        # Free ones before those that another player would miss, the type that belongs here before others.
        choices.sort(key=lambda choice: (choice.other_type, choice.job_number is not None))
        return TransportChoices(belongs, tuple(choices))


def _choice(row: Transport, kind: str, unit: Unit | None) -> TransportChoice:
    where = f"{unit.maker} {unit.model}".strip() if unit is not None else row.shelf
    return TransportChoice(row.id, kind, row.marking, where)
