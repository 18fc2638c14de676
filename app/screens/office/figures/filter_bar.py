"""The filter bar of a page of figures: folded to what is set, so that it takes a line or two."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QApplication, QSizePolicy, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Flow, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.combo import Combo
from app.screens.kit.day_field import DayField
from app.screens.kit.label import Label
from app.screens.language import say
from app.screens.office.figures.figure_kinds import FigureKind
from app.screens.office.figures.filter_fields import (
    Pair,
    PlayerField,
    groupings,
    of_choices,
    periods,
    value_of,
    windows,
)
from app.screens.office.figures.filters import CHOSEN, Filters
from app.trade.sentence import Sentence
from app.work.statistics.choices import Choices

OWN_WINDOW = 180  # until the shop's is known
_WORDS = {
    "transport_type": Sentence("Transport type"),
    "arrangement": Sentence("Arrangement"),
    "group": Sentence("Fault group"),
    "change": Sentence("Kind of change"),
    "technician": Sentence("Technician"),
    "modified": Sentence("Modification inside"),
    "followed": Sentence("Followed"),
}
_USUAL = Filters()


class FilterBar(QWidget):
    """`changed` brings the filters whenever one of them is another. A field stands while it keeps jobs out, and all of
    them once they are asked for."""

    changed = Signal(object)

    def __init__(self, desk: Desk, kind: FigureKind, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._kind = kind
        self.filters = Filters()
        self.unfolded = False
        self._filling = False
        self.period = Combo(say("Handed back"), periods(desk.today()), _USUAL.period)
        self.since = DayField(say("Handed back from"), desk.today, width=120)
        self.until = DayField(say("Handed back until"), desk.today, width=120)
        self.window_days = Combo(say("Within"), windows(OWN_WINDOW), OWN_WINDOW)
        self.by = Combo(say("Parted by"), groupings(), _USUAL.by)
        self.player = PlayerField()
        self.combos = {name: Combo(say(word)) for name, word in _WORDS.items()}
        self._options: dict[str, list[tuple[Any, str]]] = {}
        self.set_choices(Choices())
        self._days = Pair("", self.since, Label(say("to"), "soft"), self.until)
        self._within, self._parted = Pair(say("Within"), self.window_days), Pair(say("Parted by"), self.by)
        self._pairs: dict[str, QWidget] = {
            "transport_type": Pair(say(_WORDS["transport_type"]), self.combos["transport_type"]),
            "arrangement": Pair(say(_WORDS["arrangement"]), self.combos["arrangement"]),
            "player": Pair(say("Player"), self.player),
            **{
                name: Pair(say(_WORDS[name]), self.combos[name])
                for name in ("group", "change", "technician", "modified", "followed")
            },
        }
        self.fold = Button(say("More filters"), self.turn_fold, kind="quiet")
        self.clear = Button(say("Clear the filters"), self.clear_all, kind="quiet")
        flow = Flow(self, gap=16, line_gap=7)
        flow.add(Pair(say("Handed back"), self.period), self._days, self._within, self._parted)
        flow.add(*self._pairs.values(), self.fold, self.clear)
        self._connect()
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self._show_what_is_set()

    def _connect(self) -> None:
        self.period.changed.connect(lambda key: self._set(period=key))
        self.since.day_changed.connect(lambda found: self._set(since=found))
        self.until.day_changed.connect(lambda found: self._set(until=found))
        self.window_days.changed.connect(lambda days: self._set(window=days))
        self.by.changed.connect(lambda by: self._set(by=by))
        self.player.chosen.connect(lambda maker, model: self._set(maker=maker, model=model))
        for name, combo in self.combos.items():
            combo.changed.connect(lambda _, name=name: self._set(**{name: self._value(name)}))

    def _value(self, name: str) -> Any:
        return value_of(self.combos[name], getattr(_USUAL, name))

    # what is asked

    def set_choices(self, choices: Choices) -> None:
        """What there is to choose; what is chosen stays."""
        self._options = dict(of_choices(choices))
        for name, combo in self.combos.items():
            self._fill_combo(name, combo)
        self.player.set_known(choices.players)

    def set_own_window(self, days: int) -> None:
        """The window that the shop has set, while nobody has chosen another."""
        self.window_days.set_options(windows(days), self.filters.window or days)

    def set_filters(self, filters: Filters) -> None:
        """Show these; nothing is emitted."""
        self._filling = True
        self.filters = filters
        self.period.set_value(filters.period)
        self.since.set_day(filters.since)
        self.until.set_day(filters.until)
        self.by.set_value(filters.by)
        if filters.window is not None:
            self.window_days.set_options(windows(filters.window), filters.window)
        for name, combo in self.combos.items():
            self._fill_combo(name, combo)
        self.player.set_player(filters.maker, filters.model)
        self._filling = False
        self._show_what_is_set()

    def _fill_combo(self, name: str, combo: Combo) -> None:
        """The choices, and what is chosen also where the book does not have it (any more)."""
        options, chosen = self._options[name], getattr(self.filters, name)
        if chosen == getattr(_USUAL, name):
            chosen = options[0][0]
        elif chosen not in [key for key, _ in options]:
            options = [*options, (chosen, str(chosen))]
        combo.set_options(options, chosen)

    def _set(self, **changed: Any) -> None:
        if self._filling:
            return
        self.filters = self.filters.but(**changed)
        self._show_what_is_set()
        self.changed.emit(self.filters)

    def clear_all(self) -> None:
        """Every job again."""
        self.set_filters(self.filters.cleared())
        self.changed.emit(self.filters)
        self.period.setFocus()

    def turn_fold(self) -> None:
        """Show every filter, or only those that are set."""
        self.unfolded = not self.unfolded
        self.fold.setText(say("Fewer filters") if self.unfolded else say("More filters"))
        self._show_what_is_set()

    # what is seen

    def _show_what_is_set(self) -> None:
        filters, kind, focus = self.filters, self._kind, QApplication.focusWidget()
        set_shown(self._days, filters.period == CHOSEN)
        set_shown(self._within, kind.within)
        set_shown(self._parted, kind.parted)
        for name, pair in self._pairs.items():
            on = bool(filters.maker) if name == "player" else getattr(filters, name) != getattr(_USUAL, name)
            there = {"modified": kind.modified, "followed": kind.followed}.get(name, True)
            held = focus is not None and pair.isAncestorOf(focus)  # nothing goes away under the hands
            set_shown(pair, there and (on or self.unfolded or held))
        set_shown(self.clear, filters.narrowed(kind))
