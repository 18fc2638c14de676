"""Erases what the book holds of one person, so that history still stands and its chain still verifies."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, Table, func, null, select, text, update
from sqlalchemy.orm import Session

from app.book import history
from app.book.attachments import place_of
from app.book.door import Book, Change
from app.book.engine import WRITER
from app.book.history_rows import HistoryRow, HistoryText
from app.book.office.papers import KEPT_PAPERS, KEPT_WITH_INVOICE
from app.book.office.shop_settings import settings_of
from app.book.person import family_of, jobs_of, personal_columns
from app.book.soundness import filed_hashes
from app.book.tables import Base, CreditNote, Customer, Invoice, Job, Payment, metadata
from app.trade.bench.stages import Stage
from app.trade.money import Money
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY

AT_ONCE = 500


@dataclass(frozen=True, slots=True)
class Erased:
    """How many rows lost their personal texts, how many filed PDFs went, and how many invoices stay."""

    rows: int
    files: int
    invoices_kept: int


def erase_person(book: Book, who: int, customer_id: int) -> tuple[Erased, Change]:
    """Blank every personal text of the person and of history about it; one action, told in history.

    Raises Refusal while a job is in the shop or money is open. Copies made before still hold the texts,
    until the keep rule lets them go.
    """
    with book.change(who, Sentence("erased a customer's personal data")) as change:
        session = change.session
        # What is deleted is overwritten in the file, not only unhooked.
        session.connection().exec_driver_sql("PRAGMA secure_delete = ON")
        cards = family_of(session, customer_id)
        jobs = jobs_of(session, cards)
        _require_finished(session, cards, jobs)
        files = _blank_papers(session, jobs)
        rows = 0
        for table in metadata.sorted_tables:
            if columns := personal_columns(table):
                keys = _keys(session, table, cards, jobs)
                rows += _blank(change, table, columns, keys)
        kept = session.scalars(select(Invoice.id).where(Invoice.customer_id.in_(cards))).all()
        session.expire_all()
    _forget_index(book)
    return Erased(rows, _drop_files(book, files), len(kept)), change


def _require_finished(session: Session, cards: list[int], jobs: list[int]) -> None:
    if session.get_one(Customer, cards[0]).erased_at is not None:
        raise Refusal(Sentence("This card is erased already."))
    in_shop = session.scalars(
        select(Job.number).where(Job.id.in_(jobs), Job.stage != Stage.HANDED_BACK).order_by(Job.number)
    ).first()
    if in_shop is not None:
        raise Refusal(
            Sentence("Job {number} of this customer is still in the shop.", {"number": str(in_shop)}),
            Sentence("Hand it back first."),
        )
    billed = _sums(session, Invoice.job_id, Invoice.gross + Invoice.rounding, jobs)
    credited = _sums(session, CreditNote.job_id, CreditNote.due, jobs)
    paid = _sums(session, Payment.job_id, Payment.amount, jobs)
    for job in jobs:
        if (
            minor := billed.get(job, 0) - credited.get(job, 0) - paid.get(job, 0)
        ):  # below zero: a deposit nothing was charged for
            number = str(session.get_one(Job, job).number)
            amount = Money(minor, settings_of(session)[CURRENCY])
            raise Refusal(
                Sentence("On job {number}, {amount} is still open.", {"number": number, "amount": amount}),
                Sentence("Settle it first."),
            )


def _sums(session: Session, job_id: Any, amount: Any, jobs: list[int]) -> dict[int, int]:
    rows = session.execute(select(job_id, func.sum(amount)).where(job_id.in_(jobs)).group_by(job_id))
    return dict(rows.all())


def _keys(session: Session, table: Table, cards: list[int], jobs: list[int]) -> list[int]:
    """The rows of a table that are about the person. Every table with personal texts can be reached."""
    if table.name == "customers":
        return cards
    column, keys = (table.c.job_id, jobs) if "job_id" in table.c else (table.c.customer_id, cards)
    chosen = select(table.c.id).where(column.in_(keys))
    if table.name == "papers":
        chosen = chosen.where(_goes(table))
    return list(session.connection().execute(chosen.order_by(table.c.id)).scalars())


def _blank(change: Change, table: Table, columns: list[str], keys: list[int]) -> int:
    """Blank the columns of these rows past the door's rows, which would write the texts into history anew."""
    connection = change.session.connection()
    empty: dict[str, Any] = {name: {} if name == "facts" else "" for name in columns}
    if "version" in table.c:
        empty["version"] = table.c.version + 1  # a form still open on another page cannot bring them back
    if "erased_at" in table.c:
        empty["erased_at"] = change.now
    mapped = next(m.class_ for m in Base.registry.mappers if m.local_table is table)
    for some in _batches(keys):
        connection.execute(update(table).where(table.c.id.in_(some)).values(empty))
        connection.execute(
            update(HistoryText.__table__)  # type: ignore[arg-type]
            .where(
                HistoryText.seq.in_(
                    select(HistoryRow.seq).where(
                        HistoryRow.row_table == table.name, HistoryRow.row_id.in_(some)
                    )
                )
            )
            .values(text="", salt="")
        )
    for key in keys:
        row = change.session.get_one(mapped, key)
        change.entry(history.Entry("erased", row, {name: ["erased", ""] for name in columns}))
        change.touched.note(row, columns)
    return len(keys)


def _blank_papers(session: Session, jobs: list[int]) -> list[str]:
    """Unhook the filed PDFs that go; gives their hashes."""
    table = metadata.tables["papers"]
    connection = session.connection()
    chosen = table.c.job_id.in_(jobs) & _goes(table)
    hashes = connection.execute(select(table.c.sha256).where(chosen, table.c.sha256 != "")).scalars().all()
    connection.execute(update(table).where(chosen).values(sha256="", filed_at=null()))
    return list(hashes)


def _goes(papers: Table) -> ColumnElement[bool]:
    """Which papers go with their person: all but those that the law has the shop keep."""
    invoiced = select(Invoice.job_id).where(Invoice.job_id == papers.c.job_id).exists()
    return papers.c.kind.not_in(KEPT_PAPERS) & ~((papers.c.kind == KEPT_WITH_INVOICE) & invoiced)


def _forget_index(book: Book) -> None:
    """Merge the full-text index, so that no emptied segment still spells the name."""
    with book.engine.execution_options(**{WRITER: True}).begin() as connection:
        if connection.dialect.name == "sqlite":
            connection.exec_driver_sql("PRAGMA secure_delete = ON")
            for table in ("find_fts", "find_tails"):
                connection.execute(text(f"INSERT INTO {table}({table}) VALUES ('optimize')"))  # noqa: S608


def _drop_files(book: Book, hashes: list[str]) -> int:
    with book.ask() as session:
        named = set(filed_hashes(session.connection()))
    gone = [sha256 for sha256 in dict.fromkeys(hashes) if sha256 not in named]
    for sha256 in gone:
        place_of(book.files, sha256).unlink(missing_ok=True)
    return len(gone)


def _batches(keys: list[int]) -> Iterator[list[int]]:
    for start in range(0, len(keys), AT_ONCE):
        yield keys[start : start + AT_ONCE]
