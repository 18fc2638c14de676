"""What the fault turned out to be, as the technician decides it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.inline_form import Deed, InlineForm, beside, told
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import CauseFound, Outcome
from app.trade.refusal import FieldRefusal, StaleRow
from app.trade.sentence import Sentence
from app.work.bench.findings import Findings, FindingsPage, findings_of, record_findings

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class FindingsForm(InlineForm):
    """Fault group, cause, outcome, and why final readings were left out. The ladder proposes a group."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Keep the findings"))
        self.page = page
        self.version: int | None = None
        self._read = Findings()
        undecided = ("", say("not decided yet"))
        groups = [undecided, *((group, say(group.value)) for group in FaultGroup)]
        causes = [undecided, *((cause, say(cause.value)) for cause in CauseFound)]
        outcomes = [undecided, *((outcome, say(outcome.value)) for outcome in Outcome)]
        self.group = self.add("fault_group", Combo("", groups, width=170))
        self.meaning = beside()
        self.form.row(say("Fault group"), self.group, self.meaning)
        self.cause = self.add("cause", Combo("", causes, width=290))
        self.form.row(say("Cause"), self.cause)
        self.cause_note = self.add("cause_note", Field("", hint=say("what exactly was found")))
        self.form.row(say("Found"), self.cause_note)
        self.outcome = self.add("outcome", Combo("", outcomes, width=230))
        self.hint = beside()
        self.form.row(say("Outcome"), self.outcome, self.hint)
        self.finals = self.add("finals_reason", Field("", hint=say("only where they are left out")))
        self.form.row(say("No final readings"), self.finals)
        self._theirs = told("body")
        self.form.row("", self._theirs)
        self._meanings: dict[str, str] = {}
        self._proposed: FaultGroup | None = None
        self._ask()

    def _ask(self) -> None:
        self.desk.doors.look_up(
            self, partial(findings_of, self.desk.book, self.page.job_id), self._show, self._not_read
        )

    def _not_read(self, error: Exception) -> None:
        self.failed.emit(error, self._ask)

    def _show(self, found: FindingsPage) -> None:
        first = self.version is None
        self.version, self._proposed = found.version, found.proposed
        self._meanings = {group.value: say(words) for group, words in found.meanings}
        if first and not self.desk.drafts.read(self.key):
            now = found.findings
            self.fill(
                {
                    "fault_group": now.fault_group or "",
                    "cause": now.cause or "",
                    "cause_note": now.cause_note,
                    "outcome": now.outcome or "",
                    "finals_reason": now.finals_reason,
                }
            )
        elif not first:
            self._theirs.setText(say("Saved meanwhile: {theirs}", theirs=_in_words(found.findings)))
        self._read = found.findings
        self.changed()

    def changed(self) -> None:
        group = self.group.value()
        if group:
            self.meaning.setText(self._meanings.get(str(group), ""))
        elif self._proposed is not None:
            self.meaning.setText(say("by the first start-up test: {group}", group=say(self._proposed.value)))
        else:
            self.meaning.setText("")
        by_change = bool(self.outcome.value()) and Outcome(self.outcome.value()) is Outcome.MENDED_MODIFIED
        self.hint.setText(say("a mend by a modification establishes no cause") if by_change else "")

    def deed(self, who: int) -> Deed:
        if self.version is None:
            raise FieldRefusal({"version": Sentence("One moment: the findings are still being read.")})
        group, cause, outcome = self.group.value(), self.cause.value(), self.outcome.value()
        findings = Findings(
            fault_group=FaultGroup(group) if group else None,
            cause=CauseFound(cause) if cause else None,
            cause_note=self.cause_note.text(),
            outcome=Outcome(outcome) if outcome else None,
            finals_reason=self.finals.text(),
        )
        return partial(record_findings, self.desk.book, who, self.page.job_id, findings, version=self.version)

    def _failed(self, error: Exception) -> None:
        super()._failed(error)
        if isinstance(error, StaleRow):
            self._ask()  # shows the other's values below; saving again keeps what stands here


def _in_words(findings: Findings) -> str:
    words = [findings.fault_group, findings.cause, findings.outcome]
    said = [say(word.value) for word in words if word is not None]
    said += [text for text in (findings.cause_note, findings.finals_reason) if text]
    return ", ".join(said) or say("nothing decided")
