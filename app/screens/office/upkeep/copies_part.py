"""Copies of the book: how they stand, a copy now, and a copy put in the book's place."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QSizePolicy, QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Came, Desk, Errand
from app.screens.kit.boxes import Column, Flow, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.label import Label
from app.screens.kit.progress import ProgressLine
from app.screens.kit.table import SmallTable
from app.screens.kit.trouble import TroubleBar
from app.screens.language import moment, number, say
from app.screens.office.link_line import inset
from app.screens.office.upkeep.copy_rows import columns, copy_row
from app.screens.office.upkeep.restore_strip import RestoreStrip
from app.screens.office.upkeep.steps import steps
from app.screens.threads import Ticket
from app.trade.refusal import Refusal
from app.work.shop_book import Book
from app.work.upkeep.copies import COPY_PARTS, Copy, CopyStanding, back_up_now, copies_of, copy_standing
from app.work.upkeep.restore import LOOKED_INTO, Restored, examine_copy, restore_copy


class CopiesPart(QWidget):
    """The list of copies, newest first; Enter on one asks whether it shall be restored."""

    def __init__(self, desk: Desk, trouble: TroubleBar, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._trouble = desk, trouble
        self._asked: Any = None
        self._looking: Any = None
        self._copying: Any = None
        self.copies: dict[str, Copy] = {}
        self._stands = Label("", wrap=True)
        self.came = FlagBar(say("What came of the restore"))
        self.short = FlagBar(say("What the restore could not bring back"))
        self.flags = FlagBar(say("How the copies stand"))
        self.now = Button(say("Back up now"), self.back_up, kind="main", key="Ctrl+B")
        self.elsewhere = Button(say("Back up into a folder…"), self._ask_folder)
        self.file = Button(say("Restore from a file…"), self._ask_file)
        self.progress = ProgressLine()
        self.strip = RestoreStrip(self._restore, self._not_now)
        self._none = Label(say("No copy has been made yet."), "soft")
        self.table = SmallTable(say("Copies"), columns(), opened=self._open)
        self._buttons = QWidget()
        Flow(self._buttons, gap=9).add(self.now, self.elsewhere, self.file)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self._buttons.setSizePolicy(policy)
        told = Label(
            say(
                "Copies are made by themselves when the program closes and something has changed, each looked "
                "through before it counts. Put their folder on another disk now and then: one beside the book "
                "burns with it."
            ),
            "soft",
            wrap=True,
        )
        top = inset(self.came, self.short, self._stands, self.flags, gap=7)
        top.add(self._buttons, self.progress)
        column = Column(self, gap=11)
        column.addLayout(top)
        column.add(self.strip, self.table)
        column.addLayout(inset(self._none, told))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

        desk.copies_changed.connect(self.reload)

    def first(self) -> QWidget:
        """Where the focus goes."""
        return self.now

    def leave(self) -> bool:
        """Esc: True when there was something to fold."""
        if self.strip.isHidden():
            return False
        self._not_now()
        return True

    def put_away(self) -> None:
        """The page goes; a copy that is being made is finished all the same."""
        for asked in (self._asked, self._looking):
            if asked is not None:
                asked.cancel()

    def reload(self) -> None:
        """Read which copies there are, and how the last try went."""
        if self._asked is not None:
            self._asked.cancel()
        book = self._desk.book
        self._asked = self._desk.doors.look_up(
            self,
            lambda: (copy_standing(book), copies_of(book.path)),
            self._show,
            partial(tell, self._trouble),
        )

    def back_up(self, folder: Path | None = None) -> None:
        """Make a copy now, in the usual folder or in another one."""
        self.progress.begin(say("Making a copy and looking through it"), self._stop_copying)
        self._copying = self._desk.doors.long_change(
            self,
            partial(_copy, self._desk.book, folder),
            self._was_copied,
            partial(self._not_copied, folder),
            self.progress.step,
        )

    # showing

    def _show(self, found: tuple[CopyStanding, tuple[Copy, ...]]) -> None:
        standing, copies = found
        self.copies = {str(copy.path): copy for copy in copies}
        self.table.set_rows([copy_row(copy) for copy in copies])
        set_shown(self.table, bool(copies))
        set_shown(self._none, not copies)
        self._stands.setText(standing_words(standing))
        self.flags.set_flags(standing_flags(standing))

    def tell_came(self, came: Came) -> None:
        """What came of restoring, told in the window that was opened afterwards."""
        if came.error is not None:
            tell(self._trouble, came.error)
            return
        restored: Restored = came.value
        well, *short = restored_flags(restored)
        self.came.set_flags([well])  # first, as it is what was asked for
        self.short.set_flags(short)

    # copying

    def _ask_folder(self) -> None:
        name = QFileDialog.getExistingDirectory(self, say("Where to put the copy"))
        if name:
            self.back_up(Path(name))

    def _was_copied(self, copy: Copy) -> None:
        self.progress.end()
        self._trouble.clear()
        self._desk.copies_changed.emit()

    def _not_copied(self, folder: Path | None, error: Exception) -> None:
        self.progress.end()
        if isinstance(error, Refusal):
            step = say(error.next_step) if error.next_step is not None else ""
            again = (say("Try again"), partial(self.back_up, folder))
            self._trouble.show_trouble(say(error.sentence), step, [again])
        else:
            tell(self._trouble, error)
        self._desk.copies_changed.emit()

    def _stop_copying(self) -> None:
        self._copying.cancel()
        self.now.setFocus(Qt.FocusReason.OtherFocusReason)

    # restoring

    def _ask_file(self) -> None:
        name, _ = QFileDialog.getOpenFileName(self, say("Which copy"), "", say("Books (*.sqlite)"))
        if name:
            self.look_into(Path(name))

    def _open(self, key: str) -> None:
        self.look_into(self.copies[key].path)

    def look_into(self, path: Path) -> None:
        """Look through a copy from end to end, then ask whether it shall be restored."""
        if self._looking is not None:
            self._looking.cancel()
        self.progress.begin(say("Looking through the copy"), self._stop_looking)
        self._looking = self._desk.doors.long_look_up(
            self, partial(_examine, path), self._looked, self._not_sound, self.progress.step
        )

    def _stop_looking(self) -> None:
        if self._looking is not None:
            self._looking.cancel()
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def _looked(self, copy: Copy) -> None:
        self.progress.end()
        self._trouble.clear()
        self.strip.ask(copy)
        set_shown(self._buttons, False)

    def _not_sound(self, error: Exception) -> None:
        self.progress.end()
        tell(self._trouble, error)

    def _restore(self, copy: Copy) -> None:
        path = self._desk.book.path
        self._desk.leave_for(
            Errand(
                partial(restore_copy, path, copy.path, clock=self._desk.clock),
                path,
                say("Putting the copy of {when} in the book's place.", when=moment(copy.made_at)),
                "upkeep",
            )
        )

    def _not_now(self) -> None:
        self.strip.fold()
        set_shown(self._buttons, True)
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)


def _copy(book: Book, folder: Path | None, ticket: Ticket) -> Copy:
    return back_up_now(book, folder, watch=steps(ticket, len(COPY_PARTS)))


def _examine(path: Path, ticket: Ticket) -> Copy:
    return examine_copy(path, watch=steps(ticket, len(LOOKED_INTO)))


def restored_flags(restored: Restored) -> list[FlagFacts]:
    """A restore that went well is no trouble: a note; what it could not bring back is a caution."""
    aside = (
        say("The book before it lies in {folder}.", folder=str(restored.aside))
        if restored.aside is not None
        else ""
    )
    words = say("The copy of {when} is the book now.", when=moment(restored.copy.made_at))
    flags = [FlagFacts("note", say("Restored"), words, aside)]
    if restored.not_saved is not None:
        words = say("No copy of the former book could be made: {why}", why=restored.not_saved)
        flags.append(FlagFacts("caution", say("Not copied"), words))
    if lacking := restored.files_lacking:
        words = (
            say("1 file is missing from it.")
            if lacking == 1
            else say("{n} files are missing from it.", n=number(lacking))
        )
        flags.append(FlagFacts("caution", say("Files missing"), words, say("The check names them.")))
    return flags


def standing_words(standing: CopyStanding) -> str:
    """When the last good copy was made, and whether the book has changed since."""
    if standing.last_good_at is None:
        return say("The book has never been copied.")
    when = moment(standing.last_good_at)
    if standing.behind:
        return say("Last good copy: {when}. The book has changed since.", when=when)
    return say("Last good copy: {when}. Nothing has changed since.", when=when)


def standing_flags(standing: CopyStanding) -> list[FlagFacts]:
    """A failure stays shown until a copy succeeds; files that were missing are named."""
    flags = []
    if standing.failure is not None:
        step = say(standing.next_step) if standing.next_step is not None else ""
        flags.append(FlagFacts("caution", say("Copy failed"), say(standing.failure), step))
    if standing.files_lacking:
        lacking = standing.files_lacking
        words = (
            say("1 file of the book could not be copied.")
            if lacking == 1
            else say("{n} files of the book could not be copied.", n=number(lacking))
        )
        flags.append(FlagFacts("caution", say("Files missing"), words, say("The check names them.")))
    return flags
