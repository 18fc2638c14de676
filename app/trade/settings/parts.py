"""Settings of the stock of parts: how long a supplier takes, how rarely a part may be missing, what an order is for."""

from __future__ import annotations

from app.trade.sentence import Sentence
from app.trade.settings.setting import WHOLE, WHOLE_CHOICE, Group, Setting, between

DAYS = Sentence("days")
SERVICE_LEVELS = (8000, 9000, 9500, 9800, 9900)  # 10^-4

LEAD_DAYS = Setting(
    "lead_days",
    WHOLE,
    14,
    Sentence("A supplier takes"),
    Group.PARTS,
    rule=between(1, 365),
    unit=DAYS,
    hint=Sentence("Where a part says nothing else of its own."),
)
SERVICE_LEVEL = Setting(
    "service_level",
    WHOLE_CHOICE,
    9500,
    Sentence("A part is there when it is needed"),
    Group.PARTS,
    choices=tuple((level, Sentence("{n} in 100 times", {"n": level // 100})) for level in SERVICE_LEVELS),
    hint=Sentence("While an order is on its way. Where a part says nothing else of its own."),
)
ORDER_LASTS = Setting(
    "order_lasts",
    WHOLE,
    90,
    Sentence("An order lasts"),
    Group.PARTS,
    rule=between(1, 730),
    unit=DAYS,
)

PARTS_SETTINGS = (LEAD_DAYS, SERVICE_LEVEL, ORDER_LASTS)
