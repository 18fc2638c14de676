"""Instruments of the shop with their accuracy and calibration."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from decimal import Decimal
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.cells import Column, Group, Leave, Row, Words
from app.screens.kit.day_field import DayField
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.kit.tick import Tick
from app.screens.language import day, number, say
from app.screens.office.list_page import ListPage
from app.screens.office.record_page import RecordPage
from app.screens.office.setting_editors import decimal
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.office.former_lines import FormerLine, former_instruments
from app.work.office.shop_lists import InstrumentLine, instruments, save_instrument


class InstrumentsPage(ListPage):
    """Registered as ``instruments``; those whose calibration is overdue carry a caution."""

    help_topic = "instruments"
    record = "instrument"
    words = Sentence("Instruments")
    add_words = Sentence("Add an instrument")
    empty_words = (
        Sentence("Meters and testers stand here, with their accuracy and calibration"),
        Sentence("A reading taken with one gets its uncertainty from it."),
    )
    leaving = (Leave("kind"), Leave("serial"))
    kinds = frozenset({"instruments"})

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("name", say("Instrument"), 0, least=150),
            Column("kind", say("Kind"), 160),
            Column("serial", say("Serial number"), 130),
            Column(
                "accuracy", say("Accuracy"), 190, tip=say("Per cent of the reading, of the range, and digits")
            ),
            Column("calibrated", say("Calibrated"), 130),
            Column("due", say("Due"), 232),
        )

    def fetch(self) -> Any:
        return instruments(self.desk.book, retired=self.former)

    def rows(self, found: Any) -> list[Row | Group]:
        return [_row(line, self.desk.today()) for line in found]

    def below(self, found: Any) -> str:
        late = sum(is_overdue(line, self.desk.today()) for line in found)
        if not late:
            return ""
        return (
            say("1 is overdue for calibration.")
            if late == 1
            else say("{n} are overdue for calibration.", n=late)
        )


def is_overdue(line: InstrumentLine, today: date) -> bool:
    """Whether its calibration ran out before today."""
    return not line.retired and line.due_on is not None and line.due_on < today


def accuracy_words(line: InstrumentLine) -> str:
    """Per cent of the reading, of the range, and digits, in words."""
    parts = [] if line.percent is None else [f"{number(line.percent)}\u00a0%"]
    if line.range_percent is not None:
        parts.append(say("{percent} of range", percent=f"{number(line.range_percent)}\u00a0%"))
    words = " + ".join(parts)
    if not words or not line.digits:
        return words
    return say("{percent} and {digits} digits", percent=words, digits=line.digits)


def _row(line: InstrumentLine, today: date) -> Row:
    if line.retired:
        due = Words(say("no longer used"), soft=True)
    elif is_overdue(line, today):
        assert line.due_on is not None
        due = Words(say("overdue"), say("since {day}", day=line.due_on), before="caution", strong=True)
    else:
        due = Words(day(line.due_on)) if line.due_on is not None else Words(say("no day set"), soft=True)
    return Row(
        line.id,
        (
            Words(line.name, soft=line.retired),
            Words(line.kind, soft=True),
            Words(line.serial),
            Words(accuracy_words(line)),
            Words(day(line.calibrated_on)) if line.calibrated_on is not None else None,
            due,
        ),
    )


class InstrumentPage(RecordPage):
    """Registered as ``instrument``; its key is the id."""

    help_topic = "instruments"
    kind = "instrument"
    new_words = Sentence("A new instrument")
    save_words = Sentence("Save the instrument")

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self.form.section(say("What"))
        self.name = self.add("name", Field("", width=320, hint=say("bench meter")))
        self.sort = self.add(
            "kind", Field("", width=320, hint=say("multimeter, oscilloscope, safety tester"))
        )
        self.serial = self.add("serial", Field("", width=180))
        self.form.row(say("Name"), self.name)
        self.form.row(say("Kind"), self.sort)
        self.form.row(say("Serial number"), self.serial)
        self.form.section(say("Accuracy"))
        self.percent = self.add("percent", Field("", width=80))
        self.digits = self.add("digits", Field("", width=80))
        self.step = self.add("step", Field("", width=120))
        self.form.row(say("Of the reading"), self.percent, say("%  and"), self.digits, say("digits"))
        self.range_percent = self.add("range_percent", Field("", width=80))
        self.range_end = self.add("range_end", Field("", width=120))
        self.form.row(
            say("Of the range"), self.range_percent, say("%  of"), self.range_end, say("full scale, SI unit")
        )
        self.form.row(say("Last digit is"), self.step, say("in the SI unit; empty: as the quantity has it"))
        self.form.row(
            "",
            Label(say("Empty: readings take the usual accuracy of their quantity."), "soft", wrap=True),
            stretch_last=True,
        )
        self.form.section(say("Calibration"))
        self.calibrated = self.add("calibrated_on", DayField("", desk.today, width=150))
        self.due = self.add("due_on", DayField("", desk.today, width=150))
        self.form.row(say("Calibrated on"), self.calibrated)
        self.form.row(say("Due again on"), self.due)
        self.retired = self.add("retired", Tick(say("no longer used")))
        self.form.row("", self.retired)

    def fetch(self) -> Any:
        lines = instruments(self.desk.book, retired=True) if self.key is not None else ()
        return next((line for line in lines if line.id == self.key), None)

    def former_lines(self) -> Sequence[FormerLine[InstrumentLine]]:
        return former_instruments(self.desk.book, self.key)

    def named_title(self, line: InstrumentLine) -> str:
        return line.name

    def put(self, line: InstrumentLine) -> None:
        self.name.set_text(line.name)
        self.sort.set_text(line.kind)
        self.serial.set_text(line.serial)
        for field, value in (
            (self.percent, line.percent),
            (self.digits, line.digits),
            (self.step, line.step),
            (self.range_percent, line.range_percent),
            (self.range_end, line.range_end),
        ):
            field.set_text("" if value is None else number(value))
        self.calibrated.set_day(line.calibrated_on)
        self.due.set_day(line.due_on)
        self.retired.setChecked(line.retired)

    def entry(self) -> InstrumentLine:
        return InstrumentLine(
            name=self.name.text(),
            kind=self.sort.text(),
            serial=self.serial.text(),
            percent=optional_decimal("percent", self.percent),
            digits=optional_decimal("digits", self.digits),
            step=optional_decimal("step", self.step),
            range_percent=optional_decimal("range_percent", self.range_percent),
            range_end=optional_decimal("range_end", self.range_end),
            calibrated_on=optional_day("calibrated_on", self.calibrated),
            due_on=optional_day("due_on", self.due),
            retired=self.retired.isChecked(),
            id=self.key or 0,
            version=self.version,
        )

    def deed(self, who: int, entry: InstrumentLine) -> Callable[[], Any]:
        return partial(save_instrument, self.desk.book, who, entry)

    def facts(self, line: InstrumentLine) -> Sequence[tuple[str, str]]:
        return (
            (say("Name"), line.name),
            (say("Kind"), line.kind),
            (say("Serial number"), line.serial),
            (say("Accuracy"), accuracy_words(line)),
            (say("Range ends at"), "" if line.range_end is None else number(line.range_end)),
            (say("Last digit is"), "" if line.step is None else number(line.step)),
            (say("Calibrated on"), day(line.calibrated_on) if line.calibrated_on else ""),
            (say("Due again on"), day(line.due_on) if line.due_on else ""),
            (say("no longer used"), say("yes") if line.retired else say("no")),
        )


def optional_decimal(name: str, field: Field) -> Decimal | None:
    """The number in a field, None where it is empty. Raises FieldRefusal under ``name``."""
    text = field.text()
    if not text:
        return None
    try:
        return decimal(text)
    except Refusal as refusal:
        raise FieldRefusal({name: refusal.sentence}) from refusal


def optional_day(name: str, field: DayField) -> date | None:
    """The day in a field, None where it is empty. Raises FieldRefusal under ``name``."""
    if field.is_wrong:
        raise FieldRefusal({name: Sentence("No day can be read from this. Write 27 Nov, +8 or Fri.")})
    return field.day()
