"""Facts worded: what a person typed stays letter for letter, what the program says goes through the catalogue."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal

from app.papers.facts import Player, Said, Shown
from app.trade.money import Money, decimals
from app.trade.sentence import Sentence
from app.trade.wording import GLUE, Wording

TYPED_DECIMALS = 4


def worded(said: Said, wording: Wording) -> str:
    """The words of a fact in the language of the paper."""
    return wording(said) if isinstance(said, Sentence) else said


def opening(said: Said, wording: Wording) -> str:
    """The words of a fact where they open a line: our own begin with a capital, a person's stand as typed."""
    text = worded(said, wording)
    return f"{text[:1].upper()}{text[1:]}" if _begins_ours(said) else text


def _begins_ours(said: object) -> bool:
    if not isinstance(said, Sentence):
        return False
    first = re.match(r"\{(\w+)\}", said.key)
    return first is None or _begins_ours(said.values[first[1]])


def shown(value: Shown, wording: Wording) -> str:
    """A value as a table shows it."""
    return value if isinstance(value, str) else wording.value(value)


def amount(money: Money, wording: Wording) -> str:
    """An amount without its currency, for columns that name it in their head."""
    return wording.number(money.amount, grouped=True)


def unit_price(each: Decimal, quantity: Decimal | None, currency: str, wording: Wording) -> str:
    """The price of one. Where it has more decimals than a person types, since it was typed with VAT, as many of
    them as the line needs to come out to the cent; the e-invoice tells them all."""
    if each == round(each, TYPED_DECIMALS):
        return wording.number(each, grouped=True)
    many = Decimal(1) if quantity is None else quantity
    exact, places = Money.of(each * many, currency), decimals(currency)
    while Money.of((said := _to(each, places)) * many, currency) != exact:
        places += 1
    return wording.number(said, grouped=True)


def _to(number: Decimal, places: int) -> Decimal:
    return number.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)


def percent(rate: Decimal, wording: Wording) -> str:
    """A rate in percent without needless zeros, held together by a no-break space."""
    plain = rate.quantize(Decimal(1)) if rate == rate.to_integral_value() else rate.normalize()
    return f"{wording.number(plain)}{GLUE}%"


def serial(player: Player, wording: Wording) -> str:
    """ "serial 0420 158", or that there is none to read. Word and groups stay together."""
    if not player.serial:
        return wording("serial not readable")
    return together(wording("serial {serial}", serial=together(player.serial)))


def together(text: str) -> str:
    """Short numbers held on one line by no-break spaces."""
    return text.replace(" ", "\u00a0") if len(text) <= 20 else text
