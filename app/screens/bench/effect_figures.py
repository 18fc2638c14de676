"""Figures that an effect sheet works with and the book does not keep: supply, wanted ratio, shim, spring."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from app.screens.bench.inline_form import InlineForm
from app.screens.bench.trimmer_figures import TrimmerFigures
from app.screens.bench.typed_numbers import read_number
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.bench import effect_sheet, part_entries
from app.trade.bench.modifications import COIL_CIRCUITS, RESISTOR_KINDS, SETTINGS, Circuit, Kind, Law
from app.trade.bench.quantities import Quantity
from app.trade.bench.typed_value import Entry, read_value
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Measure, Sentence
from app.work.bench.job_sheet import JobSheet
from app.work.bench.modifications import ModificationEntry, effect_of
from app.work.bench.sheet_lines import ReadingLine

LAWLESS = SETTINGS | {Kind.OTHER_TYPE, Kind.OTHER, Kind.WIRING}
GAINS = frozenset({Circuit.SERVO_GAIN, Circuit.SIGNAL})


class EffectFigures:
    """Rows of the modification form; ``words`` is what they give, a line each."""

    def __init__(self, form: InlineForm, quantities: Sequence[Quantity]) -> None:
        self._form = form
        self.words = ""
        add, lay = form.add, form.form
        self.supply = add("sheet_supply", Field("", width=70))
        self.wanted = add("sheet_wanted", Field("", width=60, hint="1.25"))
        self.to_ground = add("sheet_to_ground", Field("", width=70))
        self.output = add("sheet_output", Field("", width=70))
        self.load = add("sheet_load", Field("", width=70))
        self.lowest = add("sheet_lowest", Field("", width=70))
        self.thickness = add("sheet_thickness", Field("", width=60))
        self.distance = add("sheet_distance", Field("", width=60))
        self.rate = add("sheet_rate", Field("", width=60))
        self.travel = add("sheet_travel", Field("", width=60))
        self._driver = lay.row(say("Driver's supply"), self.supply, say("current wanted ×"), self.wanted)
        self._stage = lay.row(say("If non-inverting"), self.to_ground, say("to ground"))
        self._regulator = lay.row(say("Regulator behind it"), self.output, say("at"), self.load)
        self._lowest = lay.row(say("Lowest capacitor rating"), self.lowest, say("of those on this rail"))
        self.on_it = add("sheet_on_it", Field("", width=70))
        self.rated = add("sheet_rated", Field("", width=70))
        self._rated = lay.row(say("If a capacitor"), self.on_it, say("on it, rated for"), self.rated)
        self.trimmer = TrimmerFigures(form, quantities)
        self._shim = lay.row(say("Shim"), self.thickness, say("mm, from the pivot"), self.distance, "mm")
        self._spring = lay.row(say("Spring"), self.rate, say("N/mm, pressed"), self.travel, "mm")

    def show(self, entry: ModificationEntry, law: Law | None, sheet: JobSheet) -> None:
        """Show the fields that this kind of change can use, and what they give."""
        resistor = entry.kind in RESISTOR_KINDS
        coil = resistor and law is Law.CURRENT and entry.circuit in COIL_CIRCUITS
        for rows, there in (
            (self._driver, coil),
            (self._stage, resistor and law is Law.NEITHER and entry.circuit in GAINS),
            (self._regulator, entry.kind is Kind.SUPPLY),
            (self._lowest, entry.kind is Kind.SUPPLY),
            (self._rated, entry.kind is Kind.OTHER_TYPE),
            (self._shim, entry.kind is Kind.MECHANICAL),
            (self._spring, entry.kind is Kind.MECHANICAL),
        ):
            self._form.form.show_rows([rows], there)
        self.trimmer.show(entry)
        said = [say(sentence) for sentence in self._sentences(entry, law, sheet)]
        self.words = "\n".join(words if words.endswith(".") else f"{words}." for words in said)

    def _sentences(self, entry: ModificationEntry, law: Law | None, sheet: JobSheet) -> list[Sentence]:
        if entry.kind in RESISTOR_KINDS:
            return self._of_resistor(entry, law)
        if entry.kind is Kind.SUPPLY and entry.maker_value is not None and entry.new_value is not None:
            output, load = (
                self._read(self.output, part_entries.VOLTAGE),
                self._read(self.load, part_entries.CURRENT),
            )
            lowest = self._read(self.lowest, part_entries.VOLTAGE_RATING)
            return [*effect_sheet.supply_words(entry.maker_value, entry.new_value, output, load, lowest)]
        if entry.kind is Kind.TRIMMER:
            said = of_readings(sheet.readings, sheet, entry.trial_id)
            return [*said, *self.trimmer.sentences(entry, sheet.laser_label)]
        if entry.kind is Kind.MECHANICAL:
            return self._of_mechanics()
        if entry.kind in LAWLESS and entry.now:
            return [effect_sheet.lawless_words(), *self._of_capacitor(entry)]
        return []

    def _of_capacitor(self, entry: ModificationEntry) -> list[Sentence]:
        on_it = self._read(self.on_it, part_entries.VOLTAGE)
        rated = self._read(self.rated, part_entries.VOLTAGE_RATING)
        if entry.kind is not Kind.OTHER_TYPE or on_it is None or rated is None:
            return []
        return [effect_sheet.rating_words(on_it, rated)]

    def _of_resistor(self, entry: ModificationEntry, law: Law | None) -> list[Sentence]:
        maker, said = entry.maker_value, []
        if not maker:
            return []
        wanted = _number(self.wanted)
        if law is Law.CURRENT and wanted is not None and entry.circuit in COIL_CIRCUITS:
            said.append(effect_sheet.design_words(maker, wanted))
        effect = effect_of(entry)
        if effect is None:
            return said
        supply = self._read(self.supply, part_entries.VOLTAGE)
        coil, current, ground = (
            entry.coil_resistance,
            entry.current_before,
            self._read(self.to_ground, part_entries.RESISTANCE),
        )
        if law is Law.CURRENT and supply and current and coil and entry.circuit in COIL_CIRCUITS:
            said += effect_sheet.driver_words(supply, current, coil, maker, effect.now)
        elif law is Law.GAIN:
            said.append(effect_sheet.gain_words())
        elif law is Law.NEITHER and ground and entry.circuit in GAINS:
            said.append(effect_sheet.non_inverting_words(maker, effect.now, ground))
        elif law is Law.NEITHER and coil and entry.circuit in COIL_CIRCUITS:
            said.append(effect_sheet.voltage_driven_words(maker, effect.now, coil))
        return said

    def _of_mechanics(self) -> list[Sentence]:
        thickness, distance = _number(self.thickness), _number(self.distance)
        rate, travel = _number(self.rate), _number(self.travel)
        said = []
        if thickness and distance and distance > 0:
            said.append(effect_sheet.shim_words(thickness, distance))
        if rate and travel and thickness:
            said.append(effect_sheet.spring_words(rate, travel, thickness))
        return said

    def _read(self, field: Field, how: Entry) -> Decimal | None:
        read = read_value(field.text(), how) if field.text() else None
        field.set_echo("" if read is None or isinstance(read, Sentence) else say(read.echo))
        return None if read is None or isinstance(read, Sentence) else read.value


def of_readings(readings: tuple[ReadingLine, ...], sheet: JobSheet, trial_id: int | None) -> list[Sentence]:
    """What was read before and after the trial that turned a trimmer, quantity by quantity."""
    number = next((trial.number for trial in sheet.trials if trial.id == trial_id), None)
    if number is None:
        return []
    own = [r for r in readings if r.trial_number == number and r.struck is None and r.value is not None]
    said = []
    for after in (r for r in own if r.trial_side == "after"):
        before = next(
            (
                r
                for r in own
                if r.trial_side == "before"
                and (r.quantity, r.detail, r.unit) == (after.quantity, after.detail, after.unit)
            ),
            None,
        )
        if before is None or before.value is None or after.value is None:
            continue
        if before.uncertainty and after.uncertainty:
            said.append(
                effect_sheet.trimmer_words(
                    after.name,
                    Measure(before.value, before.unit),
                    before.uncertainty,
                    Measure(after.value, after.unit),
                    after.uncertainty,
                )
            )
    return said


def _number(field: Field) -> Decimal | None:
    try:
        return read_number(field.text(), "")
    except FieldRefusal:
        return None
