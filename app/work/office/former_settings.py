"""How each setting of the shop stood before each change, with who changed it and when, read from history."""

from __future__ import annotations

import json
from typing import Any

from sqlalchemy import select

from app.book.door import Book
from app.book.tables import HistoryRow, SettingKept, Staff
from app.trade.settings import SETTINGS, Group, Setting
from app.work.office.former_lines import FormerLine

SettingLine = tuple[Setting[Any], Any]  # a setting and its value


def former_settings(book: Book, group: Group) -> tuple[FormerLine[SettingLine], ...]:
    """Every change of a setting of this group, newest first; before the first one its default stood."""
    with book.ask() as session:
        keys = dict(session.execute(select(SettingKept.id, SettingKept.key)).all())
        names = dict(session.execute(select(Staff.id, Staff.name)).all())
        rows = session.execute(
            select(HistoryRow.row_id, HistoryRow.staff_id, HistoryRow.at, HistoryRow.fields)
            .where(HistoryRow.row_table == SettingKept.__tablename__)
            .order_by(HistoryRow.seq.desc())
        ).all()
    found: list[FormerLine[SettingLine]] = []
    for row in rows:
        setting = SETTINGS[keys[row.row_id]]
        if setting.group is not group:
            continue
        was, now = row.fields["value"]
        before = setting.default if was is None else setting.from_plain(json.loads(was))
        after = setting.from_plain(json.loads(now))
        by = names.get(row.staff_id or 0, "")
        found.append(FormerLine(row.at, by, (setting, before), (setting, after)))
    return tuple(found)
