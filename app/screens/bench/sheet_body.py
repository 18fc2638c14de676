"""The sections of a job sheet in their order, the ladder beside the readings or above them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QBoxLayout, QSizePolicy, QWidget

from app.screens.bench.cards_section import CardsSection
from app.screens.bench.files_section import FilesSection
from app.screens.bench.findings_section import FindingsSection
from app.screens.bench.history_section import HistorySection
from app.screens.bench.intake_section import IntakeSection
from app.screens.bench.ladder_section import LadderSection
from app.screens.bench.modifications_section import ModificationsSection
from app.screens.bench.notes_section import NotesSection
from app.screens.bench.papers_section import PapersSection
from app.screens.bench.readings_section import ReadingsSection
from app.screens.bench.safety_section import SafetySection
from app.screens.bench.said_section import SaidSection
from app.screens.bench.sheet_section import SheetSection
from app.screens.bench.standing_view import StandingView
from app.screens.bench.suspects_section import SuspectsSection
from app.screens.bench.trials_section import TrialsSection
from app.screens.bench.visits_section import VisitsSection
from app.screens.bench.work_section import WorkSection
from app.screens.kit.boxes import Column
from app.screens.kit.measure import px
from app.work.bench.job_sheet import JobSheet

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

GAP = 16


class SheetBody(QWidget):
    """Made once, when the first sheet is there; afterwards each section draws what has changed."""

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__()
        self.page = page
        self.ladder = LadderSection(page)
        self.standing = StandingView()
        self.suspects = SuspectsSection(page)
        self.readings = ReadingsSection(page)
        self.trials = TrialsSection(page)
        self.modifications = ModificationsSection(page)
        self.cards = CardsSection(page)
        self.findings = FindingsSection(page)
        self.work = WorkSection(page)
        self.safety = SafetySection(page)
        self.said = SaidSection(page)
        self.notes = NotesSection(page)
        self.files = FilesSection(page)
        self.papers = PapersSection(page)
        self.intake = IntakeSection(page)
        self.visits = VisitsSection(page)
        self.history = HistorySection(page)
        below: tuple[SheetSection, ...] = (
            self.trials,
            self.modifications,
            self.cards,
            self.findings,
            self.work,
            self.safety,
            self.said,
            self.notes,
            self.files,
            self.papers,
            self.intake,
            self.visits,
            self.history,
        )
        self.sections: tuple[SheetSection, ...] = (self.ladder, self.suspects, self.readings, *below)
        right = QWidget()
        right.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        Column(right, gap=2).add(self.standing, self.suspects, self.readings).addStretch(1)
        top = QWidget()
        self._top = QBoxLayout(QBoxLayout.Direction.LeftToRight, top)
        self._top.setContentsMargins(0, 0, 0, 0)
        self._top.addWidget(self.ladder, 0, Qt.AlignmentFlag.AlignTop)
        self._top.addWidget(right, 1, Qt.AlignmentFlag.AlignTop)
        column = Column(self, gap=GAP)
        column.add(top, *below)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def show_sheet(self, sheet: JobSheet) -> None:
        """Show another state of the job."""
        self.standing.show_sheet(sheet)
        for section in self.sections:
            section.show_sheet(sheet)

    def narrowed(self, narrow: bool) -> None:
        """The ladder lies down above the readings, or stands beside them."""
        way = QBoxLayout.Direction.TopToBottom if narrow else QBoxLayout.Direction.LeftToRight
        self._top.setDirection(way)
        self._top.setSpacing(px(GAP) if narrow else px(6))
        self._top.setAlignment(self.ladder, Qt.AlignmentFlag(0) if narrow else Qt.AlignmentFlag.AlignTop)
        for section in self.sections:
            section.narrowed(narrow)

    def by_key(self, key: str) -> SheetSection | None:
        """The section of a key."""
        return next((section for section in self.sections if section.key == key), None)

    def said_deeds(self) -> Mapping[str, Callable[[], object]]:
        """What can be written down of what was said with the customer."""
        return {
            "add_message": lambda: self.said.open_form("message"),
            "add_agreement": lambda: self.said.open_form("agreement"),
        }

    def record_yes(self, modification_id: int | None) -> None:
        """Record the customer's yes, to a modification where one is given."""
        self.said.record_yes(modification_id)
