"""Parts in the life of a player: those fitted on its jobs, and those taken out of it once it is a donor."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from sqlalchemy import Select, select
from sqlalchemy.orm import Session

from app.book.tables import Job, Part, PartMove, Staff
from app.trade.office.stock import MoveKind
from app.work.office.parts import pieces


@dataclass(frozen=True, slots=True)
class UnitPart:
    """A part that went into a player, or came out of it. ``job`` is the number that people say."""

    part_id: int
    code: str
    words: str
    rating: str
    safety_critical: bool
    unit: str
    quantity: Decimal
    note: str
    at: datetime
    by: str
    job_id: int | None
    job: int | None


def parts_fitted(session: Session, unit_id: int) -> tuple[UnitPart, ...]:
    """Parts used on the player's jobs, the newest first; what was put back into stock is not inside."""
    back = (
        select(PartMove.note)
        .join(Job, Job.id == PartMove.job_id)
        .where(Job.unit_id == unit_id, PartMove.kind == MoveKind.PUT_BACK)
    )
    undone = {int(key) for key in session.scalars(back)}
    return tuple(
        line
        for key, line in _lines(session, _MOVED.where(Job.unit_id == unit_id, PartMove.kind == MoveKind.USED))
        if key not in undone
    )


def parts_given(session: Session, unit_id: int) -> tuple[UnitPart, ...]:
    """Parts taken out of the player, the newest first."""
    return tuple(line for _, line in _lines(session, _MOVED.where(PartMove.unit_id == unit_id)))


_MOVED = (
    select(PartMove, Part, Staff.name, Job.number)
    .join(Part, Part.id == PartMove.part_id)
    .join(Staff, Staff.id == PartMove.by)
    .outerjoin(Job, Job.id == PartMove.job_id)
    .order_by(PartMove.at.desc(), PartMove.id.desc())
)


def _lines(session: Session, question: Select[PartMove, Part, str, int]) -> list[tuple[int, UnitPart]]:
    return [
        (
            move.id,
            UnitPart(
                part.id,
                part.code,
                part.words,
                part.rating or "",
                bool(part.safety_critical),
                part.unit,
                pieces(abs(move.quantity)),
                move.note,
                move.at,
                name,
                move.job_id,
                number,
            ),
        )
        for move, part, name, number in session.execute(question)
    ]
