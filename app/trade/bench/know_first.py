"""What the next technician must know of a player before the case is opened, as the book stands now."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.trade.bench.flag import Level
from app.trade.bench.stages import Outcome
from app.trade.sentence import Sentence, words


@dataclass(frozen=True, slots=True)
class StandsNow:
    """A player as it stands. ``transport`` is the one inside, empty where none is noted; ``had_one``: one was taken
    out. ``live`` counts the changes inside player and transport. ``last_job`` and ``last_outcome`` are of the last
    closed visit. ``worn`` are quantities of the transport whose line runs towards its limit, ``beyond`` those
    whose line has crossed it."""

    transport: str = ""
    had_one: bool = False
    live: int = 0
    last_job: int | None = None
    last_outcome: Outcome | None = None
    worn: tuple[Sentence, ...] = ()
    beyond: tuple[Sentence, ...] = ()


@dataclass(frozen=True, slots=True)
class ToKnow:
    """One thing to know, as grave as its level."""

    level: Level
    sentence: Sentence


_ENDED = {
    Outcome.MENDED_MODIFIED: (
        Level.CAUTION,
        words("Job {job} mended it by a modification: the cause of the fault was not established."),
    ),
    Outcome.NO_FAULT_SHOWN: (
        Level.NOTE,
        words("Job {job} saw no fault: look for what comes and goes, warm, cold and on other discs."),
    ),
    Outcome.DECLINED: (
        Level.NOTE,
        words("Job {job} was declined: the fault that it came with is still inside."),
    ),
    Outcome.BEYOND_REPAIR: (Level.NOTE, words("Job {job} found it beyond repair.")),
    Outcome.REFUSED: (Level.CAUTION, words("Job {job} was refused: read why before anything is promised.")),
    Outcome.KEPT_AS_DONOR: (Level.NOTE, words("It stays here as a donor since job {job}.")),
    Outcome.UNCOLLECTED: (Level.NOTE, words("It was not collected after job {job}.")),
}


def know_first(now: StandsNow) -> tuple[ToKnow, ...]:
    """The gravest first. Open flags stand beside these and are not said twice here."""
    found = list(_of(now))
    order = tuple(Level)[::-1]
    return tuple(sorted(found, key=lambda one: order.index(one.level)))


def _of(now: StandsNow) -> Iterator[ToKnow]:
    if now.live:
        key = (
            words(
                "It departs from the maker's design in one place: read what and how back before you measure."
            )
            if now.live == 1
            else words(
                "It departs from the maker's design in {n} places: read what and how back before you measure."
            )
        )
        yield ToKnow(Level.CAUTION, Sentence(key, {"n": now.live}))
    if now.last_outcome in _ENDED and now.last_job is not None:
        level, key = _ENDED[now.last_outcome]
        yield ToKnow(level, Sentence(key, {"job": str(now.last_job)}))
    if now.beyond:
        yield ToKnow(
            Level.CAUTION,
            Sentence(
                "By its readings over the years the transport is past its limit: {list}.",
                {"list": now.beyond},
            ),
        )
    if now.worn:
        yield ToKnow(
            Level.NOTE,
            Sentence(
                "The transport wears towards its limit: {list}. Its life says when.", {"list": now.worn}
            ),
        )
    if not now.transport:
        key = (
            words("No transport is inside: it was taken out.")
            if now.had_one
            else words("Its transport was never noted.")
        )
        yield ToKnow(Level.NOTE, Sentence(key))
