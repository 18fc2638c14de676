"""What changed resistors in one circuit do, worked out from the numbers against the maker's value.

The law that the circuit obeys is stated before any ratio is shown. Formulas: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

from app.trade.bench.figures import as_decimal, rounded
from app.trade.bench.modifications import RESISTOR_KINDS, Kind, Law
from app.trade.bench.tolerance import Spread, spread
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Measure, Sentence, Value


@dataclass(frozen=True)
class Part:
    """A resistor: ohm, and its tolerance in per cent where known."""

    ohms: Decimal
    tolerance: Decimal | None = None


@dataclass(frozen=True)
class Change:
    """One change of the resistor; several stay together and act on each other in the order given."""

    kind: Kind
    part: Part

    def __post_init__(self) -> None:
        if self.kind not in RESISTOR_KINDS:
            raise ValueError(f"{self.kind} is no change of a resistor")


@dataclass(frozen=True)
class RatioEffect:
    """A ratio k of current or gain: 20 lg k in dB, and k squared as ratio of heat in the coil (power, not
    temperature) where the ratio is one of current."""

    law: Law
    ratio: Decimal
    gain_db: Decimal
    heat: Decimal | None

    @property
    def summary(self) -> Sentence:
        """The effect in one line."""
        values: dict[str, Value] = {
            "k": rounded(self.ratio, 3),
            "db": Measure(rounded(self.gain_db, 2), "dB", signed=True),
        }
        if self.heat is None:
            return Sentence("Gain ×{k}, loop gain {db}", values)
        return Sentence(
            "Current ×{k}, loop gain {db}, coil heat ×{heat}",
            {**values, "heat": rounded(self.heat, 3)},
        )


@dataclass(frozen=True)
class ResistorEffect:
    """All changes of one resistor together, against the maker's value.

    ``maker`` and ``now`` in ohm; ``resistance`` is now / maker. ``effect`` and ``ratio_spread`` are None where
    neither law holds; the spreads are None while a tolerance is not known. ``steps`` are the ratios that each
    change adds to the one before, whose product is the whole (of resistance where neither law holds).
    """

    law: Law
    maker: Decimal
    now: Decimal
    resistance: Decimal
    steps: tuple[Decimal, ...]
    effect: RatioEffect | None
    spread: Spread | None
    ratio_spread: Spread | None

    @property
    def ratio(self) -> Decimal | None:
        """k against the maker's value, None where neither law holds."""
        return None if self.effect is None else self.effect.ratio

    @property
    def summary(self) -> Sentence:
        """The effect in one line; without a law, that readings decide."""
        if self.effect is None:
            return Sentence("No law holds here: readings before and after decide.")
        return self.effect.summary


def law_sentence(law: Law, reference: str) -> Sentence:
    """The law in words, for the resistor with this reference designator, to stand before any number."""
    if law is Law.CURRENT:
        return Sentence("the current goes as 1 / {reference}", {"reference": reference})
    if law is Law.GAIN:
        return Sentence("the gain goes as {reference}", {"reference": reference})
    return Sentence("no law holds for {reference}: readings decide", {"reference": reference})


def ratio_effect(law: Law, ratio: Decimal) -> RatioEffect:
    """Effect of a known ratio k > 0 under law `CURRENT` or `GAIN`."""
    if law is Law.NEITHER:
        raise ValueError("where neither law holds there is no ratio")
    _positive("ratio", ratio)
    heat = ratio * ratio if law is Law.CURRENT else None
    return RatioEffect(law, ratio, 20 * ratio.log10(), heat)


def stacked(law: Law, ratios: Sequence[Decimal]) -> RatioEffect:
    """All live changes of one circuit together: k is the product of their ratios, each against the maker's
    value of its own resistor. The second step may look small and still cross a line: judge the total."""
    product = Fraction(1)
    for ratio in ratios:
        product *= Fraction(ratio)
    return ratio_effect(law, as_decimal(product))


def resistor_effect(law: Law, maker: Part, changes: Sequence[Change]) -> ResistorEffect:
    """Effect of all live changes on one resistor: the last replacement is the base, then parallel and series
    parts act in the order given. Parallel: R R1/(R + R1). Values above 0 ohm, else FieldRefusal."""
    _positive("maker", maker.ohms)
    for change in changes:
        _positive("part", change.part.ohms)
    parts = [maker, *(change.part for change in changes)]
    values = [Fraction(part.ohms) for part in parts]
    kinds = [change.kind for change in changes]
    now = _network(values, kinds)
    steps = _steps(law, values, kinds)
    ratio = _ratio(law, values[0], now)
    tolerances = [part.tolerance for part in parts]
    known = [tolerance for tolerance in tolerances if tolerance is not None]
    whole = len(known) == len(parts)
    return ResistorEffect(
        law=law,
        maker=maker.ohms,
        now=as_decimal(now),
        resistance=as_decimal(now / values[0]),
        steps=tuple(as_decimal(step) for step in steps),
        effect=None if ratio is None else ratio_effect(law, as_decimal(ratio)),
        spread=_spread_now(values, kinds, known) if whole else None,
        ratio_spread=_spread_ratio(law, values, kinds, known) if whole else None,
    )


def parallel(law: Law, maker: Part, added: Part) -> ResistorEffect:
    """One resistor across the maker's."""
    return resistor_effect(law, maker, [Change(Kind.PARALLEL, added)])


def replaced(law: Law, maker: Part, new: Part) -> ResistorEffect:
    """Another value in place of the maker's."""
    return resistor_effect(law, maker, [Change(Kind.REPLACED, new)])


def series(law: Law, maker: Part, added: Part) -> ResistorEffect:
    """One resistor in series with the maker's."""
    return resistor_effect(law, maker, [Change(Kind.SERIES, added)])


def current_shares(first: Decimal, second: Decimal) -> tuple[Decimal, Decimal]:
    """Shares (0..1) of the current in two resistors in parallel, ohm."""
    _positive("maker", first)
    _positive("part", second)
    whole = Fraction(first) + Fraction(second)
    return as_decimal(Fraction(second) / whole), as_decimal(Fraction(first) / whole)


def voltage_driven_ratio(maker: Decimal, now: Decimal, coil: Decimal) -> Decimal:
    """What a resistor in series with a voltage-driven coil really does to the current, I = V/(R + R_coil): shown
    only to explain why law `CURRENT` does not hold there. All in ohm."""
    return as_decimal((Fraction(maker) + Fraction(coil)) / (Fraction(now) + Fraction(coil)))


def non_inverting_ratio(maker: Decimal, now: Decimal, to_ground: Decimal) -> Decimal:
    """Ratio of gain of a non-inverting stage, 1 + R_f/R_g, whose R_f went from ``maker`` to ``now``, ohm."""
    return as_decimal((1 + Fraction(now) / Fraction(to_ground)) / (1 + Fraction(maker) / Fraction(to_ground)))


def _positive(field: str, value: Decimal) -> None:
    if not value.is_finite() or value <= 0:
        raise FieldRefusal({field: Sentence("This has to be more than 0.")})


def _network(values: Sequence[Fraction], kinds: Sequence[Kind]) -> Fraction:
    """Resistance of the whole: ``values`` holds the maker's part and then one part for each kind of change."""
    resistance = values[_base(kinds)]
    for kind, value in zip(kinds, values[1:], strict=True):
        if kind is Kind.PARALLEL:
            resistance = resistance * value / (resistance + value)
        elif kind is Kind.SERIES:
            resistance = resistance + value
    return resistance


def _base(kinds: Sequence[Kind]) -> int:
    """Index of the part that stands in the maker's place: the last replacement, else the maker's own."""
    return max((i for i, kind in enumerate(kinds, start=1) if kind is Kind.REPLACED), default=0)


def _steps(law: Law, values: Sequence[Fraction], kinds: Sequence[Kind]) -> list[Fraction]:
    totals = [_network(values[: n + 1], kinds[:n]) for n in range(len(values))]
    return [_ratio(law, before, after) or after / before for before, after in pairwise(totals)]


def _ratio(law: Law, maker: Fraction, now: Fraction) -> Fraction | None:
    if law is Law.NEITHER:
        return None
    return maker / now if law is Law.CURRENT else now / maker


def _shares(values: Sequence[Fraction], kinds: Sequence[Kind]) -> list[Fraction]:
    """Relative sensitivity of the whole to each part: parallel P/(R + P) and R/(R + P), series R/(R + P) and
    P/(R + P), chained. A part that is out of the circuit has none."""
    shares = [Fraction(0)] * len(values)
    base = _base(kinds)
    shares[base] = Fraction(1)
    resistance = values[base]
    for i, (kind, value) in enumerate(zip(kinds, values[1:], strict=True), start=1):
        if kind is Kind.REPLACED:
            continue
        old, new = value / (resistance + value), resistance / (resistance + value)
        if kind is Kind.SERIES:
            old, new = new, old
            resistance = resistance + value
        else:
            resistance = resistance * value / (resistance + value)
        shares = [share * old for share in shares]
        shares[i] = new
    return shares


def _at_ends(values: Sequence[Fraction], percents: Sequence[Decimal], up: Sequence[bool]) -> list[Fraction]:
    return [
        value * (1 + (1 if high else -1) * Fraction(percent) / 100)
        for value, percent, high in zip(values, percents, up, strict=True)
    ]


def _spread_now(values: Sequence[Fraction], kinds: Sequence[Kind], percents: Sequence[Decimal]) -> Spread:
    # The whole rises with every part, so its worst corners are all low and all high.
    ends = [_network(_at_ends(values, percents, [up] * len(values)), kinds) for up in (False, True)]
    return spread(_network(values, kinds), _shares(values, kinds), percents, (ends[0], ends[1]))


def _spread_ratio(
    law: Law, values: Sequence[Fraction], kinds: Sequence[Kind], percents: Sequence[Decimal]
) -> Spread | None:
    ratio = _ratio(law, values[0], _network(values, kinds))
    if ratio is None:
        return None
    # ln(maker/now): the maker's own part counts once above and, where it is still in, once below. Its own
    # share never outweighs that, so the ratio rises with it and falls with every other part.
    shares = [-share for share in _shares(values, kinds)]
    shares[0] += 1
    ends = []
    for up in (False, True):
        corner = _at_ends(values, percents, [up, *[not up] * len(kinds)])
        end = _ratio(law, corner[0], _network(corner, kinds))
        assert end is not None
        ends.append(end)
    return spread(ratio, shares, percents, (ends[0], ends[1]))
