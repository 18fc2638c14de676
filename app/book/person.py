"""What the book holds of one person: the card, cards merged into it, players, jobs and all that hangs on them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from sqlalchemy import Table, select
from sqlalchemy.orm import Session

from app.book.export import exported_columns, json_value
from app.book.tables import Customer, Job, Unit, metadata
from app.trade.refusal import Fault

AT_ONCE = 500  # keys in one IN list
Rows = dict[str, list[dict[str, Any]]]


def person_rows(session: Session, customer_id: int) -> Rows:
    """Every row about the person by table, as JSON keeps values. Raises Fault for no such customer.

    Of a player that has gone to somebody else, the jobs of that somebody are not among them.
    """
    cards = family_of(session, customer_id)
    jobs = jobs_of(session, cards)
    rows: Rows = {
        "customers": _rows(session, Customer.__table__, "id", cards),  # type: ignore[arg-type]
        "units": _rows(session, Unit.__table__, "customer_id", cards),  # type: ignore[arg-type]
        "jobs": _rows(session, Job.__table__, "id", jobs),  # type: ignore[arg-type]
    }
    for table in metadata.sorted_tables:
        if "job_id" in table.columns and table.name != "history":
            rows[table.name] = _rows(session, table, "job_id", jobs)
    for table in metadata.sorted_tables:
        if table.name not in rows and (up := _above(table, rows)):
            column, parent = up
            rows[table.name] = _rows(session, table, column, [row["id"] for row in rows[parent]])
    return {name: some for name, some in rows.items() if some}


def family_of(session: Session, customer_id: int) -> list[int]:
    """The card that stands for the person, first, and every card that was merged into it."""
    card = session.get(Customer, customer_id)
    while card is not None and card.merged_into_id is not None:
        card = session.get(Customer, card.merged_into_id)
    if card is None:
        raise Fault(f"no customer {customer_id}")
    found, new = [card.id], [card.id]
    while new:
        new = list(session.scalars(select(Customer.id).where(Customer.merged_into_id.in_(new))))
        found += new
    return found


def jobs_of(session: Session, cards: Iterable[int]) -> list[int]:
    """The jobs of these customers."""
    return list(session.scalars(select(Job.id).where(Job.customer_id.in_(cards)).order_by(Job.id)))


def personal_columns(table: Table) -> list[str]:
    """The columns of a table that hold what people said or who they are."""
    return [column.name for column in table.columns if "personal" in column.info]


def _above(table: Table, known: Rows) -> tuple[str, str] | None:
    """The column by which a table hangs on one that belongs to jobs: lines on invoices, steps on tests."""
    for column in table.columns:
        for key in column.foreign_keys:
            parent = key.column.table.name
            if parent in known and parent not in ("customers", "units", "jobs"):
                return column.name, parent
    return None


def _rows(session: Session, table: Table, column: str, keys: list[int]) -> list[dict[str, Any]]:
    columns = exported_columns(table)
    found: list[dict[str, Any]] = []
    for start in range(0, len(keys), AT_ONCE):
        chosen = (
            select(*columns).where(table.c[column].in_(keys[start : start + AT_ONCE])).order_by(table.c.id)
        )
        found += [
            {c.name: json_value(value) for c, value in zip(columns, row, strict=True)}
            for row in session.execute(chosen)
        ]
    return found
