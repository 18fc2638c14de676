"""A trial as its tile shows it."""

from __future__ import annotations

from decimal import Decimal

from app.screens.kit.trials import TrialFacts, TrialReading
from app.screens.language import clock_time, day, number, say
from app.trade.bench.quantities import HIGHEST_RUNG
from app.trade.bench.stages import Left, TrialOutcome
from app.work.bench.sheet_lines import ModificationLine, TrialTile
from app.work.bench.sheet_lines import TrialReading as Read

OUTCOMES = {
    TrialOutcome.CURED: "cured",
    TrialOutcome.BETTER: "better",
    TrialOutcome.NO_DIFFERENCE: "none",
    TrialOutcome.WORSE: "worse",
}
MOST = 3


def tile_of(
    trial: TrialTile, left: ModificationLine | None, back: ModificationLine | None = None
) -> TrialFacts:
    """The tile. ``left``: the modification that it left, put back since or not; ``back``: one that it put back."""
    struck = ""
    if trial.struck is not None:
        struck = say(
            "struck out {time}, {name}: {reason}",
            time=clock_time(trial.struck.at),
            name=trial.struck.by,
            reason=trial.struck.reason,
        )
    stays = left is not None and left.reversed_at is None
    proposed = trial.proposed if trial.outcome is not None else None
    return TrialFacts(
        title=say("Trial {number}", number=trial.number),
        time=clock_time(trial.at),
        change=trial.words,
        outcome=OUTCOMES[trial.outcome] if trial.outcome is not None else "",
        outcome_word=say(trial.outcome.value) if trial.outcome is not None else say("not judged yet"),
        readings=tuple(_lines(trial)),
        fate=_fate(trial, left, back),
        stays=stays,
        struck=struck,
        key=trial.id,
        put_back=not stays and (left is not None or trial.left.undone),
        book="" if proposed is None else OUTCOMES[proposed],
        book_words="" if proposed is None else say("the book: {outcome}", outcome=say(proposed.value)),
    )


def told_of(trial: TrialTile) -> str:
    """What the tile has no room for: the suspect, why it came out of order, what the book made of it, the note."""
    lines = []
    if trial.suspect is not None:
        lines.append(say("Suspected: {suspect}.", suspect=trial.suspect))
    if trial.order_reason:
        lines.append(say("Done out of the book's order: {reason}.", reason=trial.order_reason))
    if trial.outcome is not None and trial.proposed is not None:
        words = {"outcome": say(trial.outcome.value), "book": say(trial.proposed.value)}
        if trial.outcome is trial.proposed:
            lines.append(say("Judged {outcome}; the book works out the same.", **words))
        else:
            lines.append(say("Judged {outcome}; the book works out: {book}.", **words))
    if trial.came_back:
        lines.append(say("The fault came back with the change undone."))
    if trial.note:
        lines.append(trial.note)
    return " ".join(lines)


def put_back_by(back: ModificationLine) -> str:
    """What a trial put back: the former modification and its job."""
    return say("Puts back {what}, from job {number}.", what=say(back.words), number=str(back.job_number))


def _fate(trial: TrialTile, left: ModificationLine | None, back: ModificationLine | None) -> str:
    if left is None and back is not None:
        return put_back_by(back)
    if trial.outcome is None:
        return say("take the readings after it, then judge")
    if left is None:
        if trial.left is Left.LEFT_INSIDE:
            return say("left inside: record its modification")
        return "" if trial.left is Left.NOT_SAID else say(trial.left.value)
    if left.reversed_at is not None:
        if left.reversed_in is None:
            return say("put back {day}", day=day(left.reversed_at, "d MMM"))
        return say(
            "put back {day} in job {number}", day=day(left.reversed_at, "d MMM"), number=str(left.reversed_in)
        )
    words = say("left inside: a modification")
    return say("{left}, agreed {how}", left=words, how=left.agreed) if left.agreed else words


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
