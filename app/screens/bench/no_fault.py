"""What is still to try with a player that plays to the end while its complaint stands: each opens a test for it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.bench.start_up_form import StartUpForm
from app.screens.kit.boxes import Flow
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.language import say
from app.trade.bench.kinds import Warmth
from app.trade.sentence import Sentence

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

WARM_RUN = Sentence("warm run")
TRIES = (WARM_RUN, Sentence("tapped"), Sentence("another disc"), Sentence("on its edge"))


class NoFaultView(QWidget):
    """A line of quiet buttons behind its word."""

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__()
        self.page = page
        self.buttons = [Button(say(one), partial(self._try, one), kind="quiet") for one in TRIES]
        Flow(self, gap=14, line_gap=4).add(Label(say("Try it still"), "strong"), *self.buttons)
        tall = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        tall.setHeightForWidth(True)
        self.setSizePolicy(tall)

    def _try(self, how: Sentence) -> None:
        """A new test with how it is tried in its note; what was typed there before stays."""
        form = self.page.body.ladder.open_form("start-up")
        assert isinstance(form, StartUpForm)
        if not form.note.text():
            form.note.set_text(say(how))
        if how is WARM_RUN:
            form.warmth.set_value(Warmth.WARM)
