"""Settings that say who the shop is: they stand in the head and foot of every paper."""

from __future__ import annotations

import re
from functools import partial

from app.trade.people.email import check_email
from app.trade.people.phone import check_phone
from app.trade.sentence import Sentence
from app.trade.settings.setting import LINES, PICTURE, TEXT, Group, Setting, at_most, lines_of

_text = partial(Setting, shape=TEXT, default="", group=Group.SHOP)


def country(value: str) -> Sentence | None:
    """A rule: an ISO 3166 alpha-2 code, or empty."""
    if value and not re.fullmatch(r"[A-Z]{2}", value):
        return Sentence("A country is two capital letters, such as DE or GB.")
    return None


def vat_id(value: str) -> Sentence | None:
    """A rule: a VAT identification number begins with its country (BR-CO-09), or is empty."""
    if value and not re.fullmatch(r"[A-Z]{2}[0-9A-Z+*]{2,12}", value):
        return Sentence(
            "A VAT number is two letters of the country and then letters or figures, without spaces."
        )
    return None


def _calling_code(value: str) -> Sentence | None:
    if value and not re.fullmatch(r"[1-9][0-9]{0,2}", value):
        return Sentence("A calling code has one to three figures, such as 44, without the plus.")
    return None


def _picture(value: str) -> Sentence | None:
    if value and not re.fullmatch(r"[0-9a-f]{64}", value):
        return Sentence("Choose the picture again.")
    return None


SHOP_NAME = _text("shop_name", label=Sentence("Name of the shop"), rule=at_most(60))
TRADE_LINE = _text(
    "trade_line",
    label=Sentence("Line under the name"),
    rule=at_most(80),
    hint=Sentence("What the shop does, in a few words."),
)
ADDRESS_LINES = Setting(
    "address_lines", LINES, (), Sentence("Street and house"), Group.SHOP, rule=lines_of(3, 60)
)
POSTCODE = _text("postcode", label=Sentence("Postcode"), rule=at_most(16))
CITY = _text("city", label=Sentence("Town"), rule=at_most(60))
COUNTRY = _text("country", label=Sentence("Country"), rule=country)
PHONE = _text("phone", label=Sentence("Telephone"), rule=check_phone)
CALLING_CODE = _text(
    "calling_code",
    label=Sentence("Calling code of the country"),
    rule=_calling_code,
    hint=Sentence("With it, 01632 960 142 and +44 1632 960 142 are found as one number."),
)
EMAIL = _text("email", label=Sentence("E-mail"), rule=check_email)
TAX_NUMBER = _text("tax_number", label=Sentence("Tax number"), rule=at_most(30))
VAT_ID = _text("vat_id", label=Sentence("VAT number"), rule=vat_id)
REGISTER_NUMBER = _text(
    "register_number",
    label=Sentence("Number in a register"),
    rule=at_most(30),
    hint=Sentence("Of the trade or company register. An e-invoice needs it where there is no VAT number."),
)
BANK_LINES = Setting(
    "bank_lines",
    LINES,
    (),
    Sentence("Bank account at the foot of papers"),
    Group.SHOP,
    rule=lines_of(4, 60),
    hint=Sentence("Empty: IBAN and BIC as they stand under money."),
)
LOGO = Setting("logo", PICTURE, "", Sentence("Logo"), Group.SHOP, rule=_picture)

SHOP_SETTINGS = (
    SHOP_NAME,
    TRADE_LINE,
    LOGO,
    ADDRESS_LINES,
    POSTCODE,
    CITY,
    COUNTRY,
    PHONE,
    CALLING_CODE,
    EMAIL,
    TAX_NUMBER,
    VAT_ID,
    REGISTER_NUMBER,
    BANK_LINES,
)
