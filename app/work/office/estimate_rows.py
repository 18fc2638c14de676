"""Options and lines of an estimate as they stand in the book, in the order of their letters."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.office.estimate_lines import line_of
from app.book.tables import EstimateLine, EstimateOption
from app.trade.office.estimate import LETTERS, Option, OptionEntry
from app.trade.office.invoice import Line


@dataclass(frozen=True, slots=True)
class LineKept:
    """One line with its key and the version that was seen."""

    id: int
    version: int
    line: Line


@dataclass(frozen=True, slots=True)
class OptionKept:
    """One option with its key and the version that was seen."""

    id: int
    version: int
    option: Option
    lines: tuple[LineKept, ...]


def options_of(session: Session, estimate_id: int) -> tuple[OptionKept, ...]:
    """The options of an estimate: the first is A."""
    found = session.scalars(
        select(EstimateOption)
        .where(EstimateOption.estimate_id == estimate_id, EstimateOption.taken_out_at.is_(None))
        .order_by(EstimateOption.id)
    ).all()
    return tuple(_option(session, row, letter) for row, letter in zip(found, LETTERS, strict=False))


def option_of(session: Session, option_id: int) -> OptionKept:
    """One option with its letter."""
    row = session.get_one(EstimateOption, option_id)
    beside = session.scalars(
        select(EstimateOption.id).where(
            EstimateOption.estimate_id == row.estimate_id,
            EstimateOption.taken_out_at.is_(None),
            EstimateOption.id < row.id,
        )
    ).all()
    return _option(session, row, LETTERS[min(len(beside), len(LETTERS) - 1)])


def _option(session: Session, row: EstimateOption, letter: str) -> OptionKept:
    lines = tuple(
        LineKept(line.id, line.version, line_of(line))
        for line in session.scalars(
            select(EstimateLine)
            .where(EstimateLine.option_id == row.id, EstimateLine.taken_out_at.is_(None))
            .order_by(EstimateLine.id)
        )
    )
    entry = OptionEntry(
        title=row.title,
        what=row.what,
        design=row.design,
        risk=row.risk,
        guarantee=row.guarantee,
        ready=row.ready,
        never_above=row.never_above,
    )
    return OptionKept(row.id, row.version, Option(letter, entry, tuple(kept.line for kept in lines)), lines)
