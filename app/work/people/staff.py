"""Who works in the shop, and the marks that say what each may sign for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.door import Book, Change
from app.book.tables import Staff, StaffMark
from app.trade.bench.authority import MarkHeld, mark_refused
from app.trade.bench.stages import Mark, said
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed
from app.work.shop_book import Done

NAME_ROOM, PROOF_ROOM = 80, 200


@dataclass(frozen=True, slots=True)
class MarkCard:
    """One mark with its proof. ``counts`` says whether it counts today."""

    id: int
    mark: Mark
    proof: str
    proof_from: str
    dated: date
    ends: date | None
    counts: bool


@dataclass(frozen=True, slots=True)
class StaffCard:
    """One who works here. ``marks`` are those that count today, ``proofs`` all that were ever given."""

    id: int
    version: int
    name: str
    active: bool
    has_pin: bool
    marks: frozenset[Mark]
    proofs: tuple[MarkCard, ...]


def staff_list(book: Book, *, former: bool = False) -> tuple[StaffCard, ...]:
    """Everybody who works here, by name; with ``former`` also those who did."""
    with book.ask() as session:
        return tuple(c for c in _cards(session, book.today()) if former or c.active)


def staff_card(book: Book, staff_id: int) -> StaffCard:
    """One person, also a former one."""
    with book.ask() as session:
        return next(c for c in _cards(session, book.today()) if c.id == staff_id)


def who_may(book: Book, mark: Mark) -> tuple[StaffCard, ...]:
    """Who carries a mark today: those whose PIN can sign for it."""
    return tuple(card for card in staff_list(book) if mark in card.marks)


def add_staff(book: Book, who: int | None, name: str) -> Done[int]:
    """Somebody new. ``who`` is None only for the first one of a new book. Gives the id."""
    name = _checked_name(name)
    with book.change(who, Sentence("{name} joined the shop", {"name": name})) as change:
        _only_one(change.session, name)
        row = change.add(Staff(name=name))
    return Done(row.id, change.changes)


def rename_staff(book: Book, who: int, staff_id: int, version: int, name: str) -> Done[None]:
    """Write a name anew; papers that were issued keep the old one."""
    name = _checked_name(name)
    with book.change(who, Sentence("name written anew: {name}", {"name": name})) as change:
        _only_one(change.session, name, staff_id)
        change.get(Staff, staff_id, version=version).name = name
    return Done(None, change.changes)


def leave_staff(book: Book, who: int, staff_id: int, version: int) -> Done[None]:
    """Somebody left. What this person did stays under the name. The last owner cannot leave."""
    with book.change(who, Sentence("somebody left the shop")) as change:
        owners = _owners(change.session, change.today)
        if owners == {staff_id}:
            raise Refusal(
                Sentence("The last owner cannot leave."), Sentence("Give the owner's mark to somebody else.")
            )
        change.get(Staff, staff_id, version=version).active = False
    return Done(None, change.changes)


def return_staff(book: Book, who: int, staff_id: int, version: int) -> Done[None]:
    """Somebody who had left works here again."""
    with book.change(who, Sentence("somebody came back to the shop")) as change:
        change.get(Staff, staff_id, version=version).active = True
    return Done(None, change.changes)


def give_mark(
    book: Book,
    who: int | None,
    staff_id: int,
    mark: Mark,
    *,
    proof: str,
    proof_from: str = "",
    dated: date,
    ends: date | None = None,
) -> Done[int]:
    """Give a mark with its proof. Only the owner gives marks, but the first owner's mark nobody can give.

    Raises FieldRefusal under ``proof``, ``proof_from``, ``dated``, ``ends``. Gives the id of the mark.
    """
    wrong = mark_refused(MarkHeld(mark, proof, dated, ends))
    for field, text in (("proof", proof), ("proof_from", proof_from)):
        if why := check_typed(text, PROOF_ROOM):
            wrong[field] = why
    if dated > book.today():
        wrong["dated"] = Sentence("{day} has not come yet.", {"day": dated})
    if wrong:
        raise FieldRefusal(wrong)
    with book.change(who, Sentence("mark given: {mark}", {"mark": said(mark)})) as change:
        _owner_only(change)
        change.get(Staff, staff_id)
        row = change.add(
            StaffMark(
                staff_id=staff_id,
                mark=mark,
                proof=proof.strip(),
                proof_from=proof_from.strip(),
                dated=dated,
                ends=ends,
            )
        )
    return Done(row.id, change.changes)


def end_mark(book: Book, who: int, mark_id: int, ends: date) -> Done[None]:
    """End a mark on a day, which still counts. Only the owner does; one owner always stays."""
    with book.change(who, Sentence("end of a mark set: {day}", {"day": ends})) as change:
        _owner_only(change)
        row = change.get(StaffMark, mark_id)
        if ends < row.dated:
            raise FieldRefusal(
                {"ends": Sentence("{ends} is before {dated}.", {"ends": ends, "dated": row.dated})}
            )
        row.ends = ends
        change.session.flush()
        if not _owners(change.session, change.today):
            raise Refusal(
                Sentence("The last owner's mark cannot end."),
                Sentence("Give the owner's mark to somebody else first."),
            )
    return Done(None, change.changes)


def _checked_name(name: str) -> str:
    name = " ".join(name.split())
    if not name:
        raise FieldRefusal({"name": Sentence("Write the name.")})
    if wrong := check_typed(name, NAME_ROOM):
        raise FieldRefusal({"name": wrong})
    return name


def _only_one(session: Session, name: str, but: int | None = None) -> None:
    for row in session.scalars(select(Staff).where(Staff.id != (but or 0))):
        if row.name.casefold() == name.casefold():
            raise FieldRefusal({"name": Sentence("{name} is in the book already.", {"name": row.name})})


def _owner_only(change: Change) -> None:
    owners = _owners(change.session, change.today)
    if owners and change.who not in owners:
        raise Refusal(Sentence("Only the owner gives and ends marks."))


def _owners(session: Session, today: date) -> set[int]:
    return {
        mark.staff_id
        for mark in session.scalars(
            select(StaffMark)
            .join(Staff, Staff.id == StaffMark.staff_id)
            .where(Staff.active, StaffMark.mark == Mark.OWNER)
        )
        if _held(mark).counts_on(today)
    }


def _held(row: StaffMark) -> MarkHeld:
    return MarkHeld(row.mark, row.proof, row.dated, row.ends)


def _cards(session: Session, today: date) -> list[StaffCard]:
    given: dict[int, list[MarkCard]] = {}
    for row in session.scalars(select(StaffMark).order_by(StaffMark.dated, StaffMark.id)):
        counts = _held(row).counts_on(today)
        given.setdefault(row.staff_id, []).append(
            MarkCard(row.id, row.mark, row.proof, row.proof_from, row.dated, row.ends, counts)
        )
    return [
        StaffCard(
            id=row.id,
            version=row.version,
            name=row.name,
            active=row.active,
            has_pin=bool(row.pin_hash),
            marks=frozenset(card.mark for card in given.get(row.id, ()) if card.counts),
            proofs=tuple(given.get(row.id, ())),
        )
        for row in session.scalars(select(Staff).order_by(Staff.name, Staff.id))
    ]
