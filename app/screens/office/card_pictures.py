"""The pictures of a know-how card: dropped here or chosen, said what they show, taken off again."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QImage
from PySide6.QtWidgets import QFileDialog, QSizePolicy, QWidget

from app.screens.bench.file_tile import PICTURE, WIDE, FileTile
from app.screens.bench.pictures import LARGE, PictureView, read_picture
from app.screens.desk import Desk
from app.screens.dropped_files import files_in
from app.screens.kit.boxes import Flow, clear_layout, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.kit.section import Section
from app.screens.language import say
from app.work.bench.cards import CardPicture
from app.work.bench.files import attach_picture, caption_picture, take_picture_off

TALL = 320


class CardPictures(Section):
    """`done` tells that the book has something new; `failed` brings an error and what tries again."""

    done = Signal()
    failed = Signal(object, object)

    def __init__(self, desk: Desk, card_id: int) -> None:
        super().__init__(say("Pictures"))
        self.desk, self.card_id = desk, card_id
        self.setAcceptDrops(True)
        self.add_link = Button(say("Add a picture…"), self.choose, kind="quiet")
        self.set_links(self.add_link)
        told = say(
            "Drop pictures here, or add them. A line “= 1” in a section above sets the first one there."
        )
        self.column.add(Label(told, "soft", wrap=True))
        self._tiles = QWidget()
        self._flow = Flow(self._tiles, gap=12, line_gap=12)
        tall = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        tall.setHeightForWidth(True)
        self._tiles.setSizePolicy(tall)
        self.large = PictureView(TALL)
        self.caption = Field("", width=400, hint=say("what it shows: flex torn at the fold"))
        self.caption.setAccessibleName(say("Caption"))
        self.keep_button = Button(say("Keep the caption"), self.keep_caption)
        self.off_button = Button(say("Take it off the card"), self.take_off, kind="quiet")
        self._deeds = QWidget()
        self._deeds.setSizePolicy(tall)
        Flow(self._deeds, gap=14, line_gap=4).add(self.caption, self.keep_button, self.off_button)
        self.column.add(self._tiles, self._deeds, self.large)
        self._pictures: tuple[CardPicture, ...] = ()
        self.tiles: dict[int, FileTile] = {}
        self.marked_id: int | None = None
        self._show_marked()

    def set_pictures(self, pictures: Sequence[CardPicture]) -> None:
        """Show these; a caption that is being typed stays while its picture does."""
        if tuple(pictures) == self._pictures:
            return
        self._pictures = tuple(pictures)
        clear_layout(self._flow)
        self.tiles = {}
        for number, picture in enumerate(pictures, start=1):
            words = say("{number}: {words}", number=number, words=picture.words)
            tile = FileTile(picture.id, words, picture.name, say("picture"))
            tile.opened.connect(self.mark)
            self._flow.addWidget(tile)
            self.tiles[picture.id] = tile
            self._read(picture.id, 2 * max(WIDE, PICTURE), tile.set_image)
        count = len(pictures)
        self.set_summary(
            say("none yet") if not count else say("1 picture") if count == 1 else say("{n} pictures", n=count)
        )
        set_shown(self._tiles, bool(count))
        self._show_marked()

    def _read(self, file_id: int, side: int, show: Callable[[QImage | None], object]) -> None:
        self.desk.doors.look_up(
            self,
            partial(read_picture, self.desk.book, file_id, side),
            show,
            lambda error: self.failed.emit(error, None),
        )

    # one picture

    def mark(self, file_id: int) -> None:
        """Mark a picture: it is shown below, with its caption; again to unmark it."""
        self.marked_id = None if self.marked_id == file_id else file_id
        marked = self._marked()
        self.caption.set_text("" if marked is None else marked.caption)
        self._show_marked()

    def _marked(self) -> CardPicture | None:
        return next((one for one in self._pictures if one.id == self.marked_id), None)

    def _show_marked(self) -> None:
        marked = self._marked()
        for key, tile in self.tiles.items():
            tile.set_marked(key == self.marked_id)
        set_shown(self._deeds, marked is not None)
        set_shown(self.large, marked is not None)
        if marked is not None:
            self._read(marked.id, LARGE, partial(self._show_large, marked))

    def _show_large(self, picture: CardPicture, image: QImage | None) -> None:
        if picture.id == self.marked_id:
            self.large.set_image(image, say("Picture: {name}", name=picture.words))

    # changing

    def add(self, paths: Sequence[Path]) -> None:
        """Put these on the card, one action each."""
        for path in paths:
            self._change(partial(self._put_on, path))

    def _put_on(self, path: Path, who: int) -> Callable[[], Any]:
        return partial(attach_picture, self.desk.book, who, self.card_id, path)

    def choose(self) -> None:
        """Ask which pictures, then put them on."""
        names, _ = QFileDialog.getOpenFileNames(self, say("Add pictures to the card"))
        self.add([Path(name) for name in names])

    def keep_caption(self) -> None:
        """Keep what is typed under the marked picture."""
        marked, text = self._marked(), self.caption.text()
        if marked is not None:
            self._change(lambda who: partial(caption_picture, self.desk.book, who, marked.id, text))

    def take_off(self) -> None:
        """Take the marked picture off the card."""
        marked = self._marked()
        if marked is not None:
            self._change(lambda who: partial(take_picture_off, self.desk.book, who, marked.id))

    def _change(self, deed: Callable[[int], Callable[[], Any]]) -> None:
        staff = self.desk.staff
        if staff is None:
            self.failed.emit(None, None)
            return
        self.desk.change(
            self,
            deed(staff.id),
            lambda _: self.done.emit(),
            lambda error: self.failed.emit(error, partial(self._change, deed)),
        )

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if files_in(event):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        if paths := files_in(event):
            event.acceptProposedAction()
            self.add(paths)
