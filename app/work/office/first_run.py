"""The first page of a new book: the shop's name and address, money, language, clock and sheet, and its owner."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import select

from app.book.door import Book
from app.book.tables import Staff, StaffMark
from app.trade.bench.authority import pin_refused
from app.trade.bench.stages import Mark
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.papers_and_days import LANGUAGE, PAGE_SIZE, TIME_ZONE
from app.trade.settings.prices import CURRENCY
from app.trade.settings.setting import Setting
from app.trade.settings.shop import ADDRESS_LINES, CITY, COUNTRY, POSTCODE, SHOP_NAME
from app.trade.settings.shop_settings import ShopSettings, check_changes
from app.trade.typed_words import check_typed
from app.work.office.settings import keep_settings
from app.work.people.pins import hash_of
from app.work.people.staff import NAME_ROOM
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstRun:
    """The page as filled in. The address may follow in the settings; it heads every paper."""

    shop_name: str
    owner: str
    pin: str
    pin_again: str
    address_lines: str = ""
    postcode: str = ""
    city: str = ""
    country: str = ""
    currency: str = CURRENCY.default
    language: str = LANGUAGE.default
    time_zone: str = TIME_ZONE.default
    page_size: str = PAGE_SIZE.default
    proof: str = "began this book"  # what the owner's mark rests on

    def settings(self) -> Mapping[Setting[Any], Any]:
        """What of it are settings."""
        return {
            SHOP_NAME: self.shop_name.strip(),
            ADDRESS_LINES: tuple(line for line in map(str.strip, self.address_lines.splitlines()) if line),
            POSTCODE: self.postcode.strip(),
            CITY: self.city.strip(),
            COUNTRY: self.country.strip().upper(),
            CURRENCY: self.currency,
            LANGUAGE: self.language,
            TIME_ZONE: self.time_zone.strip(),
            PAGE_SIZE: self.page_size,
        }


def check_first_run(form: FirstRun) -> dict[str, Sentence]:
    """What cannot be right, by field; what is only missing while it is being filled in is told, too."""
    wrong = check_changes(ShopSettings(), form.settings())
    if not form.shop_name.strip():
        wrong["shop_name"] = Sentence("Write the name of the shop: it stands on every paper.")
    owner = " ".join(form.owner.split())
    if not owner:
        wrong["owner"] = Sentence("Write the name.")
    elif why := check_typed(owner, NAME_ROOM):
        wrong["owner"] = why
    if easy := pin_refused(form.pin):
        wrong["pin"] = easy
    elif form.pin != form.pin_again:
        wrong["pin_again"] = Sentence("The two are not the same.")
    return wrong


def begin_book(book: Book, form: FirstRun) -> Done[int]:
    """Write the settings and the owner into a new book, in one action; gives the owner's id.

    Raises FieldRefusal by field, Refusal when somebody works here already.
    """
    if wrong := check_first_run(form):
        raise FieldRefusal(wrong)
    pin = hash_of(form.pin)
    name, zone = " ".join(form.owner.split()), ZoneInfo(form.time_zone.strip())
    with book.change(None, Sentence("began the book")) as change:
        if change.session.scalar(select(Staff.id).limit(1)) is not None:
            raise Refusal(Sentence("This book has been begun already."), Sentence("Choose who works now."))
        owner = change.add(Staff(name=name, pin_hash=pin))
        change.who = owner.id
        today = change.now.astimezone(zone).date()  # the book does not know its zone before this action
        change.add(StaffMark(staff_id=owner.id, mark=Mark.OWNER, proof=form.proof, dated=today))
        keep_settings(change, form.settings())
    book.use_zone(zone)
    return Done(owner.id, change.changes)
