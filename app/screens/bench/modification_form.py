"""A modification as it is entered: what, where, by which law, with its numbers; the effect is shown meanwhile."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QBoxLayout, QWidget

from app.screens.bench.effect_figures import EffectFigures
from app.screens.bench.effect_view import EffectView
from app.screens.bench.inline_form import Deed, InlineForm, beside, told
from app.screens.kit.boxes import set_shown
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.measure import px
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.trade.bench import part_entries
from app.trade.bench.effects import law_sentence
from app.trade.bench.heat import added_part_load, coil_power
from app.trade.bench.modification_entry import fields_refused
from app.trade.bench.modifications import COIL_CIRCUITS, RESISTOR_KINDS, SETTINGS, Circuit, Kind, Law
from app.trade.bench.typed_value import Entry, parse_value, read_value
from app.trade.bench.usual_modifications import usual_of
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Measure, Sentence
from app.work.bench.modification_preview import preview
from app.work.bench.modifications import ModificationEntry, effect_of, record_modification
from app.work.bench.sheet_lines import TrialTile

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

IN_WORDS = SETTINGS | {
    Kind.OTHER_TYPE,
    Kind.MECHANICAL,
    Kind.WIRING,
    Kind.FUSE,
    Kind.INTERLOCK,
    Kind.OTHER,
}
HINTS = {
    Kind.FIRMWARE: (Sentence("version as made"), Sentence("version it runs now")),
    Kind.TRIMMER: (Sentence("where it stood, if marked"), Sentence("where it stands now")),
    Kind.JUMPER: (Sentence("position as made"), Sentence("position now")),
}
USUAL_HINTS = (Sentence("what the maker fitted"), Sentence("what is in there now"))
LOAD = frozenset({"rating", "current_before", "coil_resistance"})
HOME = {Kind.FUSE: Circuit.FUSE, Kind.INTERLOCK: Circuit.INTERLOCK, Kind.SUPPLY: Circuit.SUPPLY_RAIL}


class ModificationForm(InlineForm):
    """Fields echo what was read; circuit, effect and flags beside them change with every key."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Record the modification"))
        self.page = page
        self.hidden_values = {"trial": 0}
        self._make_fields()
        self.effect = EffectView()
        self._column.removeWidget(self.form)
        both = QWidget()
        self._across = QBoxLayout(QBoxLayout.Direction.LeftToRight, both)
        self._across.setContentsMargins(0, 0, 0, 0)
        self._across.setSpacing(px(18))
        self._across.addWidget(self.form, 5)
        self._across.addWidget(self.effect, 4)
        self._column.insertWidget(0, both)
        self.set_narrow(page.narrow)
        self.changed()

    def _tolerance(self, field: Field) -> tuple[QWidget, ...]:
        """A tolerance with its signs; nothing of it stands beside a voltage."""
        whole = (beside("body"), field, beside("body"))
        whole[0].setText("±")
        whole[2].setText("%")
        self._tolerances += whole
        return whole

    def _make_fields(self) -> None:
        self._tolerances: list[QWidget] = []
        add, form = self.add, self.form
        kinds = [(kind, say(kind.value)) for kind in Kind]
        circuits = [(circuit, say(circuit.value)) for circuit in Circuit]
        self.kind = add("kind", Combo("", kinds, Kind.REPLACED, width=180))
        self.circuit = add("circuit", Combo("", circuits, width=180))
        form.row(say("What was done"), self.kind, say("in"), self.circuit)
        self.where = add("where", Field("", width=110, hint="R314"))
        self.ours = add(
            "ours", Choice("", [("ours", say("ours")), ("found", say("found, not ours"))], "ours", gap=14)
        )
        form.row(say("Where"), self.where, 4, self.ours)
        laws = [
            (Law.CURRENT, say("the current goes as 1 / R")),
            (Law.GAIN, say("the gain goes as R")),
            (Law.NEITHER, say("neither: readings decide")),
        ]
        self.law = add("law", Choice("", laws, gap=14))
        self.law_row = [form.row(say("Law"), self.law)]
        self.maker = add("maker_value", Field("", width=84))
        self.maker_tolerance = add("maker_tolerance", Field(say("Tolerance of the part as made"), width=44))
        self.new = add("new_value", Field("", width=84))
        self.new_tolerance = add("new_tolerance", Field(say("Tolerance of the new part"), width=44))
        self.value_rows = [
            form.row(say("Part as made"), self.maker, *self._tolerance(self.maker_tolerance)),
            form.row(say("Added or fitted"), self.new, *self._tolerance(self.new_tolerance)),
        ]
        self.rating = add("rating", Field("", width=70))
        self.current = add("current_before", Field("", width=70))
        self.coil = add("coil_resistance", Field("", width=70))
        self.load_note = told()
        self.coil_row = [form.row(say("Coil"), self.coil)]
        self.load_rows = [
            form.row(say("Rating"), self.rating, say("current as made"), self.current),
            form.row("", self.load_note),
        ]
        self.figures = EffectFigures(self, self.page.lists.quantities)
        self.was = add("was", Field("", hint=say(USUAL_HINTS[0])))
        self.now_field = add("now", Field("", hint=say(USUAL_HINTS[1])))
        self.word_rows = [form.row(say("Was"), self.was), form.row(say("Now"), self.now_field)]
        self.read_before = add("reading_before", Tick(say("read before it was turned")))
        self.trimmer_row = [form.row("", self.read_before)]
        self.protects = add("safety_part", Tick(say("the part protects people")))
        self.inside = add("in_transport", Tick(say("inside the transport: leaves with it")))
        form.row("", self.protects, 6, self.inside)
        self.why = add("why", Field(""))
        form.row(say("Why"), self.why)
        self.way_back = add("way_back", Field("", hint=say("only where it is not plain from the numbers")))
        form.row(say("Way back"), self.way_back)

    def begin(self, trial: TrialTile) -> None:
        """Record what this trial left inside: what the trial says already stands in the fields. A draft is kept."""
        draft = self.hidden_values["trial"] == trial.id
        self.hidden_values["trial"] = trial.id
        if not draft:
            self._filling = True
            usual = usual_of(trial.change)
            if usual is not None:
                self.kind.set_value(usual.kind)
                self.circuit.set_value(usual.circuit)
            if self.kind.value() in IN_WORDS:
                self.now_field.set_text(trial.words)
            if trial.reference:
                self.where.set_text(trial.reference)
            self.read_before.setChecked(any(read.before is not None for read in trial.readings))
            self._filling = False
        self.changed()

    def set_narrow(self, narrow: bool) -> None:
        """Fields above the effect, or beside it."""
        way = QBoxLayout.Direction.TopToBottom if narrow else QBoxLayout.Direction.LeftToRight
        self._across.setDirection(way)

    # what is typed

    def _entries(self) -> dict[str, tuple[Field, Entry]]:
        value = part_entries.VOLTAGE if self.kind.value() is Kind.SUPPLY else part_entries.RESISTANCE
        return {
            "maker_value": (self.maker, value),
            "new_value": (self.new, value),
            "maker_tolerance": (self.maker_tolerance, part_entries.TOLERANCE),
            "new_tolerance": (self.new_tolerance, part_entries.TOLERANCE),
            "rating": (self.rating, part_entries.RATING),
            "current_before": (self.current, part_entries.CURRENT),
            "coil_resistance": (self.coil, part_entries.COIL_RESISTANCE),
        }

    def _used(self) -> frozenset[str]:
        """What the kind, the law and the circuit have a use for; the rest stays typed, but is not kept."""
        kind, law = self.kind.value(), self.law.value()
        used = set(self._entries()) - LOAD if kind in RESISTOR_KINDS else set()
        if kind in RESISTOR_KINDS and law is not Law.GAIN and self.circuit.value() in COIL_CIRCUITS:
            used |= LOAD if law is Law.CURRENT else {"coil_resistance"} if law is not None else set()
        return frozenset(used or ({"maker_value", "new_value"} if kind is Kind.SUPPLY else ()))

    def entry(self, *, strict: bool) -> ModificationEntry:
        """The modification as entered. ``strict``: what cannot be read raises FieldRefusal, else it is left out."""
        numbers: dict[str, Decimal | None] = {}
        wrong: dict[str, Sentence] = {}
        for name, (field, how) in self._entries().items():
            if name not in self._used() or not field.text():
                continue
            try:
                read = parse_value(field.text(), how, name)
            except FieldRefusal as refusal:
                wrong.update(refusal.fields)
                continue
            percent = name.endswith("tolerance")
            numbers[name] = read.shown if percent else read.value
        kind = Kind(self.kind.value() or Kind.OTHER)
        if self.circuit.value() is None:
            wrong["circuit"] = Sentence("Say in which circuit.")
        if kind in RESISTOR_KINDS and self.law.value() is None:
            wrong["law"] = Sentence("Say first which law the circuit obeys.")
        if strict and wrong:
            raise FieldRefusal(wrong)
        law = Law(self.law.value() or Law.NEITHER) if kind in RESISTOR_KINDS else Law.NEITHER
        was, now, trimmer = self.was.text(), self.now_field.text(), self.figures.trimmer
        if kind is Kind.TRIMMER:
            was, now = (
                "; ".join(part for part in pair if part)
                for pair in zip((was, now), trimmer.words, strict=True)
            )
        entry = ModificationEntry(
            kind=kind,
            circuit=Circuit(self.circuit.value() or Circuit.OTHER),
            where=self.where.text(),
            law=law,
            ours=self.ours.value() != "found",
            in_transport=self.inside.isChecked(),
            was=was if kind in IN_WORDS | {Kind.TRIMMER} else "",
            now=now if kind in IN_WORDS | {Kind.TRIMMER} else "",
            reading_before=kind is Kind.TRIMMER and (self.read_before.isChecked() or trimmer.read_before),
            safety_part=self.protects.isChecked(),
            why=self.why.text(),
            way_back=self.way_back.text(),
            trial_id=self.hidden_values["trial"] or None,
            **numbers,
        )
        return _with_power(entry)

    def changed(self) -> None:
        kind = self.kind.value()
        if kind in HOME and self.circuit.value() is not HOME[kind]:
            self._filling = True
            self.circuit.set_value(HOME[kind])
            self._filling = False
        form = self.form
        form.show_rows(self.law_row, kind in RESISTOR_KINDS)
        form.show_rows(self.value_rows, kind in RESISTOR_KINDS or kind is Kind.SUPPLY)
        used = self._used()
        form.show_rows(self.coil_row, "coil_resistance" in used)
        form.show_rows(self.load_rows[:1], "rating" in used)
        form.show_rows(self.word_rows, kind in IN_WORDS or kind is Kind.TRIMMER)
        form.show_rows(self.trimmer_row, kind is Kind.TRIMMER)
        for field, hint in zip((self.was, self.now_field), HINTS.get(kind, USUAL_HINTS), strict=True):
            field.edit.setPlaceholderText(say(hint))
        for widget in self._tolerances:
            set_shown(widget, kind in RESISTOR_KINDS)
        self._echo()
        entry = self.entry(strict=False)
        self._show_load(entry)
        self.figures.show(entry, self.law.value() if kind in RESISTOR_KINDS else None, self.page.facts)
        self.effect.show_besides(self.figures.words)
        self._show_effect(entry)

    def _echo(self) -> None:
        for name, (field, how) in self._entries().items():
            if name.endswith("tolerance"):
                continue
            read = read_value(field.text(), how) if field.text() else None
            field.set_error("")
            field.set_echo("" if read is None or isinstance(read, Sentence) else say(read.echo))

    def _show_load(self, entry: ModificationEntry) -> None:
        words = ""
        if entry.power is not None and entry.rating is not None:
            load = Measure((entry.power / entry.rating * 100).quantize(Decimal("0.1")), "%")
            words = say("It takes {percent} of its rating.", percent=load)
        self.load_note.setText(words)
        self.form.show_rows(self.load_rows[1:], bool(words))

    def _show_effect(self, entry: ModificationEntry) -> None:
        view, thresholds = self.effect, self.page.lists.thresholds
        view.show_circuit(entry.kind, entry.where, entry.maker_value, entry.new_value, entry.was, entry.now)
        law = ""
        if entry.kind in RESISTOR_KINDS and self.law.value() is not None:
            law = say(law_sentence(entry.law, entry.where or "R"))
        view.show_law(f"{law[:1].upper()}{law[1:]}." if law else "")
        coil = None
        if entry.current_before and entry.coil_resistance:
            coil = coil_power(entry.current_before, entry.coil_resistance)
        view.show_effect(effect_of(entry) if law else None, entry.circuit, thresholds, coil)
        if not entry.where and entry.maker_value is None and not entry.now:
            view.show_flags(())
            return
        found = preview(self.page.facts, entry, thresholds, self.desk.now())
        view.show_flags(found.flags)
        if found.circuit is not None and len(found.circuit.modifications) > 1 and found.circuit.k is not None:
            together = say(
                "With what is in {circuit} already: ×{k} in all.",
                circuit=say(entry.circuit.value),
                k=found.circuit.k.quantize(Decimal("0.001")),
            )
            view.show_law(f"{view.law.text()} {together}")

    def deed(self, who: int) -> Deed:
        entry = self.entry(strict=True)
        if wrong := fields_refused(entry.fact(self.desk.now())):
            raise FieldRefusal(wrong)
        return partial(record_modification, self.desk.book, who, self.page.job_id, entry)

    def fill(self, values: Mapping[str, Any]) -> None:
        super().fill(values)
        self.changed()


def _with_power(entry: ModificationEntry) -> ModificationEntry:
    """Power in the added part, worked out where the current as made is known: law `CURRENT` keeps the voltage."""
    if entry.kind not in RESISTOR_KINDS or entry.law is not Law.CURRENT or entry.circuit not in COIL_CIRCUITS:
        return entry
    if not (entry.maker_value and entry.new_value and entry.rating and entry.current_before):
        return entry
    load = added_part_load(entry.current_before, entry.maker_value, entry.new_value, entry.rating, entry.kind)
    return replace(entry, power=load.power)
