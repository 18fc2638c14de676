"""Amounts, prices, hours and percentages as people type them, read strictly and shown back at once.

Point and comma are both decimal marks. Thousands are grouped by spaces or apostrophes only: where point or
comma could be meant as either, the text is refused and says why, since a wrong guess costs a factor of 1000.
"""

from __future__ import annotations

import re
import unicodedata
from decimal import ROUND_HALF_UP, Decimal

from app.trade.money import MICRO, Money, decimals
from app.trade.refusal import Refusal
from app.trade.sentence import Measure, Sentence

LONGEST = 40
MOST_DIGITS = 12  # before the mark
PRICE_PLACES = 6
HOURS_MOST = 1000

_MINUS = re.compile(r"[-\u2212\u2013]")
_GROUPING = re.compile(r"(?<=[0-9])[ '\u2019](?=[0-9])")
_GROUPED = re.compile(r"[0-9]{1,3}(?:[ '\u2019][0-9]{3})+(?:[.,][0-9]*)?")
_NUMBER = re.compile(r"(?P<whole>[0-9]*)(?:[.,](?P<part>[0-9]*))?")
_CLOCK = re.compile(r"(?P<hours>[0-9]{1,4}):(?P<minutes>[0-9]{2})")
_HOURS_AND_MINUTES = re.compile(r"(?P<hours>[0-9]{1,4})h(?P<minutes>[0-9]{1,2})(?:min|m)?")
_MINUTES = re.compile(r"(?P<minutes>[0-9]{1,5})min")
_SIGNS = {"€": "EUR", "£": "GBP", "$": "USD", "¥": "JPY", "zł": "PLN", "kč": "CZK"}


def _plain(text: str) -> str:
    """Spaces of any kind as one ordinary space, figures of any script as 0 to 9, ends trimmed."""
    if len(text) > LONGEST:
        raise Refusal(Sentence("That is too long for a number."))
    letters = []
    for letter in text:
        kind = unicodedata.category(letter)
        if kind == "Nd":
            letters.append(str(unicodedata.decimal(letter)))
        else:
            letters.append(" " if kind == "Zs" else letter)
    return " ".join("".join(letters).split())


def _number(text: str, places: int) -> Decimal:
    """A number without sign and unit, of at most ``places`` decimals."""
    if not text:
        raise Refusal(Sentence("Write a number."))
    if _MINUS.search(text):
        raise Refusal(Sentence("Write it without a minus."))
    if _GROUPING.search(text):
        if not _GROUPED.fullmatch(text):
            raise Refusal(Sentence("Thousands are parted in groups of three, such as 1 234.50."))
        text = _GROUPING.sub("", text)
    elif text.count(".") + text.count(",") > 1:
        raise Refusal(
            Sentence("Point and comma together can be read in two ways. Write 1234.50 or 1 234.50.")
        )
    matched = _NUMBER.fullmatch(text)
    if matched is None or not (matched["whole"] or matched["part"]):
        raise Refusal(Sentence("That is no number. Write it like 90, 90.50 or 90,50."))
    whole, part = matched["whole"], matched["part"]
    if part is not None and not part:
        raise Refusal(Sentence("Figures are missing behind the point or comma."))
    part = part or ""
    if len(whole) > MOST_DIGITS:
        raise Refusal(Sentence("That amount is too high to be meant."))
    if len(part) == 3 and places != 3 and 1 <= len(whole) <= 3 and whole[0] != "0":
        either = {"text": text, "thousands": whole + part, "part": f"{whole}.{part}0"}
        if places > 3:
            raise Refusal(
                Sentence("{text} can be read as thousands or as a part. Write {thousands} or {part}.", either)
            )
        raise Refusal(
            Sentence("{text} can be read as thousands. Write {thousands} or fewer decimals.", either)
        )
    if len(part) > places:
        raise Refusal(
            Sentence("At most {places} figures stand behind the mark.", {"places": places})
            if places
            else Sentence("This currency has no smaller coin: write it without decimals.")
        )
    return Decimal(f"{whole or '0'}.{part or '0'}")


def _without_currency(text: str, currency: str) -> str:
    """The text without the shop's currency at either end. Another currency is refused."""
    matched = re.fullmatch(r"([^0-9.,\s\-\u2212\u2013]*) ?(.*?) ?([^0-9.,\s\-\u2212\u2013]*)", text)
    assert matched is not None  # every part may be empty, and `_plain` left no line end
    before, number, behind = matched.groups()
    for mark in (before, behind):
        code = _SIGNS.get(mark.lower(), mark.upper())
        if code and code != currency:
            raise Refusal(
                Sentence("The shop's money is {currency}: write the number alone.", {"currency": currency})
            )
    return str(number)


def parse_amount(text: str, currency: str) -> Money:
    """An amount as typed: 90, 90.00, 90,00, 1 234.50, with or without the shop's currency. Raises Refusal."""
    number = _number(_without_currency(_plain(text), currency), decimals(currency))
    return Money.of(number, currency)


def parse_price(text: str, currency: str) -> int:
    """A unit price in millionths; up to six decimals. Raises Refusal."""
    return int(_number(_without_currency(_plain(text), currency), PRICE_PLACES) * MICRO)


def parse_quantity(text: str) -> int:
    """A quantity in millionths, above zero. Raises Refusal."""
    number = _number(_plain(text), PRICE_PLACES)
    if not number:
        raise Refusal(Sentence("A quantity is above zero. To take something back, write a credit note."))
    return int(number * MICRO)


def parse_hours(text: str) -> int:
    """Working time in millionths of an hour: 1:30, 1.5, 1,5 h, 1 h 30, 90 min. Raises Refusal."""
    tight = _plain(text).lower().replace(" ", "").replace("hours", "h").replace("std", "h").rstrip(".")
    for pattern in (_CLOCK, _HOURS_AND_MINUTES, _MINUTES):
        matched = pattern.fullmatch(tight)
        if matched is not None:
            parts = matched.groupdict(default="0")
            minutes = int(parts["minutes"])
            if "hours" in parts and minutes > 59:
                raise Refusal(Sentence("An hour has 60 minutes: behind the hours stand 00 to 59."))
            worked = Decimal(int(parts.get("hours", "0")) * 60 + minutes) / 60
            break
    else:
        worked = _number(tight.removesuffix("h"), 3)
    if not worked:
        raise Refusal(Sentence("Write how long it took, such as 1:30, 1.5 or 90 min."))
    if worked > HOURS_MOST:
        raise Refusal(Sentence("That is more than {hours} hours.", {"hours": HOURS_MOST}))
    return int((worked * MICRO).quantize(Decimal(1), rounding=ROUND_HALF_UP))


def parse_percent(text: str) -> int:
    """A percentage from 0 to 100 as an integer of 10^-4: 19, 19 %, 5.5, 5,5 %. Raises Refusal."""
    number = _number(_plain(text).removesuffix("%").rstrip(), 2)
    if number > 100:
        raise Refusal(Sentence("More than 100 % cannot be meant."))
    return int(number * 100)


def shown(micro: int, least: int = 0) -> Decimal:
    """A quantity or price with no more decimals than it needs, at least ``least``: 2250000 is 2.25."""
    number = Decimal(micro).scaleb(-6).normalize()
    _, _, exponent = number.as_tuple()
    assert isinstance(exponent, int)
    return number.quantize(Decimal(1).scaleb(min(exponent, -least)))


def clock(micro: int) -> Sentence:
    """Working time for people: 1500000 is "1 h 30 min", rounded to the minute."""
    minutes = int((Decimal(micro) * 60 / MICRO).quantize(Decimal(1), rounding=ROUND_HALF_UP))
    hours, rest = divmod(minutes, 60)
    worked = (Measure(Decimal(hours), "h"), Measure(Decimal(rest), "min"))
    if hours and rest:
        return Sentence("{hours} {minutes}", {"hours": worked[0], "minutes": worked[1]})
    return Sentence("{time}", {"time": worked[0] if hours else worked[1]})
