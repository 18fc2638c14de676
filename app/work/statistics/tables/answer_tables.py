"""The tables of any answer, the one that answers the question first."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from app.trade.statistics.table import Table
from app.work.statistics.after_modification import AfterModification
from app.work.statistics.answer import Answer
from app.work.statistics.comeback_rate import ComebackRates
from app.work.statistics.cost import Cost
from app.work.statistics.how_long import HowLong
from app.work.statistics.keep_coming import KeepComing
from app.work.statistics.over_time import OverTime
from app.work.statistics.shop import Shop
from app.work.statistics.tables.after_modification import modified_tables
from app.work.statistics.tables.comeback_rate import rate_tables
from app.work.statistics.tables.cost import cost_tables
from app.work.statistics.tables.how_long import lasting_tables
from app.work.statistics.tables.keep_coming import coming_tables
from app.work.statistics.tables.over_time import course_tables
from app.work.statistics.tables.shop import shop_tables
from app.work.statistics.tables.what_fails import failing_tables
from app.work.statistics.what_fails import WhatFails

_TABLES: Mapping[type[Answer], Callable[[Any], tuple[Table, ...]]] = MappingProxyType(
    {
        ComebackRates: rate_tables,
        HowLong: lasting_tables,
        KeepComing: coming_tables,
        OverTime: course_tables,
        WhatFails: failing_tables,
        AfterModification: modified_tables,
        Cost: cost_tables,
        Shop: shop_tables,
    }
)


def tables_of(answer: Answer) -> tuple[Table, ...]:
    """Every table of the answer that has a line."""
    return tuple(table for table in _TABLES[type(answer)](answer) if table.lines)
