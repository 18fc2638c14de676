"""Limits with their source, of a transport type or of a maker's model."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.screens.kit.cells import Column, Group, Leave, Row, Words
from app.screens.language import number, say
from app.screens.office.list_page import ListPage
from app.trade.bench.quantities import Quantity
from app.trade.bench.verdict import Limit
from app.trade.sentence import Sentence
from app.work.bench.readings import EARLIER
from app.work.office.quantity_list import quantity_list
from app.work.office.shop_lists import LimitLine, TypeLine, limits, transport_types


class LimitsPage(ListPage):
    """Registered as ``limits``; its key is a transport type, None for all limits."""

    help_topic = "limits"
    record = "limit"
    words = Sentence("Limits")
    add_words = Sentence("Add a limit")
    empty_words = (
        Sentence("Limits from service documents stand here, each with its source"),
        Sentence("Where there is none, the usual window of the quantity is shown as common practice."),
    )
    leaving = (Leave("must"), Leave("source"))
    kinds = frozenset({"limits", "transport_types", "quantities"})

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("quantity", say("Quantity"), 0, least=190),
            Column("limit", say("Limit"), 210),
            Column("must", say("Final reading outside"), 190),
            Column("source", say("Source"), 330),
        )

    def fetch(self) -> Any:
        book = self.desk.book
        return (
            limits(book, transport_type_id=self.key, retired=self.former),
            {line.id: line for line in transport_types(book, retired=True)},
            {quantity.id: quantity for quantity in quantity_list(book)},
        )

    def rows(self, found: Any) -> list[Row | Group]:
        lines, types, quantities = found
        by_holder: dict[str, list[LimitLine]] = {}
        for line in lines:
            by_holder.setdefault(holder_words(line, types), []).append(line)
        rows: list[Row | Group] = []
        for holder in sorted(by_holder):
            of_holder = by_holder[holder]
            count = say("1 limit") if len(of_holder) == 1 else say("{n} limits", n=len(of_holder))
            rows.append(Group(holder, count))
            rows += [_row(line, quantities) for line in of_holder]
        return rows

    def below(self, found: Any) -> str:
        _, types, _ = found
        if self.key in types:
            return say("Of {type} only.", type=types[self.key].name)
        return ""

    def add(self) -> None:
        self.desk.open("limit", ("new", self.key) if self.key is not None else None)


def holder_words(line: LimitLine, types: Mapping[int, TypeLine]) -> str:
    """What the limit holds for: a type, or a maker's model."""
    if line.transport_type_id is not None:
        known = types.get(line.transport_type_id)
        return known.name if known is not None else str(line.transport_type_id)
    return f"{line.unit_maker} {line.unit_model}".strip()


def quantity_words(line: LimitLine, quantities: Mapping[str, Quantity]) -> str:
    """The quantity with what tells it from another of its kind."""
    quantity = quantities.get(line.quantity)
    return say(quantity.named(line.detail)) if quantity is not None else line.quantity


def limit_words(line: LimitLine, quantities: Mapping[str, Quantity]) -> str:
    """The limit as it is shown: at most 1.5 s, 90 to 115 % of the label, at most 120 % of the last value."""
    quantity = quantities.get(line.quantity)
    if quantity is None:
        return ""
    if not line.relative_to:
        return say(quantity.limit_words(Limit(line.low, line.high)))
    low, high = (
        None if end is None else f"{number((end * 100).normalize() + 0)}" for end in (line.low, line.high)
    )
    if line.relative_to == EARLIER:
        if low is None:
            return say("at most {high} % of the last value", high=high or "")
        if high is None:
            return say("at least {low} % of the last value", low=low)
        return say("{low} to {high} % of the last value", low=low, high=high)
    if low is None:
        return say("at most {high} % of the label", high=high or "")
    if high is None:
        return say("at least {low} % of the label", low=low)
    return say("{low} to {high} % of the label", low=low, high=high)


def _row(line: LimitLine, quantities: Mapping[str, Quantity]) -> Row:
    return Row(
        line.id,
        (
            Words(quantity_words(line, quantities), say("no longer used") if line.retired else ""),
            Words(limit_words(line, quantities), soft=line.retired),
            Words(say("holds the job"), strong=True)
            if line.must
            else Words(say("needs a reason"), soft=True),
            Words(say(line.source), soft=True, tip=say(line.source)),
        ),
    )
