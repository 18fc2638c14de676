"""The shop's bank account: IBAN and BIC as typed, checked, and written in groups of four."""

from __future__ import annotations

import re

from app.trade.office.check_digits import mod_97
from app.trade.sentence import Sentence

# How many letters and figures an IBAN of each country has (the IBAN registry of ISO 13616-2, as python-stdnum 2.2
# holds it; the test compares them).
_LENGTHS = {
    15: "NO",
    16: "BE",
    18: "DK FI FK FO GL NL SD",
    19: "MK SI",
    20: "AT BA EE KZ LT LU MN XK",
    21: "CH HR LI LV",
    22: "BG BH CR DE GB GE IE ME RS VA",
    23: "AE GI IL IQ OM SO TL",
    24: "AD CZ ES MD PK RO SA SE SK TN VG",
    25: "LY PT ST",
    26: "IS TR",
    27: "BI DJ FR GR IT MC MR SM",
    28: "AL AZ BY CY DO GT HN HU LB NI PL SV",
    29: "BR EG PS QA UA",
    30: "JO KW MU YE",
    31: "MT SC",
    32: "LC",
    33: "RU",
}
LENGTH = {country: length for length, countries in _LENGTHS.items() for country in countries.split()}
_IBAN = re.compile(r"[A-Z]{2}[0-9]{2}[A-Z0-9]{11,30}")
_BIC = re.compile(r"[A-Z0-9]{4}[A-Z]{2}[A-Z0-9]{2}(?:[A-Z0-9]{3})?")  # ISO 9362:2022


def compact(typed: str) -> str:
    """An IBAN or BIC without spaces, in capitals."""
    return "".join(typed.split()).upper()


def grouped(number: str) -> str:
    """A long number in groups of four, as it is printed (ISO 13616: the paper form)."""
    plain = compact(number)
    return " ".join(plain[at : at + 4] for at in range(0, len(plain), 4))


def check_iban(typed: str) -> Sentence | None:
    """Why this is no IBAN, or None; empty is none given. Form, length of its country, check digits (ISO 13616)."""
    iban = compact(typed)
    if not iban:
        return None
    if not _IBAN.fullmatch(iban):
        return Sentence(
            "An IBAN begins with two letters of the country and two figures, such as DE36 0000 0000 0000 0000 00."
        )
    wanted = LENGTH.get(iban[:2])
    if wanted is not None and len(iban) != wanted:
        return Sentence(
            "An IBAN of {country} has {wanted} letters and figures; this one has {count}.",
            {"country": iban[:2], "wanted": wanted, "count": len(iban)},
        )
    if mod_97(iban[4:] + iban[:4]) != 1:
        return Sentence("The check digits of this IBAN do not fit: a figure is wrong or two are swapped.")
    return None


def check_bic(typed: str) -> Sentence | None:
    """Why this is no BIC (ISO 9362), or None; empty is none given."""
    bic = compact(typed)
    if bic and not _BIC.fullmatch(bic):
        return Sentence("A BIC has 8 or 11 letters and figures, such as XMPLDEFF or XMPLDEFFXXX.")
    return None
