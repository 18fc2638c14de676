"""The paper beside its page: the draft while it is written, the very PDF once it is filed."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.label import Label
from app.screens.kit.margin import MarginPage
from app.screens.kit.pdf_view import PdfView
from app.screens.language import say
from app.screens.threads import Ticket
from app.trade.refusal import Refusal


class PaperBeside(MarginPage):
    """A margin that shows a PDF; ``ask`` fetches one away from the window, the last one asked for wins. One is drawn at
    a time: while somebody types, those in between are never begun."""

    def __init__(self, desk: Desk, name: str, *, width: float = 468, parent: QWidget | None = None) -> None:
        super().__init__(name, width=width, parent=parent)
        self._desk = desk
        self._asked: Ticket | None = None
        self._next: tuple[str, Callable[[], bytes]] | None = None
        self._title = Label("", "soft")
        self._why = Label("", wrap=True)
        set_shown(self._why, False)
        self.view = PdfView()
        words = Column(gap=5, margins=(23, 0, 18, 0))
        words.add(self._title, self._why)
        self.column.set_margins((0, 18, 0, 0))
        self.column.addLayout(words)
        self.column.add(self.view, stretch=1)

    @property
    def pdf(self) -> bytes:
        """The bytes in sight; empty while there are none."""
        return self.view.pdf

    def ask(self, title: str, fetch: Callable[[], bytes]) -> None:
        """Show what ``fetch`` gives, under ``title``."""
        self._title.setText(title)
        if self._asked is not None:
            self._next = (title, fetch)
        else:
            self._asked = self._desk.doors.look_up(self, fetch, partial(self._show, title), self._failed)

    def cancel(self) -> None:
        """What was asked for is wanted no more."""
        if self._asked is not None:
            self._asked.cancel()
            self._asked = None
        self._next = None

    def put_away(self) -> None:
        """The page goes: let the document go, too."""
        self.cancel()
        self.view.close_pdf()

    def _goes_on(self) -> bool:
        """Whether another was asked for meanwhile: what came is not worth showing any more."""
        wanted, self._next, self._asked = self._next, None, None
        if wanted is not None:
            self.ask(*wanted)
        return wanted is not None

    def _show(self, title: str, pdf: bytes) -> None:
        if self._goes_on():
            return
        set_shown(self._why, False)
        set_shown(self.view, True)
        if pdf != self.view.pdf:
            self.view.set_pdf(pdf, title)

    def _failed(self, error: Exception) -> None:
        if self._goes_on():
            return
        words = say(error.sentence) if isinstance(error, Refusal) else f"{type(error).__name__}: {error}"
        self._why.setText(say("The paper cannot be shown: {why}", why=words))
        set_shown(self._why, True)
        set_shown(self.view, False)
