"""What can be done on a job sheet: every deed of the menu, of its links and of what its flags and gates lead to."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import TYPE_CHECKING, Any

from app.screens.bench.failures import tell
from app.screens.bench.flag_answer_form import FlagAnswerForm
from app.screens.bench.stage_form import StageForm
from app.screens.bench.transport_forms import TransportForm
from app.screens.language import say
from app.screens.page import Page
from app.trade.bench.flag import Closing
from app.trade.bench.stages import Moment, Stage
from app.work.bench.strike_out import undo_strike_out
from app.work.counter.stages import set_stage
from app.work.papers.kinds import Kind
from app.work.papers.labels import issue_bench_tag, issue_modified_label
from app.work.shop_book import Done

if TYPE_CHECKING:
    from app.screens.bench.job_heading import JobHeading
    from app.screens.bench.sheet_body import SheetBody
    from app.work.bench.bench_lists import BenchLists
    from app.work.bench.job_sheet import JobSheet


class JobDeeds(Page):
    """The half of the page that acts; the other half shows."""

    job_id: int
    facts: JobSheet
    lists: BenchLists
    head: JobHeading
    body: SheetBody

    def deeds(self) -> Mapping[str, Callable[[], object]]:
        """The actions of the menu that this page serves now."""
        always: dict[str, Callable[[], object]] = {
            "leave": self.leave_form_or_page,
            "save": self.save_form,
            "add_message": lambda: self.body.said.open_form("message"),
            "ticket": lambda: self.body.papers.look_at_newest(Kind.INTAKE_TICKET),
            "receipt": lambda: self.body.papers.look_at_newest(Kind.HAND_BACK_RECEIPT),
            "service_report": lambda: self.body.papers.make_report(),
            "estimate": lambda: self.desk.open("estimate", self.job_id),
            "invoice": lambda: self.desk.open("invoice", self.job_id),
            "history": lambda: self.go_to("history"),
        }
        if self.facts.stage is Stage.HANDED_BACK:
            return {**always, "print": lambda: self.body.papers.look_at_newest(Kind.HAND_BACK_RECEIPT)}
        return {
            **always,
            "print": self.print_tag,
            "bench_tag": self.print_tag,
            "start_up": self.record_start_up,
            "add_reading": self.add_reading,
            "add_trial": self.add_trial,
            "add_modification": self.add_modification,
            "move_transport": self.move_transport,
            "case": lambda: self.body.safety.turn_case(),
            "add_part": self.add_part,
            "order_part": self.order_part,
            "add_labour": self.add_labour,
            "add_note": self.add_note,
            "add_file": self.add_file,
            "safety_test": self.record_safety_test,
            "make_ready": self.make_ready,
            "hand_back": self.hand_back,
            "strike": self.strike_marked,
            "undo": self.undo_marked,
            "change_stage": self.change_stage,
            "findings": self.decide_findings,
            "ask_symptoms": self.ask_symptoms,
            "unsafe_request": self.note_request,
            "judge_trial": self.judge_trial,
            "add_charge": self.add_charge,
            **self.body.said_deeds(),
        }

    # who, and how it went

    def who(self) -> int | None:
        """Who works now; says so at the top when nobody does."""
        if self.desk.staff is None:
            self.trouble.show_trouble(say("Say first who works here now, with Ctrl+U."))
            return None
        return self.desk.staff.id

    def tell_failure(self, error: Exception, again: Callable[[], object] | None) -> None:
        """An error that belongs to no field."""
        tell(self.trouble, error, again)

    def tell_note(self, words: str) -> None:
        """A soft line in the heading: what the book took for granted, or what came of something."""
        self.head.tell(words)

    def undo_strike(self, kind: str, row_id: int) -> None:
        """Take a strike-out back."""
        who = self.who()
        if who is not None:
            self.desk.change(
                self,
                partial(undo_strike_out, self.desk.book, who, kind, row_id),
                None,
                lambda error: self.tell_failure(error, lambda: self.undo_strike(kind, row_id)),
            )

    # papers

    def print_tag(self) -> None:
        """Issue the bench tag as the job stands now, and show it."""
        who = self.who()
        if who is not None:
            self._issue(partial(issue_bench_tag, self.desk.book, who, self.job_id))

    def print_label(self, modification_id: int) -> None:
        """Issue the label of a modification that stays inside, and show it."""
        who = self.who()
        if who is not None:
            self._issue(partial(issue_modified_label, self.desk.book, who, modification_id))

    def _issue(self, issue: Callable[[], Done[int]]) -> None:
        self.desk.change(
            self,
            issue,
            lambda done: self.body.papers.look_at(done.value),
            lambda error: self.tell_failure(error, None),
        )

    # stages

    def put_on_bench(self) -> None:
        """The work begins."""
        self._set_stage(Stage.ON_THE_BENCH)

    def make_ready(self) -> None:
        """Ask to be ready; what holds it is told at the top."""
        self._set_stage(Stage.READY)

    def _set_stage(self, stage: Stage) -> None:
        who = self.who()
        if who is not None:
            self.desk.change(
                self,
                partial(set_stage, self.desk.book, who, self.job_id, stage),
                lambda _: self.trouble.clear(),
                lambda error: self.tell_failure(error, None),
            )

    def change_stage(self) -> None:
        """Open stage, waiting and promise under the facts."""
        if self.facts.stage is not Stage.HANDED_BACK:
            self.head.open_form("stage", lambda key: StageForm(self, key))  # type: ignore[arg-type]

    def hand_back(self) -> None:
        """Go to the page of handing back, or to what holds it."""
        if self.head.hand_button.blocked:
            self.head.go_to_what_holds()
        else:
            self.desk.open("hand_back", self.job_id)

    # sections

    def record_start_up(self) -> None:
        """A new climb of the ladder."""
        self.body.ladder.open_form("start-up")

    def add_reading(self) -> None:
        """A new reading, at the usual moment."""
        self.body.readings.add()

    def add_trial(self) -> None:
        """A new trial."""
        self.body.trials.open_form("trial")

    def ask_symptoms(self) -> None:
        """Ask for the symptom words."""
        self.body.suspects.open_form("symptoms")

    def read_quantity(self, quantity: str) -> None:
        """A new reading of this quantity."""
        self.body.readings.add(quantity=quantity)

    def try_change(self, change: str) -> None:
        """A new trial of this change of the list."""
        form = self.body.trials.open_form("trial", focus=False)
        known = next((one for one in self.lists.changes if one.id == change), None)
        if known is not None and not form.named["change"].text():
            form.fill({"change": say(known.name)})
        form.focus_first()

    def judge_trial(self) -> None:
        """Judge the newest trial that waits for it, else the marked one."""
        self.body.trials.judge_newest()

    def add_modification(self) -> None:
        """A modification made or found; with the focus among the trials, what the marked one left."""
        at_trials = self.section_with_focus() is self.body.trials
        self.body.modifications.add(self.body.trials.marked_to_modify() if at_trials else None)

    def move_transport(self) -> None:
        """Note, take out, put in."""
        self.head.open_form("transport", lambda key: TransportForm(self, key))  # type: ignore[arg-type]

    def decide_findings(self) -> None:
        """Fault group, cause, outcome."""
        self.body.findings.open_form("findings")

    def add_part(self) -> None:
        """A part of the stock."""
        self.body.work.open_form("part")

    def order_part(self) -> None:
        """A part that the job waits for."""
        self.body.work.open_form("order")

    def add_labour(self) -> None:
        """Working time."""
        self.body.work.open_form("labour")

    def add_charge(self) -> None:
        """A charge, a fee, a discount."""
        self.body.work.open_form("charge")

    def add_note(self) -> None:
        """A note of the shop."""
        self.body.notes.open_form("note")

    def add_file(self) -> None:
        """Photos and files."""
        self.body.files.choose()

    def record_safety_test(self) -> None:
        """The electrical safety test."""
        self.body.safety.open_form("safety test")

    def note_request(self) -> None:
        """Something unsafe that was asked for."""
        self.body.safety.open_form("unsafe request")

    def record_yes_to(self, modification_id: int | None) -> None:
        """The customer's yes, to a modification where one is given."""
        self.body.record_yes(modification_id)

    def go_to(self, key: str) -> None:
        """Open a section and bring it into sight."""
        section = self.body.by_key(key)
        if section is not None:
            section.set_opened(True)
            self.bring_into_sight(section)
            section.head.setFocus()

    def bring_into_sight(self, widget: Any) -> None:
        """Scroll to a part of the sheet."""
        raise NotImplementedError

    # forms and marked rows

    def form_with_focus(self) -> Any:
        """The open form that the focus is in."""
        raise NotImplementedError

    def section_with_focus(self) -> Any:
        """The section that the focus is in."""
        raise NotImplementedError

    def save_form(self) -> None:
        """Ctrl+Enter: save the form that the focus is in."""
        form = self.form_with_focus()
        if form is not None:
            form.save()

    def leave_form_or_page(self) -> None:
        """Esc: leave the form that the focus is in, else the page; what was typed is kept."""
        form = self.form_with_focus()
        if form is not None:
            form.leave()
        else:
            self.desk.back()

    def strike_marked(self) -> None:
        """Strike out what is marked in the section with the focus."""
        section = self.section_with_focus()
        if section is not None and hasattr(section, "strike_marked"):
            section.strike_marked()

    def undo_marked(self) -> None:
        """Take back the strike-out of what is marked in the section with the focus."""
        section = self.section_with_focus()
        if section is not None and hasattr(section, "undo_marked"):
            section.undo_marked()

    # where flags and gates lead

    def follow(self, target: tuple[str, Any]) -> None:
        """Go where a link of the heading leads."""
        kind, key = target
        if kind == "answer_flag":
            self._answer(key)
        elif kind == "comeback":
            self.body.visits.decide(key)
        elif kind == "stop":
            self._go_to_stop(key)
        elif kind == "gate":
            self._gates()[key]()

    def _gates(self) -> dict[str, Callable[[], object]]:
        return {
            "safety_missing": self._towards_safety,
            "final_missing": lambda: self.body.readings.add(Moment.FINAL),
            "laser_no_power": lambda: self.body.readings.add(Moment.FINAL, "optical_power"),
            "not_agreed": lambda: self.record_yes_to(self._without_yes()),
            "told": self._tell_of_changes,
            "disc_inside": lambda: self.desk.open("hand_back", self.job_id),
            "owner_sees": self._answer_owners,
            "unsafe_signed": lambda: self.desk.open("hand_back", self.job_id),
            "unsafe_tagged": lambda: self.desk.open("hand_back", self.job_id),
        }

    def _tell_of_changes(self) -> None:
        """The invoice names what stays inside; where it is issued already, a service report does."""
        if any(paper.kind == Kind.INVOICE for paper in self.facts.papers):
            self.body.papers.make_report()
        else:
            self.desk.open("invoice", self.job_id)

    def _towards_safety(self) -> None:
        self.record_safety_test()

    def _without_yes(self) -> int | None:
        return next(
            (
                m.id
                for m in self.facts.modifications
                if m.ours and not m.agreed and m.reversed_at is None and m.struck is None
            ),
            None,
        )

    def _answer(self, flag_id: int) -> None:
        flag = next((flag for flag in self.facts.flags if flag.id == flag_id), None)
        if flag is not None:
            self.head.open_form(f"flag {flag.rule}", lambda key: FlagAnswerForm(self, key, flag))  # type: ignore[arg-type]

    def _answer_owners(self) -> None:
        waiting = next(
            (
                f
                for f in self.facts.flags
                if f.owner_sees and not f.acknowledged and f.closing is not Closing.FACTS
            ),
            None,
        )
        if waiting is not None:
            self._answer(waiting.id)

    def _go_to_stop(self, flag_id: int) -> None:
        flag = next(flag for flag in self.facts.flags if flag.id == flag_id)
        if flag.closing is not Closing.FACTS:
            self._answer(flag_id)
        elif flag.rule == "safety_failed":
            self.go_to("safety")
        elif flag.rule == "beyond_agreed":
            self.record_yes_to(None)
        elif flag.rule == "final_outside":
            self.body.readings.add(Moment.FINAL)
        elif flag.rule == "interlock" and self.body.safety.has_open_request:
            self.go_to("safety")
        else:
            self.go_to("modifications")
