"""What the shop's ladder says of one rung: below the ladder, when the rung is marked."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.bench.failures import tell
from app.screens.kit.boxes import Column, Row, clear_layout, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.language import say
from app.work.bench.standing import RungCard, rung_card

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class RungView(QWidget):
    """``close`` takes the mark off the ladder."""

    def __init__(self, page: JobSheetPage, close: Any) -> None:
        super().__init__()
        self.page = page
        self.head = Label("", "strong", wrap=True)
        self.close_button = Button(say("Close"), close, kind="quiet")
        line = QWidget()
        Row(line, gap=9).add(self.head, stretch=1).add(self.close_button)
        body = QWidget()
        self._lines = Column(body, gap=6)
        Column(self, gap=4, margins=(9, 6, 9, 6)).add(line, body)
        tall = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        tall.setHeightForWidth(True)
        self.setSizePolicy(tall)
        self._asked: Any = None
        self.words = ""
        set_shown(self, False)

    def show_rung(self, number: int) -> None:
        """Show a rung, 0 for none."""
        if self._asked is not None:
            self._asked.cancel()
        sheet = self.page.facts
        if not number or sheet.arrangement is None:
            set_shown(self, False)
            return
        ask = partial(rung_card, self.page.desk.book, number, sheet.arrangement, sheet.not_testable)
        self._asked = self.page.desk.doors.look_up(self, ask, self._show, partial(tell, self.page.trouble))

    def _show(self, card: RungCard) -> None:
        self.head.setText(f"{card.number} {say(card.name)}")
        clear_layout(self._lines)
        told = _told(card, card.number in self.page.facts.not_testable)
        for label, text in told:
            line = QWidget()
            Column(line, gap=0).add(Label(label, "soft", wrap=True), Label(text, wrap=True))
            self._lines.add(line)
        self.words = "\n".join(f"{label}: {text}" for label, text in told)
        set_shown(self, True)


def _told(card: RungCard, unseen: bool) -> list[tuple[str, str]]:
    suspects = "; ".join(
        say("{suspect} {weight} %", suspect=suspect, weight=weight) for suspect, weight in card.suspects
    )
    readings = "; ".join(
        say("{reading} ({how})", reading=reading, how=say(how)) if how else say(reading)
        for reading, how in card.readings
    )
    lines = [
        (say("On this type"), say("it cannot be tested") if unseen else ""),
        (say("How it shows"), say(card.shows)),
        (say("Reaching it proves, to that extent"), say(card.proves)),
        (say("Suspect when it stops here, by the ladder alone"), suspects),
        (say("Readings that part them"), readings),
        (say("Changes that part them"), "; ".join(map(say, card.changes))),
        (say("With what"), say(card.tools) if card.tools else ""),
        (say("Caution"), say(card.caution) if card.caution else ""),
    ]
    return [(label, text) for label, text in lines if text]
