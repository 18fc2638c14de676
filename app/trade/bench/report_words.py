"""What the service report says was known, was done and is not known, in plain words that name no culprit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from app.trade.bench.established import NO_CAUSE
from app.trade.bench.kinds import Arrangement
from app.trade.bench.ladder import Ladder
from app.trade.bench.stages import CauseFound, Left, TrialOutcome
from app.trade.bench.start_up import StartUpResult
from app.trade.joining import closed
from app.trade.sentence import Sentence, Value, joined, words

_GROUPS: tuple[tuple[TrialOutcome | None, str], ...] = (
    (TrialOutcome.NO_DIFFERENCE, words("No difference: {list}.")),
    (TrialOutcome.WORSE, words("Worse with: {list}.")),
    (TrialOutcome.BETTER, words("Better with: {list}.")),
    (TrialOutcome.CURED, words("The fault was gone with: {list}.")),
    (None, words("Not judged: {list}.")),
)
_LEFT = {
    Left.NOT_SAID: Sentence(""),
    Left.PUT_BACK: Sentence("; put back"),
    Left.LEFT_SO: Sentence("; left so"),
    Left.LEFT_INSIDE: Sentence("; left inside"),
    Left.RAISED_PUT_BACK: Sentence("; put back"),
}


class Passage(NamedTuple):
    """A lead, the text that follows, and how it ends."""

    lead: Sentence
    text: Sentence | str
    end: Sentence | str = ""


@dataclass(frozen=True, slots=True)
class TrialTold:
    """One trial in the words of the technician, with what it did and what became of the change."""

    words: str
    outcome: TrialOutcome | None
    left: Left = Left.NOT_SAID
    came_back: bool = False


def known(
    first: StartUpResult | None,
    last: StartUpResult | None,
    ladder: Ladder,
    arrangement: Arrangement | None,
    not_testable: frozenset[int] = frozenset(),
) -> Passage:
    """How far it climbed on arrival and at the end."""
    lead = Sentence("Known.")
    said: list[Sentence] = []
    if first is not None:
        values: dict[str, Value] = {
            "headline": first.headline(ladder, arrangement, not_testable),
            "detail": first.detail,
        }
        said.append(Sentence("On arrival: {headline} {detail}", values))
    else:
        said.append(Sentence("No start-up was recorded on arrival."))
    if last is not None:
        headline = last.headline(ladder, arrangement, not_testable)
        said.append(Sentence("At the end: {headline}", {"headline": headline}))
    return Passage(lead, joined(tuple(said)))


def done(trials: Sequence[TrialTold], staying: int) -> Passage:
    """What was changed, by what it did; ``staying``: how many modifications of this job stay inside."""
    said: list[Sentence] = []
    if not trials:
        said.append(Sentence("No change was tried."))
    elif len(trials) == 1:
        said.append(Sentence("One change was tried."))
    else:
        said.append(Sentence("{n} changes were tried, one at a time.", {"n": len(trials)}))
    for outcome, template in _GROUPS:
        named = tuple(trial.words.rstrip(" .") for trial in trials if trial.outcome is outcome)
        if named:
            said.append(Sentence(template, {"list": named}))
    if staying == 1:
        said.append(Sentence("One modification stays inside."))
    elif staying:
        said.append(Sentence("{n} modifications stay inside.", {"n": staying}))
    return Passage(Sentence("Done."), joined(tuple(said)))


def not_known(cause: CauseFound | None, note: str, trials: Sequence[TrialTold]) -> Passage:
    """The cause as the book has it; where none is established, that and nothing else."""
    if cause is not None and cause not in NO_CAUSE:
        values: dict[str, Value] = {"cause": Sentence(cause.value), "note": closed(note)}
        if note.strip():
            return Passage(Sentence("Cause."), Sentence("{cause}: {note}", values))
        return Passage(Sentence("Cause."), Sentence("{cause}.", values))
    if cause is CauseFound.NO_FAULT:
        return Passage(Sentence("Not known."), Sentence("The fault did not show itself here."))
    helped = any(
        trial.left.modifies and trial.outcome in (TrialOutcome.BETTER, TrialOutcome.CURED) for trial in trials
    )
    if not helped:
        return Passage(Sentence("Not known."), Sentence("Cause not established."))
    return Passage(
        Sentence("Not known."),
        Sentence(
            "That a change beyond the maker's design helps does not show which part is weak or worn, or whether "
            "one is."
        ),
        Sentence("Cause not established."),
    )


def since(job: int) -> Passage:
    """That the player was here again, so that what stays inside is told as it is now."""
    return Passage(
        Sentence("Since then."),
        Sentence(
            "The player was here again as job {job}. Modifications and safety notes on this sheet are those of now.",
            {"job": str(job)},
        ),
    )


def effect_of(trial: TrialTold) -> tuple[Sentence, Sentence]:
    """What a trial did, and behind it what became of the change."""
    effect = Sentence("not judged") if trial.outcome is None else Sentence(trial.outcome.value)
    if trial.came_back:
        return effect, Sentence("; undone, the fault came back")
    return effect, _LEFT[trial.left]


def tries_of(climb: StartUpResult) -> Sentence:
    """In how many of its tries a climb stopped, or played to the end."""
    if climb.first_not_reached is None:
        values: dict[str, Value] = {"n": climb.tries - climb.stopped_in, "tries": climb.tries}
        return Sentence("to the end in {n} of {tries}", values)
    return Sentence("stopped in {n} of {tries}", {"n": climb.stopped_in, "tries": climb.tries})
