"""Parts in the life of a player: those fitted on its jobs, and those taken out of it once it is a donor."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import ColumnElement, select
from sqlalchemy.orm import Session

from app.book.tables import Job, Part, PartMove, Staff, Unit
from app.trade.office.stock import MoveKind
from app.work.office.parts import pieces


@dataclass(frozen=True, slots=True)
class UnitPart:
    """A part that went into a player, or came out of it. ``job`` is the number that people say, None for the shelf.

    ``donor``: name and serial of the player that it came straight out of, empty for the shelf.
    """

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
    donor: str = ""


def parts_fitted(session: Session, unit_id: int) -> tuple[UnitPart, ...]:
    """Parts used on the player's jobs, the newest first; what was put back into stock is not inside."""
    back = (
        select(PartMove.note)
        .join(Job, Job.id == PartMove.job_id)
        .where(Job.unit_id == unit_id, PartMove.kind == MoveKind.PUT_BACK)
    )
    undone = {int(key) for key in session.scalars(back)}
    fitted = _rows(session, Job.unit_id == unit_id, PartMove.kind == MoveKind.USED)
    return tuple(_line(*row) for row in fitted if row[0].id not in undone)


def parts_given(session: Session, unit_id: int) -> tuple[UnitPart, ...]:
    """Parts taken out of the player, the newest first. One that went straight into a job stands once, with it."""
    rows = _rows(session, PartMove.unit_id == unit_id)
    straight = {(row[0].part_id, row[0].at) for row in rows if row[0].kind is MoveKind.USED}
    return tuple(
        replace(_line(*row), donor="")
        for row in rows
        if row[0].kind is MoveKind.USED or (row[0].part_id, row[0].at) not in straight
    )


def _rows(session: Session, *which: ColumnElement[bool]) -> Sequence[Any]:
    return session.execute(
        select(PartMove, Part, Staff.name, Job.number, Unit)
        .join(Part, Part.id == PartMove.part_id)
        .join(Staff, Staff.id == PartMove.by)
        .outerjoin(Job, Job.id == PartMove.job_id)
        .outerjoin(Unit, Unit.id == PartMove.unit_id)
        .where(*which)
        .order_by(PartMove.at.desc(), PartMove.id.desc())
    ).all()


def _line(move: PartMove, part: Part, by: str, job: int | None, donor: Unit | None) -> UnitPart:
    named = () if donor is None else (f"{donor.maker} {donor.model}".strip(), donor.serial)
    return UnitPart(
        part_id=part.id,
        code=part.code,
        words=part.words,
        rating=part.rating or "",
        safety_critical=bool(part.safety_critical),
        unit=part.unit,
        quantity=pieces(abs(move.quantity)),
        note=move.note,
        at=move.at,
        by=by,
        job_id=move.job_id,
        job=job,
        donor=", ".join(filter(None, named)),
    )
