"""The catalogue of quantities: what ships, overlaid with what the shop added or changed."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.kept import kept
from app.book.shipped import shipped
from app.book.tables import QuantityKept
from app.trade.bench.quantities import Quantity, catalogue_of


@cache
def shipped_quantities() -> Mapping[str, Quantity]:
    """The quantities as they ship, by id."""
    return catalogue_of(shipped("bench/quantities"))


def quantities(session: Session) -> Mapping[str, Quantity]:
    """The quantities of this shop, by id, in the order of the catalogue."""
    return kept(session, "quantities", lambda: _read(session))


def _read(session: Session) -> Mapping[str, Quantity]:
    changed = session.scalars(select(QuantityKept)).all()
    if not changed:
        return shipped_quantities()
    rows = {row["id"]: row for row in shipped("bench/quantities")}
    for row in changed:
        if row.retired:
            rows.pop(row.code, None)
        else:
            rows[row.code] = {**rows.get(row.code, {}), **row.content, "id": row.code}
    return catalogue_of(list(rows.values()))
