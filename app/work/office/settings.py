"""The shop's settings: asked for as one snapshot, changed by whoever may."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import select

from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import SettingKept, StaffMark
from app.trade.bench.stages import Mark
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.papers_and_days import TIME_ZONE
from app.trade.settings.setting import Setting, Who
from app.trade.settings.shop_settings import ShopSettings, check_changes
from app.work.shop_book import Done


def shop_settings(book: Book) -> ShopSettings:
    """The settings as they are now."""
    with book.ask() as session:
        return settings_of(session)


def change_settings(book: Book, who: int, changes: Mapping[Setting[Any], Any]) -> Done[ShopSettings]:
    """Keep changed settings. Raises FieldRefusal by key, Refusal where only the owner may."""
    with book.change(who, Sentence("changed settings")) as change:
        session = change.session
        now = settings_of(session)
        if any(setting.who is Who.OWNER for setting in changes):
            marks = session.scalars(
                select(StaffMark).where(StaffMark.staff_id == who, StaffMark.mark == Mark.OWNER)
            )
            if not any(m.dated <= change.today and (m.ends is None or change.today <= m.ends) for m in marks):
                raise Refusal(
                    Sentence("Only the owner changes these settings."),
                    Sentence("Ask the owner to take over with Ctrl+U."),
                )
        if wrong := check_changes(now, changes):
            raise FieldRefusal(wrong)
        after = now.with_changes(changes)
        kept = {row.key: row for row in session.scalars(select(SettingKept))}
        for setting in changes:
            plain = setting.to_plain(after[setting])
            row = kept.get(setting.key)
            if row is None:
                if after[setting] != setting.default:
                    change.add(SettingKept(key=setting.key, value=plain))
            elif row.value != plain:
                row.value = plain
    if TIME_ZONE in changes:
        book.use_zone(ZoneInfo(after[TIME_ZONE]))
    return Done(after, change.changes)
