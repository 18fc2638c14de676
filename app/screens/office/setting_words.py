"""Settings in words: the names of their groups, and their values where two are compared."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from app.screens.language import day, moment, number, say
from app.screens.office.editor_for import options_of, unit_of, weekday_names
from app.screens.office.invoice_lines import rate_words
from app.trade.money import decimals
from app.trade.office.amounts import shown
from app.trade.sentence import Sentence
from app.trade.settings import Group, Kind, Setting
from app.work.office.former_lines import FormerLine
from app.work.office.former_settings import SettingLine

GROUP_WORDS = {
    Group.SHOP: Sentence("Shop"),
    Group.COUNTER: Sentence("Counter"),
    Group.MONEY: Sentence("Money"),
    Group.PARTS: Sentence("Parts"),
    Group.PAPERS: Sentence("Papers"),
    Group.CALENDAR: Sentence("Calendar"),
    Group.SAFETY: Sentence("Safety"),
    Group.BENCH: Sentence("Bench"),
}


def value_words(setting: Setting[Any], value: Any, currency: str) -> str:
    """A value of a setting as people read it."""
    if setting.choices:
        options: dict[Any, str] = dict(options_of(setting))
        return options.get(value, str(value))
    match setting.kind:
        case Kind.YES_NO:
            return say("yes") if value else say("no")
        case Kind.LINES:
            return ", ".join(value)
        case Kind.PRICE:
            return number(shown(value, decimals(currency)))
        case Kind.WEEKDAYS:
            names = weekday_names()
            return ", ".join(names[n - 1] for n in sorted(value))
        case Kind.CLOSED_DAYS:
            return "; ".join(
                f"{day(closed.first)} – {day(closed.last)} {closed.words}".strip() for closed in value
            )
        case Kind.VAT_RATES:
            return ", ".join(rate_words(rate.rate, rate.category) for rate in value)
        case Kind.TERMS:
            return " ".join(f"{say(term.lead)} {say(term.text)}" for term in value)
        case Kind.SAFETY_STANDARD:
            return value.title if value.named else say("not named")
        case Kind.PICTURE:
            return say("a picture") if value else say("No logo")
        case Kind.PARAGRAPH:
            return say(value) if value == setting.default else str(value)
        case _:
            return number(value) if setting.kind in (Kind.WHOLE, Kind.DECIMAL) else str(value)


def former_words(lines: Sequence[FormerLine[SettingLine]], currency: str) -> list[tuple[SettingLine, str]]:
    """What each change took away, with who and when. Where nothing had stood there is nothing to tell."""
    texts: list[tuple[SettingLine, str]] = []
    for line in lines:
        setting, was = line.before
        if words := value_words(setting, was, currency):
            head = say("Until {when}, {name}:", when=moment(line.at), name=line.by)
            value = f"{words} {unit_of(setting, currency)}".strip()
            texts.append((line.before, f"{head}\n{say(setting.label)}: {value}"))
    return texts
