"""All live modifications of one circuit together, against the maker's values and never against yesterday's."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from app.trade.bench.effects import Change, Part, resistor_effect
from app.trade.bench.figures import as_decimal, rounded
from app.trade.bench.modifications import RESISTOR_KINDS, Circuit, Law, Modification
from app.trade.sentence import Measure

# Two products of quotients that are equal on paper may differ in the last of 28 digits; a limit is not
# passed by that.
_PLACES = 15


@dataclass(frozen=True, slots=True)
class CircuitRatio:
    """``k``: ratio of current or gain to the maker's; None where no change of the circuit follows a law.

    ``of_current``: some of it is a ratio of current, so that its square is one of heat. ``without_law`` counts
    the live changes that ``k`` says nothing about.
    """

    circuit: Circuit
    modifications: tuple[Modification, ...]
    k: Decimal | None
    of_current: bool
    without_law: int

    @property
    def places(self) -> tuple[str, ...]:
        """Where they are, each place once, in the order of work."""
        named: dict[str, str] = {}
        for modification in self.modifications:
            named.setdefault(_place(modification), modification.where.strip())
        return tuple(named.values())


def heat(k: Decimal) -> Decimal:
    """Ratio of heat in the coil: power, not temperature. Common practice, no source."""
    return k * k


def gain_db(k: Decimal) -> Decimal:
    """Ratio of current or gain in decibel: 20 lg k."""
    return 20 * k.log10()


def shown_k(k: Decimal) -> Decimal:
    """A ratio as it is said: three decimals."""
    return rounded(k, 3)


def shown_db(k: Decimal) -> Measure:
    """The loop gain as it is said: two decimals, signed."""
    return Measure(rounded(gain_db(k), 2), "dB", signed=True)


def follows_law(modification: Modification) -> bool:
    """A resistor whose value and maker's value are known, in a circuit that follows a law."""
    return (
        modification.kind in RESISTOR_KINDS
        and modification.law is not Law.NEITHER
        and modification.maker_value is not None
        and modification.new_value is not None
    )


def circuit_ratios(modifications: Iterable[Modification]) -> tuple[CircuitRatio, ...]:
    """One ratio for each circuit that carries live modifications, in the order of the circuits."""
    live = [m for m in modifications if m.live]
    return tuple(
        _ratio_of(circuit, tuple(m for m in live if m.circuit is circuit))
        for circuit in Circuit
        if any(m.circuit is circuit for m in live)
    )


def _place(modification: Modification) -> str:
    return modification.where.strip().casefold()


def _ratio_of(circuit: Circuit, modifications: tuple[Modification, ...]) -> CircuitRatio:
    # Several parts at one place act on each other, so each place is worked out whole; places multiply.
    places: dict[tuple[str, Law], list[Modification]] = {}
    for modification in modifications:
        if follows_law(modification):
            places.setdefault((_place(modification), modification.law), []).append(modification)
    product = Fraction(1)
    for (_, law), at_place in places.items():
        product *= Fraction(_ratio_at(law, at_place))
    return CircuitRatio(
        circuit,
        modifications,
        rounded(as_decimal(product), _PLACES).normalize() if places else None,
        any(law is Law.CURRENT for _, law in places),
        len(modifications) - sum(len(at_place) for at_place in places.values()),
    )


def _ratio_at(law: Law, modifications: list[Modification]) -> Decimal:
    changes = []
    for modification in modifications:
        assert modification.new_value is not None  # follows_law
        changes.append(Change(modification.kind, Part(modification.new_value)))
    maker = modifications[0].maker_value
    assert maker is not None  # follows_law
    ratio = resistor_effect(law, Part(maker), changes).ratio
    assert ratio is not None  # the law is not NEITHER
    return ratio
