"""PINs: set by their person, checked where somebody signs, slowed down when guessed at."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from datetime import datetime
from hashlib import blake2b

from sqlalchemy import select

from app.book.door import Book
from app.book.tables import Staff, StaffMark
from app.trade.bench.authority import FREE_TRIES, MarkHeld, may_sign, pin_refused, try_refused
from app.trade.bench.stages import Mark
from app.trade.refusal import FieldRefusal, PinRefused, Refusal
from app.trade.sentence import Sentence
from app.work.shop_book import Done

# argon2id as OWASP's password storage cheat sheet has it at least: 19 MiB, two passes, one lane.
TIME_COST, MEMORY_KIB, LANES = 2, 19 * 1024, 1


def hash_of(pin: str) -> str:
    """The argon2id hash that the book keeps, salt and parameters in it."""
    from argon2 import PasswordHasher

    return PasswordHasher(time_cost=TIME_COST, memory_cost=MEMORY_KIB, parallelism=LANES).hash(pin)


def _is_pin(pin_hash: str, pin: str) -> bool:
    """Whether it is the PIN. One that was right before in this run is known at once; a wrong one never is."""
    from argon2 import PasswordHasher
    from argon2.exceptions import VerificationError

    seen = blake2b(f"{pin_hash} {pin}".encode(), key=_OF_THIS_RUN).digest()
    if seen in _RIGHT:
        return True
    try:
        PasswordHasher().verify(pin_hash, pin)
    except VerificationError:
        return False
    _RIGHT.add(seen)
    return True


_OF_THIS_RUN = secrets.token_bytes(32)  # so that what is remembered says nothing outside this process
_RIGHT: set[bytes] = set()


def set_pin(book: Book, who: int, staff_id: int, pin: str, *, present: str = "") -> Done[None]:
    """Set a PIN. Where there is one, ``present`` is that person's, or the owner's who sets it anew.

    Raises FieldRefusal under ``pin`` and ``present``, Refusal when it is neither one's own nor the owner's to set.
    """
    if wrong := pin_refused(pin):
        raise FieldRefusal({"pin": wrong})
    person = _person(book, staff_id)
    if who != staff_id and not _carries(book, who, Mark.OWNER):
        raise Refusal(Sentence("A PIN is set by its person or by the owner."))
    signer = staff_id if who == staff_id else who
    if _person(book, signer).pin_hash:
        try:
            check_pin(book, signer, present)
        except Refusal as refusal:
            raise FieldRefusal({"present": refusal.sentence}) from refusal
    fresh = hash_of(pin)
    with book.change(who, Sentence("PIN of {name} set", {"name": person.name})) as change:
        row = change.get(Staff, staff_id)
        row.pin_hash, row.pin_failures, row.pin_failed_at = fresh, 0, None
    return Done(None, change.changes)


def check_pin(book: Book, staff_id: int, pin: str, needs: Mark | None = None) -> None:
    """That this is the person's PIN and, with ``needs``, that the person carries that mark today.

    Raises PinRefused with the sentence to show. Wrong tries are counted in the book, so that starting the program
    again does not begin anew.
    """
    person = _person(book, staff_id)
    if not person.active:
        raise PinRefused(Sentence("{name} does not work here any more.", {"name": person.name}))
    if needs is not None and (why := may_sign(marks_of(book, staff_id), needs, book.today())):
        raise PinRefused(
            Sentence("{name} cannot sign this. {why}", {"name": person.name, "why": why}),
            Sentence("Somebody who carries the mark has to sign."),
        )
    if not person.pin_hash:
        raise PinRefused(
            Sentence("{name} has no PIN yet.", {"name": person.name}),
            Sentence("Set one in the Office, under staff."),
        )
    if early := try_refused(person.failures, person.failed_at, book.now()):
        raise PinRefused(early, Sentence("The owner can set a new PIN in the Office."))
    if not _is_pin(person.pin_hash, pin):
        left = FREE_TRIES - _count_wrong(book, staff_id)
        raise PinRefused(
            Sentence("That is not the PIN of {name}.", {"name": person.name}),
            Sentence("{left} more tries, then a pause.", {"left": left}) if left > 0 else None,
        )
    if person.failures:
        with book.change(None, Sentence("PIN tries counted anew")) as change:
            row = change.get(Staff, staff_id)
            row.pin_failures, row.pin_failed_at = 0, None


def _count_wrong(book: Book, staff_id: int) -> int:
    with book.change(None, Sentence("wrong PIN counted")) as change:
        row = change.get(Staff, staff_id)
        row.pin_failures += 1
        row.pin_failed_at = change.now
        return row.pin_failures


@dataclass(frozen=True, slots=True)
class _Person:
    name: str
    active: bool
    pin_hash: str
    failures: int
    failed_at: datetime | None


def _person(book: Book, staff_id: int) -> _Person:
    with book.ask() as session:
        row = session.get_one(Staff, staff_id)
        return _Person(row.name, row.active, row.pin_hash, row.pin_failures, row.pin_failed_at)


def _carries(book: Book, staff_id: int, mark: Mark) -> bool:
    return may_sign(marks_of(book, staff_id), mark, book.today()) is None


def marks_of(book: Book, staff_id: int) -> tuple[MarkHeld, ...]:
    """Every mark that the person was ever given, for the rules of who may sign what."""
    with book.ask() as session:
        rows = session.scalars(
            select(StaffMark).where(StaffMark.staff_id == staff_id).order_by(StaffMark.dated, StaffMark.id)
        )
        return tuple(MarkHeld(row.mark, row.proof, row.dated, row.ends) for row in rows)
