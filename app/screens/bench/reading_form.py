"""A reading as it is typed: the quantity completes, the value is read and judged at once, Enter takes the next."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from app.screens.bench.gauge_view import GaugeView
from app.screens.bench.inline_form import Deed, InlineForm, beside
from app.screens.bench.reading_beside import BesideLines
from app.screens.bench.reading_steps import ReadingStep, reached_rung, steps_for, still_to_read
from app.screens.bench.typed_numbers import read_number, read_whole
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.measure import fix
from app.screens.language import say
from app.screens.threads import Ticket
from app.trade.bench.quantities import Quantity
from app.trade.bench.reading_typed import PLACED, read_reading
from app.trade.bench.stages import Moment
from app.trade.bench.typed_value import TypedValue
from app.trade.bench.uncertainty import Counted
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Measure, Sentence
from app.work.bench.readings import Judged, ReadingEntry, judge_reading

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

WRONG_AFTER_MS = 700  # a value half typed is not wrong yet
WARM = 30


@dataclass(frozen=True)
class TakenReading:
    """A reading that was entered here and is on its way into the book."""

    entry: ReadingEntry
    quantity: Quantity
    typed: TypedValue
    judged: Judged | None


class ReadingForm(InlineForm):
    """`taken` brings each reading that was entered; the form stays open and goes to the next of the sheet.

    Enter in the value takes it; Down and Up in it go through the sheet.
    """

    taken = Signal(object)

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Take this reading"))
        self.page = page
        self.judged: Judged | None = None
        self.pending: list[tuple[str, str]] = []
        self._asked: Ticket | None = None
        self._step: ReadingStep | None = None
        self._names = {say(q.name).casefold(): q for q in page.lists.quantities}
        self._wrong = QTimer(self)
        self._wrong.setSingleShot(True)
        self._wrong.setInterval(WRONG_AFTER_MS)
        self._wrong.timeout.connect(self._say_wrong)
        self.empty_button.hide()
        self.leave_button.setText(say("Done"))
        self._make_fields()
        self.value.edit.installEventFilter(self)
        self.quantity.left.connect(self._settle_quantity)
        self.quantity.changed.connect(lambda _: self._show_quantity())
        self.value.edit.stepped.connect(self._walk)
        self.choose(page.usual_moment())

    # fields

    def _make_fields(self) -> None:
        page, add, form = self.page, self.add, self.form
        reached = reached_rung(page.facts)
        offered = [q for q in page.lists.quantities if reached is None or q.readable(reached)]
        self.quantity = add("quantity", Field("", width=250, seen=[say(q.name) for q in offered]))
        self.detail = add("detail", Field(say("Which one"), width=96, hint=say("which one")))
        self.progress = beside()
        form.row(say("Quantity"), self.quantity, self.detail, self.progress)
        self.value = add("typed", Field("", width=130))
        self.gauge = GaugeView()
        form.row(say("Value"), self.value, self.gauge)
        self.beside = BesideLines(self, page)
        self.moment = add("moment", Choice("", [(m, say(m.value)) for m in Moment]))
        self.moment.changed.connect(lambda _: self._moment_chosen())
        trial = self._trial = page.last_trial()
        line: list[QWidget | str | float] = [self.moment]
        self.side: Choice | None = None
        if trial is not None:
            number = trial[1]
            sides = [
                ("", say("for itself")),
                ("before", say("before trial {number}", number=number)),
                ("after", say("after trial {number}", number=number)),
            ]
            side = self.side = Choice("", sides, "")
            add("trial_side", side)
            side.changed.connect(lambda _: self._moment_chosen())
            line += [9, say("Belongs"), side]
        form.row(say("When"), *line)
        meters = [(0, say("not noted"))]
        for meter in page.lists.instruments:
            name = say("{name}, overdue", name=meter.name) if meter.overdue else meter.name
            meters.append((meter.id, name))
        self.instrument = add("instrument_id", Combo("", meters, 0, width=210))
        self.more_button = Button(say("More conditions"), self._turn_more, kind="quiet")
        fix(self.more_button, min_height=32)
        form.row(say("Read with"), self.instrument, 4, self.more_button)
        self.disc = add("disc", Field("", width=170, seen=page.lists.discs))
        usual = [say("unit level"), say("unit on edge"), say("left on since the last"), say("seated anew")]
        self.place = add("place", Field("", width=130, hint=say("radius, track"), seen=usual))
        self.more = [form.row(say("Disc"), self.disc, say("place"), self.place)]
        self.warm = add("warm_minutes", Field("", width=56))
        self.room = add("room", Field("", width=56))
        self.seconds = add("seconds", Field("", width=56))
        self.more.append(
            form.row(
                say("Warm for"),
                self.warm,
                say("min, room"),
                self.room,
                say("°C, counted for"),
                self.seconds,
                say("s"),
            )
        )
        self._more_shown = False
        self._show_more()

    def _turn_more(self) -> None:
        self._more_shown = not self._more_shown
        self._show_more()
        if self.judged is not None:
            self._judged(self.judged)

    def _show_more(self) -> None:
        self.form.show_rows(self.more, self._more_shown)
        self.more_button.setText(say("Fewer conditions") if self._more_shown else say("More conditions"))

    # which quantity

    def chosen(self) -> Quantity | None:
        """The quantity that the words in its field name."""
        return self._names.get(self.quantity.text().casefold())

    def choose(self, moment: Moment, quantity: str = "") -> None:
        """Begin at a moment of the job, with this quantity or with the next of the sheet."""
        open_trial = self.page.open_trial()
        self._filling = True
        if self.side is not None:
            self.side.set_value("after" if open_trial is not None and moment is Moment.DURING else "")
        self.moment.set_value(moment)
        self._filling = False
        known = next((q for q in self.page.lists.quantities if q.id == quantity), None)
        self.go_to(ReadingStep(known) if known is not None else self._next())

    def steps(self) -> list[ReadingStep]:
        """What is still to be read at the chosen moment, in order."""
        moment, trial = self._moment(), self._after_trial()
        steps = steps_for(self.page.facts, self.page.lists, moment, trial)
        return still_to_read(steps, self.page.facts, moment, trial, self.pending)

    def go_to(self, step: ReadingStep | None) -> None:
        """Show a step of the sheet, or an empty line where the sheet is done."""
        self._step = step
        self._filling = True
        self.quantity.set_text(say(step.quantity.name) if step is not None else "")
        self.detail.set_text(step.detail if step is not None else "")
        if step is not None and step.warm is not None:
            self.warm.set_text(str(WARM) if step.warm else "")
            self._more_shown = True
            self._show_more()
        self.value.set_text("")
        self._filling = False
        self.clear_errors()
        self.judged = None
        self._show_quantity()

    def book_has_it(self) -> None:
        """The sheet was loaded anew: what was on its way stands in it."""
        if not self.value.text():
            self._show_quantity()

    def _next(self) -> ReadingStep | None:
        """The first step after the present one that is still to be read, else the first of all."""
        steps = self.steps()
        every = steps_for(self.page.facts, self.page.lists, self._moment(), self._after_trial())
        if self._step in every:
            behind = every[every.index(self._step) + 1 :]
            for step in behind:
                if step in steps:
                    return step
        return steps[0] if steps else None

    def _walk(self, by: int) -> None:
        steps = self.steps()
        if not steps:
            return
        at = steps.index(self._step) if self._step in steps else -1 if by > 0 else 0
        self.go_to(steps[(at + by) % len(steps)])

    def _show_quantity(self) -> None:
        quantity = self.chosen()
        set_shown(self.detail, quantity is not None and quantity.asks_name)
        steps = self.steps()
        if self._step is not None and self._step in steps and quantity == self._step.quantity:
            total = len(steps_for(self.page.facts, self.page.lists, self._moment(), self._after_trial()))
            at = total - len(steps) + 1 + steps.index(self._step)
            self.progress.setText(say("{at} of {all} on the sheet; Down skips", at=at, all=total))
        else:
            self.progress.setText(say("the sheet is done") if self.page.lists.sheet and not steps else "")
        hint = ""
        if quantity is not None:
            hint = say("e.g. {example}", example=Measure(quantity.example, quantity.unit.shown))
        self.value.edit.setPlaceholderText(hint)
        if quantity is not None and _asks_more(quantity) and not self._more_shown:
            self._turn_more()
        self.beside.ask(quantity, self.detail.text())
        self.changed()

    def _settle_quantity(self) -> None:
        if self.quantity.text() and self.chosen() is None:
            self.quantity.set_error(say("Choose a quantity from the list."))
        else:
            self.quantity.set_error("")

    def _moment_chosen(self) -> None:
        if not self._filling:
            self._step = None
            self.go_to(self._next())

    def _moment(self) -> Moment:
        return self.moment.value() or Moment.ARRIVAL

    def _after_trial(self) -> int | None:
        return self._trial[1] if self._trial is not None and self._side() == "after" else None

    def _side(self) -> str:
        return (self.side.value() or "") if self.side is not None else ""

    # what is typed

    def entry(self) -> ReadingEntry:
        """The reading as entered. Raises FieldRefusal."""
        quantity = self.chosen()
        if quantity is None:
            raise FieldRefusal({"quantity": Sentence("Choose a quantity from the list.")})
        if quantity.asks_name and not self.detail.text():
            raise FieldRefusal({"detail": Sentence("Say which one, for example +8 V.")})
        side = self._side()
        return ReadingEntry(
            quantity=quantity.id,
            typed=self.value.text(),
            moment=self._moment(),
            detail=self.detail.text() if quantity.asks_name else "",
            instrument_id=self.instrument.value() or None,
            trial_id=self._trial[0] if self._trial is not None and side else None,
            trial_side=side,
            disc=self.disc.text(),
            place=self.place.text(),
            warm_minutes=read_whole(self.warm.text(), "warm_minutes"),
            room=read_number(self.room.text(), "room"),
            seconds=read_whole(self.seconds.text(), "seconds"),
        )

    def changed(self) -> None:
        """Read what is typed, and ask the book how it would be judged."""
        if self._filling:
            return
        self._wrong.stop()
        if self._asked is not None:
            self._asked.cancel()
            self._asked = None
        self.judged = None
        self.beside.clear()
        quantity, text = self.chosen(), self.value.text()
        if quantity is None or not text:
            self.value.set_echo("")
            self.value.set_error("")
            self.gauge.clear()
            return
        read = read_reading(quantity, text, self.place.text())
        if isinstance(read, Sentence):
            self.value.set_echo("")
            self.gauge.clear()
            self._wrong.start()
            return
        self.value.set_error("")
        self.value.set_echo(say(read.echo))
        try:
            entry = self.entry()
        except FieldRefusal:
            self.gauge.clear()
            return
        self._asked = self.desk.doors.look_up(
            self,
            partial(judge_reading, self.desk.book, self.page.job_id, entry),
            self._judged,
            self._not_judged,
        )

    def _judged(self, judged: Judged) -> None:
        self.judged = judged
        self.beside.show_judged(self.gauge, judged, self._more_shown)

    def _not_judged(self, error: Exception) -> None:
        if isinstance(error, FieldRefusal):
            self.gauge.clear()
        else:
            self.failed.emit(error, None)

    def _say_wrong(self) -> None:
        quantity, text = self.chosen(), self.value.text()
        if quantity is None or not text:
            return
        read = read_reading(quantity, text, self.place.text())
        if isinstance(read, Sentence):
            self.value.set_error(say(read))

    # taking it

    def save(self) -> None:
        """Take the reading as it stands and go to the next."""
        if self.desk.staff is None:
            self.say_wrong(say("Say first who works here now, with Ctrl+U."))
            return
        self.clear_errors()
        quantity = self.chosen()
        try:
            entry = self.entry()
        except FieldRefusal as refusal:
            if "detail" in refusal.fields:
                set_shown(self.detail, True)
            self.refuse(refusal)
            return
        assert quantity is not None  # entry refuses without one
        read = read_reading(quantity, entry.typed, entry.place)
        if isinstance(read, Sentence):
            self.refuse(FieldRefusal({"typed": read}))
            return
        taken = TakenReading(entry, quantity, read, self.judged)
        self.pending.append((quantity.id, entry.detail))
        self.taken.emit(taken)
        self.go_to(self._next())
        self.keep_draft()
        (self.value if self.chosen() is not None else self.quantity).setFocus(Qt.FocusReason.OtherFocusReason)

    def deed(self, who: int) -> Deed:  # the section hands readings to the book, one after the other
        raise NotImplementedError

    def values(self) -> dict[str, Any]:
        return super().values() if self.value.text() else {}

    def keep_draft(self) -> None:
        if self.value.text():
            super().keep_draft()
        else:
            self.desk.drafts.drop(self.key)

    def fill(self, values: Mapping[str, Any]) -> None:
        super().fill(values)
        self._show_quantity()

    def first_field(self) -> QWidget | None:
        field: QWidget = self.value if self.chosen() is not None else self.quantity
        return field

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if (
            watched is self.value.edit
            and event.type() == QEvent.Type.KeyPress
            and isinstance(event, QKeyEvent)
        ):
            plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
            if plain and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self.save()
                return True
        return False


def _asks_more(quantity: Quantity) -> bool:
    """Whether it says little without its counting time or where it was read."""
    return isinstance(quantity.model, Counted) or quantity.id in PLACED
