"""Words of a job that several parts of the bench show: stage, what it waits for, promise, player."""

from __future__ import annotations

from datetime import date

from app.screens.language import day, near_day, say
from app.trade.bench.stages import Outcome, Stage, Waiting, where_it_stands
from app.trade.sentence import Sentence
from app.work.bench.sheet_estimate import SheetEstimate, Standing

STAGES = tuple(Stage)
TITLE = 32  # letters of an option's title in the heading; the whole of it stands on its page
_WAITING = {
    Waiting.NOTHING: Sentence(""),
    Waiting.ANSWER: Sentence("waiting for answer"),
    Waiting.PART: Sentence("waiting for part"),
    Waiting.CUSTOMER: Sentence("waiting for customer"),
}


def stage_index(stage: Stage) -> int:
    """The place of a stage among the five boxes."""
    return STAGES.index(stage)


def stage_word(stage: Stage, outcome: Outcome | None = None) -> str:
    """The stage in words; a closed job whose player stays here by its outcome."""
    return say(where_it_stands(stage, outcome))


def waiting_words(waiting: Waiting) -> str:
    """What it waits for, empty when for nothing."""
    sentence = _WAITING[waiting]
    return say(sentence) if sentence.key else ""


def due_words(due: date, today: date) -> str:
    """When a part that was ordered is expected, or for how long it is late."""
    late = (today - due).days
    if late <= 0:
        return say("part due {day}", day=day(due, "d MMM"))
    return say("part late, 1 day") if late == 1 else say("part late, {n} days", n=late)


def promise_words(day: date | None, time: str, today: date) -> str:
    """The promised day, near ones without their year."""
    if day is None:
        return say("no date yet")
    return f"{near_day(day, today)} {time}".strip()


def estimate_words(estimate: SheetEstimate) -> str:
    """Where the estimate stands, e.g. ``0412: B, modified, yours kept, up to 250.00 EUR``."""
    number = estimate.number
    match estimate.standing:
        case Standing.WRITTEN:
            return say("being written")
        case Standing.WAITS if estimate.unanswered is not None:
            return say("{number}: no answer for {n} days", number=number, n=estimate.unanswered)
        case Standing.WAITS:
            return say("{number} waits for the answer", number=number)
        case Standing.DECLINED:
            return say("{number} declined", number=number)
        case Standing.LEFT:
            return say("{number}, never answered", number=number)
    chosen = say("agreed")
    if estimate.letter:
        title = estimate.title if len(estimate.title) <= TITLE else f"{estimate.title[: TITLE - 1].rstrip()}…"
        chosen = say("{letter}, {title}", letter=estimate.letter, title=title)
    assert estimate.up_to is not None
    return say("{number}: {chosen}, up to {amount}", number=number, chosen=chosen, amount=estimate.up_to)


def player_words(maker: str, model: str, serial: str) -> str:
    """The player in a heading: Quellmar Larch 2, serial 0420 158."""
    name = f"{maker} {model}".strip()
    return say("{player}, serial {serial}", player=name, serial=serial) if serial else name
