"""The heading of a job sheet: number, player, facts, what was said, what is still to do, flags."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QBoxLayout, QSizePolicy, QWidget

from app.screens.bench.compact_standing import CompactStanding
from app.screens.bench.estimate_words import estimate_words
from app.screens.bench.inline_form import InlineForm
from app.screens.bench.job_words import (
    due_words,
    player_words,
    promise_words,
    stage_index,
    stage_word,
    waiting_words,
)
from app.screens.bench.stage_button import StageButton
from app.screens.kit.boxes import Column, Flow, Row, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.gates import GateFacts, GateRow
from app.screens.kit.heading import Heading, Rule
from app.screens.kit.label import Label
from app.screens.language import say
from app.trade.bench.flag import Closing, Level
from app.trade.bench.gates import READY_GATES
from app.trade.bench.kinds import ComebackStanding
from app.trade.bench.stages import Stage, Waiting
from app.trade.sentence import Sentence
from app.work.bench.job_sheet import JobSheet
from app.work.bench.sheet_lines import FlagLineFact, GateLineFact

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

FLAGS_SHOWN = 3
LINKS_SHOWN = 2
GATES_NAMED = 2

Target = tuple[str, Any]

LINKS = {
    "safety_missing": Sentence("Record the safety test"),
    "final_missing": Sentence("Take final readings"),
    "laser_no_power": Sentence("Read the light"),
    "not_agreed": Sentence("Note the customer's yes"),
    "told": Sentence("Write the invoice"),
}


class JobHeading(QWidget):
    """Stays while the sheet scrolls; then it is ``compact``: facts, gates and flags in one line.

    `acted` brings what a link, a flag or the blocked button leads to, as a pair of kind and key.
    """

    acted = Signal(object)

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__()
        self.page = page
        self.sheet: JobSheet | None = None
        self.compact = False
        self.narrow = False
        self.crowded = False
        self._told_now = False
        self.head = Heading()
        self.tag_button = Button(say("Print bench tag"), page.print_tag, key="Ctrl+P")
        self.bench_button = Button(say("Put on the bench"), page.put_on_bench, kind="main")
        self.ready_button = Button(say("Set ready"), page.make_ready, kind="main", key="Ctrl+Shift+R")
        self.hand_button = Button(say("Hand back"), page.hand_back, kind="main", key="Ctrl+H")
        self.hand_button.held.connect(self.go_to_what_holds)
        self.head.set_buttons(self.tag_button, self.ready_button, self.bench_button, self.hand_button)
        self.stage = StageButton(page.change_stage)
        self.customer = Button("", kind="quiet")
        self.customer.done.connect(lambda: self._open("customer"))
        self.transport = Button("", kind="quiet")
        self.transport.done.connect(lambda: self._open("transport"))
        self.estimate = Button("", lambda: page.desk.open("estimate", page.job_id), kind="quiet")
        self._estimate_fact = _fact(Label(say("Estimate"), "soft"), self.estimate)
        # Made once; what leaves when the heading folds is only hidden, so that scrolling stays smooth.
        self.mains, self.promised = Label(), Label()
        self._customer_word = Label(say("Customer"), "soft")
        self._customer_fact = _fact(self._customer_word, self.customer)
        self._transport_fact = _fact(Label(say("Transport"), "soft"), self.transport)
        self._mains_fact = _fact(Label(say("Mains"), "soft"), self.mains)
        self.facts = QWidget()
        Flow(self.facts, gap=23, line_gap=2).add(
            self._customer_fact,
            self._transport_fact,
            self._mains_fact,
            _fact(Label(say("Stage"), "soft"), self.stage),
            _fact(Label(say("Promised"), "soft"), self.promised),
            self._estimate_fact,
        )
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.facts.setSizePolicy(policy)
        self.said = Label("", elide=True)
        self._said_word = Label(say("Said"), "soft")
        self.said_line = QWidget()
        Row(self.said_line, gap=7).add(self._said_word).add(self.said, stretch=1)
        self.gates = GateRow()
        self.gates.acted.connect(self.acted)
        self.flags = FlagBar(say("Flags"), most=FLAGS_SHOWN)
        self.flags.acted.connect(self.acted)
        self.folded_flags = FlagBar(say("Flags"), folds=True)
        self.folded_flags.acted.connect(self.acted)
        self.told = Label("", "soft", wrap=True)
        self._forms = Column()
        self.open: InlineForm | None = None
        self._open_kind = ""
        self.standing = CompactStanding()
        self._facts_line = QWidget()
        self._facts_row = Row(self._facts_line, gap=23)
        self._facts_row.add(self.facts, stretch=1).add(self.standing)
        column = Column(self, gap=1)
        column.add(self.head, 2, self._facts_line, self.said_line, 3, self.gates, 3, self.flags)
        column.add(self.folded_flags, self.told)
        column.addLayout(self._forms)
        column.add(9, Rule())
        set_shown(self.told, False)

    def show_sheet(self, sheet: JobSheet) -> None:
        """Show another state of the job."""
        self.sheet = sheet
        if not self._told_now:
            self.told.setText("")
        self._told_now = False
        self.head.set_words(player_words(sheet.maker, sheet.model, sheet.serial), number=str(sheet.number))
        self._show_facts(sheet)
        self.said.setText(say("“{words}”", words=sheet.fault) if sheet.fault else "")
        self.said.setAccessibleName(say("Said by the customer: {words}", words=sheet.fault))
        closed = sheet.stage is Stage.HANDED_BACK
        flags = [self._flag(flag) for flag in sheet.flags]
        gates = [] if closed else [self._gate(gate, sheet) for gate in _worth_showing(sheet.gates)]
        self.gates.set_gates(gates, "" if self.narrow else say("before it can be handed back"))
        self.flags.set_flags(flags)
        self.folded_flags.set_flags(flags)
        self.standing.set_standing(
            [gate.word for gate in gates if not gate.done], [(flag.level, flag.word) for flag in flags]
        )
        self._show_buttons(sheet)
        self._show_parts()

    def set_compact(self, compact: bool) -> None:
        """Fold to one line under the number, or unfold."""
        self.compact = compact
        self._show_parts()

    def set_narrow(self, narrow: bool) -> None:
        """Fold the flags where there is little room."""
        self.narrow = narrow
        way = QBoxLayout.Direction.TopToBottom if narrow else QBoxLayout.Direction.LeftToRight
        self._facts_row.setDirection(way)
        self._facts_row.set_gap(2 if narrow else 23)
        self.standing.set_left(narrow)
        self._show_parts()
        if self.sheet is not None:
            self.show_sheet(self.sheet)

    def set_crowded(self, crowded: bool) -> None:
        """Where the page is low, what is to do stands in one line and what was said stays with the intake."""
        self.crowded = crowded
        self._show_parts()

    def tell(self, words: str) -> None:
        """A soft line: what the book took for granted, or what came of something. It goes with the next change."""
        self.told.setText(words)
        set_shown(self.told, bool(words))
        self._told_now = True

    def open_form(self, kind: str, make: Callable[[str], InlineForm]) -> None:
        """Open a form under the facts, or go to it when it is open."""
        if self.open is None or self._open_kind != kind:
            self.close_form()
            form = make(f"job {self.page.job_id} {kind}")
            form.take_draft()
            form.saved.connect(lambda _: self._form_saved())
            form.left.connect(self.close_form)
            form.failed.connect(self.page.tell_failure)
            place = self.page.above_the_sheet if self.crowded else self._forms
            place.addWidget(form)
            self.open, self._open_kind = form, kind
        self.open.focus_first()

    def close_form(self) -> None:
        """Close the form that is open; its draft stays."""
        if self.open is not None:
            self.open.hide()
            self.open.deleteLater()
            self.open, self._open_kind = None, ""
            self.stage.setFocus()

    def _form_saved(self) -> None:
        self.page.trouble.clear()
        self.close_form()

    def won_by_folding(self) -> int:
        """Px that the heading gives back when it folds; nothing while a form is open in it."""
        if self.open is not None:
            return 0
        parts = (self.said_line, self.gates, self.flags, self.folded_flags, self.told)
        return sum(part.height() for part in parts if not part.isHidden())

    # parts

    def _show_parts(self) -> None:
        sheet = self.sheet
        has_flags = sheet is not None and bool(sheet.flags)
        full = not self.compact
        airy = full and not self.crowded
        set_shown(self._customer_word, full)
        set_shown(self._mains_fact, full and not self.narrow)
        set_shown(self.said_line, airy and bool(self.said.text()))
        closed = sheet is None or sheet.stage is Stage.HANDED_BACK
        set_shown(self.gates, airy and not closed and bool(_worth_showing(sheet.gates) if sheet else ()))
        set_shown(self.flags, full and has_flags and not self.narrow)
        set_shown(self.folded_flags, full and has_flags and self.narrow)
        set_shown(self.told, full and bool(self.told.text()))
        self.standing.show_flags(self.compact)
        set_shown(self.standing, not airy and not self.standing.empty)

    def _show_facts(self, sheet: JobSheet) -> None:
        self.customer.setText(sheet.customer)
        name = f"{sheet.transport}, {sheet.transport_marking}" if sheet.transport_marking else sheet.transport
        self.transport.setText(name)
        self.mains.setText(say(sheet.mains_class.value))
        self.stage.set_stage(
            stage_index(sheet.stage), stage_word(sheet.stage, sheet.outcome), self._waits_for(sheet)
        )
        self.promised.setText(promise_words(sheet.promised_on, sheet.promised_time, self.page.desk.today()))
        set_shown(self._transport_fact, bool(name))
        self.estimate.setText(estimate_words(sheet.estimate) if sheet.estimate is not None else "")
        set_shown(self._estimate_fact, sheet.estimate is not None)

    def _waits_for(self, sheet: JobSheet) -> str:
        """What the job waits for; of parts that were ordered, when the last of them is due."""
        due = [part.ordered.expected_on for part in sheet.ordered if part.ordered.to_come]
        if sheet.waiting is Waiting.PART and due:
            return due_words(max(due), self.page.desk.today())
        return waiting_words(sheet.waiting)

    def _show_buttons(self, sheet: JobSheet) -> None:
        stops = [flag for flag in sheet.flags if flag.level is Level.STOP]
        open_gates = [gate for gate in sheet.gates if not gate.done]
        hold_ready = bool(stops) or any(gate.rule in READY_GATES for gate in open_gates)
        working = sheet.stage in (Stage.ON_THE_BENCH, Stage.RUNNING_IN)
        self.bench_button.setVisible(sheet.stage is Stage.TAKEN_IN)
        self.ready_button.setVisible(working and not hold_ready)
        self.head.set_gone(self.tag_button, sheet.stage is Stage.HANDED_BACK)
        self.hand_button.setVisible(sheet.stage is not Stage.HANDED_BACK)
        self.hand_button.kind = "main" if sheet.stage is Stage.READY else "plain"
        if stops:
            self.hand_button.block(_named([say(flag.word) for flag in stops]), "stop")
        elif open_gates:
            self.hand_button.block(say("{steps} to do", steps=_named([say(g.words) for g in open_gates])))
        else:
            self.hand_button.free()
        self.hand_button.update()
        self.head.make_room()

    def _flag(self, flag: FlagLineFact) -> FlagFacts:
        clears = say(flag.clears)
        if flag.acknowledged:
            clears = say("{clears} Acknowledged by {name}.", clears=clears, name=flag.acknowledged)
        action = ""
        if flag.closing is Closing.SEEN and not flag.acknowledged:
            action = say("Acknowledge…")
        elif flag.closing is Closing.REASON:
            action = say("Clear with a reason…")
        return FlagFacts(
            flag.level.value,
            say(flag.word),
            say(flag.sentence),
            clears,
            action,
            ("answer_flag", flag.id),
            self._answers(flag),
        )

    def _answers(self, flag: FlagLineFact) -> tuple[tuple[str, Any], ...]:
        """A comeback that is only proposed asks the technician."""
        open_still = self.sheet is not None and self.sheet.comeback is ComebackStanding.PROPOSED
        if flag.rule != "comeback" or not open_still:
            return ()
        return (
            (say("It is one"), ("comeback", ComebackStanding.CONFIRMED)),
            (say("Another fault…"), ("comeback", ComebackStanding.DENIED)),
        )

    def _gate(self, gate: GateLineFact, sheet: JobSheet) -> GateFacts:
        todo = [each.rule for each in sheet.gates if not each.done]
        shown = gate.rule in todo[:LINKS_SHOWN]
        link = LINKS.get(gate.rule, gate.link) if shown else None
        how = say(gate.how) if gate.done and gate.how is not None else ""
        words = say(link) if link is not None else ""
        return GateFacts(say(gate.words), gate.done, how, words, ("gate", gate.rule))

    def _open(self, kind: str) -> None:
        if self.sheet is None:
            return
        key = self.sheet.customer_id if kind == "customer" else self.sheet.transport_id
        if key is not None:
            self.page.desk.open(kind, key)

    def go_to_what_holds(self) -> None:
        """Lead to the first stop, else to the first step that is still to do."""
        assert self.sheet is not None
        stop = next((flag for flag in self.sheet.flags if flag.level is Level.STOP), None)
        if stop is not None:
            self.acted.emit(("stop", stop.id))
            return
        gate = next((gate for gate in self.sheet.gates if not gate.done), None)
        if gate is not None:
            self.acted.emit(("gate", gate.rule))


def _fact(word: Label, value: QWidget) -> QWidget:
    """A soft word and its value."""
    pair = QWidget()
    Row(pair, gap=7).add(word, value)
    pair.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
    return pair


def _worth_showing(gates: Sequence[GateLineFact]) -> list[GateLineFact]:
    """Open ones and done ones; a step that came to nothing says nothing."""
    return [gate for gate in gates if not gate.done or gate.how is not None]


def _named(words: Sequence[str]) -> str:
    """The first two by name, the rest by number."""
    if len(words) <= GATES_NAMED + 1:
        return ", ".join(words)
    named = ", ".join(words[:GATES_NAMED])
    return say("{named} and {count} more", named=named, count=len(words) - GATES_NAMED)
