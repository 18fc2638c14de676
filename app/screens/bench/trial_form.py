"""A trial as it is begun: one change, picked from the list or in own words, and what stands as its before."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.bench.inline_form import Deed, InlineForm, beside, told
from app.screens.bench.readings_section import in_words
from app.screens.kit.boxes import Flow, set_shown
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.trade.bench.changes import BenchChange, Grade
from app.trade.bench.ladder import Suspect
from app.trade.bench.next_step import comes_last, out_of_order
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.trials import (
    TrialEntry,
    check_trial,
    first_changes,
    record_trial,
)

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

MOST_BEFORE = 8
AIMS = {
    Grade.AIMS: Sentence("the change aims at it"),
    Grade.OFTEN: Sentence("the change often helps"),
    Grade.BY_THE_WAY: Sentence("the change touches it by the way"),
}


class TrialForm(InlineForm):
    """The change completes from the shop's list; what it leaves and its caution are shown at once."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Begin this trial"))
        self.page = page
        self._names = {say(change.name).casefold(): change for change in page.lists.changes}
        form, add = self.form, self.add
        names = [say(change.name) for change in page.lists.changes]
        self.change = add(
            "change", Field("", width=340, seen=names, hint=say("lens cleaned, joints resoldered, …"))
        )
        form.row(say("What is changed"), self.change)
        self.about = told()
        form.row("", self.about)
        self.suspect = add("suspect", Combo(say("What is suspected"), width=340))
        self.aims = beside()
        form.row(say("What is suspected"), self.suspect, self.aims)
        self._offered: tuple[str, ...] = ()
        self.own_words = add("words", Field("", hint=say("one thing only, as the tile shall say it")))
        form.row(say("In own words"), self.own_words)
        self.reference = add("reference", Field("", width=140, hint=say("R314")))
        form.row(say("Where"), self.reference)
        self.before: list[tuple[int, Tick]] = []
        self._make_before()
        self.order = add(
            "order_reason", Field("", hint=say("only where something quicker and harmless was left out"))
        )
        self._order_row = form.row(say("Reason for order"), self.order)
        self.first = told()
        form.row("", self.first)
        self._first_of = ""
        self._show_first(())
        self.changed()

    def _make_before(self) -> None:
        """The last reading of each quantity that belongs to no trial yet: it can stand as the before."""
        last: dict[tuple[str, str], Any] = {}
        for line in self.page.facts.readings:
            if line.struck is None and line.trial_number is None:
                last[line.quantity, line.detail] = line
        lines = list(last.values())[-MOST_BEFORE:]
        if not lines:
            return
        inside = QWidget()
        flow = Flow(inside, gap=14, line_gap=0)
        for line in lines:
            outside = line.verdict is not None and line.verdict.outside
            tick = Tick(in_words(line), outside)
            self.add(f"before {line.id}", tick)
            self.before.append((line.id, tick))
            flow.add(tick)
        policy = inside.sizePolicy()
        policy.setHorizontalPolicy(policy.Policy.Expanding)
        policy.setVerticalPolicy(policy.Policy.Minimum)
        policy.setHeightForWidth(True)
        inside.setSizePolicy(policy)
        self.form.row(say("Before it"), inside)

    def chosen(self) -> BenchChange | None:
        """The change of the list that the words name, None for one of the shop's own."""
        return self._names.get(self.change.text().casefold())

    def _offer_suspects(self, change: BenchChange | None) -> None:
        """Those that the change addresses stand first, the best aimed at before the others."""
        known = {suspect.id: suspect for suspect in self.page.lists.suspects}
        addressed = [one for one in (change.addresses if change is not None else ()) if one in known]
        if change is not None:
            addressed.sort(key=lambda one: change.addresses[one] or "D")
        order = tuple(addressed) + tuple(one for one in known if one not in addressed)
        if order == self._offered:
            return
        self._offered = order
        options = [("", say("nothing named")), *((one, _short(known[one])) for one in order)]
        self.suspect.set_options(options, self.suspect.value() or "")

    def _aimed(self, change: BenchChange | None) -> str:
        """How the chosen change addresses the chosen suspect."""
        suspect = self.suspect.value()
        if not suspect or change is None:
            return ""
        if suspect not in change.addresses:
            return say("this change does not address it")
        grade = change.addresses[suspect]
        return say(AIMS[grade]) if grade is not None else say("also overcomes what it does not mend")

    def changed(self) -> None:
        change = self.chosen()
        self._ask_order(change)
        self._offer_suspects(change)
        self.aims.setText(self._aimed(change))
        if change is None:
            self.about.setText(say("Not in the list: own words will do.") if self.change.text() else "")
            return
        minutes = say("{n} minutes", n=change.minutes)
        leaves = say("leaves {what}", what=say(change.leaves_words))
        caution = say(change.caution) if change.caution else ""
        tools = say("with {tools}", tools=say(change.tools)) if change.tools else ""
        first = ", ".join(part for part in (minutes, tools, leaves) if part)
        said = (f"{part[:1].upper()}{part[1:]}." for part in (first, caution) if part)
        self.about.setText(" ".join(said))

    def _ask_order(self, change: BenchChange | None) -> None:
        """What leaves a modification or is hard to undo comes after what can be undone: said before it is begun."""
        asked = change.id if change is not None and comes_last(change) else ""
        if asked == self._first_of:
            return
        self._first_of = asked
        self._show_first(())
        if asked:
            work = partial(first_changes, self.desk.book, self.page.job_id, asked)
            self.desk.doors.look_up(
                self, work, partial(self._first_found, asked), partial(tell, self.page.trouble)
            )

    def _first_found(self, asked: str, first: tuple[Sentence, ...]) -> None:
        if asked == self._first_of:
            self._show_first(first)

    def _show_first(self, first: tuple[Sentence, ...]) -> None:
        self.first.setText(say(out_of_order(first)) if first else "")
        set_shown(self.first, bool(first))
        self._show_order(bool(first))

    def _show_order(self, asked: bool) -> None:
        """A reason is asked for where one is needed; one that was typed stays in sight."""
        self.form.show_rows((self._order_row,), asked or bool(self.order.text()))

    def refuse(self, refusal: FieldRefusal) -> None:
        if "order_reason" in refusal.fields:
            self._show_order(True)
        super().refuse(refusal)

    def fill(self, values: Mapping[str, Any]) -> None:
        super().fill(values)
        self._show_order(bool(self.first.text()))

    def deed(self, who: int) -> Deed:
        change = self.chosen()
        words = self.own_words.text() or self.change.text()
        entry = TrialEntry(
            change=change.id if change is not None else "",
            words=words[:1].upper() + words[1:],
            suspect=self.suspect.value() or "",
            reference=self.reference.text(),
            order_reason=self.order.text(),
        )
        if wrong := check_trial(entry):
            raise FieldRefusal(
                {"change" if not self.change.text() else name: why for name, why in wrong.items()}
            )
        before = tuple(key for key, tick in self.before if tick.isChecked())
        return partial(record_trial, self.desk.book, who, self.page.job_id, entry, before=before)


def _short(suspect: Suspect) -> str:
    """Its name without the detail behind the colon."""
    return say(suspect.name).partition(": ")[0]
