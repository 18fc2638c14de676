"""Settings of what counts as a comeback, beside the window that stands with the guarantee."""

from __future__ import annotations

from app.trade.sentence import Sentence
from app.trade.settings.setting import CHOICE, YES_NO, Group, Setting
from app.trade.statistics.definition import Followed

COMEBACK_SAME_GROUP = Setting(
    "comeback_same_group",
    YES_NO,
    True,
    Sentence("Only the same fault group counts as a comeback"),
    Group.COUNTER,
    hint=Sentence("In the figures. If not, the next visit counts whatever its fault is."),
)
COMEBACK_FOLLOWS = Setting(
    "comeback_follows",
    CHOICE,
    Followed.UNIT.value,
    Sentence("The figures follow"),
    Group.COUNTER,
    choices=tuple((one.value, Sentence(one.value)) for one in Followed),
    hint=Sentence("A transport carries its history along when it moves into another player."),
)
COMEBACK_NOT_REPAIRED = Setting(
    "comeback_not_repaired",
    YES_NO,
    False,
    Sentence("Jobs that ended not repaired count as repairs"),
    Group.COUNTER,
    hint=Sentence("No fault shown, beyond repair and refused. In the figures of comebacks."),
)
COMEBACK_DECLINED = Setting(
    "comeback_declined",
    YES_NO,
    False,
    Sentence("Jobs declined count as repairs"),
    Group.COUNTER,
    hint=Sentence("In the figures of comebacks."),
)

COMEBACK_SETTINGS = (COMEBACK_SAME_GROUP, COMEBACK_FOLLOWS, COMEBACK_NOT_REPAIRED, COMEBACK_DECLINED)
