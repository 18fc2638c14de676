"""The fields of the filter bar: each a soft word with its choice, and the player that is typed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Row
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.language import say
from app.screens.office.figures.filters import CHOSEN, THREE, WHOLE, YEAR
from app.trade.bench.kinds import Arrangement, FaultGroup
from app.trade.statistics.comebacks import By
from app.trade.statistics.definition import Followed
from app.work.statistics.choices import Choices

WINDOWS = (30, 90, 180, 365)
ANY = "any"  # the key of "all" in a list of choices: a combo takes None for nothing chosen
YEARS = 5


class Pair(QWidget):
    """A soft word and its field, which stay together in a line."""

    def __init__(self, word: str, *fields: QWidget) -> None:
        super().__init__()
        row = Row(self, gap=9)
        row.add(Label(word, "soft"))
        row.add(*fields)
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)


class PlayerField(Field):
    """A maker, or a maker with a model, typed with completion. `chosen` brings both; empty for every player.

    What is no player of the book asks for nothing; it is said once the field is left.
    """

    chosen = Signal(str, str)

    def __init__(self) -> None:
        super().__init__(say("Player"), width=180, hint=say("maker, model"))
        self._known: dict[str, tuple[str, str]] = {"": ("", "")}
        self._asked = ("", "")
        self.changed.connect(self._read)
        self.left.connect(self._settle)
        self.entered.connect(self._settle)

    def set_known(self, players: Sequence[tuple[str, str]]) -> None:
        """What there is: makers with their models."""
        words = {maker: (maker, "") for maker, _ in players if maker}
        words |= {f"{maker} {model}".strip(): (maker, model) for maker, model in players if model}
        self._known = {"": ("", "")} | {word.casefold(): both for word, both in words.items()}
        self.set_seen(list(words))

    def set_player(self, maker: str, model: str) -> None:
        """Show this one; nothing is asked."""
        self._asked = (maker, model)
        if (text := f"{maker} {model}".strip()) != self.text():
            self.set_text(text)
        self.set_error("")

    def _read(self, _: str) -> None:
        found = self._known.get(" ".join(self.text().casefold().split()))
        if found is not None:
            self.set_error("")
        if found is not None and found != self._asked:
            self._asked = found
            self.chosen.emit(*found)

    def _settle(self) -> None:
        if " ".join(self.text().casefold().split()) not in self._known:
            self.set_error(say("No player in the book has this name."))


def periods(today: date) -> list[tuple[Any, str]]:
    """When the jobs were handed back."""
    recent = [(WHOLE, say("at any time")), (YEAR, say("in the last year")), (THREE, say("in three years"))]
    years = [(year, say("in {year}", year=str(year))) for year in range(today.year, today.year - YEARS, -1)]
    return [*recent, *years, (CHOSEN, say("from day to day"))]


def windows(own: int) -> list[tuple[Any, str]]:
    """Within how many days a repair counts as come back; the shop's own among them."""
    return [(days, say("{days} days", days=days)) for days in sorted({*WINDOWS, own})]


def groupings() -> list[tuple[Any, str]]:
    """What jobs can be parted by."""
    return [(by, say(by.value)) for by in By]


def of_choices(choices: Choices) -> Mapping[str, list[tuple[Any, str]]]:
    """The lists of the combos by the filter they set, each with "all" on top."""
    changes = sorted(((key, say(words)) for key, words in choices.changes), key=lambda one: one[1].casefold())
    found: dict[str, list[tuple[Any, str]]] = {
        "transport_type": [(name, name) for name in choices.transport_types],
        "arrangement": [(one, say(one.value)) for one in Arrangement],
        "group": [(one, say(one.value)) for one in FaultGroup],
        "change": list(changes),
        "technician": list(choices.people),
        "modified": [(True, say("with")), (False, say("without"))],
    }
    every = {name: [(ANY, say("all")), *options] for name, options in found.items()}
    followed = [(one, say(one.value)) for one in Followed]
    return {**every, "followed": [(ANY, say("as the shop has set it")), *followed]}


def value_of(combo: Combo, usual: Any) -> Any:
    """What a combo asks for: ``usual`` for all."""
    chosen = combo.value()
    return usual if chosen == ANY or chosen is None else chosen
