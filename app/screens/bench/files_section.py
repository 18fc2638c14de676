"""Photos and files of a job: dropped on the page or chosen, looked at, saved as a copy, struck out."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtGui import QImage
from PySide6.QtWidgets import QFileDialog, QSizePolicy, QWidget

from app.screens.bench.caption_form import CaptionForm
from app.screens.bench.file_tile import PICTURE, WIDE, FileTile
from app.screens.bench.pictures import LARGE, PictureView, read_picture
from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.bench.strike_form import StrikeForm
from app.screens.kit.boxes import Flow, clear_layout, set_shown
from app.screens.kit.label import Label
from app.screens.language import moment, number, say
from app.trade.bench.figures import significant
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.work.bench.files import KeptFile, attach_file, kept_file
from app.work.bench.job_sheet import JobSheet
from app.work.bench.sheet_lines import FileLine

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class FilesSection(SheetSection):
    """Tiles with small pictures; the marked one is shown large below."""

    key = "files"

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Photos and files"))
        self.makers = {
            "strike file": lambda: StrikeForm(page, self.draft_key("strike file")),
            "caption": lambda: CaptionForm(page, self.draft_key("caption")),
        }
        self.add_link = self.link(say("Add a photo or file…"), page.add_file, "Ctrl+Shift+F")
        self.set_links(self.add_link)
        self._tiles = QWidget()
        self._flow = Flow(self._tiles, gap=12, line_gap=12)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self._tiles.setSizePolicy(policy)
        self._tiles_line = indented(self._tiles)
        self.picture = PictureView()
        self.about = Label("", "soft", wrap=True)
        self.large_link = self.link("", self.turn_large)
        self.caption_link = self.link(say("Caption…"), self.caption_marked)
        self.save_link = self.link(say("Save a copy…"), self.save_marked)
        self.strike_link = self.link(say("Strike out…"), self.strike_marked)
        self.undo_link = self.link(say("Take the strike-out back"), self.undo_marked)
        self._about_line = indented(self.about)
        links = (self.large_link, self.caption_link, self.save_link, self.strike_link, self.undo_link)
        self._links = indented(*links, gap=16, stretch=True)
        self._picture_line = indented(self.picture)
        self.nothing = indented(
            Label(say("Drop photos and files onto this page, or add them here."), "soft", wrap=True)
        )
        self.column.add(self._tiles_line, self._about_line, self._links, self._picture_line, self.nothing)
        self._files: tuple[FileLine, ...] = ()
        self._by_key: dict[int, FileTile] = {}
        self._small: dict[int, QImage | None] = {}
        self.marked_id: int | None = None

    def facts(self, sheet: JobSheet) -> Any:
        return sheet.files, self.page.works

    def draw(self, sheet: JobSheet) -> None:
        self._files = sheet.files
        clear_layout(self._flow)
        self._by_key = {}
        for file in sheet.files:
            kind = Path(file.name).suffix.lstrip(".").upper()[:5] or say("file")
            second = file.note or moment(file.at, "d MMM HH:mm")
            tile = FileTile(file.id, file.name, second, kind, struck=file.struck is not None)
            tile.opened.connect(self.mark)
            self._flow.addWidget(tile)
            self._by_key[file.id] = tile
            if file.id in self._small:
                tile.set_image(self._small[file.id])
            elif file.media_type.startswith("image/"):
                self._ask_small(file.id)
        set_shown(self._tiles_line, bool(sheet.files))
        set_shown(self.nothing, not sheet.files)
        set_shown(self.add_link, self.page.works)
        count = sum(1 for file in sheet.files if file.struck is None)
        self.set_summary(
            say("none yet") if not count else say("1 file") if count == 1 else say("{n} files", n=count)
        )
        self._show_marked()

    def add(self, paths: Sequence[Path]) -> None:
        """Keep these files with the job, one action each."""
        who = self.page.who()
        if who is None:
            return
        self.set_opened(True)
        for path in paths:
            self.desk.change(
                self,
                partial(attach_file, self.desk.book, who, self.page.job_id, path),
                None,
                partial(self._not_kept, path),
            )

    def _not_kept(self, path: Path, error: Exception) -> None:
        self.page.tell_failure(error, partial(self.add, [path]))

    def choose(self) -> None:
        """Ask which files, then keep them."""
        names, _ = QFileDialog.getOpenFileNames(self, say("Add photos or files to the job"))
        self.add([Path(name) for name in names])

    def mark(self, file_id: int) -> None:
        """Mark a file: it is shown below, with what can be done with it."""
        self.marked_id = None if self.marked_id == file_id else file_id
        self._show_marked()

    def _marked(self) -> FileLine | None:
        return next((file for file in self._files if file.id == self.marked_id), None)

    def _show_marked(self) -> None:
        file = self._marked()
        for key, tile in self._by_key.items():
            tile.set_marked(key == self.marked_id)
        for part in (self._about_line, self._links):
            set_shown(part, file is not None)
        set_shown(self._picture_line, file is not None and file.media_type.startswith("image/"))
        if file is None:
            return
        self.about.setText(_about(file))
        set_shown(self.caption_link, self.page.works and file.struck is None)
        set_shown(self.large_link, False)
        set_shown(self.strike_link, self.page.works and file.struck is None)
        set_shown(self.undo_link, self.page.works and file.struck is not None)
        self.picture.set_image(None, file.name)
        if file.media_type.startswith("image/"):
            self.desk.doors.look_up(
                self,
                partial(read_picture, self.desk.book, file.id, LARGE),
                partial(self._show_large, file.id),
                lambda error: self.page.tell_failure(error, None),
            )

    def _show_large(self, file_id: int, image: QImage | None) -> None:
        if file_id == self.marked_id:
            self.picture.set_image(image, say("Picture: {name}", name=self.about.text()))
            set_shown(self._picture_line, image is not None)
            set_shown(self.large_link, image is not None)
            self._say_large()

    def turn_large(self) -> None:
        """Show the marked picture in full, or as it was."""
        self.picture.set_full(not self.picture.full)
        self._say_large()

    def _say_large(self) -> None:
        self.large_link.setText(say("Smaller") if self.picture.full else say("Full view"))

    def _ask_small(self, file_id: int) -> None:
        side = 2 * max(WIDE, PICTURE)
        self.desk.doors.look_up(
            self,
            partial(read_picture, self.desk.book, file_id, side),
            partial(self._keep_small, file_id),
            lambda error: self._keep_small(file_id, None),
        )

    def _keep_small(self, file_id: int, image: QImage | None) -> None:
        self._small[file_id] = image
        if file_id in self._by_key:
            self._by_key[file_id].set_image(image)

    def save_marked(self) -> None:
        """Ask where, then write the very bytes of the marked file."""
        file = self._marked()
        if file is None:
            return
        name, _ = QFileDialog.getSaveFileName(self, say("Save a copy of the file"), file.name)
        if name:
            self.desk.doors.look_up(
                self,
                partial(_write, partial(kept_file, self.desk.book, file.id), Path(name)),
                lambda _: self.page.tell_note(say("Saved as {name}.", name=name)),
                lambda error: self.page.tell_failure(error, self.save_marked),
            )

    def caption_marked(self) -> None:
        """Open the line in which the marked file is said what it shows."""
        file = self._marked()
        if file is not None and file.struck is None:
            form = self.open_form("caption", focus=False)
            assert isinstance(form, CaptionForm)
            form.begin(file.id, file.name, file.note)
            form.focus_first()

    def strike_marked(self) -> None:
        """Open the form that strikes the marked file out."""
        file = self._marked()
        if file is not None and file.struck is None:
            form = self.open_form("strike file", focus=False)
            form.hidden_values.update(kind="file", row=file.id, what=file.name)
            form.changed()
            form.focus_first()

    def undo_marked(self) -> None:
        """Take the strike-out of the marked file back."""
        file = self._marked()
        if file is not None and file.struck is not None:
            self.page.undo_strike("file", file.id)


def _write(content: partial[KeptFile], path: Path) -> None:
    try:
        path.write_bytes(content().content)
    except OSError as error:
        raise Refusal(
            Sentence("The copy could not be written: {why}.", {"why": error.strerror or str(error)}),
            Sentence("Choose another folder, or make room."),
        ) from error


def _about(file: FileLine) -> str:
    size = Decimal(file.size)
    shown = (
        f"{number(significant(size / 1000, 2))} kB"
        if size < 1_000_000
        else f"{number(significant(size / 1_000_000, 2))} MB"
    )
    parts = [file.name, shown, moment(file.at), file.by, file.note]
    if file.struck is not None:
        parts.append(say("struck out by {name}: {reason}", name=file.struck.by, reason=file.struck.reason))
    return ", ".join(part for part in parts if part)
