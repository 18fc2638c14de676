"""Writes history rows from declared columns; app/book/chain.py walks what it wrote."""

from __future__ import annotations

import json
import secrets
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy import Column, Dialect, insert
from sqlalchemy.orm import InstanceState, Session
from sqlalchemy.orm.attributes import History

from app.book.base import Base
from app.book.chain import row_hash, text_hash
from app.book.history_rows import HistoryRow, HistoryText
from app.trade.sentence import Sentence


@dataclass
class Entry:
    """One row's part in an action, before it is numbered and hashed."""

    happened: str
    row: Base
    fields: dict[str, list[Any]] = field(default_factory=dict)
    texts: list[tuple[str, str, str, str]] = field(default_factory=list)  # column, side, salt, text


def entry_of_new(row: Base, dialect: Dialect) -> Entry:
    """The entry of a row that was added; call after the flush that gave it its key."""
    entry = Entry("added", row)
    for column in told_columns(type(row), dialect):
        after = column.plain(getattr(row, column.attribute))
        if after not in (None, ""):
            _tell(entry, column, None, after)
    return entry


def entry_of_changed(row: Base, state: InstanceState[Any], dialect: Dialect) -> Entry | None:
    """The entry of a row about to be flushed, or None when no told column differs."""
    entry = Entry("changed", row)
    for column in told_columns(type(row), dialect):
        past: History = state.attrs[column.attribute].history
        if not past.has_changes():
            continue
        before = column.plain(past.deleted[0] if past.deleted else None)
        after = column.plain(past.added[0] if past.added else None)
        if before != after:
            _tell(entry, column, before, after)
    return entry if entry.fields else None


def write(
    session: Session,
    end: tuple[int, str],
    entries: list[Entry],
    at: datetime,
    who: int | None,
    why: Sentence,
) -> tuple[int, str]:
    """Number, hash and store the entries behind ``end`` of the chain. Gives its new end."""
    seq, previous = end
    if not entries:
        return end
    rows, texts = [], []
    action_values = json.loads(why.values_as_json())
    for entry in entries:
        seq += 1
        values = {
            "seq": seq,
            "at": at,
            "staff_id": who,
            "action": why.key,
            "action_values": action_values,
            "happened": entry.happened,
            "row_table": entry.row.__tablename__,
            "row_id": entry.row.id,  # type: ignore[attr-defined]  # every told table has Row's key
            "job_id": job_of(entry.row),
            "fields": entry.fields,
        }
        previous = row_hash(previous, values)
        rows.append({**values, "hash": previous})
        texts += [
            {"seq": seq, "column": column, "side": side, "salt": salt, "text": text}
            for column, side, salt, text in entry.texts
        ]
    connection = session.connection()
    connection.execute(_INSERT_ROWS, rows)
    if texts:
        connection.execute(_INSERT_TEXTS, texts)
    return seq, previous


def job_of(row: Base) -> int | None:
    """The job that a row belongs to, or None."""
    if row.__tablename__ == "jobs":
        return row.id  # type: ignore[attr-defined, no-any-return]  # Job has Row's key
    if row.__tablename__ == "fittings":  # begun in one job, ended in another
        ended: int | None = row.removed_job_id or row.fitted_job_id  # type: ignore[attr-defined]
        return ended
    job: int | None = getattr(row, "job_id", None)
    return job


@dataclass(frozen=True, slots=True)
class Told:
    """A column that history tells, and how its value looks there."""

    name: str
    attribute: str
    secret: bool
    personal: bool
    plain: Callable[[Any], Any]


def told_columns(table: type[Base], dialect: Dialect) -> tuple[Told, ...]:
    """The columns of a table that history tells, in their order."""
    key = (table, dialect.name)
    if key not in _TOLD:
        _TOLD[key] = tuple(
            Told(
                column.name,
                str(table.__mapper__.get_property_by_column(column).key),
                "secret" in column.info,
                "personal" in column.info,
                column.type.dialect_impl(dialect).bind_processor(dialect) or _as_it_is,
            )
            for column in table.__table__.columns
            if isinstance(column, Column)
            and column.name not in ("id", "version")
            and "untold" not in column.info
        )
    return _TOLD[key]


_TOLD: dict[tuple[type[Base], str], tuple[Told, ...]] = {}


def _as_it_is(value: Any) -> Any:
    return value


def _tell(entry: Entry, column: Told, before: Any, after: Any) -> None:
    if column.secret:
        entry.fields[column.name] = ["set" if before else "", "set" if after else ""]
        return
    if not column.personal:
        entry.fields[column.name] = [before, after]
        return
    told: list[Any] = []
    for side, text in (("before", before), ("after", after)):
        if text in (None, ""):
            told.append(text)
            continue
        salt = secrets.token_hex(16)
        entry.texts.append((column.name, side, salt, str(text)))
        told.append(text_hash(salt, str(text)))
    entry.fields[column.name] = told


_INSERT_ROWS = insert(HistoryRow.__table__)  # type: ignore[arg-type]
_INSERT_TEXTS = insert(HistoryText.__table__)  # type: ignore[arg-type]
