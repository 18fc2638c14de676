"""Words sentences in one language: gettext templates, with numbers, dates and money by locale (babel)."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, datetime, tzinfo
from decimal import Decimal
from functools import cached_property, lru_cache

from app.trade.joining import filled
from app.trade.money import Money
from app.trade.sentence import Measure, Sentence, Value

NARROW = "\u202f"  # narrow no-break space, groups digits
GLUE = "\u00a0"  # no-break space between a number and its unit
MINUS = "\u2212"
CLOCK = "HH:mm"
_DAY_BEFORE_MONTH = re.compile(r"\bd (?=M)")


class Wording:
    """How one language says things. ``translate`` maps an English template to that language's template.

    ``locale`` is a CLDR name such as ``en_GB`` or ``de``; ``zone`` is the shop's time zone for instants.
    """

    def __init__(self, translate: Callable[[str], str], locale: str, zone: tzinfo) -> None:
        self._translate = translate
        self.locale = locale
        self.zone = zone

    @property
    def language(self) -> str:
        """The ISO 639 code, e.g. ``de``."""
        return self.locale.partition("_")[0]

    def __call__(self, key: str | Sentence, /, **values: Value) -> str:
        """The template or sentence in this language, its braces filled."""
        if isinstance(key, Sentence):
            return self(key.key, **key.values)
        template = self._translate(key) if key else ""  # gettext answers nothing with its own header
        if not values:
            return template
        return filled(template, {name: self.value(value) for name, value in values.items()})

    def value(self, value: Value) -> str:
        """One value as this language writes it."""
        match value:
            case str():
                return value
            case int():
                return self.number(Decimal(value))
            case Decimal():
                return self.number(value)
            case datetime():
                return self.moment(value)
            case date():
                return self.day(value)
            case Money():
                return self.money(value)
            case Measure():
                return self.measure(value)
            case Sentence():
                return self(value)
        return ", ".join(self.value(item) for item in value)

    def number(self, number: Decimal, *, signed: bool = False, grouped: bool = False) -> str:
        """All digits given are kept; the decimal mark is the language's; the minus is U+2212."""
        sign, digits, exponent = number.as_tuple()
        if not isinstance(exponent, int):
            raise ValueError(f"not a finite number: {number}")
        text = format(abs(number), "f")
        whole, _, fraction = text.partition(".")
        if grouped:
            groups: list[str] = []
            while len(whole) > 3:
                groups.insert(0, whole[-3:])
                whole = whole[:-3]
            whole = NARROW.join([whole, *groups])
        mark = MINUS if sign and any(digits) else "+" if signed and any(digits) else ""
        return mark + whole + (self.decimal_mark + fraction if fraction else "")

    @cached_property
    def decimal_mark(self) -> str:
        """The language's decimal mark."""
        from babel.numbers import get_decimal_symbol

        return get_decimal_symbol(self.locale)

    def measure(self, measure: Measure) -> str:
        """Number, no-break space, unit."""
        text = self.number(measure.value, signed=measure.signed)
        return f"{text}{GLUE}{measure.unit}" if measure.unit else text

    def money(self, money: Money) -> str:
        """Amount with the currency's decimals and its ISO 4217 code behind, e.g. ``1 234.50 EUR``."""
        return f"{self.number(money.amount, grouped=True)}{GLUE}{money.currency}"

    def day(self, day: date, style: str = "d MMM y") -> str:
        """A shop-local day with the month in letters; ``style`` is a CLDR date pattern."""
        return _day_in(day, self._pattern(style), self.locale)

    def _pattern(self, style: str) -> str:
        """A pattern with the marks of the language: German writes a point behind the day of the month."""
        return _DAY_BEFORE_MONTH.sub("d. ", style) if self.language == "de" else style

    def moment(self, instant: datetime, style: str = "d MMM y, HH:mm") -> str:
        """An instant in the shop's time zone; in ``style`` the clock, HH:mm, stands last. Naive instants are refused
        with ValueError."""
        if instant.tzinfo is None:
            raise ValueError("a naive instant has no place on the clock")
        local = instant.astimezone(self.zone)
        before = style.removesuffix(CLOCK)
        day = before.rstrip(", ")
        text = self.day(local.date(), day) if day else ""
        if before != style:
            text += before.removeprefix(day).replace(" ", GLUE) + f"{local:%H:%M}"
        return text


@lru_cache(maxsize=1024)
def _day_in(day: date, pattern: str, locale: str) -> str:
    """A day worded, and kept: a list says the same days again and again, each at the price of many numbers."""
    from babel.dates import format_date

    return str(format_date(day, pattern, locale=locale)).replace(" ", GLUE)


def plain(zone: tzinfo) -> Wording:
    """English as the templates stand, for tests and for the command line without a catalogue."""
    return Wording(lambda key: key, "en_GB", zone)
