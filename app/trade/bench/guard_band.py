"""Why a verdict is what it is: the guard band, where a value had to lie, and the probability of conforming
(JCGM 106; decision rule of ILAC-G8 with the whole expanded uncertainty as guard band)."""

from __future__ import annotations

from decimal import Decimal

from app.trade.bench.figures import rounded, significant
from app.trade.bench.verdict import K
from app.trade.sentence import Measure, Sentence, Value, words


def guard_words(
    low: Decimal | None, high: Decimal | None, u: Decimal, probability: float | None, unit: str
) -> tuple[Sentence, ...]:
    """The guard band and the probability of conforming for a reading; limits and standard uncertainty ``u`` in
    the unit shown, one limit at least. Without uncertainty there is no band to tell."""
    said: list[Sentence] = []
    if u > 0:
        guard = significant(K * u, 2)
        values: dict[str, Value] = {"guard": Measure(guard, unit), "k": int(K)}
        least = None if low is None else low + K * u
        most = None if high is None else high - K * u
        if least is not None and most is not None and least > most:
            key = words(
                "Guard band {guard} (k = {k}): it fills the limits, so that no value can be called within."
            )
            return (Sentence(key, values), *_chance(probability))
        for name, end in (("least", least), ("most", most)):
            if end is not None:
                values[name] = Measure(_like(end, guard), unit)
        if least is None:
            key = words("Guard band {guard} (k = {k}): called within up to {most}.")
        elif most is None:
            key = words("Guard band {guard} (k = {k}): called within from {least}.")
        else:
            key = words("Guard band {guard} (k = {k}): called within from {least} to {most}.")
        said.append(Sentence(key, values))
    return (*said, *_chance(probability))


def _like(value: Decimal, guard: Decimal) -> Decimal:
    """To the places of the guard band."""
    exponent = guard.as_tuple().exponent
    assert isinstance(exponent, int)  # finite
    return rounded(value, max(0, -exponent))


def _chance(probability: float | None) -> tuple[Sentence, ...]:
    if probability is None:
        return ()
    p = Decimal(repr(probability))
    if 0 < p < Decimal("0.0005"):
        return (Sentence("Probability of conforming under {p}.", {"p": Decimal("0.001")}),)
    if Decimal("0.9995") <= p < 1:
        return (Sentence("Probability of conforming over {p}.", {"p": Decimal("0.999")}),)
    return (Sentence("Probability of conforming {p}.", {"p": rounded(p, 3)}),)
