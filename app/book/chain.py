"""The chain of history: each row's hash stands on the row before, so a change anywhere shows."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from sqlalchemy import Connection, select, text

from app.book.columns import EPOCH, MICROSECOND
from app.book.history_rows import HistoryRow
from app.trade.sentence import Sentence

START = "spindlebook"  # what the first row's hash stands on
PAGE = 5000  # rows read in one transaction, so that no writer waits for the walk

# What the hash covers, in the order of the canonical text. A column added later is not in old hashes.
HASHED = (
    "action",
    "action_values",
    "at",
    "fields",
    "happened",
    "job_id",
    "row_id",
    "row_table",
    "seq",
    "staff_id",
)
SEQ = HASHED.index("seq")


def chain_end(connection: Connection) -> tuple[int, str]:
    """Number and hash of the last history row; (0, START) for an empty book."""
    row = connection.execute(_END).first()
    return (row.seq, row.hash) if row else (0, START)


_END = select(HistoryRow.seq, HistoryRow.hash).order_by(HistoryRow.seq.desc()).limit(1)


def row_hash(previous: str, values: Mapping[str, Any]) -> str:
    """SHA-256 over the row before and this row's content, as one canonical JSON text."""
    content = {name: values[name] for name in HASHED}
    content["at"] = (values["at"] - EPOCH) // MICROSECOND
    text = json.dumps([previous, content], ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


def text_hash(salt: str, text: str) -> str:
    """What stands in history for a personal text."""
    return "#" + hashlib.sha256(f"{salt}{text}".encode()).hexdigest()


@dataclass(frozen=True)
class ChainReport:
    """What walking the chain found: rows walked, the number of the first bad row (0: none), and why."""

    rows: int
    head: str
    first_bad: int = 0
    why: Sentence | None = None


class Walk:
    """A walk along the chain, a page at a time: ``while walk.step(connection): ...``, then ``walk.report``.

    Every hash, every number, every personal text that is not blanked. Works on the texts as they are kept,
    which are canonical already, so that a million rows take seconds.
    """

    def __init__(self) -> None:
        self.report = ChainReport(0, START)
        self._text_id = 0
        self._rows_done = False

    def step(self, connection: Connection) -> bool:
        """Take the next page; False when the walk is over or something was found."""
        if not self._rows_done:
            self._rows_done = not self._step_rows(connection)
            return not self.report.first_bad
        return self._step_texts(connection)

    def _step_rows(self, connection: Connection) -> bool:
        last, previous, seen = self.report.rows, self.report.head, 0
        for seq, canonical, kept in _page(connection, last):
            if seq != last + 1:
                why = Sentence("a row is missing before it")
                self.report = ChainReport(last, previous, seq, why)
                return False
            previous = hashlib.sha256(f'["{previous}",{canonical}]'.encode()).hexdigest()
            if previous != kept:
                self.report = ChainReport(last, previous, seq, Sentence("its content was changed"))
                return False
            last, seen = seq, seen + 1
        self.report = ChainReport(last, previous)
        return seen == PAGE

    def _step_texts(self, connection: Connection) -> bool:
        rows = connection.execute(
            text(
                'SELECT t.id, t.seq, t."column", t.side, t.salt, t.text, h.fields FROM history_texts AS t'
                " LEFT JOIN history AS h ON h.seq = t.seq WHERE t.id > :last ORDER BY t.id LIMIT :page"
            ),
            {"last": self._text_id, "page": PAGE},
        ).all()
        for key, seq, column, side, salt, said, fields in rows:
            if salt and _told(fields, column, side) != text_hash(salt, said):
                why = Sentence("a personal text was changed")
                self.report = ChainReport(self.report.rows, self.report.head, seq, why)
                return False
            self._text_id = key
        return len(rows) == PAGE


def walk(connection: Connection) -> ChainReport:
    """Walk the whole chain in the caller's transaction: for copies, which nobody writes."""
    walking = Walk()
    while walking.step(connection):
        pass
    return walking.report


def _page(connection: Connection, after: int) -> Iterator[tuple[int, str, str]]:
    """The rows behind ``after``: number, canonical text, hash as kept. See `row_hash`."""
    columns = ", ".join(HASHED)
    for row in connection.execute(
        text(f"SELECT {columns}, hash FROM history WHERE seq > :last ORDER BY seq LIMIT :page"),  # noqa: S608
        {"last": after, "page": PAGE},
    ):
        *values, kept = row  # unpacked at once: by name it takes a tenth of the walk
        yield values[SEQ], canonical_text(*values), kept


def canonical_text(
    action: str,
    values: str,
    at: int,
    fields: str,
    happened: str,
    job_id: int | None,
    row_id: int,
    row_table: str,
    seq: int,
    staff_id: int | None,
) -> str:
    """What a row's hash covers, behind the hash of the row before: its columns as they are kept, in this order."""
    return (
        f'{{"action":{_quoted(action)},"action_values":{values},"at":{at},"fields":{fields},'
        f'"happened":{_quoted(happened)},"job_id":{_number(job_id)},"row_id":{row_id},'
        f'"row_table":{_quoted(row_table)},"seq":{seq},"staff_id":{_number(staff_id)}}}'
    )


@lru_cache(maxsize=4096)
def _quoted(word: str) -> str:
    return json.dumps(word, ensure_ascii=False)


def _number(value: int | None) -> str:
    return "null" if value is None else str(value)


def _told(fields: str | None, column: str, side: str) -> Any:
    told = json.loads(fields or "{}").get(column, ("", ""))
    return told[0 if side == "before" else 1]
