"""All settings together: the snapshot that everything reads, and the check before a change is kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any, TypeVar

from app.trade.calendar.promise import ShopCalendar
from app.trade.refusal import Fault
from app.trade.sentence import Sentence
from app.trade.settings.bank import BANK_SETTINGS
from app.trade.settings.bench import ORDERED, SAFETY_SETTINGS, THRESHOLD_SETTINGS
from app.trade.settings.comebacks import COMEBACK_SETTINGS
from app.trade.settings.owed import AFTER_SETTINGS, OWED_SETTINGS
from app.trade.settings.papers_and_days import CALENDAR_SETTINGS, CLOSED_DAYS, OPEN_DAYS, PAPER_SETTINGS
from app.trade.settings.parts import PARTS_SETTINGS
from app.trade.settings.prices import CREDIT_SERIES, INVOICE_SERIES, MONEY_SETTINGS, same_series
from app.trade.settings.setting import Setting
from app.trade.settings.shop import SHOP_SETTINGS
from app.trade.settings.terms import COUNTER_SETTINGS

T = TypeVar("T")

_ALL: tuple[Setting[Any], ...] = (
    *SHOP_SETTINGS,
    *COUNTER_SETTINGS,
    *COMEBACK_SETTINGS,
    *AFTER_SETTINGS,
    *MONEY_SETTINGS,
    *OWED_SETTINGS,
    *BANK_SETTINGS,
    *PARTS_SETTINGS,
    *PAPER_SETTINGS,
    *CALENDAR_SETTINGS,
    *SAFETY_SETTINGS,
    *THRESHOLD_SETTINGS.values(),
)
SETTINGS: Mapping[str, Setting[Any]] = MappingProxyType({setting.key: setting for setting in _ALL})


class ShopSettings:
    """The settings at one moment: what the book keeps, and the defaults for the rest.

    ``settings[HOURLY_RATE]`` has the type its declaration says. Never changed: `with_changes` gives another.
    """

    def __init__(self, values: Mapping[Setting[Any], Any] = MappingProxyType({})) -> None:
        self._values = dict(values)

    @classmethod
    def from_plain(cls, kept: Mapping[str, Any]) -> ShopSettings:
        """The snapshot from the book's rows (key and JSON data). Raises Fault for what no program wrote."""
        values: dict[Setting[Any], Any] = {}
        for key, plain in kept.items():
            setting = SETTINGS.get(key)
            if setting is None:
                raise Fault(f"the book keeps a setting {key!r} that this program does not know")
            try:
                values[setting] = setting.from_plain(plain)
            except ValueError as unreadable:
                raise Fault(str(unreadable)) from unreadable
        return cls(values)

    def __getitem__(self, setting: Setting[T]) -> T:
        value: T = self._values.get(setting, setting.default)
        return value

    def __iter__(self) -> Iterator[Setting[Any]]:
        """The settings that differ from their default."""
        return (s for s in SETTINGS.values() if self[s] != s.default)

    def with_changes(self, changes: Mapping[Setting[Any], Any]) -> ShopSettings:
        """Another snapshot with these values in place."""
        return ShopSettings({**self._values, **changes})

    def to_plain(self) -> dict[str, Any]:
        """Key and JSON data of every setting that differs from its default, for the book."""
        return {setting.key: setting.to_plain(self[setting]) for setting in self}

    @property
    def calendar(self) -> ShopCalendar:
        """The shop's calendar."""
        return ShopCalendar(self[OPEN_DAYS], self[CLOSED_DAYS])


def check_changes(now: ShopSettings, changes: Mapping[Setting[Any], Any]) -> dict[str, Sentence]:
    """Why the changed values cannot be right, by key of the setting; empty when all can be kept."""
    wrong = {setting.key: why for setting, value in changes.items() if (why := setting.check(value))}
    after = now.with_changes(changes)
    for lower, upper in ORDERED:
        if (lower in changes or upper in changes) and after[lower] > after[upper]:
            changed = upper if upper in changes else lower
            wrong.setdefault(
                changed.key,
                Sentence(
                    "The caution ({lower}) has to come before the owner's turn ({upper}).",
                    {"lower": after[lower], "upper": after[upper]},
                ),
            )
    if {INVOICE_SERIES, CREDIT_SERIES} & changes.keys() and (
        why := same_series(after[INVOICE_SERIES], after[CREDIT_SERIES])
    ):
        wrong.setdefault((CREDIT_SERIES if CREDIT_SERIES in changes else INVOICE_SERIES).key, why)
    return wrong
