"""The quantities of the shop: those that ship, to be read, and its own, to be changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Any

from sqlalchemy import select

from app.book.bench.catalogue import quantities
from app.book.door import Book
from app.book.shipped import shipped
from app.book.tables import QuantityKept
from app.trade.bench.quantities import Quantity, catalogue_of
from app.trade.bench.units import UNITS
from app.trade.find.fold import fold
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed
from app.work.shop_book import Done

WORDS_ROOM = 60


@dataclass(frozen=True, slots=True)
class OwnQuantity:
    """A quantity that the shop added, or a shipped one that it changed, as it is kept."""

    code: str
    version: int
    content: Mapping[str, Any]
    retired: bool
    shipped: bool


def quantity_list(book: Book) -> tuple[Quantity, ...]:
    """The quantities of this shop in the order of the catalogue."""
    with book.ask() as session:
        return tuple(quantities(session).values())


def shipped_content(code: str) -> Mapping[str, Any] | None:
    """The record of a quantity as it ships, None for one of the shop's own."""
    return next((row for row in shipped("bench/quantities") if row["id"] == code), None)


def own_quantities(book: Book) -> dict[str, OwnQuantity]:
    """What the shop added or changed, by code; retired ones too."""
    with book.ask() as session:
        rows = session.scalars(select(QuantityKept).order_by(QuantityKept.code))
        return {row.code: own_quantity(row) for row in rows}


def own_quantity(row: Any) -> OwnQuantity:
    """A quantity that the shop keeps from its row."""
    return OwnQuantity(row.code, row.version, row.content, row.retired, shipped_content(row.code) is not None)


def code_for(book: Book, words: str) -> str:
    """A code for a new quantity, from its words; it never changes again, and no other quantity has it."""
    stem = "own_" + "_".join(fold(words).split()[:4])
    taken = {quantity.id for quantity in quantity_list(book)} | own_quantities(book).keys()
    code, again = stem, 2
    while code in taken:
        code, again = f"{stem}_{again}", again + 1
    return code


def save_quantity(
    book: Book,
    who: int,
    code: str,
    content: Mapping[str, Any],
    *,
    version: int | None = None,
    retired: bool = False,
) -> Done[str]:
    """Change a shipped quantity, or add or change one of the shop's own.

    ``content`` as one record of assets/bench/quantities.json without its id. Raises FieldRefusal by key, StaleRow.
    """
    base = {row["id"]: row for row in shipped("bench/quantities")}.get(code, {})
    whole = {**base, **content, "id": code}
    wrong = _wrong(whole)
    if not wrong:
        try:
            catalogue_of([whole])
        except Refusal as refusal:
            wrong["content"] = refusal.sentence
    if wrong:
        raise FieldRefusal(wrong)
    with book.change(who, Sentence("changed a quantity")) as change:
        row = change.session.scalars(select(QuantityKept).where(QuantityKept.code == code)).first()
        if row is None:
            row = QuantityKept(code=code)
        else:
            row = change.get(QuantityKept, row.id, version=version)
        row.content, row.retired = dict(content), retired
        change.add(row)
    return Done(code, change.changes)


def _wrong(whole: Mapping[str, Any]) -> dict[str, Sentence]:
    """What people can get wrong, under the name of its field; the rest is the catalogue's own to refuse."""
    wrong: dict[str, Sentence] = {}
    words = str(whole.get("words", ""))
    if not words.strip():
        wrong["words"] = Sentence("Give the quantity a name.")
    elif why := check_typed(words, WORDS_ROOM):
        wrong["words"] = why
    if whole.get("unit") not in UNITS:
        wrong["unit"] = Sentence("Choose a unit.")
    ends = [_number(end) for end in whole.get("range", ())]
    low, high = ends if len(ends) == 2 else (None, None)
    if low is None or high is None or low >= high:
        wrong["range"] = Sentence("The range needs a low and a high end; beyond it a value is a slip.")
        return wrong
    example = _number(whole.get("example"))
    if example is None or not low <= example <= high:
        wrong["example"] = Sentence("Give a value that would be right; it lies inside the range.")
    return wrong


def _number(text: Any) -> Decimal | None:
    try:
        number = Decimal(str(text))
    except InvalidOperation:
        return None
    return number if number.is_finite() else None
