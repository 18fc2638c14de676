"""The newest pictures of a player from all its jobs, as tiles; Enter or a click opens the job of one."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from pathlib import Path

from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.bench.file_tile import PICTURE, WIDE, FileTile
from app.screens.bench.pictures import read_picture
from app.screens.desk import Desk
from app.screens.kit.boxes import Flow, clear_layout
from app.screens.language import moment, say
from app.work.bench.unit_life import UnitPicture


class UnitPictures(QWidget):
    """Small pictures beside each other; each is read on a look-up thread."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.tiles: dict[int, FileTile] = {}
        self._shown: tuple[UnitPicture, ...] = ()
        self._flow = Flow(self, gap=12, line_gap=12)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def set_pictures(self, pictures: Sequence[UnitPicture]) -> None:
        """Show these; those that are shown already are left alone."""
        if tuple(pictures) == self._shown:
            return
        self._shown = tuple(pictures)
        clear_layout(self._flow)
        self.tiles = {}
        for picture in pictures:
            kind = Path(picture.name).suffix.lstrip(".").upper()[:5] or say("file")
            told = say(
                "job {number}, {day}", number=str(picture.job_number), day=moment(picture.at, "d MMM y")
            )
            tile = FileTile(picture.job_id, picture.note or picture.name, told, kind)
            tile.opened.connect(self.desk.open_job)
            self._flow.addWidget(tile)
            self.tiles[picture.id] = tile
            self.desk.doors.look_up(
                self,
                partial(read_picture, self.desk.book, picture.id, 2 * max(WIDE, PICTURE)),
                tile.set_image,
                lambda _: None,  # the tile keeps the kind of the file; the job's own page tells what is wrong
            )
