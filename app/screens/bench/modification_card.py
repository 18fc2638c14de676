"""One recorded modification: its circuit and effect at the left, what is known and still asked of it at the right."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QBoxLayout, QSizePolicy, QWidget

from app.screens.bench.effect_view import EffectView
from app.screens.kit.boxes import Column, Flow, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.gates import GateFacts, GateRow
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.section import Section
from app.screens.language import moment, number, say
from app.trade.bench.effects import law_sentence
from app.trade.bench.final_readings import asked_by_coil
from app.trade.bench.follows import drive_sentence, foretold
from app.trade.bench.modifications import COIL_CIRCUITS, RESISTOR_KINDS, Circuit, Law
from app.trade.bench.stages import CauseFound, Moment
from app.trade.sentence import Measure
from app.work.bench.job_sheet import JobSheet
from app.work.bench.modification_preview import effect_of_line
from app.work.bench.sheet_lines import ModificationLine, ReadingLine

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class ModificationCard(Section):
    """`asked` brings what was pressed: reverse, assess, strike, undo, agree or label, and the id."""

    asked = Signal(str, int)

    def __init__(
        self, page: JobSheetPage, line: ModificationLine, at: int, parent: QWidget | None = None
    ) -> None:
        live = line.reversed_at is None and line.struck is None
        word = (
            say("Modification {number}", number=at)
            if line.ours
            else say("Modification {number}, found", number=at)
        )
        super().__init__(word, opened=live, inset=9, parent=parent)
        self.page, self.line = page, line
        sheet = page.facts
        self.set_summary(_summary(sheet, line))
        self.effect = EffectView()
        self.right = Column(gap=6, margins=(9, 0, 9, 0))
        inside = QWidget()
        right = QWidget()
        right.setLayout(self.right)
        right.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self._across = QBoxLayout(QBoxLayout.Direction.LeftToRight, inside)
        self._across.setContentsMargins(0, 0, 0, 0)
        self._across.setSpacing(px(18))
        self._across.addWidget(self.effect, 1)
        set_shown(self.effect, self._show_effect(line))
        self._across.addWidget(right, 1, Qt.AlignmentFlag.AlignTop)
        self.column.add(inside)
        self._tell(sheet, line, live)
        self._make_links(line, live)
        self.set_narrow(page.narrow)

    def set_narrow(self, narrow: bool) -> None:
        """One below the other, or beside each other."""
        way = QBoxLayout.Direction.TopToBottom if narrow else QBoxLayout.Direction.LeftToRight
        self._across.setDirection(way)

    def _show_effect(self, line: ModificationLine) -> bool:
        effect = effect_of_line(line)
        self.effect.show_circuit(
            line.kind, line.reference, line.value_before, line.value_after, line.was, line.now
        )
        self.effect.show_law("")
        self.effect.show_effect(effect, line.circuit, self.page.lists.thresholds)
        self.effect.show_flags(())
        return line.kind in RESISTOR_KINDS or line.value_before is not None

    def _tell(self, sheet: JobSheet, line: ModificationLine, live: bool) -> None:
        words = say(line.words)
        self._say("", f"{words[:1].upper()}{words[1:]}.", "body")
        if line.effect is not None:
            self._say("", say(line.effect), "body")
        foretold_here = follows(sheet.readings, line)
        if foretold_here:
            self._say("", foretold_here, "body")
        self._say(say("Why"), line.why)
        self._say(say("Way back"), say(line.way_back))
        self._say(say("Assessed"), line.assessed)
        if not live:
            return
        if line.ours:
            missing = say("not yet: the customer's yes is missing")
            self._say(say("Agreed"), say(line.agreed) if line.agreed else missing)
        self._say(say("Named on"), line.named_on or say("no paper yet"))
        asked = _finals(sheet, line)
        if asked:
            row = GateRow(say("Final readings"), say("for this change"))
            row.set_gates(asked)
            self.right.add(row)

    def _say(self, word: str, text: str, kind: str = "body") -> None:
        if not text:
            return
        whole = say("{word}: {text}", word=word, text=text) if word else text
        self.right.add(Label(whole, kind, wrap=True))

    def _make_links(self, line: ModificationLine, live: bool) -> None:
        if not self.page.works:
            return
        wanted: list[tuple[str, str]] = []
        if line.struck is not None:
            wanted.append(("undo", say("Take the strike-out back")))
        elif live:
            if line.ours and not line.agreed:
                wanted.append(("agree", say("Note the customer's yes")))
            if not line.ours and not line.assessed:
                wanted.append(("assess", say("Assess it…")))
            wanted.append(("reverse", say("Put it back…")))
            if line.ours:
                wanted.append(("label", say("Print its label")))
            wanted.append(("strike", say("Strike out…")))
        links = QWidget()
        flow = Flow(links, gap=16)
        for deed, text in wanted:
            button = Button(text, partial(self.asked.emit, deed, line.id), kind="quiet")
            flow.add(button)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        links.setSizePolicy(policy)
        self.right.add(links)


def _summary(sheet: JobSheet, line: ModificationLine) -> str:
    if line.struck is not None:
        return say("struck out by {name}: {reason}", name=line.struck.by, reason=line.struck.reason)
    if line.reversed_at is not None:
        when, job = moment(line.reversed_at, "d MMM y"), str(line.reversed_in or sheet.number)
        by = next((t.number for t in sheet.trials if t.id == line.reversed_by_trial), None)
        if by is not None:
            return say("put back {when} in job {number}, by trial {trial}", when=when, number=job, trial=by)
        return say("put back {when} in job {number}", when=when, number=job)
    parts = []
    trial = next((t.number for t in sheet.trials if t.id == line.trial_id), None)
    if trial is not None:
        parts.append(say("trial {number}", number=trial))
    if line.job_number != sheet.number:
        parts.append(say("from job {number}", number=str(line.job_number)))
    if line.kind in RESISTOR_KINDS:
        parts.append(say(law_sentence(line.law, line.reference)))
    if line.ours and line.job_number == sheet.number and sheet.cause in (None, CauseFound.NOT_ESTABLISHED):
        parts.append(say("cause not established"))
    return "; ".join(parts)


def follows(readings: Sequence[ReadingLine], line: ModificationLine) -> str:
    """What the drive does by the change alone, where it was read before and after the trial that left it."""
    if line.law is not Law.CURRENT or line.circuit is not Circuit.RADIAL_COIL or not line.ratio:
        return ""
    sides: dict[str, Decimal] = {}
    for reading in readings:
        if reading.quantity == "radial_drive" and reading.struck is None and reading.value is not None:
            if reading.at <= line.at and reading.trial_side != "after":
                sides["before"] = reading.value
            elif reading.trial_side == "after" or reading.at > line.at:
                sides.setdefault("after", reading.value)
    if set(sides) != {"before", "after"}:
        return ""
    expected = foretold(sides["before"], line.ratio)
    before, after = Measure(sides["before"], "mV"), Measure(sides["after"], "mV")
    return say(drive_sentence(before, expected, after, line.ratio))


def _finals(sheet: JobSheet, line: ModificationLine) -> list[GateFacts]:
    """The final readings that a raised coil current asks for, ticked with their values."""
    if line.circuit not in COIL_CIRCUITS or line.ratio is None or line.job_number != sheet.number:
        return []
    finals = [r for r in sheet.readings if r.moment is Moment.FINAL and r.struck is None]
    gates = []
    for asked in asked_by_coil([line.circuit]):
        taken = [r for r in finals if asked.is_met_by(r.quantity, r.warm_minutes)]
        value = ""
        if taken and taken[-1].value is not None:
            value = f"{number(taken[-1].value)} {taken[-1].unit}"
        gates.append(GateFacts(say(asked.words), bool(taken), value))
    return gates
