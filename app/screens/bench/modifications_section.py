"""The modifications of the player and of the transport in it: one card each, and a new one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from app.screens.bench.inline_form import InlineForm
from app.screens.bench.modification_card import ModificationCard
from app.screens.bench.modification_form import ModificationForm
from app.screens.bench.reversal_forms import AssessmentForm, ReversalForm
from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.bench.strike_form import StrikeForm
from app.screens.kit.boxes import Column, clear_layout, set_shown
from app.screens.kit.label import Label
from app.screens.language import say
from app.work.bench.job_sheet import JobSheet
from app.work.bench.sheet_lines import ModificationLine, TrialTile

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class ModificationsSection(SheetSection):
    """Departures from the maker's design, live ones open, those put back folded."""

    key = "modifications"

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Modifications"))
        self.makers = {
            "modification": self._new,
            "reverse": lambda: ReversalForm(page, self.draft_key("reverse")),
            "assess": lambda: AssessmentForm(page, self.draft_key("assess")),
            "strike modification": lambda: StrikeForm(page, self.draft_key("strike modification")),
        }
        self.add_link = self.link(say("Add a modification"), page.add_modification, "Ctrl+M")
        self.set_links(self.add_link)
        self.cards: list[ModificationCard] = []
        self._place = Column(gap=14)
        self.nothing = indented(
            Label(
                say("A departure from the maker's design that stays inside stands here, ours or found."),
                "soft",
                wrap=True,
            )
        )
        self.column.addLayout(self._place)
        self.column.add(self.nothing)

    def facts(self, sheet: JobSheet) -> Any:
        finals = tuple(r for r in sheet.readings if r.quantity in FINALS)
        return sheet.modifications, finals, sheet.cause, self.page.works, self.page.lists.thresholds

    def draw(self, sheet: JobSheet) -> None:
        clear_layout(self._place)
        self.cards = []
        for at, line in enumerate(sheet.modifications, start=1):
            card = ModificationCard(self.page, line, at)
            card.asked.connect(self._asked)
            self._place.addWidget(card)
            self.cards.append(card)
        live = sum(1 for line in sheet.modifications if line.reversed_at is None and line.struck is None)
        set_shown(self.nothing, not sheet.modifications)
        set_shown(self.add_link, self.page.works)
        if not sheet.modifications:
            self.set_summary(say("none known"))
        elif live == len(sheet.modifications):
            self.set_summary(say("1 inside") if live == 1 else say("{n} inside", n=live))
        else:
            self.set_summary(
                say("{n} inside, {past} put back or struck out", n=live, past=len(sheet.modifications) - live)
            )

    def narrowed(self, narrow: bool) -> None:
        for card in self.cards:
            card.set_narrow(narrow)
        if isinstance(self.open, ModificationForm):
            self.open.set_narrow(narrow)

    def add(self, trial: TrialTile | None = None) -> None:
        """Open the form for a new one, for what a trial left inside where it did."""
        form = self.open_form("modification", focus=False)
        assert isinstance(form, ModificationForm)
        if trial is not None:
            form.begin(trial)
        form.focus_first()
        self.page.bring_into_sight(form)

    def go_to(self, modification_id: int) -> None:
        """Bring the card of a modification into sight."""
        card = next((card for card in self.cards if card.line.id == modification_id), None)
        if card is not None:
            self.set_opened(True)
            card.head.setFocus()
            self.page.bring_into_sight(card)

    def _new(self) -> InlineForm:
        return ModificationForm(self.page, self.draft_key("modification"))

    def _recorded(self, modification_id: int) -> ModificationLine:
        return next(line for line in self.page.facts.modifications if line.id == modification_id)

    def _asked(self, deed: str, modification_id: int) -> None:
        what = say(self._recorded(modification_id).words)
        if deed == "agree":
            self.page.record_yes_to(modification_id)
        elif deed == "label":
            self.page.print_label(modification_id)
        elif deed == "undo":
            self.page.undo_strike("modification", modification_id)
        elif deed == "strike":
            form = self.open_form("strike modification", focus=False)
            form.hidden_values.update(kind="modification", row=modification_id, what=what)
            form.changed()
            form.focus_first()
        else:
            form = self.open_form(deed, focus=False)
            assert isinstance(form, (ReversalForm, AssessmentForm))
            form.begin(modification_id, what)
            form.focus_first()


FINALS = frozenset({"driver_temp", "radial_coil_r", "focus_coil_r", "dropout_passed", "radial_drive"})
