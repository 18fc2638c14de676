"""Modifications of a unit and of the transport in it, as facts for the rules."""

from __future__ import annotations

from typing import Any

from app.book.bench.job_rows import JobRows
from app.trade.bench import modifications as trade
from app.trade.bench.stages import said
from app.trade.sentence import Sentence


def modifications_of(rows: JobRows) -> tuple[trade.Modification, ...]:
    """Live and reversed ones of the unit and the transport in it, in the order of time, without struck-out ones."""
    inside = [row for row in rows.modifications if row.struck_at is None and belongs(rows, row)]
    if not inside:
        return ()
    named = {
        modification_id: paper.title
        for paper in rows.papers
        if paper.sha256
        for modification_id in paper.names_modifications
    }
    return tuple(
        fact_of(
            row,
            row.job_number,
            _yes(rows.agreements_by_modification.get(row.id)),
            named.get(row.id, ""),
            rows.staff,
        )
        for row in inside
    )


def belongs(rows: JobRows, row: Any) -> bool:
    """Whether a modification is of this unit, or of the transport that is in it now."""
    if row.transport_id is not None:
        return bool(row.transport_id == rows.transport_id)
    return bool(row.unit_id == rows.job.unit_id)


def fact_of(
    row: Any, job_number: int, agreed: Sentence | str, named_on: str, staff: dict[int, str]
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


def _yes(row: Any) -> Sentence | str:
    """The recorded yes in one line; the last word counts, and a no is none."""
    if row is None or not row.yes:
        return ""
    return Sentence(
        "{who}, {way}, {when}: {what}",
        {"who": row.said_by, "way": said(row.way), "when": row.said_at, "what": row.what},
    )
