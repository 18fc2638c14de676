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
from app.screens.bench.unit_pictures import UnitPictures
from app.screens.bench.unit_rows import (
    change_columns,
    change_row,
    final_words,
    fitted_columns,
    fitting_columns,
    fitting_row,
    given_columns,
    inside_columns,
    inside_row,
    part_row,
    visit_columns,
    visit_row,
)
from app.screens.desk import Desk, Paper
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Leave
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.heading import FactLine, Heading, Rule
from app.screens.kit.label import Label
from app.screens.kit.section import Section
from app.screens.kit.table import SmallTable
from app.screens.language import say
from app.screens.page import Page
from app.work.bench.unit_life import UnitLife, unit_life
from app.work.papers.issuing import paper_pdf
from app.work.papers.labels import issue_modified_label

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
        self.folded_flags = FlagBar(say("Flags"), folds=True)  # whole sentences would fill a narrow heading
        self.heading.add(self.head, self.facts, 3, self.flags, self.folded_flags, 9, Rule())
        self.first = Section(say("Know this first"), inset=9)
        self.first_bar = FlagBar(say("Know this first"))
        self.first.column.add(indented(self.first_bar))
        self.inside = Section(say("Inside now, not as the maker built it"), inset=9)
        self.inside_table = SmallTable(
            say("Inside now, not as the maker built it"),
            inside_columns(),
            opened=self._open_inside,
            leaving=(Leave("whose"), Leave("when"), Leave("back")),
        )
        self.inside_table.link_opened.connect(desk.open_job)
        self.label_link = Button(say("Print its label"), self.print_label, kind="quiet", key="Ctrl+P")
        self.inside.set_links(self.label_link)
        self.inside.column.add(self.inside_table)
        self.visits = Section(say("Visits"), inset=9)
        self.visits_table = SmallTable(
            say("Visits"),
            visit_columns(),
            opened=desk.open_job,
            leaving=(Leave("group"), Leave("cause"), Leave("in")),
        )
        self.visits_table.link_opened.connect(desk.open_job)
        self.visits.column.add(self.visits_table)
        self.transports = Section(say("Transports"), inset=9)
        self.transports_table = SmallTable(
            say("Transports"),
            fitting_columns(),
            opened=desk.open_transport,
            leaving=(Leave("kind"), Leave("belongs"), Leave("since")),
        )
        self.transports_table.link_opened.connect(desk.open_transport)
        self.transports.column.add(self.transports_table)
        self.changes = Section(say("Modifications put back"), inset=9)
        self.changes_table = SmallTable(
            say("Modifications put back"),
            change_columns(),
            opened=self._open_change,
            leaving=(Leave("whose"), Leave("when")),
        )
        self.changes_table.link_opened.connect(desk.open_job)
        self.changes.column.add(self.changes_table)
        self.fitted = Section(say("Parts fitted here"), inset=9)
        self.fitted_table = SmallTable(
            say("Parts fitted here"),
            fitted_columns(),
            opened=self._open_part,
            leaving=(Leave("note"), Leave("by")),
        )
        self.fitted_table.link_opened.connect(lambda link: desk.open(*link))
        self.fitted.column.add(self.fitted_table)
        self.given = Section(say("Parts taken out of it"), inset=9)
        self.given_table = SmallTable(
            say("Parts taken out of it"),
            given_columns(),
            opened=self._open_part,
            leaving=(Leave("note"), Leave("by")),
        )
        self.given_table.link_opened.connect(lambda link: desk.open(*link))
        self.given.column.add(self.given_table)
        self.finals = Section(say("Last final readings"), inset=9)
        self.finals_line = FactLine()
        self.finals.column.add(indented(self.finals_line))
        self.pictures = Section(say("Pictures"), inset=9)
        self.pictures_tiles = UnitPictures(desk)
        self.pictures.column.add(indented(self.pictures_tiles))
        self.note = Label("", wrap=True)
        self._note_line = indented(self.note)
        assert self.scroller is not None
        self.scroller.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.sheet.set_margins((18, 9, 18 - BAR, 27))
        self.sheet.add(self._note_line, self.first, self.inside, self.visits)
        self.sheet.add(self.given, self.transports, self.changes, self.fitted, self.finals, self.pictures)

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

    def narrowed(self, narrow: bool) -> None:
        """Flags fold to one line in a narrow heading."""
        self._choose_flags()

    def _choose_flags(self) -> None:
        there = self.life is not None and bool(self.life.flags)
        set_shown(self.flags, there and not self.narrow)
        set_shown(self.folded_flags, there and self.narrow)

    def arrive(self) -> None:
        self.visits_table.setFocus(Qt.FocusReason.OtherFocusReason)

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"leave": self.desk.back, "print": self.print_label}

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
        flags = [FlagFacts(f.level.value, say(f.word), say(f.sentence), say(f.clears)) for f in life.flags]
        for bar in (self.flags, self.folded_flags):
            bar.set_flags(flags)
        self._choose_flags()
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
        self.inside_table.set_rows([inside_row(one) for one in life.inside])
        set_shown(self.inside, bool(life.inside))
        self.visits_table.set_rows([visit_row(visit) for visit in known.visits])
        count = len(known.visits)
        self.visits.set_summary(say("1 visit") if count == 1 else say("{n} visits", n=count))
        self.transports_table.set_rows(
            [fitting_row(at, one) for at, one in enumerate(reversed(life.fittings))]
        )
        self.transports.set_summary("" if life.fittings else say("none noted"))
        set_shown(self.transports_table, bool(life.fittings))
        former = [one for one in life.modifications if one.reversed_at is not None]
        self.changes_table.set_rows([change_row(one) for one in former])
        set_shown(self.changes, bool(former))
        self.pictures_tiles.set_pictures(life.pictures)
        set_shown(self.pictures, bool(life.pictures))
        self.fitted_table.set_rows([part_row(at, one) for at, one in enumerate(life.fitted)])
        set_shown(self.fitted, bool(life.fitted))
        self.given_table.set_rows([part_row(at, one) for at, one in enumerate(life.given)])
        set_shown(self.given, bool(life.given) or life.is_donor)
        set_shown(self.given_table, bool(life.given))
        self.given.set_summary("" if life.given else say("none yet: a part's own page takes them"))
        set_shown(self.finals, bool(known.finals))
        if known.finals:
            self.finals.set_summary(say("of job {number}", number=str(known.finals_of)))
            self.finals_line.set_facts([(say(r.name), final_words(r)) for r in known.finals])

    def print_label(self) -> None:
        """Issue the label of the marked change that is inside, else of the first, and show it."""
        if self.life is None or not self.life.inside:
            self.trouble.show_trouble(
                say("Nothing inside departs from the maker's design: there is no label.")
            )
            return
        if self.desk.staff is None:
            self.trouble.show_trouble(say("Say first who works here now, with Ctrl+U."))
            return
        marked = self.inside_table.marked_key() or self.life.inside[0].id
        self.desk.change(
            self,
            partial(issue_modified_label, self.desk.book, self.desk.staff.id, marked),
            lambda done: self._look_at(done.value),
            partial(tell, self.trouble),
        )

    def _look_at(self, paper_id: int) -> None:
        self.desk.doors.look_up(
            self,
            partial(paper_pdf, self.desk.book, paper_id),
            lambda paper: self.desk.show_paper(
                Paper(paper.title, paper.pdf, paper.kind, paper.name, paper.id, paper.copied)
            ),
            partial(tell, self.trouble),
        )

    def _open_inside(self, key: int) -> None:
        if self.life is not None:
            self.desk.open_job(next(one.job_id for one in self.life.inside if one.id == key))

    def _open_change(self, key: int) -> None:
        if self.life is not None:
            self.desk.open_job(next(one.job_id for one in self.life.modifications if one.id == key))

    def _open_part(self, key: tuple[int, int]) -> None:
        self.desk.open("part", key[1])

    def _open_owner(self) -> None:
        if self.life is not None and self.life.known.customer_id is not None:
            self.desk.open_customer(self.life.known.customer_id)
