"""How many times likelier, or less likely, all that was seen makes each suspect, and what moves nothing and why."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from math import prod

from app.trade.bench.changes import BenchChange, Leaves
from app.trade.bench.evidence import Asked, ReadingSeen, TrialSeen, verdict_words
from app.trade.bench.kinds import Arrangement
from app.trade.bench.likelihoods import ONE, Likelihoods, ReadingRatios
from app.trade.bench.stages import TrialOutcome
from app.trade.bench.verdict import VerdictWord
from app.trade.sentence import Sentence, words


class Source(StrEnum):
    """Where a factor comes from."""

    WORD = words("symptom")
    READING = words("reading")
    TRIAL = words("trial")


@dataclass(frozen=True)
class Factor:
    """One thing that moves the shares: a word, a trial, or the readings of one family together. ``reasons`` has
    one for each reading. Who is not among ``ratios`` has 1."""

    source: Source
    reasons: tuple[Sentence, ...]
    ratios: Mapping[str, Fraction]

    def ratio(self, suspect: str) -> Fraction:
        """How many times likelier it makes this suspect."""
        return self.ratios.get(suspect, ONE)


@dataclass(frozen=True, kw_only=True)
class Evidence:
    """All that was seen of a player whose first rung not reached is ``rung``. Words that are not there were not
    asked. Readings are those taken while the fault stood, each of an evidence that the likelihoods hold."""

    arrangement: Arrangement
    rung: int
    symptoms: Mapping[str, Asked] = field(default_factory=dict)
    readings: tuple[ReadingSeen, ...] = ()
    trials: tuple[TrialSeen, ...] = ()


def moving(evidence: Evidence, likelihoods: Likelihoods) -> tuple[ReadingSeen, ...]:
    """The readings that move shares: of this arrangement, not the rung itself, not explained by another."""
    return tuple(
        seen
        for seen in evidence.readings
        if likelihoods.readings[seen.evidence].fits(evidence.arrangement)
        and _idle_reading(evidence, likelihoods.readings[seen.evidence], seen) is None
    )


def factors_of(
    evidence: Evidence, likelihoods: Likelihoods, changes: Mapping[str, BenchChange]
) -> tuple[Factor, ...]:
    """The factors of all that was seen. The order in which it was entered never matters."""
    return (
        *_words(evidence.symptoms, likelihoods),
        *_families(moving(evidence, likelihoods), likelihoods),
        *_trials(evidence.trials, likelihoods, changes),
    )


def moves_nothing(
    evidence: Evidence, likelihoods: Likelihoods, changes: Mapping[str, BenchChange]
) -> tuple[Sentence, ...]:
    """What was seen and moves no share, each with why."""
    readings = [_idle_reading(evidence, likelihoods.readings[one.evidence], one) for one in evidence.readings]
    trials = [_idle_trial(changes.get(trial.change), trial) for trial in evidence.trials]
    return tuple(why for why in (*readings, *trials) if why is not None)


def _words(symptoms: Mapping[str, Asked], likelihoods: Likelihoods) -> Iterator[Factor]:
    for word in likelihoods.symptoms.values():
        asked = symptoms.get(word.id, Asked.NOT_ASKED)
        if asked is not Asked.NOT_ASKED:
            reason = Sentence(
                "“{word}” was {asked}: {why}",
                {"word": word.name, "asked": Sentence(asked.value), "why": Sentence(word.why)},
            )
            said = asked is Asked.SAID
            yield Factor(Source.WORD, (reason,), {s: word.ratio(s, said) for s in sorted(word.said)})


def _idle_reading(evidence: Evidence, ratios: ReadingRatios, seen: ReadingSeen) -> Sentence | None:
    """Why a reading moves no share; None when it does."""
    if ratios.rung_itself == evidence.rung:
        return Sentence("{reading} is the rung itself: judged, but it moves nothing.", {"reading": seen.name})
    if ratios.unless_outside and seen.verdict is not VerdictWord.WITHIN:
        for other in evidence.readings:
            if other.evidence == ratios.unless_outside and other.verdict.outside:
                return Sentence(
                    "{reading} moves nothing: {other} is outside as well.",
                    {"reading": seen.name, "other": other.name},
                )
    return None


def _families(readings: Sequence[ReadingSeen], likelihoods: Likelihoods) -> Iterator[Factor]:
    families: dict[str, list[ReadingSeen]] = {}
    for ratios in likelihoods.readings.values():
        own = [seen for seen in readings if seen.evidence == ratios.id]
        if own:
            families.setdefault(ratios.family, []).extend(own)
    for members in families.values():
        yield _family([(likelihoods.readings[seen.evidence], seen) for seen in members])


def _family(members: Sequence[tuple[ReadingRatios, ReadingSeen]]) -> Factor:
    """Readings of one family say nearly the same thing: the geometric mean of their ratios, understated."""
    reasons = tuple(
        Sentence(
            "{reading}, {verdict}: {why}",
            {"reading": seen.name, "verdict": verdict_words(seen.verdict), "why": Sentence(ratios.why)},
        )
        for ratios, seen in members
    )
    together = {
        suspect: prod((ratios.ratio(suspect, seen.high, seen.low) for ratios, seen in members), start=ONE)
        for suspect in sorted({suspect for ratios, _ in members for suspect in ratios.suspects})
    }
    return Factor(Source.READING, reasons, {s: _root(ratio, len(members)) for s, ratio in together.items()})


def _root(ratio: Fraction, n: int) -> Fraction:
    # Exact for a family of one, which is the usual case.
    return ratio if n == 1 else Fraction(float(ratio) ** (1 / n))


def _trials(
    trials: Sequence[TrialSeen], likelihoods: Likelihoods, changes: Mapping[str, BenchChange]
) -> Iterator[Factor]:
    # The same change again counts once, by what it did last.
    last: dict[str, TrialSeen] = {}
    for trial in sorted(trials, key=lambda one: one.number):
        if _idle_trial(changes.get(trial.change), trial) is None:
            last[trial.change] = trial
    for trial in last.values():
        change = changes[trial.change]
        shown = trial.shown or trial.outcome is not TrialOutcome.CURED
        if shown:
            outcome = trial.outcome
            reason = Sentence(
                "{trial}: {outcome}", {"trial": trial.name, "outcome": Sentence(trial.outcome.value)}
            )
        else:
            outcome = TrialOutcome.BETTER
            reason = Sentence(
                "{trial}: cured, but not shown by 30 minutes’ play and a cold start, so it counts as better",
                {"trial": trial.name},
            )
        addressed = sorted(suspect for suspect, grade in change.addresses.items() if grade is not None)
        ratios = {suspect: likelihoods.trial_ratio(change, suspect, outcome) for suspect in addressed}
        yield Factor(Source.TRIAL, (reason,), ratios)


def _idle_trial(change: BenchChange | None, trial: TrialSeen) -> Sentence | None:
    """Why a trial moves no share; None when it does."""
    if trial.modifies or (change is not None and change.leaves is Leaves.MODIFICATION):
        return Sentence(
            "{trial} moves nothing: a modification also overcomes what it does not mend, "
            "so even a cure by it establishes no cause.",
            {"trial": trial.name},
        )
    if trial.outcome is TrialOutcome.WORSE:
        return Sentence(
            "{trial} moves nothing: it made things worse, so put it back first.", {"trial": trial.name}
        )
    if change is None:
        return Sentence("{trial} moves nothing: it is not on the list of changes.", {"trial": trial.name})
    return None
