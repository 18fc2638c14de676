"""The live modifications of a player in one sentence each, as its safety notes tell them."""

from __future__ import annotations

from collections.abc import Iterator

from app.trade.bench.circuit_ratio import CircuitRatio, circuit_ratios, follows_law
from app.trade.bench.facts import JobFacts
from app.trade.bench.modification_words import against_maker, what_it_is
from app.trade.bench.modifications import in_words, live
from app.trade.sentence import Sentence, Value


def change_lines(facts: JobFacts) -> Iterator[Sentence]:
    """Each changed circuit in one sentence with its factor, and each change without one in its own words."""
    for ratio in circuit_ratios(facts.modifications):
        if ratio.k is not None:
            yield _factor_line(ratio)
    for m in live(facts.modifications):
        if not follows_law(m):
            yield Sentence("Changed: {what}.", {"what": what_it_is(m)})


def _factor_line(ratio: CircuitRatio) -> Sentence:
    assert ratio.k is not None
    values: dict[str, Value] = {
        "circuit": in_words(ratio.circuit),
        "share": against_maker(ratio.k),
        "list": ratio.places,
    }
    if ratio.of_current and all(m.ours for m in ratio.modifications):
        return Sentence("Current in {circuit} is {share} on purpose ({list}).", values)
    if ratio.of_current:
        return Sentence("Current in {circuit} is {share} ({list}).", values)
    return Sentence("Loop gain in {circuit} is {share} ({list}).", values)
