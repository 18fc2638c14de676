"""Words of a job that several parts of the bench show: stage, what it waits for, promise, player."""

from __future__ import annotations

from datetime import date

from app.screens.language import day, near_day, say
from app.trade.bench.stages import Outcome, Stage, Waiting, where_it_stands
from app.trade.sentence import Sentence

STAGES = tuple(Stage)
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


def player_words(maker: str, model: str, serial: str) -> str:
    """The player in a heading: Quellmar Larch 2, serial 0420 158."""
    name = f"{maker} {model}".strip()
    return say("{player}, serial {serial}", player=name, serial=serial) if serial else name
