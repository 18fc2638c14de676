"""The shop's settings: asked for as one snapshot, changed by whoever may."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import select

from app.book.door import Book, Change
from app.book.office.shop_settings import settings_of
from app.book.tables import Invoice, Payment, SettingKept, StaffMark
from app.trade.bench.authority import MarkHeld, may_sign
from app.trade.bench.stages import Mark
from app.trade.refusal import FieldRefusal, Refusal, StaleRow
from app.trade.sentence import Sentence
from app.trade.settings.papers_and_days import TIME_ZONE
from app.trade.settings.prices import CURRENCY, currency_refused
from app.trade.settings.setting import Setting, Who
from app.trade.settings.shop_settings import ShopSettings, check_changes
from app.work.shop_book import Done


def shop_settings(book: Book) -> ShopSettings:
    """The settings as they are now."""
    with book.ask() as session:
        return settings_of(session)


def change_settings(
    book: Book, who: int, changes: Mapping[Setting[Any], Any], *, seen: ShopSettings | None = None
) -> Done[ShopSettings]:
    """Keep changed settings. ``seen`` is what the person saw before changing them.

    Raises FieldRefusal by key, Refusal where only the owner may, StaleRow (both values by key) where somebody
    else changed the same setting in between.
    """
    with book.change(who, Sentence("changed settings")) as change:
        now = settings_of(change.session)
        if any(setting.who is Who.OWNER for setting in changes):
            _owner_only(change, who)
        if seen is not None:
            _refuse_stale(now, seen, changes)
        if CURRENCY in changes:
            _keep_currency(change, now[CURRENCY], changes[CURRENCY])
        after = keep_settings(change, changes, now)
    if TIME_ZONE in changes:
        book.use_zone(ZoneInfo(after[TIME_ZONE]))
    return Done(after, change.changes)


def keep_settings(
    change: Change, changes: Mapping[Setting[Any], Any], now: ShopSettings | None = None
) -> ShopSettings:
    """Write changed settings inside an action; who may is asked apart. Raises FieldRefusal by key."""
    now = now or settings_of(change.session)
    if wrong := check_changes(now, changes):
        raise FieldRefusal(wrong)
    after = now.with_changes(changes)
    kept = {row.key: row for row in change.session.scalars(select(SettingKept))}
    for setting in changes:
        plain = setting.to_plain(after[setting])
        row = kept.get(setting.key)
        if row is None:
            if after[setting] != setting.default:
                change.add(SettingKept(key=setting.key, value=plain))
        elif row.value != plain:
            row.value = plain
    return after


def _owner_only(change: Change, who: int) -> None:
    marks = change.session.scalars(select(StaffMark).where(StaffMark.staff_id == who))
    held = [MarkHeld(row.mark, row.proof, row.dated, row.ends) for row in marks]
    if may_sign(held, Mark.OWNER, change.today) is not None:
        raise Refusal(
            Sentence("Only the owner changes these settings."),
            Sentence("Ask the owner to take over with Ctrl+U."),
        )


def _keep_currency(change: Change, now: str, wanted: str) -> None:
    money = any(change.session.scalar(select(table.id).limit(1)) is not None for table in (Invoice, Payment))
    if why := currency_refused(now, wanted, money_stands=money):
        raise FieldRefusal({CURRENCY.key: why})


def _refuse_stale(now: ShopSettings, seen: ShopSettings, changes: Mapping[Setting[Any], Any]) -> None:
    theirs = {s.key: now[s] for s in changes if now[s] != seen[s] and now[s] != changes[s]}
    if theirs:
        raise StaleRow(
            Sentence("Somebody else saved this in between. Nothing was overwritten; compare both."),
            theirs=theirs,
            mine={s.key: changes[s] for s in changes if s.key in theirs},
        )
