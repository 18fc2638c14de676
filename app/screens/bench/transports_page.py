"""The list of transports: where each is now, and which lie free on a shelf or in a donor; Enter opens its life."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.search_page import SearchPage
from app.screens.desk import Desk
from app.screens.kit.cells import Column, Leave, Row, Words
from app.screens.kit.choice import Choice
from app.screens.language import day, say
from app.trade.calendar.promise import local_day
from app.work.bench.transport_list import TransportLine, Where, transport_list, transports_to_print


class TransportsPage(SearchPage):
    """Registered as ``transports``."""

    help_topic = "transport"

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(
            desk,
            say("Transports"),
            below=say("The optical mechanisms, each with its own story; the newest in the book stand first."),
            name=say("Which transports"),
            hint=say("type, marking or its end"),
            nothing=say("No transport in the book matches."),
            none_yet=say(
                "No transport stands in the book yet: it is noted when a player is taken in, or on its job."
            ),
            columns=(
                Column("type", say("Type"), 190),
                Column("marking", say("Marking"), 150),
                Column("where", say("Where it is"), least=220),
                Column("kind", say("Kind"), 200),
                Column("since", say("Since"), 130),
            ),
            leaving=(Leave("kind"), Leave("since")),
            opened=desk.open_transport,
            parent=parent,
        )
        self.where = Choice(say("Where they are"), [(one, say(one.value)) for one in Where], Where.EVERY)
        self.where.changed.connect(lambda _: self.look())
        self.tools.add(self.where, stretch=1)

    def ask(self) -> Callable[[], Sequence[TransportLine]]:
        return partial(transport_list, self.desk.book, self.search.text(), self.where.value() or Where.EVERY)

    def ask_all(self, most: int) -> Callable[[], tuple[Sequence[TransportLine], int]]:
        where = self.where.value() or Where.EVERY
        return partial(transports_to_print, self.desk.book, self.search.text(), where, most)

    def told(self) -> tuple[str, ...]:
        chosen = self.where.value() or Where.EVERY
        return (*super().told(), self.where.word() if chosen is not Where.EVERY else "")

    def narrowed_down(self) -> bool:
        return super().narrowed_down() or self.where.value() is not Where.EVERY

    def row(self, line: TransportLine) -> Row:
        zone = self.desk.shop.zone
        since = day(local_day(line.since, zone)) if line.since is not None and zone is not None else ""
        return Row(
            line.id,
            (
                Words(line.type, strong=True, tip=line.type),
                Words(line.marking or say("no marking"), soft=not line.marking),
                _where(line),
                Words(say(line.arrangement.value), soft=True),
                Words(since, soft=True),
            ),
        )


def _where(line: TransportLine) -> Words:
    if line.scrapped:
        return Words(say("scrapped"), soft=True)
    if line.unit_id is None:
        return Words(say("shelf {shelf}", shelf=line.shelf) if line.shelf else say("in no player"))
    return Words(line.unit, say("donor") if line.donor else line.unit_serial, tip=line.unit)
