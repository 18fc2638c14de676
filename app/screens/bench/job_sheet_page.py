"""The job sheet: one long page read from top to bottom; its heading stays, its sections fold."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from PySide6.QtCore import QCoreApplication, QEvent, Qt, QTimer
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QResizeEvent
from PySide6.QtWidgets import QApplication, QWidget
from shiboken6 import isValid

from app.screens.bench.failures import tell
from app.screens.bench.inline_form import InlineForm
from app.screens.bench.job_deeds import JobDeeds
from app.screens.bench.job_heading import JobHeading
from app.screens.bench.sheet_body import SheetBody
from app.screens.bench.sheet_section import SheetSection
from app.screens.desk import Desk
from app.screens.dropped_files import files_in
from app.screens.kit.boxes import Column
from app.screens.kit.measure import px
from app.screens.language import say
from app.trade.bench.stages import Moment, Stage
from app.work.bench.bench_lists import BenchLists, bench_lists
from app.work.bench.job_sheet import JobSheet
from app.work.bench.sheet_lines import TrialTile
from app.work.bench.sheet_of_job import job_sheet
from app.work.shop_book import Book

LISTS = frozenset(
    {
        "quantities",
        "limits",
        "instruments",
        "transport_types",
        "transports",
        "fittings",
        "settings",
        "knowledge",
        "cards",
        "attachments",  # of a card
    }
)
BAR = 12  # px that a scroll bar takes
ABOVE = 36  # px of the section's own line above a form
CROWDED_BELOW = 360  # px of page height, for L = 18
FOLD_AFTER = 24  # px of scrolling beyond what folding the heading wins


@dataclass(frozen=True)
class Loaded:
    """What one look-up brings: the sheet, and the lists where they may have changed."""

    sheet: JobSheet
    lists: BenchLists | None


class JobSheetPage(JobDeeds):
    """Opened as ``job`` with the job's id. Files dropped on it are kept with the job."""

    help_topic = "job_sheet"

    def __init__(self, desk: Desk, job_id: int, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.job_id = job_id
        self._loaded = False
        self._arrived = False
        self._folding = False
        self.set_title(say("Job"))
        self.setAcceptDrops(True)
        assert self.scroller is not None
        # The bar takes its room from the margin, so that words stand under those of the heading.
        self.scroller.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.sheet.set_margins((18, 9, 18 - BAR, 27))
        self.above_the_sheet = Column()  # for forms of the heading where the page is low
        self.sheet.addLayout(self.above_the_sheet)

    # loading

    def reload(self, changes: Any = None) -> None:
        """Ask for the sheet anew when an action touched this job, its player or its transport."""
        if changes is not None and self._loaded and not self._concerns(changes):
            return
        with_lists = not self._loaded or changes is None or bool(changes.kinds & LISTS)
        self.desk.doors.look_up(
            self, partial(_load, self.desk.book, self.job_id, with_lists), self.show_loaded, self._not_loaded
        )

    def show_loaded(self, loaded: Loaded) -> None:
        """Show what the book answered."""
        self.facts = loaded.sheet
        if loaded.lists is not None:
            self.lists = loaded.lists
        first = not self._loaded
        self._loaded = True
        if first:
            self._build()
        self.set_title(say("Job {number}", number=str(self.facts.number)))
        self.head.show_sheet(self.facts)
        self.body.show_sheet(self.facts)
        if first and self._arrived:
            self.arrive()

    def _build(self) -> None:
        self.head = JobHeading(self)
        self.head.acted.connect(self.follow)
        self.heading.add(self.head)
        self.body = SheetBody(self)
        self.sheet.add(self.body)
        self.narrowed(self.narrow)
        assert self.scroller is not None
        self.scroller.verticalScrollBar().valueChanged.connect(self._fold_heading)

    def _not_loaded(self, error: Exception) -> None:
        tell(self.trouble, error, lambda: self.reload(None))

    def _concerns(self, changes: Any) -> bool:
        return (
            self.job_id in changes.jobs
            or self.facts.unit_id in changes.units
            or self.facts.transport_id in changes.transports
            or self.facts.customer_id in changes.customers
            or bool(changes.kinds & LISTS)
        )

    # what pages do

    def arrive(self) -> None:
        self._arrived = True
        if not self._loaded or not self.trouble.isHidden():
            return  # what went wrong keeps the focus
        readings = self.body.readings
        begins = self.body.ladder.test_button if readings.table.isHidden() else readings.table
        begins.setFocus(Qt.FocusReason.OtherFocusReason)

    def leave(self) -> bool:
        for section in self.body.sections if self._loaded else ():
            if section.open is not None:
                section.open.keep_draft()
        return True

    def narrowed(self, narrow: bool) -> None:
        if self._loaded:
            self.head.set_narrow(narrow)
            self.head.set_crowded(self.height() < px(CROWDED_BELOW))
            self.body.narrowed(narrow)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        crowded = self.height() < px(CROWDED_BELOW)
        if self._loaded and crowded != self.head.crowded:
            self.head.set_crowded(crowded)

    # what sections ask of the page

    @property
    def works(self) -> bool:
        """Whether the job can still be worked on; the records of a closed one stand as they are."""
        return self.facts.stage is not Stage.HANDED_BACK

    def open_trial(self) -> tuple[int, int] | None:
        """Id and number of the newest trial while it is not judged."""
        trial = self.waiting_trial()
        return None if trial is None else (trial.id, trial.number)

    def waiting_trial(self) -> TrialTile | None:
        """The newest trial while it is not judged."""
        last = self.last_trial()
        trial = next((t for t in self.facts.trials if last is not None and t.id == last[0]), None)
        return trial if trial is not None and trial.outcome is None else None

    def last_trial(self) -> tuple[int, int] | None:
        """Id and number of the newest trial that stands."""
        standing = [trial for trial in self.facts.trials if trial.struck is None]
        return (standing[-1].id, standing[-1].number) if standing else None

    def usual_moment(self) -> Moment:
        """When in the job a reading is most likely taken now."""
        if self.open_trial() is not None:
            return Moment.DURING
        if self.facts.stage in (Stage.RUNNING_IN, Stage.READY):
            return Moment.FINAL
        ours = any(m.ours and m.job_number == self.facts.number for m in self.facts.modifications)
        worked = bool(self.facts.trials) or ours or any(line.kind == "part" for line in self.facts.work)
        return Moment.DURING if worked else Moment.ARRIVAL

    def bring_into_sight(self, widget: QWidget) -> None:
        """Scroll so that what has opened is seen, its head first, once the sheet has made room for it."""
        QTimer.singleShot(0, self, lambda: QTimer.singleShot(0, self, lambda: self._scroll_to(widget)))

    def _scroll_to(self, widget: QWidget) -> None:
        if self.scroller is None or not isValid(widget) or not self.body.isAncestorOf(widget):
            return
        bar, seen = self.scroller.verticalScrollBar(), self.scroller.viewport().height()
        top = widget.mapTo(self.body, widget.rect().topLeft()).y()
        bottom = top + widget.height()
        head = max(top - px(ABOVE), 0)
        if head < bar.value() or bottom + px(18) - head > seen:
            bar.setValue(head)
        elif bottom + px(18) > bar.value() + seen:
            bar.setValue(bottom + px(18) - seen)

    def form_with_focus(self) -> InlineForm | None:
        """The open form that the focus is in."""
        widget = QApplication.focusWidget()
        while widget is not None and widget is not self:
            if isinstance(widget, InlineForm):
                return widget
            widget = widget.parentWidget()
        return None

    def section_with_focus(self) -> SheetSection | None:
        """The section that the focus is in."""
        widget = QApplication.focusWidget()
        while widget is not None and widget is not self:
            if isinstance(widget, SheetSection):
                return widget
            widget = widget.parentWidget()
        return None

    # the heading folds while the sheet is scrolled

    def _fold_heading(self, value: int) -> None:
        """Fold or unfold the heading without moving what is seen: what it gives or takes is scrolled back."""
        assert self.scroller is not None
        if self._folding:
            return
        bar = self.scroller.verticalScrollBar()
        self._folding = True
        try:
            if self.head.compact:
                if value <= px(2):
                    self.head.set_compact(False)
                return
            won = self.head.won_by_folding()
            if won > px(10) and value > won + px(FOLD_AFTER) and bar.maximum() > won + px(FOLD_AFTER):
                tall = self.head.height()
                self.head.set_compact(True)
                for _ in range(3):  # inner layouts ask outer ones, one step at a time
                    QCoreApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest.value)
                bar.setValue(value - (tall - self.head.height()))
        finally:
            self._folding = False

    # files dropped anywhere on the page

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if self._loaded and self.works and files_in(event):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        paths = files_in(event)
        if paths and self._loaded:
            event.acceptProposedAction()
            self.body.files.add(paths)
            self.bring_into_sight(self.body.files)

    # commands

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return self.deeds() if self._loaded else {"leave": self.desk.back}


def _load(book: Book, job_id: int, with_lists: bool) -> Loaded:
    lists = bench_lists(book, job_id) if with_lists else None
    return Loaded(job_sheet(book, job_id), lists)
