"""A climb of the start-up ladder as it is entered."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.bench.typed_numbers import read_number, read_whole
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.bench.kinds import HowSeen, Warmth
from app.trade.bench.stages import Moment
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.start_ups import StartUpEntry, check_start_up, record_start_up

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class StartUpForm(InlineForm):
    """Highest rung, tries, how it was seen. `tried` shows the rung on the ladder while it is chosen."""

    tried = Signal(int)

    def __init__(self, page: JobSheetPage, key: str, trial: tuple[int, int] | None, moment: Moment) -> None:
        super().__init__(page.desk, key, say("Record the test"), label_width=84)
        self.page = page
        self._trial = trial
        rungs = [(0, say("none"))] + [
            (number, f"{number} {say(word)}")
            for number, word in enumerate(page.lists.rungs, start=1)
            if number not in page.facts.not_testable
        ]
        form, add = self.form, self.add
        self.rung = add("rung", Combo(say("Highest rung"), rungs, width=210))
        form.row(say("Highest rung"), self.rung)
        self.tries = add("tries", Field("", text="1", width=44))
        self.stopped = add("stopped_in", Field("", width=44))
        form.row(say("Tries"), self.tries, say("stopped in"), self.stopped)
        self.seen = add(
            "seen", Choice("", [(seen, say(seen.value)) for seen in HowSeen], HowSeen.NORMAL_USE, gap=14)
        )
        form.row(say("Seen in"), self.seen)
        self.warmth = add("warmth", Choice("", [(w, say(w.value)) for w in Warmth], Warmth.BETWEEN, gap=14))
        form.row(say("Warmth"), self.warmth)
        self.disc = add("disc", Field("", seen=page.lists.discs))
        form.row(say("Disc"), self.disc)
        self.error = add("error_shown", Field("", seen=page.lists.errors))
        form.row(say("Error shown"), self.error)
        self.room = add("room", Field("", width=56))
        self.minutes = add("warm_minutes", Field("", width=56))
        form.row(say("Room"), self.room, say("°C, after"), self.minutes, say("min"))
        self.note = add("note", Field(""))
        form.row(say("Note"), self.note)
        self.moment = add("moment", Choice("", [(m, say(m.value)) for m in Moment], moment, gap=14))
        form.row(say("When"), self.moment)
        if trial is not None:
            self.side = add(
                "trial_side",
                Choice(
                    "",
                    [("after", say("after trial {number}", number=trial[1])), ("", say("for itself"))],
                    "after",
                    gap=14,
                ),
            )
            form.row(say("Belongs"), self.side)

    def changed(self) -> None:
        rung = self.rung.value()
        if rung is not None:
            self.tried.emit(rung)

    def entry(self) -> StartUpEntry:
        """The climb as entered. Raises FieldRefusal."""
        rung = self.rung.value()
        if rung is None:
            raise FieldRefusal({"rung": Sentence("Choose the highest rung that was reached.")})
        side = self.side.value() if self._trial is not None else ""
        return StartUpEntry(
            rung=rung,
            moment=self.moment.value() or Moment.DURING,
            seen=self.seen.value() or HowSeen.NORMAL_USE,
            tries=read_whole(self.tries.text(), "tries") or 1,
            stopped_in=read_whole(self.stopped.text(), "stopped_in"),
            error_shown=self.error.text(),
            disc=self.disc.text(),
            warmth=self.warmth.value() or Warmth.BETWEEN,
            warm_minutes=read_whole(self.minutes.text(), "warm_minutes"),
            room=read_number(self.room.text(), "room"),
            note=self.note.text(),
            trial_id=self._trial[0] if self._trial is not None and side else None,
            trial_side=side or "",
        )

    def deed(self, who: int) -> Deed:
        entry = self.entry()
        if wrong := check_start_up(entry, self.page.facts.not_testable):
            raise FieldRefusal(wrong)
        return partial(record_start_up, self.desk.book, who, self.page.job_id, entry)

    def first_field(self) -> QWidget | None:
        field: QWidget = self.rung
        return field
