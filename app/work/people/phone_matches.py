"""Customers by a telephone number that is typed so far, however it is written."""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.find.lookup import ids_by_tail
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer
from app.trade.people.phone import check_phone, digits, normal
from app.trade.settings.shop import CALLING_CODE

FEWEST_FIGURES = 3  # of a number, before it is looked up


def has_figures(text: str) -> bool:
    """Whether a text may be the beginning or the end of a telephone number."""
    return len(digits(text)) >= FEWEST_FIGURES and check_phone(text) is None


def ids_by_phone(session: Session, phone: str, limit: int) -> list[int]:
    """Keys of customers whose number begins as typed, in the order of numbers, or ends so from four figures on.

    In the order of the index: sorting by age would walk through every card of the book. Cards that were merged
    may be among them; whoever loads the rows leaves those out.
    """
    typed = digits(phone)
    wanted = normal(phone, settings_of(session)[CALLING_CODE])
    found: list[int] = []
    for start in dict.fromkeys((wanted, typed.lstrip("0"))):
        if len(start) < FEWEST_FIGURES:
            continue
        found += session.scalars(
            select(Customer.id)
            .where(Customer.phone_digits >= start, Customer.phone_digits < start + ":")  # ":" follows "9"
            .order_by(Customer.phone_digits, Customer.id.desc())
            .limit(limit)
        )
    for tail in dict.fromkeys((wanted, typed)):
        found += ids_by_tail(session, tail, ("customer",), limit)["customer"]
    return list(dict.fromkeys(found))[:limit]
