"""A customer's card as typed: what cannot be right in it, and when two cards may be one person."""

from __future__ import annotations

import re
from dataclasses import dataclass

from app.trade.find.fold import fold
from app.trade.people.email import check_email
from app.trade.people.phone import check_phone, same_number
from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed

NAME_ROOM, LINE_ROOM, STREET_ROOM, NOTE_ROOM, POSTCODE_ROOM = 300, 80, 240, 600, 16
LANGUAGES = ("", "en", "de")  # of papers; empty: the shop's
_COUNTRY = re.compile(r"[A-Z]{2}")
_VAT_ID = re.compile(r"[A-Z]{2}[0-9A-Z+*]{2,12}")  # begins with its country (EN 16931, BR-CO-09)


@dataclass(frozen=True, kw_only=True)
class CustomerForm:
    """The card as typed."""

    name: str = ""
    phone: str = ""
    email: str = ""
    street: str = ""  # one or more lines
    postcode: str = ""
    city: str = ""
    country: str = ""  # ISO 3166 alpha-2, empty: the shop's own
    vat_id: str = ""
    ring_when: str = ""
    language: str = ""
    note: str = ""


def check_customer(form: CustomerForm) -> dict[str, Sentence]:
    """Every field that cannot be right, with why; empty when the card can be kept."""
    checks = {
        "name": Sentence("Write the name.") if not form.name.strip() else check_typed(form.name, NAME_ROOM),
        "phone": check_phone(form.phone),
        "email": check_email(form.email),
        "street": check_typed(form.street, STREET_ROOM, lines=True),
        "postcode": check_typed(form.postcode, POSTCODE_ROOM),
        "city": check_typed(form.city, LINE_ROOM),
        "country": None
        if not form.country or _COUNTRY.fullmatch(form.country)
        else Sentence("A country is two capital letters, such as DE or GB."),
        "vat_id": None
        if not form.vat_id or _VAT_ID.fullmatch(form.vat_id)
        else Sentence(
            "A VAT number is two letters of the country and then letters or figures, without spaces."
        ),
        "ring_when": check_typed(form.ring_when, LINE_ROOM),
        "language": None if form.language in LANGUAGES else Sentence("Choose one of the languages offered."),
        "note": check_typed(form.note, NOTE_ROOM, lines=True),
    }
    return {field: wrong for field, wrong in checks.items() if wrong}


def may_be_one(name: str, phone: str, other_name: str, other_phone: str, calling_code: str = "") -> bool:
    """Whether a name and number as typed mean a customer of the book: same number and same name, however spelt.

    A name alone never does: two people may share it.
    """
    return same_number(phone, other_phone, calling_code) and fold(name) == fold(other_name)
