"""The history of a job in words: who did what, when, and what stood there before."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from enum import StrEnum
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book import tables
from app.book.bench.catalogue import quantities
from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import HistoryRow, HistoryText, Staff
from app.trade.counter.things import thing_said
from app.trade.money import MICRO, Money
from app.trade.sentence import Sentence, Value
from app.trade.settings.prices import CURRENCY
from app.work.bench.history_words import (
    COLUMNS,
    HOW_MANY,
    MICRO_COLUMNS,
    MONEY_COLUMNS,
    ORDER,
    SILENT,
    TABLES,
    WORD_COLUMNS,
)
from app.work.papers.kinds import NAMES

ERASED = Sentence("erased")


@dataclass(frozen=True, slots=True)
class HistoryChange:
    """One thing that an action wrote: ``what`` it is, whether it was ``added``, and its fields as sentences such
    as "stage: on the bench, before: taken in"."""

    what: Sentence
    added: bool
    fields: tuple[Sentence, ...]


@dataclass(frozen=True, slots=True)
class HistoryEntry:
    """One action. ``by`` is empty where the program itself acted."""

    seq: int
    at: datetime
    by: str
    action: Sentence
    changes: tuple[HistoryChange, ...]


def history_of_job(book: Book, job_id: int) -> tuple[HistoryEntry, ...]:
    """Every action on the job, the newest first. Texts of a person whose data were erased stand as erased."""
    with book.ask() as session:
        rows = session.scalars(
            select(HistoryRow).where(HistoryRow.job_id == job_id).order_by(HistoryRow.seq)
        ).all()
        texts = _texts(session, [row.seq for row in rows])
        names = dict(session.execute(select(Staff.id, Staff.name)).all())
        teller = _Teller(session)
        actions: dict[tuple[Any, ...], list[HistoryRow]] = defaultdict(list)
        for row in rows:
            actions[row.at, row.staff_id, row.action, _key(row)].append(row)
        entries = [
            HistoryEntry(
                seq=of[0].seq,
                at=of[0].at,
                by=names.get(of[0].staff_id or 0, ""),
                action=Sentence.from_json(of[0].action, _key(of[0])),
                changes=_telling(teller.change(row, texts[row.seq]) for row in of),
            )
            for of in actions.values()
        ]
    return tuple(sorted(entries, key=lambda entry: -entry.seq))


def _telling(changes: Iterable[HistoryChange]) -> tuple[HistoryChange, ...]:
    """Changes that say something: bookkeeping alone is no line."""
    return tuple(change for change in changes if change.fields)


def _key(row: HistoryRow) -> str:
    return json.dumps(row.action_values, sort_keys=True)


def _texts(session: Session, seqs: list[int]) -> dict[int, dict[tuple[str, str], str]]:
    """Personal texts by row, column and side; blanked ones are empty."""
    found: dict[int, dict[tuple[str, str], str]] = defaultdict(dict)
    for start in range(0, len(seqs), 500):
        for text in session.scalars(
            select(HistoryText).where(HistoryText.seq.in_(seqs[start : start + 500]))
        ):
            found[text.seq][text.column, text.side] = text.text
    return found


class _Teller:
    """Turns what history keeps into words and values."""

    def __init__(self, session: Session) -> None:
        self._dialect = session.get_bind().dialect
        self._currency = settings_of(session)[CURRENCY]
        self._quantities = {code: quantity.name for code, quantity in quantities(session).items()}

    def change(self, row: HistoryRow, texts: dict[tuple[str, str], str]) -> HistoryChange:
        """One row of history as a line."""
        of = row.row_table
        told = sorted(
            (n for n in row.fields if n in COLUMNS and (of, n) not in SILENT), key=ORDER.__getitem__
        )
        fields = []
        for name in told:
            before, after = row.fields[name]
            was = self._value(of, name, "before", before, texts)
            now = self._value(of, name, "after", after, texts)
            word = HOW_MANY if _counts(of, name) else COLUMNS[name]
            fields.append(_field(word, was, now))
        what = TABLES.get(of, Sentence("{table}", {"table": of.replace("_", " ")}))
        return HistoryChange(what, row.happened == "added", tuple(fields))

    def _value(
        self, table: str, column: str, side: str, kept: Any, texts: dict[tuple[str, str], str]
    ) -> Value | None:
        if kept in (None, ""):
            return None
        if (column, side) in texts:
            return texts[column, side] or ERASED
        if column == "quantity" and kept in self._quantities:
            return self._quantities[kept]
        if column in MICRO_COLUMNS or _counts(table, column):
            return (Decimal(kept) / MICRO).normalize() + 0
        if column in MONEY_COLUMNS:
            return Money(kept, self._currency)
        if (table, column) == ("papers", "kind"):
            return Sentence(NAMES.get(kept, kept))
        if (table, column) == ("things_left", "words"):
            return thing_said(kept)
        if column in WORD_COLUMNS or (table, column) == ("reported_faults", "word"):
            return Sentence(str(kept))
        return _plain(self._read(table, column, kept))

    def _read(self, table: str, column: str, kept: Any) -> Any:
        """The Python value of what the column's type had made of it."""
        declared = tables.metadata.tables.get(table)
        if declared is None or column not in declared.c:
            return kept
        read = declared.c[column].type.dialect_impl(self._dialect).result_processor(self._dialect, None)
        return read(kept) if read is not None else kept


def _counts(table: str, column: str) -> bool:
    """Whether a column says how many; in readings the one of that name says what is measured."""
    return column == "quantity" and table != "readings"


def _plain(value: Any) -> Value:
    if isinstance(value, bool):
        return Sentence("yes") if value else Sentence("no")
    if isinstance(value, StrEnum):
        return Sentence(value.value)
    if isinstance(value, (int, Decimal, datetime, date, Sentence, str)):
        return value
    return str(value)


def _field(word: Sentence, was: Value | None, now: Value | None) -> Sentence:
    before: Value = "" if was is None else was
    if now is None:
        return Sentence("{field}: emptied, before: {was}", {"field": word, "was": before})
    if was is None:
        return Sentence("{field}: {now}", {"field": word, "now": now})
    return Sentence("{field}: {now}, before: {was}", {"field": word, "now": now, "was": before})
