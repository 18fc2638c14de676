"""Who is under suspicion: the ranked suspects, why each stands where it does, and what to read or try next."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.bench.no_fault import NoFaultView
from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.bench.symptoms_form import SymptomsForm
from app.screens.kit.boxes import Row as Across
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Column, Figure, Leave, Row, Words
from app.screens.kit.gauges import ShareFacts, share
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.language import number, say
from app.trade.sentence import Sentence
from app.work.bench.job_sheet import JobSheet
from app.work.bench.ranking import RankedLine, RankingCard, ranking_of
from app.work.bench.sheet_lines import StartUpLine

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

SHOWN = 3
FEW = 5  # jobs below which a share of them is drawn open


class SuspectsSection(SheetSection):
    """Three suspects, all on wish; the marked one tells its whole path. It advises; it decides nothing."""

    key = "suspects"

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Suspects"))
        self.makers = {"symptoms": lambda: SymptomsForm(page, self.draft_key("symptoms"))}
        self.ask_link = self.link(say("Ask about the fault"), page.ask_symptoms, "Ctrl+Shift+Q")
        self.all_link = self.link("", self._turn_all)
        self.why_link = self.link(say("Why this order"), self._turn_why)
        self.set_links(self.why_link, self.all_link, self.ask_link)
        self.table = SmallTable(
            say("Suspects"),
            (
                Column("place", "", 22),
                Column("suspect", say("Suspect"), 0, least=180),
                Column("because", say("Because"), 232),
                Column("fits", say("Fits"), 96),
                Column("cause", say("Was the cause here"), 130),
                Column("share", "", 72),
            ),
            leaving=(Leave("share"), Leave("because"), Leave("cause")),
        )
        self.table.marked.connect(lambda _: self._explain())
        self.said = Label("", "soft", wrap=True)
        self.next_word = Label(say("Measure next"), "strong")
        self.next_link = self.link("", self._take_next)
        self.next_why = Label("", "soft", elide=True)
        self.why = Label("", "soft", wrap=True)
        self._said_line = indented(self.said)
        self._next_line = QWidget()
        line = Across(self._next_line, gap=11, margins=(9, 0, 9, 0))
        line.add(self.next_word, self.next_link)
        line.add(self.next_why, stretch=1)
        self._why_line = indented(self.why)
        self.no_fault = NoFaultView(page)
        self._no_fault_line = indented(self.no_fault)
        self.column.add(self.table, self._why_line, self._next_line, self._said_line, self._no_fault_line)
        self.card: RankingCard | Sentence | None = None
        self._asked: Any = None
        self._all = self._whys = False
        self._show()

    def facts(self, sheet: JobSheet) -> Any:
        return sheet.start_ups, sheet.readings, sheet.trials, sheet.modifications, self.page.works

    def draw(self, sheet: JobSheet) -> None:
        set_shown(self.ask_link, self.page.works)

    def ask(self) -> None:
        """Whatever was changed may bear on the suspects: they are ranked anew, away from the window."""
        if self._asked is not None:
            self._asked.cancel()
        self._asked = self.desk.doors.look_up(
            self,
            partial(ranking_of, self.desk.book, self.page.job_id),
            self._ranked,
            partial(tell, self.page.trouble),
        )

    def _ranked(self, card: RankingCard | Sentence) -> None:
        if card != self.card:
            self.card = card
            self._show()
        if isinstance(card, RankingCard) and self._stops_there(card):
            self.page.body.standing.show_more(card.standing)

    def _stops_there(self, card: RankingCard) -> bool:
        """Whether the last test stopped where the suspects are ranked; a mended player plays on by now."""
        standing = self._standing_tests()
        return bool(standing) and standing[-1].rung + 1 == card.rung

    def _plays_on(self) -> bool:
        """Whether there is nothing to rank because every rung was reached."""
        return (
            self._facts is not None
            and isinstance(self.card, Sentence)
            and any(line.result.first_not_reached is None for line in self._standing_tests()[-1:])
        )

    def _standing_tests(self) -> list[StartUpLine]:
        return [line for line in self.page.facts.start_ups if line.struck is None]

    def _show(self) -> None:
        card = self.card if isinstance(self.card, RankingCard) else None
        lines = card.lines if card is not None else ()
        shown = lines if self._all else lines[:SHOWN]
        self.table.set_rows([self._row(place, line) for place, line in enumerate(shown, start=1)])
        for part in (self.table, self.why_link):
            set_shown(part, bool(lines))
        set_shown(self.all_link, len(lines) > SHOWN)
        self.all_link.setText(
            say("The first {n}", n=SHOWN) if self._all else say("All {n} suspects", n=len(lines))
        )
        if card is not None:
            self.said.setText(say(card.sentence))
            self.set_summary("" if card.clear_leader else say("no clear leader"))
        else:
            self.said.setText(say(self.card) if isinstance(self.card, Sentence) else "")
            self.set_summary("")
        set_shown(self._said_line, bool(self.said.text()))
        set_shown(self._no_fault_line, self._plays_on() and self.page_works())
        self._show_next(card)
        self._explain()

    def _row(self, place: int, line: RankedLine) -> Row:
        card = self.card
        leads = place == 1 and isinstance(card, RankingCard) and card.clear_leader
        because = "; ".join(say(one) for one in line.because)
        name = say(line.name)
        short, _, detail = name.partition(": ")
        cause: Any = Words(say("no job yet"), soft=True)
        drawn: Any = None
        if line.all_jobs:
            low, high = line.interval
            told = say("{n} of {jobs}", n=line.jobs, jobs=line.all_jobs)
            band = say("{low} to {high} %", low=number(round(low * 100)), high=number(round(high * 100)))
            cause = Words(told, band)
            drawn = share(
                ShareFacts(line.jobs / line.all_jobs, low, high, few=line.all_jobs < FEW), f"{told} {band}"
            )
        return Row(
            line.id,
            (
                Words(str(place), strong=leads),
                Words(short, say("from outside the row") if line.entered else detail, strong=leads, tip=name),
                Words(because or say("by the ladder alone"), soft=not because, tip=because),
                Figure(say(line.words), strong=leads),
                cause,
                drawn,
            ),
        )

    # what to do next

    def _show_next(self, card: RankingCard | None) -> None:
        offer = card.steps.offers[0] if card is not None and card.steps.offers else None
        set_shown(self._next_line, offer is not None and self.page_works())
        if offer is None:
            return
        self.next_word.setText(say("Next trial") if offer.trial else say("Measure next"))
        self.next_link.setText(say(offer.name))
        self.next_why.setText(
            say(
                "{n} minutes. It tells most about: {suspect}.",
                n=offer.minutes,
                suspect=offer.reason.values["suspect"],
            )
        )

    def page_works(self) -> bool:
        """Whether the job is still worked on; before the sheet is there, it is not."""
        return self._facts is not None and self.page.works

    def _take_next(self) -> None:
        card = self.card
        if not isinstance(card, RankingCard) or not card.steps.offers:
            return
        offer = card.steps.offers[0]
        if offer.trial:
            self.page.try_change(offer.id)
        else:
            self.page.read_quantity(offer.quantities[0])

    # why

    def _turn_all(self) -> None:
        self._all = not self._all
        self._show()

    def _turn_why(self) -> None:
        self._whys = not self._whys
        self._explain()

    def _explain(self) -> None:
        card = self.card if isinstance(self.card, RankingCard) else None
        self.why_link.setText(say("Hide why") if self._whys else say("Why this order"))
        set_shown(self._why_line, self._whys and card is not None)
        if card is None or not self._whys:
            return
        key = self.table.marked_key()
        line = next((line for line in card.lines if line.id == key), card.lines[0])
        words = [say("{suspect}:", suspect=line.name), *(say(one) for one in line.why)]
        words += [say(one) for one in card.moves_nothing]
        words.append(say(card.first_look))
        self.why.setText("\n".join(words))
