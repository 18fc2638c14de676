"""Modifications of a unit and of the transport in it, as facts for the rules."""

from __future__ import annotations

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from app.book.tables import Agreement, Job, Modification, Paper
from app.trade.bench import modifications as trade
from app.trade.bench.stages import said


def modifications_of(
    session: Session, job: Job, unit_id: int, transport_id: int | None, staff: dict[int, str]
) -> tuple[trade.Modification, ...]:
    """Live and reversed ones, in the order of time; struck-out ones are left out."""
    owned = [Modification.unit_id == unit_id]
    if transport_id is not None:
        owned.append(Modification.transport_id == transport_id)
    rows = session.execute(
        select(Modification, Job.number)
        .join(Job, Job.id == Modification.job_id)
        .where(or_(*owned), Modification.struck_at.is_(None))
        .order_by(Modification.at, Modification.id)
    ).all()
    if not rows:
        return ()
    agreed = {
        row.modification_id: row
        for row in session.scalars(
            select(Agreement)
            .where(Agreement.modification_id.in_([m.id for m, _ in rows]))
            .order_by(Agreement.at, Agreement.id)
        )
    }
    named = {
        modification_id: paper.title
        for paper in session.scalars(
            select(Paper).where(Paper.job_id == job.id, Paper.sha256 != "").order_by(Paper.id)
        )
        for modification_id in paper.names_modifications
    }
    return tuple(
        fact_of(row, number, _yes(agreed.get(row.id)), named.get(row.id, ""), staff) for row, number in rows
    )


def fact_of(
    row: Modification, job_number: int, agreed: str, named_on: str, staff: dict[int, str]
) -> trade.Modification:
    """One modification as the rules need to know it."""
    reversal = None
    if row.reversed_at is not None:
        who = staff.get(row.reversed_by or 0, "")
        reversal = trade.Reversal(row.reversed_at, who, row.reversed_note, row.reversal_tried)
    return trade.Modification(
        number=row.id,
        job=job_number,
        kind=row.kind,
        circuit=row.circuit,
        where=row.reference,
        law=row.law,
        maker_value=row.value_before,
        new_value=row.value_after,
        was=row.part_before,
        now=row.part_after,
        way_back=row.way_back,
        power=row.power,
        rating=row.rating,
        origin=trade.Origin.OURS if row.ours else trade.Origin.FOUND,
        in_transport=row.transport_id is not None,
        at=row.at,
        reading_before=row.reading_before,
        safety_part=row.safety_critical,
        agreed=agreed,
        named_on=named_on,
        assessed=row.assessed_at is not None,
        reversal=reversal,
    )


def _yes(row: Agreement | None) -> str:
    """The recorded yes in one line; the last word counts, and a no is none."""
    if row is None or not row.yes:
        return ""
    return f"{row.said_by}, {said(row.way).key}, {row.said_at.date().isoformat()}: {row.what}"
