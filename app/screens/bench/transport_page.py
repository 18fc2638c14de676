"""The life of a transport: every unit that it was in, every job, its readings as a curve, its modifications."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.bench.forecast_words import forecast_words, why_facts
from app.screens.bench.inline_form import InlineForm
from app.screens.bench.life_facts import life_facts, summary_words
from app.screens.bench.life_rows import (
    change_columns,
    change_rows,
    reading_columns,
    reading_row,
    stay_columns,
    stay_rows,
)
from app.screens.bench.marking_form import MarkingForm
from app.screens.bench.sheet_section import indented
from app.screens.desk import Desk
from app.screens.kit.boxes import Column as Lines
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Leave
from app.screens.kit.combo import Combo
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.heading import FactLine, Heading, Rule
from app.screens.kit.label import Label
from app.screens.kit.life_line import LifeLine
from app.screens.kit.life_plot import fetch_parts
from app.screens.kit.section import Section
from app.screens.kit.table import SmallTable
from app.screens.language import say
from app.screens.page import Page
from app.trade.bench.forecast import Pace
from app.work.bench.life_curves import LifeCurve, life_curves
from app.work.bench.transport_life import TransportLife, transport_life
from app.work.shop_book import Book

BAR = 12
ONE_UNIT = frozenset({"laser_current"})  # shown first where it was read: it tells the age of a laser


@dataclass(frozen=True)
class Loaded:
    """The life, and its quantities with what they foretell."""

    life: TransportLife
    curves: tuple[LifeCurve, ...]


class TransportPage(Page):
    """Opened as ``transport`` with its id. Left and Right on the line mark a job, Enter opens it."""

    help_topic = "transport"

    def __init__(self, desk: Desk, transport_id: int, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.transport_id = transport_id
        self.life: TransportLife | None = None
        self._curves: dict[tuple[str, str], LifeCurve] = {}
        self.set_title(say("Transport"))
        self.head = Heading(say("Transport"))
        self.curve = Combo(say("Quantity"), (), width=230)
        self.curve.changed.connect(lambda _: self._draw())
        self.label_button = Button(say("Correct its marking…"), self.correct)
        self._curve_word = Label(say("Quantity"), "soft")
        self.head.set_buttons(self._curve_word, self.curve, self.label_button)
        self.heading.add(self.head)
        self._forms = Lines()
        self.open: MarkingForm | None = None
        self.heading.addLayout(self._forms)
        self.forecast = FlagBar(say("What the readings foretell"))
        self.forecast.acted.connect(lambda _: self._why())
        self.heading.add(9, Rule())
        self.line = LifeLine()
        self.line.opened.connect(desk.open_job)
        self.marked = Label("", "soft")
        self.line.marked.connect(self.marked.setText)
        self.why = Section(say("Why this forecast"), inset=9)
        self.why_line = FactLine()
        self.why.column.add(indented(self.why_line))
        self.why.set_opened(False)
        self.stays = Section(say("Players and jobs"), inset=9)
        self.stays_table = SmallTable(
            say("Players and jobs"),
            stay_columns(),
            opened=desk.open_job,
            leaving=(Leave("unit"), Leave("fault"), Leave("values")),
        )
        self.stays_table.link_opened.connect(self._follow_link)
        self.stays.column.add(self.stays_table)
        self.readings = Section(say("Readings"), inset=9)
        self.readings_table = SmallTable(
            say("Readings"),
            reading_columns(),
            opened=lambda key: desk.open_job(key[1]),
            leaving=(Leave("u"), Leave("gauge"), Leave("limits")),
        )
        self.readings_table.link_opened.connect(desk.open_job)
        self.readings.column.add(self.readings_table)
        self.changes = Section(say("Modifications and renewed parts"), inset=9)
        self.changes_table = SmallTable(
            say("Modifications and renewed parts"),
            change_columns(),
            opened=self._open_change,
            leaving=(Leave("whose"), Leave("when")),
        )
        self.changes_table.link_opened.connect(desk.open_job)
        self.changes.column.add(self.changes_table)
        assert self.scroller is not None
        self.scroller.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.sheet.set_margins((18, 9, 18 - BAR, 27))
        self.sheet.add(indented(self.forecast), indented(self.line), indented(self.marked), self.why)
        self.sheet.add(self.stays, self.readings, self.changes)

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Ask anew where an action touched this transport."""
        if changes is not None and self.life is not None and self.transport_id not in changes.transports:
            return
        self.desk.doors.look_up(
            self,
            partial(_load, self.desk.book, self.transport_id, self._zone()),
            self._show,
            partial(tell, self.trouble),
        )

    def arrive(self) -> None:
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"leave": self._leave, "save": self._save}

    # showing

    def _show(self, loaded: Loaded) -> None:
        self.life, self._curves = loaded.life, {curve.key: curve for curve in loaded.curves}
        life = loaded.life
        marking = life.marking or say("no marking")
        self.head.set_words(
            f"{life.type_name} {say(life.arrangement.value)}",
            number=marking,
            below=summary_words(life, self.desk.today(), self._zone()),
        )
        self.set_title(f"{life.type_name} {life.marking}".strip())
        keys = list(self._curves)
        first = next((key for key in keys if key[0] in ONE_UNIT), keys[0] if keys else None)
        chosen = self.curve.value() if self.curve.value() in self._curves else first
        self.curve.set_options([(key, say(self._curves[key].name)) for key in keys], chosen)
        for part in (self.curve, self._curve_word):
            set_shown(part, bool(keys))
        self._draw()

    def _zone(self) -> Any:
        return self.desk.shop.zone

    def _draw(self) -> None:
        life = self.life
        if life is None:
            return
        curve = self._curves.get(self.curve.value())
        readings = curve.readings if curve is not None else ()
        self.line.set_facts(life_facts(life, curve, self.desk.today(), self._zone()))
        self._foretell(curve)
        self.stays_table.set_rows(stay_rows(life, readings, self.desk.today(), self._zone()))
        self.stays.set_summary(say("none yet") if not life.spans else "")
        self.readings.head.setText(say(curve.name) if curve is not None else say("Readings"))
        self.readings.set_summary(
            say("{n} readings", n=len(readings)) if len(readings) != 1 else say("1 reading")
        )
        self.readings_table.set_rows([reading_row(at, reading) for at, reading in enumerate(readings)])
        set_shown(self.readings, bool(readings))
        rows = change_rows(life)
        self.changes_table.set_rows(rows)
        self.changes.set_summary(say("none known") if not rows else "")
        set_shown(self.changes_table, bool(rows))

    def _foretell(self, curve: LifeCurve | None) -> None:
        """The sentence over the plot, and below it what it rests on."""
        if curve is None:
            self.forecast.set_flags([])
            set_shown(self.why, False)
            return
        why = why_facts(curve, self._zone())
        near = curve.forecast.pace in (Pace.REACHES, Pace.BEYOND)
        words = forecast_words(curve, self.desk.today(), self._zone())
        action = (
            say("Why this forecast") if why and not self.narrow else ""
        )  # it stands below the picture too
        self.forecast.set_flags(
            [FlagFacts("caution" if near else "note", say(curve.name), words, action=action, target="why")]
        )
        self.why_line.set_facts(why)
        set_shown(self.why, bool(why))

    def narrowed(self, narrow: bool) -> None:
        """A narrow sheet gives the sentence the whole line."""
        if self.life is not None:
            self._foretell(self._curves.get(self.curve.value()))

    def _why(self) -> None:
        """Unfold what the forecast rests on, and bring it into sight once it has its room."""
        assert self.scroller is not None
        self.why.set_opened(True)
        self.sheet.activate()
        self.scroller.ensureWidgetVisible(self.why)
        self.why.head.setFocus(Qt.FocusReason.OtherFocusReason)

    def _open_change(self, key: tuple[str, int, int]) -> None:
        self.desk.open_job(key[2])

    def _follow_link(self, target: tuple[str, int]) -> None:
        self.desk.open(*target)

    # correcting the marking

    def correct(self) -> None:
        """Open the form of marking and label."""
        if self.life is None:
            return
        if self.open is None:
            form = MarkingForm(self.desk, self.life)
            form.take_draft()
            form.saved.connect(lambda _: self._close())
            form.left.connect(self._close)
            form.failed.connect(lambda error, again: tell(self.trouble, error, again))
            self._forms.addWidget(form)
            self.open = form
        self.open.focus_first()

    def _close(self) -> None:
        if self.open is not None:
            self._forms.removeWidget(self.open)
            self.open.hide()
            self.open.deleteLater()
            self.open = None
        self.arrive()

    def _leave(self) -> None:
        if isinstance(self.open, InlineForm):
            self.open.leave()
        else:
            self.desk.back()

    def _save(self) -> None:
        if self.open is not None:
            self.open.save()


def _load(book: Book, transport_id: int, zone: Any) -> Loaded:
    """On a look-up thread: what the plot is drawn with takes its time to import."""
    life = transport_life(book, transport_id)
    curves = life_curves(life, zone)
    if curves:
        fetch_parts()
    return Loaded(life, curves)
