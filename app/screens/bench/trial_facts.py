"""A trial as its tile shows it."""

from __future__ import annotations

from decimal import Decimal

from app.screens.kit.trials import TrialFacts, TrialReading
from app.screens.language import clock_time, number, say
from app.trade.bench.quantities import HIGHEST_RUNG
from app.trade.bench.stages import TrialOutcome
from app.trade.sentence import Sentence
from app.work.bench.sheet_lines import TrialReading as Read
from app.work.bench.sheet_lines import TrialTile

OUTCOMES = {
    TrialOutcome.CURED: "cured",
    TrialOutcome.BETTER: "better",
    TrialOutcome.NO_DIFFERENCE: "none",
    TrialOutcome.WORSE: "worse",
}
MOST = 3


def tile_of(trial: TrialTile, stays: bool, agreed: Sentence | str) -> TrialFacts:
    """The tile. ``stays``: it left a modification inside; ``agreed`` how the customer said yes to it."""
    struck = ""
    if trial.struck is not None:
        struck = say(
            "struck out {time}, {name}: {reason}",
            time=clock_time(trial.struck.at),
            name=trial.struck.by,
            reason=trial.struck.reason,
        )
    fate = trial.left
    if stays:
        left = say("left inside: a modification")
        fate = say("{left}, agreed {how}", left=left, how=agreed) if agreed else left
    return TrialFacts(
        title=say("Trial {number}", number=trial.number),
        time=clock_time(trial.at),
        change=trial.words,
        outcome=OUTCOMES[trial.outcome] if trial.outcome is not None else "",
        outcome_word=say(trial.outcome.value) if trial.outcome is not None else say("not judged yet"),
        readings=tuple(_lines(trial)),
        fate=fate if trial.outcome is not None else say("take the readings after it, then judge"),
        stays=stays,
        struck=struck,
        key=trial.id,
    )


def _lines(trial: TrialTile) -> list[TrialReading]:
    lines = [_reading(read) for read in trial.readings]
    rung = _rung(trial)
    if rung is None:
        return lines[:MOST]
    return [*lines[: MOST - 1], rung]


def _reading(read: Read) -> TrialReading:
    measure = read.after or read.before
    unit = measure.unit if measure is not None else ""
    return TrialReading(say(read.name), _shown(read.before), _shown(read.after), unit)


def _shown(measure: object) -> str:
    value = getattr(measure, "value", None)
    return number(value) if isinstance(value, Decimal) else "–"


def _rung(trial: TrialTile) -> TrialReading | None:
    before, after = trial.rung_before, trial.rung_after
    if before is None and after is None:
        return None
    return TrialReading(
        say("rung"),
        "–" if before is None else str(before),
        "–" if after is None else str(after),
        say("of {all}", all=HIGHEST_RUNG),
    )
