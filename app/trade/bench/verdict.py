"""Verdict of a reading against its limit, with the uncertainty as guard band (JCGM 106)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from app.trade.bench.bound import Bound
from app.trade.sentence import Sentence, words

K = Decimal(2)
RULE = "guard band of two standard uncertainties"
RULE_VERSION = 1
COMMON_PRACTICE = "common practice, no source"


class VerdictWord(StrEnum):
    """The word that is stored and shown; `outside` joins the two ways of being outside."""

    WITHIN = words("within")
    HIGH = words("outside high")
    LOW = words("outside low")
    CLOSE = words("too close to call")

    @property
    def outside(self) -> bool:
        """Wholly beyond one of the limits."""
        return self in (VerdictWord.HIGH, VerdictWord.LOW)


@dataclass(frozen=True)
class Limit:
    """Low and high limit in the SI unit of the quantity; either may be absent, not both.

    ``source`` says in words where the limit comes from, ``version`` counts its edits, ``must`` marks a limit
    that no reason can talk past at the final readings.
    """

    low: Decimal | None
    high: Decimal | None
    source: str = COMMON_PRACTICE
    version: int = 1
    must: bool = False

    def __post_init__(self) -> None:
        if self.low is None and self.high is None:
            raise ValueError("a limit needs at least one side")
        if any(side is not None and not side.is_finite() for side in (self.low, self.high)):
            raise ValueError("a limit is a finite number")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise ValueError(f"limits the wrong way round: {self.low} above {self.high}")


@dataclass(frozen=True)
class Verdict:
    """What a reading says against a limit, stored with everything it rests on.

    ``probability`` is the chance of being within (0..1), with ``probability_high`` and ``probability_low`` for
    beyond each side; all three are None where only a bound is known. ``guard`` is k times u, SI unit.
    """

    word: VerdictWord
    value: Decimal | None
    u: Decimal
    limit: Limit
    guard: Decimal
    probability: float | None
    probability_high: float | None
    probability_low: float | None
    k: Decimal = K
    rule: str = RULE
    rule_version: int = RULE_VERSION

    @property
    def short(self) -> Sentence:
        """The word for a table cell: within, outside, too close to call."""
        if self.word.outside:
            return Sentence("outside")
        return Sentence("within") if self.word is VerdictWord.WITHIN else Sentence("too close to call")

    @property
    def sentence(self) -> Sentence:
        """The whole verdict; the chance of being within stands beside what is too close to call."""
        if self.word is VerdictWord.WITHIN:
            return Sentence("Within the limit.")
        if self.word is VerdictWord.HIGH:
            return Sentence("Outside: above the limit.")
        if self.word is VerdictWord.LOW:
            return Sentence("Outside: below the limit.")
        if self.probability is None:
            return Sentence("Too close to call: only a lower bound was read.")
        return Sentence("Too close to call: within in {chance}.", {"chance": in_hundred(self.probability)})

    @property
    def acceptance(self) -> tuple[Decimal | None, Decimal | None]:
        """Where a value had to lie to be called within: the limits drawn in by the guard band (SI unit)."""
        low, high = self.limit.low, self.limit.high
        return (
            None if low is None else low + self.guard,
            None if high is None else high - self.guard,
        )


def judge(
    value: Decimal | None, u: Decimal, limit: Limit, bound: Bound = Bound.EXACT, k: Decimal = K
) -> Verdict:
    """Verdict on ``value`` with standard uncertainty ``u`` (both in the SI unit of the limit).

    Within: value plus and minus k u inside or on the limits. Outside: wholly beyond one. Else too close to
    call. Probability of conforming by JCGM 106: Phi((high - y)/u) - Phi((low - y)/u). ``OPEN`` takes no value.
    """
    if u < 0 or not u.is_finite():
        raise ValueError(f"an uncertainty is a finite number of at least 0, not {u}")
    if bound is not Bound.EXACT:
        return _judge_bound(value, u, limit, bound, k)
    if value is None or not value.is_finite():
        raise ValueError(f"cannot judge {value}")
    guard = k * u
    above = 0.0 if limit.high is None else 1.0 - _share_up_to(limit.high, value, u)
    below = 0.0 if limit.low is None else _share_below(limit.low, value, u)
    if limit.high is not None and value - guard > limit.high:
        word = VerdictWord.HIGH
    elif limit.low is not None and value + guard < limit.low:
        word = VerdictWord.LOW
    elif (limit.high is None or value + guard <= limit.high) and (
        limit.low is None or value - guard >= limit.low
    ):
        word = VerdictWord.WITHIN
    else:
        word = VerdictWord.CLOSE
    within = max(0.0, 1.0 - above - below)
    return Verdict(word, value, u, limit, guard, within, above, below, k)


def _judge_bound(value: Decimal | None, u: Decimal, limit: Limit, bound: Bound, k: Decimal) -> Verdict:
    """An open circuit lies above every limit; a lower bound settles only what it lies beyond."""
    if bound is Bound.OPEN:
        word = VerdictWord.WITHIN if limit.high is None else VerdictWord.HIGH
        value = None
    elif value is None or not value.is_finite():
        raise ValueError(f"cannot judge more than {value}")
    elif limit.high is not None:
        word = VerdictWord.HIGH if value >= limit.high else VerdictWord.CLOSE
    else:
        assert limit.low is not None
        word = VerdictWord.WITHIN if value >= limit.low else VerdictWord.CLOSE
    chances: dict[VerdictWord, tuple[float | None, float | None]] = {
        VerdictWord.WITHIN: (1.0, 0.0),
        VerdictWord.HIGH: (0.0, 1.0),
    }
    within, above = chances.get(word, (None, None))
    below = None if within is None else 0.0
    return Verdict(word, value, u, limit, k * u, within, above, below, k)


def _share_up_to(limit: Decimal, value: Decimal, u: Decimal) -> float:
    """Chance that the truth is at most ``limit``; without uncertainty the comparison itself."""
    return normal_cdf(float((limit - value) / u)) if u else float(value <= limit)


def _share_below(limit: Decimal, value: Decimal, u: Decimal) -> float:
    return normal_cdf(float((limit - value) / u)) if u else float(value < limit)


def normal_cdf(z: float) -> float:
    """Standard normal distribution function, by the error function."""
    return 0.5 * math.erfc(-z / math.sqrt(2.0))


def in_hundred(probability: float) -> Sentence:
    """A chance as people say it, whole numbers only: 38 in 100, under 1 in 100, over 99 in 100."""
    whole = math.floor(probability * 100 + 0.5)
    if whole < 1 and probability > 0:
        return Sentence("under 1 in 100")
    if whole > 99 and probability < 1:
        return Sentence("over 99 in 100")
    return Sentence("{n} in 100", {"n": whole})
