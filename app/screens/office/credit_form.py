"""Giving back on an issued invoice: which lines, how much of each, why, and how the money is paid out."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.desk import Desk
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column, Figure, Leave, Row, Words
from app.screens.kit.choice import Choice
from app.screens.kit.day_field import DayField
from app.screens.kit.fields import Field
from app.screens.kit.table import SmallTable
from app.screens.language import number, say
from app.screens.office.link_line import link_line
from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.trade.office.amounts import parse_quantity, shown
from app.trade.office.credit_note import check_credit, credit, everything
from app.trade.office.invoice import LineKind, unit_words
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Measure, Sentence
from app.work.office.credit_notes import CreditView, issue_credit_note

LATER = "later"


class CreditTable(SmallTable):
    """The lines of the invoice; Space, Enter or a double click gives the marked one back, or leaves it."""

    toggled = Signal(object)
    save_asked = Signal()

    def __init__(self) -> None:
        super().__init__(
            say("Lines of the invoice"),
            (
                Column("line", say("Line"), 52, number=True, fraction=0),
                Column("what", say("What"), 0, least=130),
                Column("left", say("Left to credit"), 118, number=True),
                Column("unit", "", 62),
                Column("back", say("Give back"), 108, number=True),
                Column("net", say("Net"), 92, number=True, tip=say("Without value added tax")),
            ),
            leaving=(Leave("unit"), Leave("line")),
            opens=True,
        )
        self.opened.connect(self.toggled)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space and self.marked_key() is not None:
            self.toggled.emit(self.marked_key())
            return
        control = Qt.KeyboardModifier.ControlModifier
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and event.modifiers() & control:
            self.save_asked.emit()
            return
        super().keyPressEvent(event)


class CreditForm(InlineForm):
    """`thought` brings what would be given back, by place of the line, the reason and the date."""

    thought = Signal(object, str, object)

    def __init__(self, desk: Desk, view: CreditView, parent: QWidget | None = None) -> None:
        super().__init__(desk, f"credit {view.invoice_id}", say("Issue the credit note"), parent=parent)
        self.view = view
        self.hidden_values = {"wanted": {}}
        if view.left.free:
            self._want(everything(view.left))
        self.table = CreditTable()
        self.table.toggled.connect(self.toggle)
        self.table.save_asked.connect(self.save)
        self.table.marked.connect(self._mark)
        self._marked: int | None = None
        self._shown: Mapping[int, int] | None = None
        self.all_button = Button(say("Give everything back that is left"), self.take_all, kind="quiet")
        self.none_button = Button(say("Nothing"), self.take_none, kind="quiet")
        self.form.wide(self.table)
        self.form.wide(link_line(self.all_button, self.none_button))
        self.part = Field("", width=90)
        self._of = told()
        self.form.row(say("Of the marked"), self.part, self._of, stretch_last=True)
        self.reason = self.add("reason", Field("", hint=say("printed on the credit note")))
        self.form.row(say("Reason"), self.reason)
        means = [(LATER, say("later"))] + [(one.value, say(one.value)) for one in Means]
        self.pay_out = self.add("pay_out", Choice("", means, LATER))
        self._pay_rows = [self.form.row(say("Pay it out"), self.pay_out)]
        self.on: DayField = self.add("on", DayField("", desk.today, day=view.days.proposed, width=150))
        self.form.row(say("Dated"), self.on)
        self.sums = told("strong")
        self.form.wide(self.sums)
        self.form.wide(_frozen())
        self._show()

    # what is given back

    @property
    def wanted(self) -> dict[int, int]:
        """Quantities in millionths, by the place of the line on the invoice."""
        return {int(at): int(quantity) for at, quantity in self.hidden_values["wanted"].items()}

    def _want(self, wanted: Mapping[int, int]) -> None:
        self.hidden_values["wanted"] = {str(at): quantity for at, quantity in sorted(wanted.items())}

    def toggle(self, at: int) -> None:
        """Give this line back as far as it is left, or leave it."""
        wanted = self.wanted
        if wanted.pop(at, 0) == 0 and self.view.left.quantities[at]:
            wanted[at] = self.view.left.quantities[at]
        self._take(wanted)

    def take_all(self) -> None:
        """Give back all that is left of the invoice."""
        self._take(everything(self.view.left))

    def take_none(self) -> None:
        """Give nothing back."""
        self._take({})

    def _take(self, wanted: Mapping[int, int]) -> None:
        self._want(wanted)
        self.clear_errors()
        self._show()
        self.keep_draft()

    def changed(self) -> None:
        at, text = self.table.marked_key(), self.part.text()
        if not self._filling and self.part.edit.hasFocus() and at is not None:
            wanted = self.wanted
            wanted.pop(at, None)
            try:
                if text:
                    wanted[at] = parse_quantity(text)
                self.part.set_error("")
            except Refusal as refusal:
                self.part.set_error(say(refusal.sentence))
            self._want(wanted)
        self._show(part=not self.part.edit.hasFocus())

    def _think(self) -> None:
        """Tell what would be given back, why and under which date."""
        day = self.on.day()
        sound = day is not None and self.view.days.check(day) is None
        self.thought.emit(self._sound(), self.reason.text(), day if sound else None)

    # showing

    def _show(self, *, part: bool = True) -> None:
        """Rows, sums, and unless it is being typed the quantity of the marked line."""
        if self.wanted == self._shown:  # a reason or a date is being typed
            self._think()
            return
        self._shown = self.wanted
        view, wanted = self.view, self._sound()
        worked_out = credit(view.invoice, view.left, wanted) if wanted else None
        nets = dict(zip(worked_out.of, worked_out.totals.line_nets, strict=True)) if worked_out else {}
        self.table.set_rows(
            [
                _row(view, at, wanted.get(at, 0), nets.get(at))
                for at, line in enumerate(view.invoice.lines)
                if line.kind is not LineKind.TEXT
            ]
        )
        if part:
            self._show_part()
        rest = view.open
        if view.left.free:
            self.sums.setText(
                say("This invoice asks for nothing. Taken back as a whole, the job can be invoiced anew.")
            )
        elif worked_out is None:
            self.sums.setText(say("{left} is left to credit on this invoice.", left=view.left.amount))
        else:
            due = worked_out.totals.due
            rest -= due
            words = (
                say(
                    "{sum} is given back, {vat} of it VAT. Then {rest} is open.",
                    sum=due,
                    vat=worked_out.totals.vat,
                    rest=rest,
                )
                if rest.minor >= 0
                else say(
                    "{sum} is given back, {vat} of it VAT. Then {rest} was paid too much.",
                    sum=due,
                    vat=worked_out.totals.vat,
                    rest=-rest,
                )
            )
            self.sums.setText(words)
        self.form.show_rows(self._pay_rows, worked_out is not None and rest.minor < 0)
        self._think()

    def _sound(self) -> dict[int, int]:
        """What can be worked out already: a quantity beyond what is left is told when it is to be issued."""
        left = self.view.left.quantities
        return {at: one for at, one in self.wanted.items() if at < len(left) and 0 < one <= left[at]}

    def _mark(self, at: int | None) -> None:
        """Another line is marked: its quantity stands in the field. The same one, shown anew, changes nothing."""
        if at is not None and at != self._marked:
            self._marked = at
            self.part.set_error("")
            self._show_part()

    def _show_part(self) -> None:
        at = self.table.marked_key()
        filling, self._filling = self._filling, True
        self.part.set_text("" if at is None or not self.wanted.get(at) else number(shown(self.wanted[at])))
        self._filling = filling
        if at is None:
            self._of.setText(say("Mark a line first; Space gives it back whole."))
        else:
            most, unit = _amount(self.view, at, self.view.left.quantities[at])
            self._of.setText(
                say("of {most} {unit} left; Space gives the line back whole", most=most, unit=unit)
            )

    # doing

    def values(self) -> dict[str, Any]:
        """The date that was proposed is none of the draft: tomorrow another is."""
        found = super().values()
        if self.on.day() == self.view.days.proposed:
            del found["on"]
        return found

    def deed(self, who: int) -> Deed:
        wanted = self.wanted
        if wrong := check_credit(self.view.invoice, self.view.left, wanted, self.reason.text()):
            raise FieldRefusal(wrong)
        day = self.on.day()
        if day is None:
            raise FieldRefusal({"on": Sentence("Write the date that the credit note shall carry.")})
        if wrong_day := self.view.days.check(day):
            raise FieldRefusal({"on": wrong_day})
        means = self.pay_out.value()
        paid = not self.pay_out.isHidden() and means != LATER and self._over(wanted)
        return partial(
            issue_credit_note,
            self.desk.book,
            who,
            self.view.invoice_id,
            wanted,
            self.reason.text(),
            pay_out=Means(means) if paid else None,
            on=day,
        )

    def _over(self, wanted: Mapping[int, int]) -> bool:
        due = credit(self.view.invoice, self.view.left, wanted).totals.due
        return (self.view.open - due).minor < 0

    def refuse(self, refusal: FieldRefusal) -> None:
        """A line that cannot be credited is marked, its sentence stands under the quantity."""
        of_lines = {key: why for key, why in refusal.fields.items() if key.startswith("lines.")}
        rest = {key: why for key, why in refusal.fields.items() if key not in of_lines}
        if rest:
            super().refuse(FieldRefusal(rest))
        if of_lines:
            key, why = next(iter(of_lines.items()))
            self.table.mark(int(key.split(".")[1]))
            self.part.set_error(say(why))
            self.part.setFocus(Qt.FocusReason.OtherFocusReason)

    def first_field(self) -> QWidget:
        return self.table


def _frozen() -> QWidget:
    label = told()
    label.setText(
        say(
            "It takes the next number of its own series and is frozen, as the invoice was. The invoice stays as it is."
        )
    )
    return label


def _amount(view: CreditView, at: int, micro: int) -> tuple[Measure, str]:
    line = view.invoice.lines[at]
    return Measure(shown(micro)), say(unit_words(line.unit, shown(micro)))


def _row(view: CreditView, at: int, back: int, net: Money | None) -> Row:
    line, left = view.invoice.lines[at], view.left.quantities[at]
    given = bool(back)
    return Row(
        at,
        (
            Figure(str(at + 1), soft=True),
            Words(line.words, tip=line.words, soft=not left, strong=given),
            Figure(number(shown(left)), soft=not left),
            Words(say(unit_words(line.unit, shown(left))), soft=True),
            Figure(number(shown(back)), strong=True) if given else None,
            Figure(number(net.amount, grouped=True)) if net is not None else None,
        ),
    )
