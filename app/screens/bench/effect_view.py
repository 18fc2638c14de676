"""What a changed resistor does: the circuit, the law, the effect in a table, its spread and what it raises."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.bench.sheet_section import indented
from app.screens.kit.boxes import Column as Lines
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Column, Row, Words
from app.screens.kit.circuit import CircuitDrawing, CircuitFacts
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.gauges import RatioFacts, ratio, ratio_scale
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.language import number, say
from app.trade.bench.effects import ResistorEffect
from app.trade.bench.figures import rounded, significant
from app.trade.bench.flag import FlagRaised
from app.trade.bench.modification_words import ohms, volts
from app.trade.bench.modifications import COIL_CIRCUITS, RESISTOR_KINDS, Circuit, Kind, Law
from app.trade.bench.thresholds import Thresholds
from app.trade.sentence import Measure

WAYS = {Kind.PARALLEL: "parallel", Kind.SERIES: "series", Kind.REPLACED: "replaced"}


class EffectView(QWidget):
    """Beside the fields while they are typed, and alone for what is recorded."""

    def __init__(self) -> None:
        super().__init__()
        self.circuit = CircuitDrawing(CircuitFacts("other", "", "", ""))
        self.law = Label("", "soft", wrap=True)
        columns = (
            Column("what", say("What it does"), least=136),
            Column("maker", say("As made"), 86),
            Column("now", say("Now"), 92),
            Column("ratio", say("Ratio"), 68, right=True),
            Column("rule", "", 112, header=ratio_scale),
        )
        self.table = SmallTable(say("What the modification does"), columns)
        self.spread = Label("", wrap=True)
        self.besides = Label("", "soft", wrap=True)
        self.flags = FlagBar(say("What it raises"))
        self._circuit_line = indented(self.circuit, stretch=True)
        self._law_line = indented(self.law)
        self._spread_line = indented(self.spread)
        self._besides_line = indented(self.besides)
        self._flags_line = indented(self.flags)
        column = Lines(self, gap=6)
        column.add(self._circuit_line, self._law_line, self.table, self._spread_line, self._besides_line)
        column.add(self._flags_line)
        self.show_besides("")
        column.addStretch(1)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def show_circuit(
        self, kind: Kind, where: str, maker: Decimal | None, new: Decimal | None, was: str = "", now: str = ""
    ) -> None:
        """Draw the part changed, with what is known of it."""
        shown = volts if kind is Kind.SUPPLY else ohms
        old = say("{value}", value=shown(maker)) if maker is not None else was or "?"
        fresh = say("{value}", value=shown(new)) if new is not None else now or "?"
        way = "replaced" if kind is Kind.SUPPLY and maker is not None else WAYS.get(kind, "other")
        drawn = kind in RESISTOR_KINDS or kind is Kind.SUPPLY
        self.circuit.set_facts(CircuitFacts(way if drawn else "other", where, old, fresh))
        set_shown(self._circuit_line, drawn and (maker is not None or new is not None))

    def show_law(self, words: str) -> None:
        """The law that the numbers follow, before any number."""
        self.law.setText(words)
        set_shown(self._law_line, bool(words))

    def show_effect(
        self,
        effect: ResistorEffect | None,
        circuit: Circuit,
        thresholds: Thresholds,
        coil: Decimal | None = None,
    ) -> None:
        """The table; nothing where the numbers are not there. ``coil``: heat in the coil as made, in watt."""
        self.table.set_rows(effect_rows(effect, circuit, thresholds, coil) if effect is not None else [])
        set_shown(self.table, effect is not None)
        words = spread_words(effect) if effect is not None else ""
        self.spread.setText(words)
        set_shown(self._spread_line, bool(words))

    def show_besides(self, words: str) -> None:
        """What it does besides, a line for each."""
        self.besides.setText(words)
        set_shown(self._besides_line, bool(words))

    def show_flags(self, raised: Sequence[FlagRaised]) -> None:
        """What the rules would raise, with what clears it."""
        flags = [FlagFacts(f.level.value, say(f.word), say(f.sentence), say(f.clears)) for f in raised]
        self.flags.set_flags(flags)
        set_shown(self._flags_line, bool(flags))


def effect_rows(
    effect: ResistorEffect, circuit: Circuit, thresholds: Thresholds, power: Decimal | None = None
) -> list[Row]:
    """Resistance, then current or gain under the law, loop gain, and the coil's heat as power."""
    maker, now = ohms(effect.maker), ohms(significant(effect.now, 4).normalize())
    rows = [_row("resistance", say("resistance"), maker, now, effect.resistance, None)]
    if effect.effect is None:
        return rows
    k, heat = effect.effect.ratio, effect.effect.heat
    coil = circuit in COIL_CIRCUITS
    caution = thresholds.coil_up if coil else None
    percent = Measure(rounded(k * 100, 1), "%")
    whole = Measure(Decimal(100), "%")
    gain = Measure(rounded(effect.effect.gain_db, 2), "dB", signed=True)
    if effect.law is Law.CURRENT:
        word = say("coil current") if coil else say("current")
        rows.append(_row("current", word, whole, percent, k, caution))
    rows.append(_row("gain", say("loop gain"), Measure(Decimal(0), "dB"), gain, k, None))
    if heat is not None and coil:
        warmer = Measure(rounded(heat * 100, 1), "%")
        if power is not None:
            whole = Measure(significant(power * 1000, 3), "mW")
            warmer = Measure(significant(power * heat * 1000, 3), "mW")
        over = None if caution is None else caution * caution
        rows.append(_row("heat", say("coil heat (power)"), whole, warmer, heat, over))
    return rows


def _row(key: str, word: str, maker: Measure, now: Measure, by: Decimal, caution: Decimal | None) -> Row:
    facts = RatioFacts(float(by), None if caution is None else float(caution))
    shown = f"×{number(rounded(by, 3))}"
    ink = "caution" if facts.warns else ""
    return Row(
        key,
        (
            Words(word),
            Words(number(maker.value, signed=maker.signed), maker.unit),
            Words(number(now.value, signed=now.signed), now.unit, strong=True),
            Words(shown, strong=facts.warns, ink=ink, right=True),
            ratio(facts, shown),
        ),
    )


def spread_words(effect: ResistorEffect) -> str:
    """How far the ratio may lie off by the tolerances: worst case, and likely."""
    spread = effect.ratio_spread
    if spread is None:
        return ""
    ends = [
        number(rounded(end, 3)) for end in (spread.low, spread.high, spread.likely_low, spread.likely_high)
    ]
    return say(
        "Spread by the tolerances: worst case ×{low} to ×{high}, likely ×{likely_low} to ×{likely_high}.",
        low=ends[0],
        high=ends[1],
        likely_low=ends[2],
        likely_high=ends[3],
    )
