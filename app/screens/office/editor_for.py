"""Which editor a setting gets, by the kind of value that it was declared with."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

from app.screens import language
from app.screens.desk import Desk
from app.screens.language import say
from app.screens.office.logo_editor import LogoEditor
from app.screens.office.row_editors import closed_days_editor, terms_editor, vat_rates_editor
from app.screens.office.safety_editor import SafetyEditor
from app.screens.office.setting_editors import (
    AreaEditor,
    ChoiceEditor,
    Editor,
    WeekdaysEditor,
    YesNoEditor,
    decimal_editor,
    price_editor,
    text_editor,
    whole_editor,
)
from app.trade.settings import CURRENCIES, CURRENCY, TIME_ZONE, Kind, Setting

MONDAY = date(2024, 1, 1)


def editor_for(setting: Setting[Any], desk: Desk) -> Editor:
    """The editor of a setting, empty."""
    if setting.choices:
        return ChoiceEditor(options_of(setting))
    make: dict[Kind, Callable[[], Editor]] = {
        Kind.TEXT: lambda: text_editor(_seen(setting)),
        Kind.PARAGRAPH: lambda: AreaEditor(lines=4, shipped=str(setting.default)),
        Kind.LINES: lambda: AreaEditor(by_line=True, lines=3),
        Kind.YES_NO: lambda: YesNoEditor(say(setting.label)),
        Kind.WHOLE: whole_editor,
        Kind.PRICE: lambda: price_editor(desk.shop.currency),
        Kind.DECIMAL: decimal_editor,
        Kind.PICTURE: lambda: LogoEditor(desk),
        Kind.WEEKDAYS: lambda: WeekdaysEditor(weekday_names()),
        Kind.CLOSED_DAYS: lambda: closed_days_editor(desk.today),
        Kind.VAT_RATES: vat_rates_editor,
        Kind.TERMS: terms_editor,
        Kind.SAFETY_STANDARD: SafetyEditor,
    }
    return make[setting.kind]()


def options_of(setting: Setting[Any]) -> list[tuple[Any, str]]:
    """What can be chosen, worded; a currency's code is the same in every language."""
    if setting is CURRENCY:
        return [(code, code) for code in CURRENCIES]
    return [(choice, say(words)) for choice, words in setting.choices]


def unit_of(setting: Setting[Any], currency: str) -> str:
    """What stands behind the field."""
    if setting.kind is Kind.PRICE:
        return currency
    return say(setting.unit) if setting.unit is not None else ""


def weekday_names() -> list[str]:
    """Monday to Sunday in the window's language."""
    return [language.day(MONDAY + timedelta(days=n), "EEEE") for n in range(7)]


def _seen(setting: Setting[Any]) -> tuple[str, ...]:
    if setting is not TIME_ZONE:
        return ()
    from zoneinfo import available_timezones

    return tuple(sorted(available_timezones()))
