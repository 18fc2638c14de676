"""What a ranking says in words, never as a verdict: who fits best, why a suspect stands where it does."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction

from app.trade.bench.figures import as_decimal, significant, trimmed
from app.trade.bench.ladder import OTHER
from app.trade.bench.ranking import RankedSuspect, Ranking
from app.trade.bench.verdict import in_hundred
from app.trade.bench.weighing import Factor
from app.trade.sentence import Sentence, Value

SURE_ENOUGH = Fraction(9, 10)  # above it no figure is said, as the ranking looks surer than it is
HALF = Fraction(1, 2)


def first_look() -> Sentence:
    """What is looked at before any suspect is."""
    return Sentence("Look first: transit lock, a disc left inside, lens cover, voltage selector.")


def no_clear_leader(ranking: Ranking) -> bool:
    """The second has more than half of the first."""
    first, second = ranking.lines[0], ranking.lines[1]
    return second.share > first.share * HALF


def ranking_sentence(ranking: Ranking) -> Sentence:
    """The two suspects that fit best, or that nobody leads, with what the book does not know."""
    first, second = ranking.lines[0], ranking.lines[1]
    values: dict[str, Value] = {
        "a": first.suspect.name,
        "p": share_words(first.share),
        "b": second.suspect.name,
        "q": _bare(second.share),
    }
    if first.suspect.id == OTHER:
        return Sentence(
            "Of what this book knows, nothing here explains it: {a} ({p}), then {b} ({q}). "
            "It counts past jobs and rules of thumb; it has not seen the player.",
            values,
        )
    if no_clear_leader(ranking):
        return Sentence(
            "Of what this book knows, no clear leader: {a} ({p}), then {b} ({q}). "
            "It counts past jobs and rules of thumb; it has not seen the player.",
            values,
        )
    return Sentence(
        "Of what this book knows, {a} fits best ({p}), then {b} ({q}). "
        "It counts past jobs and rules of thumb; it has not seen the player.",
        values,
    )


def share_words(share: Fraction) -> Sentence:
    """A share as it is said, in whole numbers: 48 in 100, over 90 in 100."""
    if share > SURE_ENOUGH:
        return Sentence("over 90 in 100")
    return in_hundred(float(share))


def _bare(share: Fraction) -> Value:
    whole = math.floor(share * 100 + HALF)
    return whole if whole >= 1 else Sentence("under 1")


def prior_sentence(line: RankedSuspect) -> Sentence:
    """Where a suspect starts from, before anything was seen."""
    values: dict[str, Value] = {
        "weight": in_hundred(float(line.weight)),
        "prior": in_hundred(float(line.prior)),
        "n": line.jobs,
        "jobs": line.all_jobs,
    }
    if line.entered and not line.all_jobs:
        return Sentence("Not in this row of the ladder; it comes in with {weight}.", values)
    if not line.all_jobs:
        return Sentence("The ladder gives it {weight}; no closed job here names a cause.", values)
    if line.entered:
        return Sentence(
            "Not in this row of the ladder; it comes in with {weight}, and was the cause in {n} of {jobs} closed "
            "jobs of this type that stopped here: together {prior}.",
            values,
        )
    return Sentence(
        "The ladder gives it {weight}; it was the cause in {n} of {jobs} closed jobs of this type that stopped "
        "here: together {prior}.",
        values,
    )


def factor_sentence(factor: Factor, ratio: Fraction) -> Sentence:
    """What was seen and how much it says for or against a suspect: 2.3 times for it."""
    reason = factor.reasons[0]
    for further in factor.reasons[1:]:
        reason = Sentence("{these}; {one}", {"these": reason, "one": further})
    said = _times(ratio)
    if said == 1:
        return Sentence("{reason}. It says hardly anything about it.", {"reason": reason})
    times: dict[str, Value] = {"reason": reason, "times": said}
    several = len(factor.reasons) > 1
    if ratio > 1 and several:
        return Sentence("{reason}. Counted as one: {times} times for it.", times)
    if ratio > 1:
        return Sentence("{reason}. {times} times for it.", times)
    if several:
        return Sentence("{reason}. Counted as one: {times} times against it.", times)
    return Sentence("{reason}. {times} times against it.", times)


def _times(ratio: Fraction) -> Decimal:
    """A ratio as it is said, above 1 and to two figures."""
    return trimmed(significant(as_decimal(ratio if ratio > 1 else 1 / ratio), 2), 0)


def strongest(line: RankedSuspect, most: int = 2) -> tuple[Sentence, ...]:
    """What moves a suspect most, for or against it, in a few words each; nothing where nothing moves it."""
    moved = sorted(line.factors, key=lambda pair: -abs(math.log(pair[1])))
    return tuple(_brief(factor.reasons[0]) for factor, _ in moved[:most])


def _brief(reason: Sentence) -> Sentence:
    """A reason without why it is one."""
    if "reading" in reason.values:
        return Sentence("{reading} {verdict}", reason.values)
    if "word" in reason.values:
        return Sentence("“{word}” {asked}", reason.values)
    return reason


def explanation(line: RankedSuspect) -> tuple[Sentence, ...]:
    """The whole path of a suspect: where it starts, each thing that moves it, and where it ends."""
    return (
        prior_sentence(line),
        *(factor_sentence(factor, ratio) for factor, ratio in line.factors),
        Sentence("Set against all others: {share}.", {"share": share_words(line.share)}),
    )
