"""Quantities that are measured at the bench: what they are called, typed, shown, limited and trusted by."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

from app.trade.bench.bound import Bound
from app.trade.bench.data_record import Record, unique
from app.trade.bench.figures import rounded, trimmed
from app.trade.bench.kinds import Arrangement
from app.trade.bench.stages import MainsClass
from app.trade.bench.typed_value import Entry
from app.trade.bench.uncertainty import (
    Accuracy,
    Counted,
    Fixed,
    Model,
    Propagated,
    Repeatability,
    Uncertainty,
    reading_u,
    repeated_u,
)
from app.trade.bench.units import UNITS, Unit
from app.trade.bench.verdict import Limit
from app.trade.sentence import Measure, Sentence

MOST_REPEATS = 10  # values of one reading taken anew
HIGHEST_RUNG = 12


@dataclass(frozen=True)
class Window:
    """The usual window where it is a fixed one, as limit in SI, for one arrangement or both (None). A
    transport type's or unit model's own limit goes before it."""

    arrangement: Arrangement | None
    limit: Limit


@dataclass(frozen=True, kw_only=True)
class Quantity:
    """One quantity. ``low``, ``high`` (the range that refuses slips) and ``example`` are in the unit shown,
    windows and uncertainties in SI. ``needs``: rung to be reached before it can be read, 0 for none.
    ``inside``: reading it needs the case open. ``asks_name``: several of it in one player, so say which.
    ``repeats``: how many readings a careful one is the mean of. ``mains_classes``: of a safety reading."""

    id: str
    words: str
    unit: Unit
    decimals: int
    low: Decimal
    high: Decimal
    example: Decimal
    usual: str
    windows: tuple[Window, ...]
    instrument: str
    model: Model
    repeatability: Repeatability
    arrangement: Arrangement | None
    needs: int
    inside: bool
    high_means: str
    low_means: str
    caution: str
    more_than: bool = False
    open_circuit: bool = False
    asks_name: bool = False
    repeats: int = 1
    mains_classes: tuple[MainsClass, ...] = ()

    @cached_property
    def name(self) -> Sentence:
        """Its words."""
        return Sentence(self.words)

    def named(self, detail: str) -> Sentence:
        """Its words with what tells it from another of its kind: supply rail, +8 V."""
        if not detail:
            return self.name
        return Sentence("{quantity}, {detail}", {"quantity": self.name, "detail": detail})

    @property
    def entry(self) -> Entry:
        """What its field reads."""
        # What decides over safety is read as it stands, never as a mean.
        repeats = 1 if self.mains_classes else MOST_REPEATS
        return Entry(self.unit, self.low, self.high, self.example, self.more_than, self.open_circuit, repeats)

    @property
    def worked_out(self) -> bool:
        """Comes from other readings and is not typed."""
        return isinstance(self.model, Propagated)

    def fits(self, arrangement: Arrangement | None) -> bool:
        """Exists on a transport of this arrangement; None: not known, so it may."""
        return arrangement is None or self.arrangement in (None, arrangement)

    def readable(self, reached: int) -> bool:
        """Can be read when this is the highest rung reached."""
        return self.needs <= reached

    def window(self, arrangement: Arrangement | None) -> Limit | None:
        """The usual window for an arrangement, None where none is fixed."""
        for window in self.windows:
            if window.arrangement in (None, arrangement):
                return window.limit
        return None

    def uncertainty(self, readings: Sequence[Decimal], seconds: Decimal | None = None) -> Uncertainty:
        """Mean and standard uncertainty of one reading or several taken anew (SI); ``seconds`` of counting."""
        if len(readings) == 1:
            return reading_u(self.model, self.repeatability, readings[0], seconds)
        return repeated_u(self.model, readings, seconds)

    def shown(self, value: Decimal | None, bound: Bound = Bound.EXACT) -> Measure | Sentence:
        """A value from SI as it is shown, with the digits given."""
        if value is None:
            return Sentence("open")
        measure = Measure(self.unit.to_shown(value), self.unit.shown)
        return measure if bound is Bound.EXACT else Sentence("more than {value}", {"value": measure})

    def rounded(self, value: Decimal) -> Measure:
        """A worked-out value from SI, rounded to the quantity's decimals."""
        return Measure(rounded(self.unit.to_shown(value), self.decimals), self.unit.shown)

    def limit_words(self, limit: Limit) -> Sentence:
        """A limit as it is shown: at most 57.6 mA, at least 0.5 mm, 0.8 Vpp to 1.4 Vpp."""
        if limit.low is None:
            return Sentence("at most {high}", {"high": self._end(limit.high)})
        if limit.high is None:
            return Sentence("at least {low}", {"low": self._end(limit.low)})
        return Sentence("{low} to {high}", {"low": self._end(limit.low), "high": self._end(limit.high)})

    def _end(self, value: Decimal | None) -> Measure:
        assert value is not None
        return Measure(trimmed(self.unit.to_shown(value), self.decimals), self.unit.shown)


def catalogue_of(rows: object) -> dict[str, Quantity]:
    """The catalogue from parsed JSON (the list in assets/bench/quantities.json, or the same with what the shop
    changed), by id, in its order. Refusal where the data are wrong."""
    whole = Record({"quantities": rows}, "quantities")
    quantities = [read_quantity(record) for record in whole.records("quantities")]
    unique([quantity.id for quantity in quantities], whole)
    return {quantity.id: quantity for quantity in quantities}


def read_quantity(record: Record) -> Quantity:
    """One quantity, shipped or changed by the shop; Refusal where it cannot be right."""
    unit = UNITS.get(record.text("unit"))
    if unit is None:
        record.refuse(Sentence("the unit is not known"))
    ends = record.texts("range")
    if len(ends) != 2:
        record.refuse(Sentence("range needs its two ends"))
    low, high = (Record({"end": end}, record.where).decimal("end") for end in ends)
    example = record.decimal("example")
    if not low <= example <= high:
        record.refuse(Sentence("the example lies outside the range"))
    return Quantity(
        id=record.text("id"),
        words=record.text("words"),
        unit=unit,
        decimals=record.whole("decimals", 0, 6),
        low=low,
        high=high,
        example=example,
        usual=record.optional_text("usual"),
        windows=tuple(_window(window, unit) for window in record.records("limits", "arrangement")),
        instrument=record.optional_text("instrument"),
        model=_model(record.record("model"), unit),
        repeatability=_repeatability(record.record("repeatability"), unit),
        arrangement=record.arrangement(),
        needs=record.whole("needs", 0, HIGHEST_RUNG),
        inside=record.truth("inside"),
        high_means=record.optional_text("high"),
        low_means=record.optional_text("low"),
        caution=record.optional_text("caution"),
        more_than=record.truth("more_than"),
        open_circuit=record.truth("open"),
        asks_name=record.truth("asks_name"),
        repeats=record.whole("repeats", 1, 20) if record.has("repeats") else 1,
        mains_classes=tuple(_class(record, code) for code in record.texts("classes")),
    )


def _window(record: Record, unit: Unit) -> Window:
    low, high = record.optional_decimal("low"), record.optional_decimal("high")
    if (low is None and high is None) or (low is not None and high is not None and low > high):
        record.refuse(Sentence("a limit needs a low or a high end, the right way round"))
    return Window(
        record.arrangement(),
        Limit(
            None if low is None else unit.to_si(low),
            None if high is None else unit.to_si(high),
            record.text("source"),
        ),
    )


def _model(record: Record, unit: Unit) -> Model:
    model: Model
    if record.truth("counted"):
        model = Counted()
    elif record.truth("propagated"):
        model = Propagated()
    elif record.has("u"):
        model = Fixed(unit.to_si(_size(record, "u")))
    elif record.has("u_share"):
        model = Fixed(Decimal(0), _size(record, "u_share"))
    else:
        step = unit.to_si(_size(record, "step"))
        model = Accuracy(_size(record, "percent"), _size(record, "digits"), step)
    record.done()
    return model


def _repeatability(record: Record, unit: Unit) -> Repeatability:
    if record.has("size"):
        repeatability = Repeatability(Decimal(0), unit.to_si(_size(record, "size")))
    else:
        repeatability = Repeatability(_size(record, "share"))
    record.done()
    return repeatability


def _size(record: Record, key: str) -> Decimal:
    number = record.decimal(key)
    if number < 0:
        record.refuse(Sentence("{field} is below 0", {"field": key}))
    return number


def _class(record: Record, code: str) -> MainsClass:
    known = {"I": MainsClass.I, "II": MainsClass.II}
    if code not in known:
        record.refuse(Sentence("classes are I and II"))
    return known[code]
