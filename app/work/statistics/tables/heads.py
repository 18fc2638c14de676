"""Heads and columns that several tables share."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from app.trade.sentence import Sentence
from app.trade.statistics.comebacks import By
from app.trade.statistics.table import Column, Shape

HEADS: Mapping[By, Sentence] = MappingProxyType(
    {
        By.TRANSPORT_TYPE: Sentence("Transport type"),
        By.FAULT_GROUP: Sentence("Fault group"),
        By.MODIFICATION: Sentence("Modification inside"),
        By.ARRANGEMENT: Sentence("Arrangement"),
        By.MAKER: Sentence("Maker"),
        By.MODEL: Sentence("Model"),
        By.CAUSE: Sentence("Cause found"),
        By.CHANGE: Sentence("Kind of change"),
        By.TECHNICIAN: Sentence("Technician"),
    }
)


def named(by: By) -> Column:
    """The first column: what the jobs are parted by."""
    return Column("name", HEADS[by], Shape.WORDS)


def interval(least_wanted: int) -> tuple[Column, Column]:
    """The two ends of a 95 % interval of a share."""
    return (
        Column("low", Sentence("from"), Shape.SHARE, least_wanted),
        Column("high", Sentence("to"), Shape.SHARE, least_wanted),
    )
