"""The list of players: typed into, it shows which one is meant; Enter opens its page."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.search_page import SearchPage
from app.screens.desk import Desk
from app.screens.kit.cells import Column, Figure, Leave, Row, Words
from app.screens.language import day, say
from app.trade.calendar.promise import local_day
from app.work.bench.unit_list import UnitLine, unit_list, units_to_print


class UnitsPage(SearchPage):
    """Registered as ``units``."""

    help_topic = "unit"

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(
            desk,
            say("Players"),
            below=say("Those that came in last stand first."),
            name=say("Which players"),
            hint=say("maker, model, end of the serial"),
            nothing=say("No player in the book matches."),
            none_yet=say("No player stands in the book yet: the counter takes the first one in."),
            columns=(
                Column("player", say("Player"), least=200),
                Column("serial", say("Serial number"), 150),
                Column("owner", say("Belongs to"), 190),
                Column("changed", say("Modifications inside"), 150),
                Column("visits", say("Visits"), 70, number=True),
                Column("last", say("Last here"), 190),
            ),
            leaving=(Leave("visits"), Leave("owner"), Leave("serial")),
            opened=desk.open_unit,
            parent=parent,
        )
        self.tools.addStretch(1)

    def ask(self) -> Callable[[], Sequence[UnitLine]]:
        return partial(unit_list, self.desk.book, self.search.text())

    def ask_all(self, most: int) -> Callable[[], tuple[Sequence[UnitLine], int]]:
        return partial(units_to_print, self.desk.book, self.search.text(), most)

    def row(self, line: UnitLine) -> Row:
        name = f"{line.maker} {line.model}".strip()
        changed = say("1 modification") if line.changed == 1 else say("{n} modifications", n=line.changed)
        return Row(
            line.id,
            (
                Words(name, strong=True, tip=name),
                Words(line.serial or say("not readable"), soft=not line.serial),
                Words(line.owner, tip=line.owner),
                Words(changed if line.changed else "", before="caution" if line.changed else ""),
                Figure(str(line.jobs)),
                self._last(line),
            ),
        )

    def _last(self, line: UnitLine) -> Words:
        if line.here is not None:
            return Words(say("here now, job {number}", number=str(line.here)))
        zone = self.desk.shop.zone
        if line.last_at is None or zone is None:
            return Words("")
        return Words(day(local_day(line.last_at, zone)), soft=True)
