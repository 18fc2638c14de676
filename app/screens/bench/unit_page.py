"""The life of a player here: what to know first, its visits, its transports, what is changed inside it now."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.bench.job_words import player_words
from app.screens.bench.sheet_section import indented
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column, Leave, Link, Row, Words
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.heading import FactLine, Heading, Rule
from app.screens.kit.label import Label
from app.screens.kit.section import Section
from app.screens.kit.table import SmallTable
from app.screens.language import day, moment, say
from app.screens.page import Page
from app.trade.bench.stages import where_it_stands
from app.work.bench.unit_life import UnitFitting, UnitLife, UnitModification, unit_life
from app.work.counter.known_unit import LastReading, Visit

BAR = 12


class UnitPage(Page):
    """Opened as ``unit`` with its id."""

    help_topic = "unit"

    def __init__(self, desk: Desk, unit_id: int, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.unit_id = unit_id
        self.life: UnitLife | None = None
        self.set_title(say("Player"))
        self.head = Heading(say("Player"))
        self.owner = Button("", self._open_owner, kind="quiet")
        self.facts = FactLine()
        self.flags = FlagBar(say("Flags"), most=4)
        self.heading.add(self.head, self.facts, 3, self.flags, 9, Rule())
        self.first = Section(say("Know this first"), inset=9)
        self.first_bar = FlagBar(say("Know this first"))
        self.first.column.add(indented(self.first_bar))
        self.inside = Section(say("Inside now, not as the maker built it"), inset=9)
        self.inside_table = SmallTable(
            say("Inside now, not as the maker built it"),
            _inside_columns(),
            opened=self._open_inside,
            leaving=(Leave("whose"), Leave("when"), Leave("back")),
        )
        self.inside_table.link_opened.connect(desk.open_job)
        self.inside.column.add(self.inside_table)
        self.visits = Section(say("Visits"), inset=9)
        self.visits_table = SmallTable(
            say("Visits"),
            _visit_columns(),
            opened=desk.open_job,
            leaving=(Leave("group"), Leave("cause"), Leave("in")),
        )
        self.visits_table.link_opened.connect(desk.open_job)
        self.visits.column.add(self.visits_table)
        self.transports = Section(say("Transports"), inset=9)
        self.transports_table = SmallTable(
            say("Transports"),
            _fitting_columns(),
            opened=desk.open_transport,
            leaving=(Leave("kind"), Leave("belongs"), Leave("since")),
        )
        self.transports_table.link_opened.connect(desk.open_transport)
        self.transports.column.add(self.transports_table)
        self.changes = Section(say("Modifications put back"), inset=9)
        self.changes_table = SmallTable(
            say("Modifications put back"),
            _change_columns(),
            opened=self._open_change,
            leaving=(Leave("whose"), Leave("when")),
        )
        self.changes_table.link_opened.connect(desk.open_job)
        self.changes.column.add(self.changes_table)
        self.finals = Section(say("Last final readings"), inset=9)
        self.finals_line = FactLine()
        self.finals.column.add(indented(self.finals_line))
        self.note = Label("", wrap=True)
        self._note_line = indented(self.note)
        assert self.scroller is not None
        self.scroller.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.sheet.set_margins((18, 9, 18 - BAR, 27))
        self.sheet.add(self._note_line, self.first, self.inside, self.visits)
        self.sheet.add(self.transports, self.changes, self.finals)

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Ask anew where an action touched this player."""
        if changes is not None and self.life is not None and self.unit_id not in changes.units:
            jobs = {visit.job_id for visit in self.life.known.visits}
            if not jobs & changes.jobs:
                return
        self.desk.doors.look_up(
            self, partial(unit_life, self.desk.book, self.unit_id), self._show, partial(tell, self.trouble)
        )

    def arrive(self) -> None:
        self.visits_table.setFocus(Qt.FocusReason.OtherFocusReason)

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"leave": self.desk.back}

    # showing

    def _show(self, life: UnitLife) -> None:
        self.life = life
        known = life.known
        name = player_words(known.maker, known.model, known.serial)
        here = known.in_shop
        below = (
            say("In the shop as job {number}.", number=str(here[1]))
            if here is not None
            else say("Not in the shop.")
        )
        guarantees = " ".join(say(sentence) for sentence in known.guarantees) or say("No guarantee runs.")
        self.head.set_words(name, below=f"{below} {guarantees}")
        self.set_title(name)
        self.owner.setText(known.customer)
        facts: list[tuple[str, str | QWidget]] = []
        if known.customer:
            facts.append((say("Belongs to"), self.owner))
        facts += [
            (say("Mains"), say(known.mains_class.value)),
            (say("Plate"), known.mains_voltage),
            (say("Looks"), known.look),
        ]
        self.facts.set_facts(facts)
        self.flags.set_flags(
            [FlagFacts(f.level.value, say(f.word), say(f.sentence), say(f.clears)) for f in life.flags]
        )
        self.note.setText(life.note)
        set_shown(self._note_line, bool(life.note))
        self._show_tables(life)

    def _show_tables(self, life: UnitLife) -> None:
        known = life.known
        self.first_bar.set_flags(
            [FlagFacts(one.level.value, say(one.level.value), say(one.sentence)) for one in life.know_first]
        )
        nothing = say("see the flags above") if life.flags else say("nothing that the book knows of")
        self.first.set_summary("" if life.know_first else nothing)
        set_shown(self.first_bar, bool(life.know_first))
        self.inside_table.set_rows([_inside_row(one) for one in life.inside])
        set_shown(self.inside, bool(life.inside))
        self.visits_table.set_rows([_visit_row(visit) for visit in known.visits])
        count = len(known.visits)
        self.visits.set_summary(say("1 visit") if count == 1 else say("{n} visits", n=count))
        self.transports_table.set_rows(
            [_fitting_row(at, one) for at, one in enumerate(reversed(life.fittings))]
        )
        self.transports.set_summary("" if life.fittings else say("none noted"))
        set_shown(self.transports_table, bool(life.fittings))
        former = [one for one in life.modifications if one.reversed_at is not None]
        self.changes_table.set_rows([_change_row(one) for one in former])
        set_shown(self.changes, bool(former))
        set_shown(self.finals, bool(known.finals))
        if known.finals:
            self.finals.set_summary(say("of job {number}", number=str(known.finals_of)))
            self.finals_line.set_facts([(say(r.name), _final_words(r)) for r in known.finals])

    def _open_inside(self, key: int) -> None:
        if self.life is not None:
            self.desk.open_job(next(one.job_id for one in self.life.inside if one.id == key))

    def _open_change(self, key: int) -> None:
        if self.life is not None:
            self.desk.open_job(next(one.job_id for one in self.life.modifications if one.id == key))

    def _open_owner(self) -> None:
        if self.life is not None and self.life.known.customer_id is not None:
            self.desk.open_customer(self.life.known.customer_id)


def _visit_columns() -> tuple[Column, ...]:
    return (
        Column("job", say("Job"), 80),
        Column("in", say("Taken in"), 120),
        Column("back", say("Handed back"), 120),
        Column("stands", say("Stage or outcome"), 200),
        Column("group", say("Fault group"), 120),
        Column("cause", say("Cause"), 200),
        Column("done", say("What helped, or the fault"), least=140),
    )


def _visit_row(visit: Visit) -> Row:
    stands = (
        say(visit.outcome.value) if visit.outcome is not None else say(where_it_stands(visit.stage, None))
    )
    cells = (
        Link(str(visit.number), visit.job_id),
        Words(day(visit.taken_in)),
        Words(
            day(visit.handed_back) if visit.handed_back is not None else say("not yet"),
            soft=visit.handed_back is None,
        ),
        Words(stands),
        Words(say(visit.group.value) if visit.group is not None else ""),
        Words(say(visit.cause.value) if visit.cause is not None else ""),
        Words(visit.done or visit.fault, tip=visit.fault),
    )
    return Row(visit.job_id, cells)


def _fitting_columns() -> tuple[Column, ...]:
    return (
        Column("transport", say("Transport"), 260),
        Column("kind", say("Kind"), 190),
        Column("since", say("From"), 230),
        Column("until", say("To"), least=230),
        Column("belongs", "", 200),
    )


def _fitting_row(at: int, fitting: UnitFitting) -> Row:
    name = f"{fitting.type_name} {fitting.marking}".strip()
    other = "" if fitting.as_maker else say("{type} belongs here", type=fitting.belongs_type)
    cells = (
        Link(name, fitting.transport_id),
        Words(say(fitting.arrangement.value)),
        Words(
            moment(fitting.since, "d MMM y"),
            say("out of {player}", player=fitting.came_from) if fitting.came_from else "",
        ),
        Words(
            moment(fitting.until, "d MMM y") if fitting.until is not None else say("still inside"),
            say("into {player}", player=fitting.went_to) if fitting.went_to else "",
        ),
        Words(other, before="caution" if other else ""),
    )
    return Row(fitting.transport_id, cells)


def _change_columns() -> tuple[Column, ...]:
    return (
        Column("when", say("When"), 130),
        Column("job", say("Job"), 80),
        Column("what", say("What"), least=220),
        Column("whose", say("Whose"), 140),
        Column("back", say("Put back"), 150),
    )


def _change_row(change: UnitModification) -> Row:
    assert change.reversed_at is not None  # only those stand here
    words = say(change.words)
    cells = (
        Words(moment(change.at, "d MMM y")),
        Link(str(change.job_number), change.job_id),
        Words(words, tip=f"{words}\n{say(change.way_back)}"),
        Words(say("ours") if change.ours else say("found, not ours")),
        Words(moment(change.reversed_at, "d MMM y")),
    )
    return Row(change.id, cells)


def _inside_columns() -> tuple[Column, ...]:
    return (
        Column("when", say("Since"), 130),
        Column("job", say("Job"), 80),
        Column("what", say("What"), least=220),
        Column("where", say("Where"), 120),
        Column("back", say("Way back"), 300),
        Column("whose", say("Whose"), 140),
    )


def _inside_row(change: UnitModification) -> Row:
    words, back = say(change.words), say(change.way_back)
    cells = (
        Words(moment(change.at, "d MMM y")),
        Link(str(change.job_number), change.job_id),
        Words(words, tip=f"{words}\n{back}", before="caution"),
        Words(say("in the transport") if change.in_transport else say("in the player")),
        Words(back, tip=back),
        Words(say("ours") if change.ours else say("found, not ours")),
    )
    return Row(change.id, cells)


def _final_words(reading: LastReading) -> str:
    value = say("open") if reading.value is None else say("{value}", value=reading.value)
    return f"{value}, {say(reading.verdict.value)}" if reading.verdict is not None else value
