"""Ranks the suspects: shares from the ladder and the shop's closed jobs, moved by all that was seen.

It takes exactly one suspect to be the cause, and readings (one for each family) and trials to be independent given
the cause. It advises; it decides nothing.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from math import prod

from app.trade.bench.changes import BenchChange
from app.trade.bench.ladder import OTHER, Suspect
from app.trade.bench.likelihoods import ONE, Entrants, Likelihoods
from app.trade.bench.weighing import Evidence, Factor, factors_of, moves_nothing
from app.trade.sentence import Sentence


@dataclass(frozen=True)
class Knowledge:
    """The bench data that a ranking rests on, as shipped or as the shop changed them."""

    suspects: Mapping[str, Suspect]
    likelihoods: Likelihoods
    changes: Mapping[str, BenchChange]


@dataclass(frozen=True, kw_only=True)
class RankingCase:
    """What is asked. ``weights``: of the ladder's row, summing to 1, with ``other``. ``counts``: closed jobs of
    this transport type that stopped at this rung, by the suspect that was the cause; never a cure by a
    modification."""

    weights: Mapping[str, Decimal | Fraction]
    evidence: Evidence
    counts: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True)
class RankedSuspect:
    """One suspect with everything that makes its share. ``weight``: the ladder's. ``entered``: it came in from
    outside the row. ``jobs`` of ``all_jobs``: closed ones. ``factors``: those that move it, with their ratio."""

    suspect: Suspect
    weight: Fraction
    entered: bool
    jobs: int
    all_jobs: int
    prior: Fraction
    factors: tuple[tuple[Factor, Fraction], ...]
    share: Fraction


@dataclass(frozen=True)
class Ranking:
    """All suspects, largest share first; the shares sum to 1. ``moves_nothing``: what was seen without effect on
    them, each with why."""

    lines: tuple[RankedSuspect, ...]
    moves_nothing: tuple[Sentence, ...]

    @property
    def shares(self) -> dict[str, Fraction]:
        """The shares by suspect, largest first."""
        return {line.suspect.id: line.share for line in self.lines}

    @property
    def entropy(self) -> float:
        """How open it still is, in bits: 0 when one suspect has it all."""
        return entropy(float(line.share) for line in self.lines)


def rank(case: RankingCase, knowledge: Knowledge) -> Ranking:
    """The ranking: share(s) is proportional to the prior times every ratio; the prior is the Dirichlet mean of
    the ladder's weights, worth so many jobs, and the counts."""
    factors = factors_of(case.evidence, knowledge.likelihoods, knowledge.changes)
    row = {suspect: Fraction(weight) for suspect, weight in case.weights.items()}
    products = {
        suspect.id: prod((factor.ratio(suspect.id) for factor in factors), start=ONE)
        for suspect in knowledge.suspects.values()
        if suspect.id in row or suspect.arrangement in (None, case.evidence.arrangement)
    }
    weights = with_entrants(row, products, case.counts, knowledge.likelihoods.entrants)
    counts = _counts(weights, case.counts)
    jobs = sum(counts.values())
    worth = knowledge.likelihoods.ladder_worth
    priors = {s: (worth * weight + counts[s]) / (worth + jobs) for s, weight in weights.items()}
    whole = sum(priors[suspect] * products[suspect] for suspect in weights)
    lines = [
        RankedSuspect(
            suspect=knowledge.suspects[suspect],
            weight=weight,
            entered=suspect not in row,
            jobs=counts[suspect],
            all_jobs=jobs,
            prior=priors[suspect],
            factors=tuple((f, f.ratio(suspect)) for f in factors if f.ratio(suspect) != 1),
            share=priors[suspect] * products[suspect] / whole,
        )
        for suspect, weight in weights.items()
    ]
    lines.sort(key=lambda line: (-line.share, line.suspect.id == OTHER, line.suspect.id))
    return Ranking(tuple(lines), moves_nothing(case.evidence, knowledge.likelihoods, knowledge.changes))


def with_entrants(
    row: Mapping[str, Fraction],
    products: Mapping[str, Fraction],
    counts: Mapping[str, int],
    entrants: Entrants,
) -> dict[str, Fraction]:
    """The row's weights, with those who come in from outside it, taken from ``other``: the largest product of
    ratios first, then by id. Decided anew on the whole evidence each time."""
    outside = [
        suspect
        for suspect, product in products.items()
        if suspect not in row and (product >= entrants.ratio or counts.get(suspect, 0) > 0)
    ]
    outside.sort(key=lambda suspect: (-products[suspect], suspect))
    entering = outside[: entrants.most]
    weights = dict(row) | dict.fromkeys(entering, entrants.weight)
    weights[OTHER] -= len(entering) * entrants.weight
    return weights


def _counts(weights: Mapping[str, Fraction], counts: Mapping[str, int]) -> dict[str, int]:
    """The counts of those who are ranked; whoever is not counts as none of these."""
    ranked = {suspect: counts.get(suspect, 0) for suspect in weights}
    ranked[OTHER] += sum(counts.values()) - sum(ranked.values())
    return ranked


def entropy(shares: Iterable[float]) -> float:
    """Shannon entropy in bits of shares that sum to 1."""
    return -sum(share * math.log2(share) for share in shares if share > 0)
