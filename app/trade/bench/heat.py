"""Power and warmth around a changed circuit: coil, driver, added resistor, supply. Common practice, no source,
except where one is named. Heat is power, not temperature: only readings tell that."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from app.trade.bench.figures import as_decimal, rounded, significant
from app.trade.bench.modifications import Kind
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Measure, Sentence

# Copper has no resistance at this many degrees below 0 °C, by its slope near room temperature (practice of
# electrical machines; from memory).
COPPER = Decimal("234.5")


@dataclass(frozen=True)
class Dissipation:
    """Steady current in a current-driven stage: power in coil and driver, watt, and the voltage that coil and
    setting resistor need of the supply, volt; the driver's own loss comes on top of that."""

    current: Decimal
    coil: Decimal
    driver: Decimal
    needed: Decimal

    @property
    def summary(self) -> Sentence:
        """Both powers in one line."""
        return Sentence(
            "Driver {driver}, coil {coil}",
            {"driver": _milliwatt(self.driver), "coil": _milliwatt(self.coil)},
        )


@dataclass(frozen=True)
class PartLoad:
    """Power in an added part, watt, and its share of the rating, per cent."""

    power: Decimal
    rating: Decimal
    percent: Decimal

    @property
    def warm(self) -> bool:
        """More than half of the rating."""
        return self.percent > 50

    @property
    def overloaded(self) -> bool:
        """More than the rating."""
        return self.percent > 100

    @property
    def sentence(self) -> Sentence:
        """Power against rating; rating falls with temperature, so above 70 °C the part's data decide."""
        return Sentence(
            "{power} of {rating} ({percent} %)",
            {
                "power": _milliwatt(self.power),
                "rating": _milliwatt(self.rating),
                "percent": rounded(self.percent, 1),
            },
        )


@dataclass(frozen=True)
class SupplyChange:
    """A supply moved: ratio of voltage, and of heat in a resistive load. Says nothing of a switching regulator;
    every capacitor's voltage rating is to be looked at."""

    ratio: Decimal
    heat: Decimal
    percent: Decimal

    @property
    def summary(self) -> Sentence:
        """The effect in one line."""
        return Sentence(
            "Supply ×{k}, heat in a resistive load ×{heat}",
            {"k": rounded(self.ratio, 3), "heat": rounded(self.heat, 3)},
        )


@dataclass(frozen=True)
class Warming:
    """How much a copper coil warmed, kelvin, with its standard uncertainty."""

    kelvin: Decimal
    u: Decimal

    @property
    def measure(self) -> Measure:
        """As shown: one decimal."""
        return Measure(rounded(self.kelvin, 1), "K", signed=True)


def coil_power(current: Decimal, coil: Decimal) -> Decimal:
    """Heat in a coil, watt: I^2 R, current in ampere r.m.s., resistance in ohm."""
    return current * current * coil


def dissipation(supply: Decimal, current: Decimal, coil: Decimal, setting: Decimal) -> Dissipation:
    """P_driver = V I - I^2 (R_coil + R), needed voltage I (R_coil + R); volt, ampere, ohm. A supply that has
    less than that cannot drive this current: FieldRefusal."""
    needed = current * (coil + setting)
    if needed > supply:
        raise FieldRefusal(
            {
                "supply": Sentence(
                    "Coil and resistor need {needed}: the driver has no voltage left and the law does not hold.",
                    {"needed": Measure(rounded(needed, 2), "V")},
                )
            }
        )
    return Dissipation(
        current=current,
        coil=coil_power(current, coil),
        driver=supply * current - current * current * (coil + setting),
        needed=needed,
    )


def added_part_load(
    current_before: Decimal, maker: Decimal, added: Decimal, rating: Decimal, kind: Kind = Kind.PARALLEL
) -> PartLoad:
    """Power in an added or new resistor, watt: under law `CURRENT` the voltage stays I_before R_maker, and
    P = V^2 / R; one in series shares that voltage with the maker's. Ampere, ohm, ohm, watt."""
    voltage = current_before * maker
    if kind is Kind.SERIES:
        voltage *= added / (maker + added)
    return part_load(voltage, added, rating)


def part_load(voltage: Decimal, ohms: Decimal, rating: Decimal) -> PartLoad:
    """Power in a resistor with ``voltage`` across it, against its rating; volt, ohm, watt, all above 0 but the
    voltage."""
    for field, value in (("ohms", ohms), ("rating", rating)):
        if value <= 0:
            raise FieldRefusal({field: Sentence("This has to be more than 0.")})
    power = Fraction(voltage) ** 2 / Fraction(ohms)
    return PartLoad(as_decimal(power), rating, as_decimal(power / Fraction(rating) * 100))


def warming(cold: Decimal, hot: Decimal, room: Decimal, u_difference: Decimal = Decimal(0)) -> Warming:
    """Warming of a copper coil by its resistance: (R_hot / R_cold - 1) (234.5 + T_cold), ohm and degrees
    Celsius. ``u_difference`` is the standard uncertainty of hot - cold, ohm; the cold value's own share is a few
    per cent of that and left out. Leads zeroed, read within seconds after switching off."""
    if cold <= 0 or room <= -COPPER:
        raise FieldRefusal({"cold": Sentence("This has to be more than 0.")})
    slope = (COPPER + room) / cold
    return Warming((hot - cold) * slope, u_difference * slope)


def supply_change(maker: Decimal, now: Decimal) -> SupplyChange:
    """A rail against the maker's voltage, same sign of both."""
    if maker == 0 or now / maker <= 0:
        raise FieldRefusal({"now": Sentence("Both voltages have to be of one sign and not 0.")})
    ratio = Fraction(now) / Fraction(maker)
    return SupplyChange(as_decimal(ratio), as_decimal(ratio**2), as_decimal((ratio - 1) * 100))


def regulator_power(supply: Decimal, output: Decimal, current: Decimal) -> Decimal:
    """Heat in a linear regulator, watt: (V_in - V_out) I."""
    return (supply - output) * current


def _milliwatt(watt: Decimal) -> Measure:
    return Measure(significant(watt * 1000, 3), "mW")
