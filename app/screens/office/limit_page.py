"""One limit: typed in the unit in which the quantity is shown, kept in SI, with its source."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from decimal import Decimal
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.kit.tick import Tick
from app.screens.language import current, number, say
from app.screens.office.limits_page import holder_words, limit_words, quantity_words
from app.screens.office.record_page import RecordPage
from app.screens.office.setting_editors import decimal
from app.trade.bench.quantities import Quantity
from app.trade.bench.typed_value import Entry, TypedValue, read_value, typed_form
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.bench.readings import EARLIER
from app.work.office.former_lines import FormerLine, former_limits
from app.work.office.quantity_list import quantity_list
from app.work.office.shop_lists import (
    LABEL,
    LABELLED,
    LimitLine,
    TypeLine,
    limits,
    save_limit,
    transport_types,
)

TYPE, MODEL = "type", "model"
PRACTICE = "common practice, no source"


class LimitPage(RecordPage):
    """Registered as ``limit``; its key is the id, ``("new", type)`` for a new one of a type, or None."""

    help_topic = "limits"
    kind = "limit"
    new_words = Sentence("A new limit")
    save_words = Sentence("Save the limit")

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        self._of_type = key[1] if isinstance(key, tuple) else None
        super().__init__(desk, None if isinstance(key, tuple) else key, parent)
        self._quantities: dict[str, Quantity] = {}
        self._types: dict[int, TypeLine] = {}
        self.form.section(say("Holds for"))
        self.holder = self.add(
            "holder",
            Choice("", [(TYPE, say("a transport type")), (MODEL, say("a maker's model"))], TYPE),
        )
        self.type = self.add("transport_type_id", Combo("", width=260))
        self.maker = self.add("unit_maker", Field("", width=190, hint=say("maker")))
        self.model = self.add("unit_model", Field("", width=190, hint=say("model")))
        self.form.row("", self.holder)
        self.form.row(say("Which"), self.type, self.maker, self.model)
        for field, name in (
            (self.type, say("Transport type")),
            (self.maker, say("Maker")),
            (self.model, say("Model")),
        ):
            field.set_name(name)
        self.form.section(say("Limit"))
        self.quantity = self.add("quantity", Combo("", width=320))
        self.detail = self.add("detail", Field("", width=160, hint=say("which one: +8 V")))
        self.form.row(say("Quantity"), self.quantity, self.detail)
        self.detail.set_name(say("Which one"))
        self.label = self.add("relative_to", Tick(say("as a share of the current on the label")))
        self.form.row("", self.label)
        self.earlier = self.add("earlier", Tick(say("as a share of the same transport's last value")))
        self.form.row("", self.earlier)
        self.low = self.add("low", Field("", width=120))
        self.high = self.add("high", Field("", width=120))
        self._unit = Label("", "soft")
        self.form.row(say("At least"), self.low)
        self.form.row(say("At most"), self.high)
        self.form.row("", self._unit)
        self.form.section(say("Source"))
        self.source = self.add("source", Field("", hint=say("document and page"), seen=(say(PRACTICE),)))
        self.must = self.add(
            "must", Tick(say("a final reading outside holds the job: no reason lets it pass"))
        )
        self.form.row(say("Source"), self.source)
        self.form.row("", self.must)
        self.retired = self.add("retired", Tick(say("no longer used; verdicts given by it stand")))
        self.form.row("", self.retired)

    def fetch(self) -> Any:
        book = self.desk.book
        lines = limits(book, retired=True) if self.key is not None else ()
        line = next((line for line in lines if line.id == self.key), None)
        return line, transport_types(book, retired=True), quantity_list(book)

    def former_lines(self) -> Sequence[FormerLine[LimitLine]]:
        return former_limits(self.desk.book, self.key)

    def show_found(self, found: Any) -> Any:
        line, types, quantities = found
        self._types = {one.id: one for one in types}
        self._quantities = {quantity.id: quantity for quantity in quantities}
        wanted = self.type.value() or self._of_type
        self.type.set_options(
            [(one.id, one.name) for one in types if not one.retired or one.id == wanted], wanted
        )
        options = [(q.id, say(q.words)) for q in quantities]
        self.quantity.set_options(options, self.quantity.value())
        return line

    def named_title(self, line: LimitLine) -> str:
        return say(
            "Limit of {quantity}, {holder}",
            quantity=quantity_words(line, self._quantities),
            holder=holder_words(line, self._types),
        )

    def put(self, line: LimitLine) -> None:
        self.holder.set_value(TYPE if line.transport_type_id is not None else MODEL)
        self.type.set_value(line.transport_type_id)
        self.maker.set_text(line.unit_maker)
        self.model.set_text(line.unit_model)
        self.quantity.set_value(line.quantity)
        self.detail.set_text(line.detail)
        self.label.setChecked(line.relative_to == LABEL)
        self.earlier.setChecked(line.relative_to == EARLIER)
        for field, end in ((self.low, line.low), (self.high, line.high)):
            field.set_text(self._written(line, end))
        self.source.set_text(say(PRACTICE) if line.source == PRACTICE else line.source)
        self.must.setChecked(line.must)
        self.retired.setChecked(line.retired)

    def _written(self, line: LimitLine, end: Decimal | None) -> str:
        quantity = self._quantities.get(line.quantity)
        if end is None or quantity is None:
            return ""
        if line.relative_to:
            return number((end * 100).normalize() + 0)
        return typed_form(quantity.unit.to_shown(end), quantity.unit, mark=current().decimal_mark)

    def entry(self) -> LimitLine:
        of_type = self.holder.value() == TYPE
        return LimitLine(
            quantity=self.quantity.value() or "",
            source=PRACTICE if self.source.text() == say(PRACTICE) else self.source.text(),
            low=self._end("low", self.low),
            high=self._end("high", self.high),
            transport_type_id=self.type.value() if of_type else None,
            unit_maker="" if of_type else self.maker.text(),
            unit_model="" if of_type else self.model.text(),
            detail=self.detail.text() if not self.detail.isHidden() else "",
            relative_to=self._relative,
            must=self.must.isChecked(),
            retired=self.retired.isChecked(),
            id=self.key or 0,
            version=self.version,
        )

    @property
    def _relative(self) -> str:
        """What the ends are shares of, empty where they are values."""
        if self.quantity.value() in LABELLED and self.label.isChecked():
            return LABEL
        return EARLIER if self.earlier.isChecked() else ""

    def _end(self, name: str, field: Field) -> Decimal | None:
        text = field.text()
        if not text:
            return None
        if self._relative:
            try:
                return decimal(text.removesuffix("%").strip()) / 100
            except Refusal as refusal:
                raise FieldRefusal({name: refusal.sentence}) from refusal
        read = self._read(text)
        if isinstance(read, Sentence):
            raise FieldRefusal({name: read})
        return read.value if read is not None else None

    def _read(self, text: str) -> TypedValue | Sentence | None:
        """A value in the unit of the quantity; a limit has neither a bound nor an open circuit."""
        quantity = self._quantities.get(self.quantity.value() or "")
        if quantity is None or not text:
            return None
        return read_value(text, Entry(quantity.unit, quantity.low, quantity.high, quantity.example))

    def deed(self, who: int, entry: LimitLine) -> Callable[[], Any]:
        return partial(save_limit, self.desk.book, who, entry)

    def facts(self, line: LimitLine) -> Sequence[tuple[str, str]]:
        return (
            (say("Holds for"), holder_words(line, self._types)),
            (say("Quantity"), quantity_words(line, self._quantities)),
            (say("Limit"), limit_words(line, self._quantities)),
            (say("Source"), say(line.source)),
            (say("A final reading outside"), say("holds the job") if line.must else say("needs a reason")),
            (say("no longer used"), say("yes") if line.retired else say("no")),
        )

    def changed(self) -> None:
        """Show the fields that belong to what was chosen, and each end as it was read."""
        of_type = self.holder.value() == TYPE
        for field, there in ((self.type, of_type), (self.maker, not of_type), (self.model, not of_type)):
            set_shown(field, there)
        quantity = self._quantities.get(self.quantity.value() or "")
        of_label = self.quantity.value() in LABELLED
        set_shown(self.label, of_label)
        set_shown(self.earlier, not (of_label and self.label.isChecked()))
        set_shown(self.detail, quantity is not None and quantity.asks_name)
        unit = "" if quantity is None else "%" if self._relative else quantity.unit.shown
        usual = (
            ""
            if quantity is None or not quantity.usual
            else say("Usual: {window}.", window=say(quantity.usual))
        )
        told = say("In {unit}.", unit=unit) if unit else ""
        self._unit.setText(f"{told} {usual}".strip())
        for end in (self.low, self.high):
            read = None if self._relative else self._read(end.text())
            end.set_error(say(read) if isinstance(read, Sentence) else "")
            end.set_echo(say(read.echo) if isinstance(read, TypedValue) else "")
