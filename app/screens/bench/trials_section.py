"""The trials of a job: a strip of tiles, a new trial, its judgement."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.bench.failures import tell
from app.screens.bench.inline_form import InlineForm
from app.screens.bench.judgement_form import JudgementForm, lines_of
from app.screens.bench.modification_card import follows
from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.bench.strike_form import StrikeForm
from app.screens.bench.trial_facts import put_back_by, tile_of, told_of
from app.screens.bench.trial_form import TrialForm
from app.screens.kit.boxes import Flow, set_shown
from app.screens.kit.label import Label
from app.screens.kit.trials import TrialStrip
from app.screens.language import day, say
from app.trade.bench.stages import Moment
from app.trade.bench.trial_proposal import Proposal
from app.trade.calendar.promise import local_day
from app.work.bench.job_sheet import JobSheet
from app.work.bench.sheet_lines import TrialTile
from app.work.bench.trial_proposals import proposal_of

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class TrialsSection(SheetSection):
    """Pressing a tile marks it; what can be done with it stands below the strip."""

    key = "trials"

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Trials"))
        self.makers = {"trial": self._new_trial, "judge": self._judge, "strike trial": self._strike}
        self.add_link = self.link(say("Add a trial"), page.add_trial, "Ctrl+Shift+T")
        self.helped_link = self.link(say("What helped before"), lambda: page.body.helped.come())
        self.set_links(self.helped_link, self.add_link)
        self.strip = TrialStrip()
        self.strip.opened.connect(self.mark)
        self.marked_id: int | None = None
        self._marked_word = Label("", "strong")
        self.after_link = self.link(say("Take readings after it"), self._read_after)
        self.climb_link = self.link(say("Test the start-up after it"), page.record_start_up)
        self.judge_link = self.link(say("Judge it…"), self.judge_marked)
        self.modify_link = self.link(say("Record the modification it left…"), self._modify)
        self.strike_link = self.link(say("Strike out…"), self.strike_marked)
        self.undo_link = self.link(say("Take the strike-out back"), self.undo_marked)
        links = QWidget()
        Flow(links, gap=16).add(
            self._marked_word,
            self.after_link,
            self.climb_link,
            self.judge_link,
            self.modify_link,
            self.strike_link,
            self.undo_link,
        )
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        links.setSizePolicy(policy)
        self._actions = indented(links)
        self._strip_line = indented(self.strip)
        self.nothing = indented(
            Label(say("Change one thing at a time, and read before and after it."), "soft", wrap=True)
        )
        self.about = Label("", "soft", wrap=True)
        self._about_line = indented(self.about)
        self.worked_out = Label("", "soft", wrap=True)
        self._worked_line = indented(self.worked_out)
        set_shown(self._worked_line, False)
        self._worked_for: tuple[TrialTile, object] | None = None
        self.column.add(self._strip_line, self._actions, self._about_line, self._worked_line, self.nothing)
        self._trials: tuple[TrialTile, ...] = ()

    def facts(self, sheet: JobSheet) -> Any:
        return sheet.trials, sheet.modifications, self.page.works

    def draw(self, sheet: JobSheet) -> None:
        self._trials = sheet.trials
        left = {m.trial_id: m for m in sheet.modifications if m.struck is None and m.trial_id}
        back = {m.reversed_by_trial: m for m in sheet.modifications if m.struck is None}
        self.strip.set_trials(
            [tile_of(trial, left.get(trial.id), back.get(trial.id)) for trial in sheet.trials]
        )
        has_any = bool(sheet.trials)
        set_shown(self._strip_line, has_any)
        set_shown(self.nothing, not has_any)
        set_shown(self.add_link, self.page.works)
        self.set_summary(self._summary(sheet))
        if self.marked_id is None and self.page.open_trial() is not None:
            self.marked_id = self.page.open_trial()[0]  # type: ignore[index]
        self._show_actions()

    def narrowed(self, narrow: bool) -> None:
        self.strip.set_narrow(narrow)

    def _summary(self, sheet: JobSheet) -> str:
        if not sheet.trials:
            return say("none yet")
        days = list(dict.fromkeys(local_day(t.at, self.desk.shop.zone) for t in sheet.trials))  # type: ignore[arg-type]
        when = day(days[0], "d MMM")
        if len(days) > 1:
            when = say("{first} to {last}", first=when, last=day(days[-1], "d MMM"))
        return say("{when}, one change each, oldest first", when=when)

    # one tile

    def mark(self, trial_id: int) -> None:
        """Mark a trial: what can be done with it stands below."""
        self.marked_id = trial_id
        self._show_actions()
        trial = self._marked()
        if trial is not None and trial.outcome is None and trial.struck is None and self.page.works:
            self.judge_marked()

    def _marked(self) -> TrialTile | None:
        return next((trial for trial in self._trials if trial.id == self.marked_id), None)

    def marked_to_modify(self) -> TrialTile | None:
        """The marked trial, where it can still be said to have left a modification."""
        trial = self._marked()
        return None if trial is None or trial.struck is not None or trial.modification_id else trial

    def _show_actions(self) -> None:
        marked = self._marked()
        told = "" if marked is None else " ".join(filter(None, self._told(marked)))
        if marked is not None and told and not self.page.works:  # else its number stands before the links
            told = say("Trial {number}: {words}", number=marked.number, words=told)
        self.about.setText(told)
        set_shown(self._about_line, bool(self.about.text()))
        self._work_out(marked)
        trial = marked if self.page.works else None
        set_shown(self._actions, trial is not None)
        if trial is None:
            return
        standing = trial.struck is None
        waiting = standing and trial.outcome is None
        self._marked_word.setText(say("Trial {number}", number=trial.number))
        set_shown(self.after_link, waiting)
        set_shown(self.climb_link, waiting)
        self.judge_link.setText(say("Judge it…") if waiting else say("Judge it anew…"))
        set_shown(self.judge_link, standing)
        set_shown(self.modify_link, self.marked_to_modify() is not None)
        set_shown(self.strike_link, standing)
        set_shown(self.undo_link, not standing)

    def _told(self, trial: TrialTile) -> tuple[str, ...]:
        back = (line for line in self.page.facts.modifications if line.reversed_by_trial == trial.id)
        return told_of(trial), *(put_back_by(line) for line in back), self._follows(trial)

    def _follows(self, trial: TrialTile) -> str:
        """What the modification that it left foretells of the drive by itself: no cure. Of a judged trial it is
        among what the book works out."""
        sheet = self.page.facts
        if trial.outcome is not None and trial.struck is None:
            return ""
        left = next((m for m in sheet.modifications if m.id == trial.modification_id), None)
        return "" if left is None else follows(sheet.readings, left)

    def _work_out(self, trial: TrialTile | None) -> None:
        """Ask what the book makes of each reading of a judged trial: its numbers stay beside its word."""
        if trial is None or trial.outcome is None or trial.struck is not None:
            self._worked_for = None
            self.worked_out.setText("")
            set_shown(self._worked_line, False)
            return
        asked = (trial, self.page.facts)
        if self._worked_for == asked:
            return
        self._worked_for = asked
        work = partial(proposal_of, self.desk.book, trial.id)
        self.desk.doors.look_up(self, work, partial(self._worked, asked), partial(tell, self.page.trouble))

    def _worked(self, asked: tuple[TrialTile, object], proposal: Proposal) -> None:
        if self._worked_for is asked:
            self.worked_out.setText(lines_of(proposal))
            set_shown(self._worked_line, True)

    def judge_marked(self) -> None:
        """Open the judgement of the marked trial."""
        trial = self._marked()
        if trial is not None and trial.struck is None:
            form = self.open_form("judge", focus=False)
            assert isinstance(form, JudgementForm)
            form.begin(trial)
            form.focus_first()

    def judge_newest(self) -> None:
        """Judge the newest trial that waits for it, else the marked one."""
        waiting = self.page.open_trial()
        if waiting is not None:
            self.marked_id = waiting[0]
            self._show_actions()
        self.judge_marked()

    def strike_marked(self) -> None:
        """Open the form that strikes the marked trial out."""
        trial = self._marked()
        if trial is not None and trial.struck is None:
            form = self.open_form("strike trial", focus=False)
            what = say("Trial {number}: {words}", number=trial.number, words=trial.words)
            form.hidden_values.update(kind="trial", row=trial.id, what=what)
            form.changed()
            form.focus_first()

    def undo_marked(self) -> None:
        """Take the strike-out of the marked trial back."""
        trial = self._marked()
        if trial is not None and trial.struck is not None:
            self.page.undo_strike("trial", trial.id)

    def form_saved(self, result: Any) -> None:
        kind, form = self.open_kind, self.open
        stays = isinstance(form, JudgementForm) and form.left_inside
        super().form_saved(result)
        if kind == "trial":
            self.marked_id = result.value
        elif stays:
            self._modify()

    def _read_after(self) -> None:
        self.page.body.readings.add(Moment.DURING)

    def _modify(self) -> None:
        trial = self._marked()
        if trial is not None:
            self.page.body.modifications.add(trial)

    def _new_trial(self) -> InlineForm:
        return TrialForm(self.page, self.draft_key("trial"))

    def _judge(self) -> InlineForm:
        return JudgementForm(self.page, self.draft_key("judge"))

    def _strike(self) -> InlineForm:
        return StrikeForm(self.page, self.draft_key("strike trial"))
