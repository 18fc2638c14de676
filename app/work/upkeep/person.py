"""One person's data: handed out as readable files, or erased."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from app.book.disk import write_whole
from app.book.door import Book
from app.book.erase import Erased, erase_person
from app.book.person import person_rows
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.upkeep.erasing import SIGNED_BY
from app.trade.wording import Wording
from app.work.people.pins import check_pin
from app.work.shop_book import Done

__all__ = ["Erased", "erase_customer", "export_customer"]


def export_customer(book: Book, customer_id: int, folder: Path, wording: Wording) -> tuple[Path, Path]:
    """Everything the book holds of a customer, as a text to read and as JSON. Raises Refusal."""
    with book.ask() as session:
        rows = person_rows(session, customer_id)
    card = rows["customers"][0]
    stem = folder / f"customer-{card['id']}"
    head = wording(
        "What the book holds of {name}, on {day}.",
        name=str(card["name"]) or f"C {card['id']:04d}",
        day=book.today(),
    )
    text, data = stem.with_suffix(".txt"), stem.with_suffix(".json")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        write_whole(text, ("\n".join([head, *_lines(rows)]) + "\n").encode())
        write_whole(data, json.dumps(rows, indent=1, ensure_ascii=False).encode())
    except OSError as error:
        raise Refusal(
            Sentence(
                "Nothing could be written into {folder}: {why}.",
                {"folder": str(folder), "why": error.strerror or str(error)},
            ),
            Sentence("Choose another folder."),
        ) from error
    return text, data


def erase_customer(book: Book, owner_id: int, pin: str, customer_id: int) -> Done[Erased]:
    """Blank a customer's personal texts everywhere but on invoices, signed for by the owner with the PIN.

    Raises PinRefused for a signature that does not count, Refusal while a job is in the shop or money is open.
    Copies made before still hold the texts until they are thinned.
    """
    check_pin(book, owner_id, pin, SIGNED_BY)
    erased, change = erase_person(book, owner_id, customer_id)
    return Done(erased, change.changes)


def _lines(rows: dict[str, list[dict[str, Any]]]) -> Iterator[str]:
    """The rows under the name of their table, a line for each value; empty values are left out."""
    for table, some in rows.items():
        for row in some:
            yield ""
            yield f"{table} {row['id']}"
            for name, value in row.items():
                if name != "id" and value not in (None, "", [], {}):
                    shown = json.dumps(value, ensure_ascii=False) if isinstance(value, list | dict) else value
                    yield f"    {name.replace('_', ' ')}: {shown}"
