"""The catalogue of quantities: what ships, overlaid with what the shop added or changed."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.shipped import shipped
from app.book.tables import QuantityKept
from app.trade.bench.quantities import Quantity, catalogue_of


@cache
def shipped_quantities() -> Mapping[str, Quantity]:
    """The quantities as they ship, by id."""
    return catalogue_of(shipped("bench/quantities"))


def quantities(session: Session) -> Mapping[str, Quantity]:
    """The quantities of this shop, by id, in the order of the catalogue."""
    kept = {row.code: row for row in session.scalars(select(QuantityKept))}
    if not kept:
        return shipped_quantities()
    rows = {row["id"]: row for row in shipped("bench/quantities")}
    for code, row in kept.items():
        if row.retired:
            rows.pop(code, None)
        else:
            rows[code] = {**rows.get(code, {}), **row.content, "id": code}
    return catalogue_of(list(rows.values()))
