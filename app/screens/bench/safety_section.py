"""Case and electrical safety: opened and closed, the tests with their steps, a new test."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.framed_note import FramedNote
from app.screens.bench.request_form import RequestForm
from app.screens.bench.safety_form import SafetyForm
from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.bench.text_lines import TextLine, TextLines
from app.screens.kit.boxes import Column, clear_layout, set_shown
from app.screens.kit.boxes import Row as Across
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Cell, Group, Row, Words
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.language import moment, say
from app.trade.bench.safety_notes import NoteTold
from app.trade.bench.safety_test import Overall
from app.trade.bench.stages import CaseStep
from app.trade.bench.verdict import VerdictWord, in_hundred
from app.trade.sentence import Measure
from app.work.bench.job_sheet import JobSheet
from app.work.bench.sheet_lines import SafetyStepLine, SafetyTestLine
from app.work.bench.unsafe_requests import RequestLine, unsafe_requests
from app.work.bench.work_done import note_case
from app.work.counter.requests import refuse_unsafe_request

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

CASE_LINES = 6
FRAMED = frozenset({"laser"})  # these notes, and whatever stands out


class SafetySection(SheetSection):
    """A test is never changed: a new one follows."""

    key = "safety"

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Safety"))
        self.makers = {
            "safety test": lambda: SafetyForm(page, self.draft_key("safety test")),
            "unsafe request": lambda: RequestForm(page, self.draft_key("unsafe request")),
        }
        self.case_button = Button(say("Case opened"), self.turn_case, key="Ctrl+Shift+O")
        self.test_link = self.link(say("Record the safety test"), page.record_safety_test, "Ctrl+Shift+S")
        self.ask_link = self.link(say("Note an unsafe request…"), page.note_request)
        self.set_links(self.ask_link, self.test_link)
        self.case = Label("", "soft", wrap=True)
        columns = (
            TableColumn("step", say("Step"), 330),
            TableColumn("value", say("Value"), 150),
            TableColumn("limit", say("Limit"), 150),
            TableColumn("meets", say("Meets it"), 120),
            TableColumn("verdict", say("The shop's own verdict"), least=180),
        )
        self.table = SmallTable(say("Safety tests"), columns)
        self.requests = TextLines(say("Unsafe requests"))
        self.requests.asked.connect(self._refuse)
        self._requests: tuple[RequestLine, ...] = ()
        self._case_line = QWidget()
        case_row = Across(gap=14, margins=(9, 0, 9, 0))
        self._case_line.setLayout(case_row)
        case_row.add(self.case_button).add(self.case, stretch=1)
        self.minds = TextLines(say("Mind while working on it"), left=110)
        self._minds_word = indented(Label(say("Mind while working on it"), "strong"))
        self.framed: list[FramedNote] = []
        self._frames = QWidget()
        self._frames_column = Column(self._frames, gap=7, margins=(9, 0, 9, 4))
        self.column.add(
            self._case_line, self.requests, self.table, self._minds_word, self._frames, self.minds
        )

    def facts(self, sheet: JobSheet) -> Any:
        stops = tuple(flag.id for flag in sheet.flags if flag.rule == "interlock")
        return (
            sheet.case_events,
            sheet.safety_tests,
            sheet.case_open,
            sheet.mains_class,
            sheet.safety_notes,
            stops,
            self.page.works,
        )

    def draw(self, sheet: JobSheet) -> None:
        self.case_button.setText(say("Case closed") if sheet.case_open else say("Case opened"))
        set_shown(self.case_button, self.page.works)
        events = [
            say(
                "{what} {when}, {name}",
                what=_case_word(e.opened, e.assumed),
                when=moment(e.at, "d MMM HH:mm"),
                name=e.by,
            )
            for e in sheet.case_events[-CASE_LINES:]
        ]
        self.case.setText("; ".join(events) if events else say("The case was not opened here."))
        rows: list[Row | Group] = []
        for test in reversed(sheet.safety_tests):
            rows.append(_group(test, test.job_id == self.page.job_id))
            rows += [_row(test, at, step) for at, step in enumerate(test.steps)]
        self.table.set_rows(rows)
        set_shown(self.table, bool(rows))
        notes = sheet.safety_notes
        framed = [n for n in notes if n.large or n.id in FRAMED]
        self._frame(sorted(framed, key=lambda n: not n.large))
        self.minds.set_lines([_mind(n) for n in notes if n not in framed])
        set_shown(self._minds_word, bool(notes))
        set_shown(self._frames, bool(framed))
        set_shown(self.minds, len(notes) > len(framed))
        self._ask_requests()
        set_shown(self.test_link, self.page.works)
        set_shown(self.ask_link, self.page.works)
        self.set_summary(_summary(sheet, self.page.job_id))

    def _frame(self, notes: list[NoteTold]) -> None:
        """What can blind or kill stands in a frame of its own, before the rest."""
        clear_layout(self._frames_column)
        self.framed = [FramedNote(say(n.title), say(n.text), large=n.large) for n in notes]
        self._frames_column.add(*self.framed)

    @property
    def has_open_request(self) -> bool:
        """Whether something unsafe was asked for and nobody refused it yet."""
        return any(request.refused_at is None for request in self._requests)

    def _ask_requests(self) -> None:
        self.desk.doors.look_up(
            self,
            partial(unsafe_requests, self.desk.book, self.page.job_id),
            self._show_requests,
            lambda error: self.page.tell_failure(error, None),
        )

    def _show_requests(self, requests: tuple[RequestLine, ...]) -> None:
        self._requests = requests
        lines = []
        for request in requests:
            before = say("asked for {when}, {name}", when=moment(request.at, "d MMM HH:mm"), name=request.by)
            refused, action = "", say("Refuse it") if self.page.works else ""
            if request.refused_at is not None:
                when = moment(request.refused_at, "d MMM HH:mm")
                refused, action = say("refused {when}, {name}", when=when, name=request.refused_by), ""
            words = f"{say('“{words}”', words=request.what)} {refused}".strip()
            lines.append(TextLine(request.id, before, words, "", action))
        self.requests.set_lines(lines)
        set_shown(self.requests, bool(lines))

    def _refuse(self, request_id: int) -> None:
        who = self.page.who()
        if who is not None:
            self.desk.change(
                self,
                partial(refuse_unsafe_request, self.desk.book, who, request_id),
                None,
                lambda error: self.page.tell_failure(error, None),
            )

    def turn_case(self) -> None:
        """Note the case as opened, or as closed when it is open."""
        who = self.page.who()
        if who is None:
            return
        step = CaseStep.CLOSED if self.page.facts.case_open else CaseStep.OPENED
        self.desk.change(
            self,
            partial(note_case, self.desk.book, who, self.page.job_id, step),
            None,
            lambda error: self.page.tell_failure(error, None),
        )

    def form_saved(self, result: Any) -> None:
        found = getattr(result.value, "sentences", ())
        super().form_saved(result)
        if found:
            self.page.tell_note(" ".join(say(sentence) for sentence in found[:2]))
        self._ask_requests()


def _mind(note: NoteTold) -> TextLine:
    return TextLine(note.id, say(note.title), say(note.text))


def _case_word(opened: bool, assumed: bool) -> str:
    if not opened:
        return say("closed")
    return say("taken as opened") if assumed else say("opened")


def _summary(sheet: JobSheet, job_id: int) -> str:
    mains = say(sheet.mains_class.value)
    case = (
        say("case open")
        if sheet.case_open
        else say("case closed")
        if sheet.case_events
        else say("never opened here")
    )
    own = [test for test in sheet.safety_tests if test.job_id == job_id]
    if not own:
        return f"{mains}, {case}"
    last = own[-1]
    tested = say("test {result} {when}", result=say(last.result), when=moment(last.at, "d MMM HH:mm"))
    return f"{mains}, {case}, {tested}"


def _group(test: SafetyTestLine, here: bool) -> Group:
    result = say("Test {result}", result=say(test.result))
    parts = [
        "" if here else say("on an earlier visit"),
        moment(test.at),
        test.by,
        test.edition,
        test.tested_with,
        test.note,
    ]
    if test.result == Overall.PASSED.value and not test.counts:
        parts.append(say("does not count: mark or instrument were out of date"))
    level = "stop" if test.result == Overall.FAILED.value else ""
    return Group(result, ", ".join(part for part in parts if part), level)


def _row(test: SafetyTestLine, at: int, step: SafetyStepLine) -> Row:
    value = ""
    if step.value is not None:
        value = say("{value}", value=step.value) if isinstance(step.value, Measure) else say(step.value)
    limit = say(step.limit) if step.limit is not None else ""
    return Row(
        (test.id, at),
        (Words(say(step.name)), Words(value, strong=True), Words(limit), _meets(step), _verdict(step)),
    )


def _meets(step: SafetyStepLine) -> Cell:
    if step.meets is None:
        return Words(say("not done"), soft=True)
    return Words(say("yes")) if step.meets else Words(say("no"), strong=True, ink="stop")


def _verdict(step: SafetyStepLine) -> Cell:
    if not step.shop_verdict:
        return None
    close = step.shop_verdict == VerdictWord.CLOSE.value
    chance = say(in_hundred(step.probability)) if close and step.probability is not None else ""
    return Words(say(step.shop_verdict), chance, ink="caution" if close else "", soft=not close)
