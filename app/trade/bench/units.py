"""Units in which bench values are typed and shown, how people spell them, and their way to SI."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from app.trade.bench.figures import rounded
from app.trade.sentence import Measure, Sentence

# IEC 80000-1 prefixes that a bench needs, by every sign that people type for them. Small m and large M differ;
# large K is read as kilo, as in the codes of IEC 60062.
PREFIXES = {
    "p": -12,
    "n": -9,
    "u": -6,
    "\u00b5": -6,  # micro sign
    "\u03bc": -6,  # Greek small mu
    "m": -3,
    "k": 3,
    "K": 3,
    "M": 6,
    "G": 9,
}
# What a prefix is shown with.
SIGNS = {-12: "p", -9: "n", -6: "\u00b5", -3: "m", 0: "", 3: "k", 6: "M", 9: "G"}
OHM = ("\u03a9", "\u2126", "ohm", "Ohm", "ohms")


@dataclass(frozen=True)
class Unit:
    """``shown`` stands behind the number; SI value = shown value times 10^``power``, or times
    ``factor`` where that is no power of ten. ``base`` is the unit without prefix, ``spelt`` how people type that; ``marks`` are letters that
    may stand for the decimal mark (4R7, 3V3). ``prefixed`` False: no prefix is read. ``m_means``: what a bare m
    could mean besides milli, so that it is refused."""

    shown: str
    base: str
    power: int = 0
    factor: Decimal = Decimal(1)
    spelt: tuple[str, ...] = ()
    marks: str = ""
    prefixed: bool = True
    m_means: Sentence | None = None

    def to_si(self, shown: Decimal) -> Decimal:
        """A value, difference or uncertainty in the SI unit; the digits are kept."""
        return shown.scaleb(self.power) if self.factor == 1 else shown * self.factor

    def to_shown(self, si: Decimal) -> Decimal:
        """The same as shown, from the SI unit. Where that is no power of ten, to 12 decimals."""
        if self.factor != 1:
            return rounded(si / self.factor, 12).normalize()
        return si.scaleb(-self.power)

    @property
    def scale(self) -> Decimal:
        """What one of the shown unit is in the SI unit."""
        return self.to_si(Decimal(1))

    def engineering(self, shown: Decimal) -> Measure:
        """The value in the shown unit, or with another prefix where that would be below 0.1 or from 1000."""
        size = abs(shown)
        if not self.prefixed or not size or Decimal("0.1") <= size < 1000:
            return Measure(shown, self.shown)
        power = (size.adjusted() + self.power) // 3 * 3
        if power not in SIGNS:
            return Measure(shown, self.shown)
        return Measure(shown.scaleb(self.power - power), SIGNS[power] + self.base)


_METRES = Sentence("metres")
_MINUTES = Sentence("minutes")
_DEGREE = Decimal("0.01745329251994329576923690768")  # pi / 180


def _all(*units: Unit) -> dict[str, Unit]:
    return {unit.shown: unit for unit in units}


UNITS = _all(
    Unit("V", "V", spelt=("V",), marks="V"),
    Unit("mV", "V", -3, spelt=("V",), marks="V"),
    Unit("Vpp", "Vpp", spelt=("Vpp", "V"), marks="V"),
    Unit("mVpp", "Vpp", -3, spelt=("Vpp", "V"), marks="V"),
    Unit("V rms", "V rms", spelt=("Vrms", "V"), marks="V"),
    Unit("mV s", "V s", -3, spelt=("Vs", "V\u00b7s")),
    Unit("A", "A", spelt=("A",), marks="A"),
    Unit("mA", "A", -3, spelt=("A",), marks="A"),
    Unit("W", "W", spelt=("W",), marks="W"),
    Unit("mW", "W", -3, spelt=("W",), marks="W"),
    Unit("\u03a9", "\u03a9", spelt=(*OHM, "R"), marks="Rr\u03a9\u2126"),
    Unit("M\u03a9", "\u03a9", 6, spelt=(*OHM, "R"), marks="Rr\u03a9\u2126"),
    Unit("\u00b5F", "F", -6, spelt=("F",), marks="F"),
    Unit("s", "s", spelt=("s",), m_means=_MINUTES),
    Unit("ns", "s", -9, spelt=("s",), m_means=_MINUTES),
    Unit("mm", "m", -3, spelt=("m",), m_means=_METRES),
    Unit("mmpp", "mpp", -3, spelt=("mpp", "m"), m_means=_METRES),
    Unit("m", "m", spelt=("m",), marks="m"),
    Unit("m/s", "m/s", spelt=("m/s",), prefixed=False),
    Unit("/s", "/s", spelt=("/s", "1/s"), prefixed=False),
    Unit("1/min", "1/min", spelt=("1/min", "/min"), prefixed=False),
    Unit("%", "%", -2, spelt=("%",), prefixed=False),
    Unit("dB", "dB", spelt=("dB",), prefixed=False),
    Unit("N", "N", spelt=("N",), prefixed=False),
    # The degree Celsius is an SI unit of its own for temperatures; kept in it, no zero has to be shifted.
    Unit("\u00b0C", "\u00b0C", spelt=("\u00b0C", "C"), prefixed=False),
    Unit("\u00b0", "\u00b0", factor=_DEGREE, spelt=("\u00b0", "deg"), prefixed=False),
)
