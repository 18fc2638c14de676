"""Ratio of current to the maker's that was live in a circuit when a reading was taken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from app.book.bench.modification_facts import fact_of
from app.book.tables import Modification
from app.trade.bench.circuit_ratio import circuit_ratios
from app.trade.bench.modifications import Circuit

# A drive falls by the change alone, so that it is judged as it would be at the maker's value.
FOLLOWS = {"radial_drive": Circuit.RADIAL_COIL}
NO_RATIO = Decimal(1)


def modifications_followed(session: Session, unit_id: int, transport_id: int | None) -> Sequence[Any]:
    """Modifications of circuits that a reading follows, in this unit or transport, also those put back since."""
    table = Modification.__table__
    rows = table.c
    return session.execute(
        select(table)
        .where(
            or_(rows.unit_id == unit_id, rows.transport_id == transport_id),
            rows.struck_at.is_(None),
            rows.circuit.in_(FOLLOWS.values()),
        )
        .order_by(rows.at, rows.id)
    ).all()


def ratio_at(modifications: Sequence[Any], quantity: str, at: datetime) -> Decimal:
    """Ratio of current to the maker's, in the circuit that a reading follows, when it was taken."""
    return ratio_of(
        quantity,
        [row for row in modifications if row.at <= at and (row.reversed_at is None or at < row.reversed_at)],
    )


def ratio_of(quantity: str, modifications: Sequence[Any]) -> Decimal:
    """The ratio while these are live together, whatever came later."""
    circuit = FOLLOWS.get(quantity)
    live = [
        replace(fact_of(row, 0, "", "", {}), reversal=None) for row in modifications if row.circuit is circuit
    ]
    return next((one.k for one in circuit_ratios(live) if one.k is not None), NO_RATIO)
