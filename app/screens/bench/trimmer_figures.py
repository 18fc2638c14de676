"""What was read before and after a trimmer was turned, typed where no trial holds the two readings."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from app.screens.bench.inline_form import InlineForm
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.bench import effect_sheet
from app.trade.bench.modifications import Circuit, Kind
from app.trade.bench.quantities import Quantity
from app.trade.bench.typed_value import TypedValue, read_value
from app.trade.sentence import Measure, Sentence
from app.work.bench.modifications import ModificationEntry

LASER = "laser_current"


class TrimmerFigures:
    """Two fields in the unit of the quantity chosen; the words of `was` and `now` come from them."""

    def __init__(self, form: InlineForm, quantities: Sequence[Quantity]) -> None:
        self._form = form
        self._known = {quantity.id: quantity for quantity in quantities}
        named = [(quantity.id, say(quantity.name)) for quantity in quantities]
        first = LASER if LASER in self._known else None
        self.quantity = form.add("trimmer_quantity", Combo(say("What was read"), named, first, width=180))
        self.before = form.add("trimmer_before", Field("", width=84))
        self.after = form.add("trimmer_after", Field("", width=84))
        self._rows = [
            form.form.row(say("What was read"), self.quantity),
            form.form.row(say("Before"), self.before, say("after"), self.after),
        ]

    @property
    def read_before(self) -> bool:
        """A reading before it was turned stands there."""
        return self._read(self.before) is not None

    @property
    def words(self) -> tuple[str, str]:
        """Both readings as they are kept; figures with units are the same in every language."""
        return self._kept(self.before), self._kept(self.after)

    def show(self, entry: ModificationEntry) -> None:
        """Only for a trimmer."""
        self._form.form.show_rows(self._rows, entry.kind is Kind.TRIMMER)
        for field in (self.before, self.after):
            read = self._read(field)
            field.set_echo("" if read is None else say(read.echo))

    def sentences(self, entry: ModificationEntry, label: Measure | None) -> list[Sentence]:
        """The difference, the share of the laser's label, and why no law is shown."""
        law = effect_sheet.trimmer_law_words(laser=entry.circuit is Circuit.LASER_SUPPLY)
        before, after = self._read(self.before), self._read(self.after)
        quantity = self._known.get(self.quantity.value() or "")
        if before is None or after is None or quantity is None:
            return [law]
        u = [self._uncertainty(quantity, read) for read in (before, after)]
        values = [Measure(read.shown or Decimal(0), read.unit.shown) for read in (before, after)]
        said = [effect_sheet.trimmer_words(quantity.name, values[0], u[0], values[1], u[1])]
        if quantity.id == LASER and label is not None:
            said.append(effect_sheet.label_words(label, values[0], values[1], u[1]))
        return [*said, law]

    def _read(self, field: Field) -> TypedValue | None:
        quantity = self._known.get(self.quantity.value() or "")
        if quantity is None or not field.text():
            return None
        read = read_value(field.text(), quantity.entry)
        return None if isinstance(read, Sentence) or read.shown is None else read

    def _kept(self, field: Field) -> str:
        read = self._read(field)
        return "" if read is None else f"{read.shown:f}\u00a0{read.unit.shown}"

    @staticmethod
    def _uncertainty(quantity: Quantity, read: TypedValue) -> Decimal:
        assert read.value is not None
        return read.unit.to_shown(quantity.uncertainty([read.value]).u)
