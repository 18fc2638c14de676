"""The life of a transport: every unit that it was in, every job, its readings as a curve, its modifications."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.bench.inline_form import InlineForm
from app.screens.bench.life_facts import Curve, curves_of, life_facts, of_curve, span_at, summary_words
from app.screens.bench.marking_form import MarkingForm
from app.screens.bench.reading_rows import gauge_facts, limit_words, uncertainty_words, verdict_words
from app.screens.bench.sheet_section import indented
from app.screens.desk import Desk
from app.screens.kit import measure
from app.screens.kit.boxes import Column as Lines
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Cell, Column, Figure, Group, Leave, Link, Row, Words
from app.screens.kit.combo import Combo
from app.screens.kit.gauges import gauge
from app.screens.kit.heading import Heading, Rule
from app.screens.kit.label import Label
from app.screens.kit.life_line import LifeLine
from app.screens.kit.section import Section
from app.screens.kit.table import SmallTable
from app.screens.language import day, moment, number, say
from app.screens.page import Page
from app.trade.calendar.promise import local_day
from app.trade.sentence import Sentence
from app.work.bench.transport_life import LifeReading, TransportLife, transport_life
from app.work.office.quantity_list import quantity_list
from app.work.shop_book import Book

BAR = 12
PLOT, BANDS = 440, 106  # px of the line with a curve under it, and of the bands alone
ONE_UNIT = frozenset({"laser_current"})  # shown first where it was read: it tells the age of a laser


@dataclass(frozen=True)
class Loaded:
    """The life, and what its quantities are called."""

    life: TransportLife
    names: Mapping[str, Sentence]


class TransportPage(Page):
    """Opened as ``transport`` with its id. Left and Right on the line mark a job, Enter opens it."""

    help_topic = "transport"

    def __init__(self, desk: Desk, transport_id: int, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.transport_id = transport_id
        self.life: TransportLife | None = None
        self._names: Mapping[str, Sentence] = {}
        self.set_title(say("Transport"))
        self.head = Heading(say("Transport"))
        self.curve = Combo(say("Curve"), (), width=230)
        self.curve.changed.connect(lambda _: self._draw())
        self.label_button = Button(say("Correct its marking…"), self.correct)
        self._curve_word = Label(say("Curve"), "soft")
        self.head.set_buttons(self._curve_word, self.curve, self.label_button)
        self.heading.add(self.head)
        self._forms = Lines()
        self.open: MarkingForm | None = None
        self.heading.addLayout(self._forms)
        self.heading.add(9, Rule())
        self.line = LifeLine()
        self.line.opened.connect(desk.open_job)
        self.stays = Section(say("Players and jobs"), inset=9)
        self.stays_table = SmallTable(
            say("Players and jobs"), _stay_columns(), opened=desk.open_job, leaving=(Leave("values"),)
        )
        self.stays_table.link_opened.connect(self._follow_link)
        self.stays.column.add(self.stays_table)
        self.readings = Section(say("Readings"), inset=9)
        self.readings_table = SmallTable(
            say("Readings"), _reading_columns(), leaving=(Leave("u"), Leave("gauge"), Leave("limits"))
        )
        self.readings.column.add(self.readings_table)
        self.changes = Section(say("Modifications and renewed parts"), inset=9)
        self.changes_table = SmallTable(
            say("Modifications and renewed parts"), _change_columns(), leaving=(Leave("whose"), Leave("when"))
        )
        self.changes.column.add(self.changes_table)
        assert self.scroller is not None
        self.scroller.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.sheet.set_margins((18, 9, 18 - BAR, 27))
        self.sheet.add(indented(self.line), self.stays, self.readings, self.changes)

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Ask anew where an action touched this transport."""
        if changes is not None and self.life is not None and self.transport_id not in changes.transports:
            return
        self.desk.doors.look_up(
            self, partial(_load, self.desk.book, self.transport_id), self._show, partial(tell, self.trouble)
        )

    def arrive(self) -> None:
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"leave": self._leave, "save": self._save}

    # showing

    def _show(self, loaded: Loaded) -> None:
        self.life, self._names = loaded.life, loaded.names
        life = loaded.life
        marking = life.marking or say("no marking")
        self.head.set_words(
            f"{life.type_name} {say(life.arrangement.value)}",
            number=marking,
            below=summary_words(life, self.desk.today(), self._zone()),
        )
        self.set_title(f"{life.type_name} {life.marking}".strip())
        curves = curves_of(life)
        first = next((c for c in curves if c[0] in ONE_UNIT), curves[0] if curves else None)
        chosen = self.curve.value() if self.curve.value() in curves else first
        self.curve.set_options([(curve, self._name(curve)) for curve in curves], chosen)
        for part in (self.curve, self._curve_word):
            set_shown(part, bool(curves))
        self._draw()

    def _zone(self) -> Any:
        return self.desk.shop.zone

    def _name(self, curve: Curve) -> str:
        name = self._names.get(curve[0])
        words = say(name) if name is not None else curve[0]
        return f"{words}, {curve[1]}" if curve[1] else words

    def _draw(self) -> None:
        life = self.life
        if life is None:
            return
        curve: Curve | None = self.curve.value()
        self.line.set_facts(life_facts(life, curve, self.desk.today(), self._zone()))
        readings = of_curve(life, curve)
        measure.fix(self.line, height=PLOT if readings else BANDS)
        self.stays_table.set_rows(self._stay_rows(life, readings))
        self.stays.set_summary(say("none yet") if not life.spans else "")
        self.readings.head.setText(self._name(curve) if curve is not None else say("Readings"))
        self.readings.set_summary(
            say("{n} readings", n=len(readings)) if len(readings) != 1 else say("1 reading")
        )
        self.readings_table.set_rows([_reading_row(at, reading) for at, reading in enumerate(readings)])
        set_shown(self.readings, bool(readings))
        rows = _change_rows(life)
        self.changes_table.set_rows(rows)
        self.changes.set_summary(say("none known") if not rows else "")
        set_shown(self.changes_table, bool(rows))

    def _stay_rows(self, life: TransportLife, readings: list[LifeReading]) -> list[Row | Group]:
        """The present stay first; under each its jobs with what was read in them."""
        rows: list[Row | Group] = []
        for at in range(len(life.spans) - 1, -1, -1):
            span = life.spans[at]
            since, until = local_day(span.since, self._zone()), self.desk.today()
            if span.until is not None:
                until = local_day(span.until, self._zone())
            days = (until - since).days
            serial = span.serial or say("no serial")
            if span.until is None:
                told = say("{serial}, since {since}, {days} days", serial=serial, since=day(since), days=days)
            else:
                told = say(
                    "{serial}, {since} to {until}, {days} days",
                    serial=serial,
                    since=day(since),
                    until=day(until),
                    days=days,
                )
            rows.append(Group(span.unit, told))
            of_stay = [r for r in readings if span_at(life.spans, r.at) == at]
            for nth, job in enumerate(reversed(span.jobs)):
                values = [r for r in of_stay if r.job_number == job.number]
                unit = Link(say("All of this player"), ("unit", span.unit_id)) if nth == 0 else None
                rows.append(_job_row(unit, job.id, job.number, moment(job.taken_in, "d MMM y"), values))
        return rows

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


def _load(book: Book, transport_id: int) -> Loaded:
    names = {quantity.id: quantity.name for quantity in quantity_list(book)}
    return Loaded(transport_life(book, transport_id), names)


def _stay_columns() -> tuple[Column, ...]:
    return (
        Column("job", say("Job"), 80),
        Column("taken", say("Taken in"), 150),
        Column("values", say("Read in it"), 260),
        Column("unit", "", least=140),
    )


def _job_row(unit: Link | None, job_id: int, job_number: int, taken: str, values: list[LifeReading]) -> Row:
    read = ""
    if values:
        shown = [number(values[0].value), number(values[-1].value)]
        read = shown[-1] if len(values) == 1 else say("{first} to {last}", first=shown[0], last=shown[1])
        read = f"{read} {values[-1].unit}"
    cells: tuple[Cell, ...] = (
        Link(str(job_number), ("job", job_id)),
        Words(taken),
        Words(read),
        unit,
    )
    return Row(job_id, cells)


def _reading_columns() -> tuple[Column, ...]:
    return (
        Column("when", say("When"), 170),
        Column("job", say("Job"), 80),
        Column("value", say("Value"), 100, number=True),
        Column("u", "", 70),
        Column("unit", "", 60),
        Column("limits", say("Limits"), 150),
        Column("gauge", "", 130),
        Column("verdict", say("Verdict"), least=160),
    )


def _reading_row(at: int, reading: LifeReading) -> Row:
    facts = gauge_facts(reading.value, reading.uncertainty, reading.low, reading.high, reading.verdict, None)
    limits = limit_words(reading.low, reading.high)
    verdict = verdict_words(reading.verdict, None) if reading.verdict is not None else None
    cells: tuple[Cell, ...] = (
        Words(moment(reading.at)),
        Words(str(reading.job_number)),
        Figure(number(reading.value), strong=True),
        Words(uncertainty_words(reading.uncertainty), soft=True),
        Words(reading.unit, soft=True),
        Words(limits, tip=say(reading.limit_source)),
        gauge(facts, limits) if limits else None,
        verdict,
    )
    return Row(at, cells)


def _change_columns() -> tuple[Column, ...]:
    return (
        Column("when", say("When"), 150),
        Column("job", say("Job"), 80),
        Column("what", say("What"), least=200),
        Column("whose", say("Whose"), 150),
        Column("back", say("Put back"), 150),
    )


def _change_rows(life: TransportLife) -> list[Row]:
    rows = []
    for change in life.modifications:
        back = (
            moment(change.reversed_at, "d MMM y") if change.reversed_at is not None else say("still inside")
        )
        whose = say("ours") if change.ours else say("found, not ours")
        words = say(change.words)
        cells = (
            Words(moment(change.at, "d MMM y")),
            Words(str(change.job_number)),
            Words(words, tip=words),
            Words(whose),
            Words(back, before="" if change.reversed_at is not None else "caution"),
        )
        rows.append((change.at, Row(("modification", change.id), cells)))
    for part in life.renewed:
        cells = (
            Words(moment(part.at, "d MMM y")),
            Words(str(part.job_number)),
            Words(say("renewed: {part}", part=part.words), tip=part.words),
            Words(""),
            Words(""),
        )
        rows.append((part.at, Row(("part", part.id), cells)))
    return [row for _, row in sorted(rows, key=lambda pair: pair[0])]
