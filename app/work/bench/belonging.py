"""Which transport type belongs in a player, and the check before another one is fitted."""

from __future__ import annotations

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.tables import Fitting, Job, Transport, TransportType, Unit
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence


def type_that_belongs(session: Session, unit_id: int) -> str | None:
    """The type of the maker's own transport: as this player's last fitting says, else as most players of its maker
    and model have it. None where the book has neither."""
    fitted = session.execute(
        select(Fitting.as_maker, Fitting.belongs_type, TransportType.name)
        .join(Transport, Transport.id == Fitting.transport_id)
        .join(TransportType, TransportType.id == Transport.type_id)
        .where(Fitting.unit_id == unit_id)
        .order_by(Fitting.fitted_at.desc(), Fitting.id.desc())
    ).first()
    if fitted is not None:
        return str(fitted.name if fitted.as_maker else fitted.belongs_type)
    unit = session.get_one(Unit, unit_id)
    if not unit.model:
        return None
    return session.scalars(
        select(TransportType.name)
        .join(Transport, Transport.type_id == TransportType.id)
        .join(Fitting, Fitting.transport_id == Transport.id)
        .join(Unit, Unit.id == Fitting.unit_id)
        .where(Unit.maker == unit.maker, Unit.model == unit.model, Fitting.as_maker)
        .group_by(TransportType.name)
        .order_by(func.count().desc(), TransportType.name)
    ).first()


def checked_type(session: Session, job: Job, transport: Transport, said: str) -> str:
    """The type that belongs in the job's player when it is another than the transport's, else empty. ``said`` is
    what the technician names; raises FieldRefusal when the types differ and nobody said so."""
    own = session.get_one(TransportType, transport.type_id).name
    named = said.strip()
    if named:
        return "" if named.casefold() == own.casefold() else named
    belongs = type_that_belongs(session, job.unit_id)
    if belongs is None or belongs == own:
        return ""
    raise FieldRefusal(
        {
            "belongs_type": Sentence(
                "{belongs} belongs in this player, and this is {own}. Name {belongs} here to fit it all the same;"
                " it becomes a caution.",
                {"belongs": belongs, "own": own},
            )
        }
    )
