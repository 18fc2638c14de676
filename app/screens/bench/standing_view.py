"""Where the job stands, in one large sentence, and what that proves in a soft one."""

from __future__ import annotations

from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.label import Label
from app.screens.language import say
from app.trade.bench.ranking_words import first_look
from app.trade.sentence import Sentence
from app.work.bench.job_sheet import JobSheet


class StandingView(QWidget):
    """Beside the ladder, or under it on a narrow sheet."""

    def __init__(self) -> None:
        super().__init__()
        self._told: object = None
        self.sentence = Label("", "large", wrap=True)
        self.more = Label("", "soft", wrap=True)
        Column(self, gap=2, margins=(9, 0, 9, 4)).add(self.sentence, self.more)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def show_sheet(self, sheet: JobSheet) -> None:
        """Show what the last test says; nothing moves where that is as before."""
        told = (sheet.stands, sheet.stands_more)
        if told == self._told:
            return
        self._told = told
        if sheet.stands is None:
            self.sentence.setText(say("How far does it start up?"))
            hint = say("Record the highest rung that it reaches; the sheet then says what that proves.")
            self.more.setText(f"{say(first_look())} {hint}")
        else:
            self.sentence.setText(say(sheet.stands))
            self.more.setText(say(sheet.stands_more) if sheet.stands_more is not None else "")
        set_shown(self.more, bool(self.more.text()))

    def show_more(self, more: Sentence) -> None:
        """Show what the test proves with the suspects as they are ranked by now."""
        self.more.setText(say(more))
        set_shown(self.more, True)
