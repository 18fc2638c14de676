"""The sections of a job sheet in their order, the ladder beside the readings or above them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QCoreApplication, QEvent, Qt, QTimer
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QBoxLayout, QSizePolicy, QWidget

from app.screens.bench.cards_section import CardsSection
from app.screens.bench.files_section import FilesSection
from app.screens.bench.findings_section import FindingsSection
from app.screens.bench.helped_section import HelpedSection
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
LAYOUTS = 12  # of inner ones that ask outer ones


class SheetBody(QWidget):
    """Made once, when the first sheet is there; afterwards each section draws what has changed.

    The sections that begin below the readings are made when those are painted, or as soon as one is asked for.
    """

    trials: TrialsSection
    helped: HelpedSection
    modifications: ModificationsSection
    cards: CardsSection
    findings: FindingsSection
    work: WorkSection
    safety: SafetySection
    said: SaidSection
    notes: NotesSection
    files: FilesSection
    papers: PapersSection
    intake: IntakeSection
    visits: VisitsSection
    history: HistorySection
    sections: tuple[SheetSection, ...]

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__()
        self.page = page
        self._sheet: JobSheet | None = None
        self._narrow: bool | None = None
        self.painted = False  # for the first time, with the readings
        self.ladder = LadderSection(page)
        self.standing = StandingView()
        self.suspects = SuspectsSection(page)
        self.readings = ReadingsSection(page)
        self._first: tuple[SheetSection, ...] = (self.ladder, self.suspects, self.readings)
        right = QWidget()
        right.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        Column(right, gap=2).add(self.standing, self.suspects, self.readings).addStretch(1)
        top = QWidget()
        self._top = QBoxLayout(QBoxLayout.Direction.LeftToRight, top)
        self._top.setContentsMargins(0, 0, 0, 0)
        self._top.addWidget(self.ladder, 0, Qt.AlignmentFlag.AlignTop)
        self._top.addWidget(right, 1, Qt.AlignmentFlag.AlignTop)
        self._column = Column(self, gap=GAP)
        self._column.add(top)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def __getattr__(self, name: str) -> Any:
        if name not in SheetBody.__annotations__ or "sections" in self.__dict__:
            raise AttributeError(name)
        self._make_below()
        return self.__dict__[name]

    def _make_below(self) -> None:
        """Make what stands below the readings, and show in it what the rest already shows."""
        page = self.page
        self.setUpdatesEnabled(False)  # nothing is painted while it moves
        self.trials = TrialsSection(page)
        self.helped = HelpedSection(page)
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
            self.helped,
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
        self.sections = (*self._first, *below)
        self._column.add(*below)
        for section in below:
            if self._narrow is not None:
                section.narrowed(self._narrow)
            if self._sheet is not None:
                section.show_sheet(self._sheet)
        _come_to_rest()
        QTimer.singleShot(0, self, lambda: self.setUpdatesEnabled(True))

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self.painted:
            self.painted = True
            QTimer.singleShot(0, self, self._after_painting)

    def _after_painting(self) -> None:
        if self.page.desk.doors.closed:
            return  # the window went in the same moment
        if "sections" not in self.__dict__:
            self._make_below()
        self.suspects.ask()

    def show_sheet(self, sheet: JobSheet) -> None:
        """Show another state of the job."""
        first, self._sheet = self._sheet is None, sheet
        self.standing.show_sheet(sheet)
        for section in self._made():
            section.show_sheet(sheet)
        if first:
            _come_to_rest()
        if self.painted:
            self.suspects.ask()

    def _made(self) -> tuple[SheetSection, ...]:
        """The sections that there are by now."""
        return self.sections if "sections" in self.__dict__ else self._first

    def narrowed(self, narrow: bool) -> None:
        """The ladder lies down above the readings, or stands beside them."""
        self._narrow = narrow
        way = QBoxLayout.Direction.TopToBottom if narrow else QBoxLayout.Direction.LeftToRight
        self._top.setDirection(way)
        self._top.setSpacing(px(GAP) if narrow else px(6))
        self._top.setAlignment(self.ladder, Qt.AlignmentFlag(0) if narrow else Qt.AlignmentFlag.AlignTop)
        for section in self._made():
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


def _come_to_rest() -> None:
    """Let the layouts agree, so that nothing is painted where it does not stay."""
    for _ in range(LAYOUTS):
        QCoreApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest.value)
