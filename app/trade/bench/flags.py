"""Every rule asked about one job: which flags stand on it, its unit and its transport now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from app.trade.bench.facts import Answer, JobFacts
from app.trade.bench.flag import Closing, FlagRaised, Level
from app.trade.bench.rule_reach import REACH, Ask
from app.trade.bench.rules import flag, in_order
from app.trade.bench.stages import Mark
from app.trade.bench.thresholds import DEFAULTS, Thresholds
from app.trade.sentence import Sentence

# Each looks at the facts and raises what it has to say; none knows of another. `pile` looks at all of them.
ASKED: tuple[Ask, ...] = tuple(REACH)


def evaluate(facts: JobFacts, thresholds: Thresholds = DEFAULTS) -> tuple[FlagRaised, ...]:
    """The flags that stand now, stops first. One that a recorded reason has cleared does not come back while
    its sentence, with its numbers, stays the same; one that was only acknowledged stays, marked so."""
    standing = raised_by(ASKED, facts, thresholds)
    standing += _answered(_pile(standing, thresholds), facts.answers)
    return in_order(standing)


def raised_by(rules: Iterable[Ask], facts: JobFacts, thresholds: Thresholds) -> list[FlagRaised]:
    """What these rules raise, the answers that were given to it heeded; without `pile`."""
    return list(_answered((f for rule in rules for f in rule(facts, thresholds)), facts.answers))


def covers(answer: Answer, raised: FlagRaised) -> bool:
    """Whether a recorded answer was given to this very flag, under the mark that it needs."""
    return (
        answer.rule == raised.rule
        and answer.detail == raised.detail
        and answer.sentence == raised.sentence
        and raised.needs in (None, answer.mark)
    )


def _answered(raised: Iterable[FlagRaised], answers: tuple[Answer, ...]) -> Iterator[FlagRaised]:
    for one in raised:
        covered = one.closing is not Closing.FACTS and any(covers(a, one) for a in answers)
        if not covered:
            yield one
        elif one.closing is Closing.SEEN:
            yield replace(one, acknowledged=True)


def _pile(standing: list[FlagRaised], thresholds: Thresholds) -> Iterator[FlagRaised]:
    """So many open cautions on one job that the owner looks at them together."""
    cautions = [f for f in standing if f.level is Level.CAUTION]
    if len(cautions) >= thresholds.pile:
        yield flag(
            "pile",
            Level.CAUTION,
            Sentence("{n} cautions together.", {"n": len(cautions)}),
            detail=", ".join(sorted(f.rule for f in cautions)),
            closing=Closing.REASON,
            needs=Mark.OWNER,
            owner_sees=True,
        )
