"""The settings snapshot from the book's rows."""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.kept import kept
from app.book.office.settings import SettingKept
from app.trade.settings.shop_settings import ShopSettings


def settings_of(session: Session) -> ShopSettings:
    """The settings as the book keeps them now, with the defaults for the rest."""
    return kept(session, "settings", lambda: _read(session))


def _read(session: Session) -> ShopSettings:
    rows = session.execute(select(SettingKept.key, SettingKept.value))
    return ShopSettings.from_plain({row.key: row.value for row in rows})
