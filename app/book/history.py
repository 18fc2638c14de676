"""Writes history rows from declared columns; app/book/chain.py walks what it wrote."""

from __future__ import annotations

import json
import secrets
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy import Column, Dialect, insert
from sqlalchemy.orm import InstanceState, Session
from sqlalchemy.orm.attributes import History

from app.book.base import Base
from app.book.chain import chain_end, row_hash, text_hash
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
    for column in _told_columns(row):
        after = _plain(column, getattr(row, _attribute(row, column)), dialect)
        if after not in (None, ""):
            _tell(entry, column, None, after)
    return entry


def entry_of_changed(row: Base, state: InstanceState[Any], dialect: Dialect) -> Entry | None:
    """The entry of a row about to be flushed, or None when no told column differs."""
    entry = Entry("changed", row)
    for column in _told_columns(row):
        past: History = state.attrs[_attribute(row, column)].history
        if not past.has_changes():
            continue
        before = _plain(column, past.deleted[0] if past.deleted else None, dialect)
        after = _plain(column, past.added[0] if past.added else None, dialect)
        if before != after:
            _tell(entry, column, before, after)
    return entry if entry.fields else None


def write(session: Session, entries: list[Entry], at: datetime, who: int | None, why: Sentence) -> None:
    """Number, hash and store the entries behind the present end of the chain."""
    if not entries:
        return
    seq, previous = chain_end(session.connection())
    rows, texts = [], []
    for entry in entries:
        seq += 1
        values = {
            "seq": seq,
            "at": at,
            "staff_id": who,
            "action": why.key,
            "action_values": json.loads(why.values_as_json()),
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
    session.execute(insert(HistoryRow), rows)
    if texts:
        session.execute(insert(HistoryText), texts)


def job_of(row: Base) -> int | None:
    """The job that a row belongs to, or None."""
    if row.__tablename__ == "jobs":
        return row.id  # type: ignore[attr-defined, no-any-return]  # Job has Row's key
    job: int | None = getattr(row, "job_id", None)
    return job


def _told_columns(row: Base) -> Iterator[Column[Any]]:
    for column in row.__table__.columns:
        if (
            isinstance(column, Column)
            and column.name not in ("id", "version")
            and "untold" not in column.info
        ):
            yield column


def _attribute(row: Base, column: Column[Any]) -> str:
    return str(row.__mapper__.get_property_by_column(column).key)


def _plain(column: Column[Any], value: Any, dialect: Dialect) -> Any:
    processor = column.type.dialect_impl(dialect).bind_processor(dialect)
    return processor(value) if processor else value


def _tell(entry: Entry, column: Column[Any], before: Any, after: Any) -> None:
    if "secret" in column.info:
        entry.fields[column.name] = ["set" if before else "", "set" if after else ""]
        return
    if "personal" not in column.info:
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
