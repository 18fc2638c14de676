"""A start-up result: how far up the ladder a player climbed, in states, in words and against another climb."""

from __future__ import annotations

import math
from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from functools import reduce

from app.trade.bench.figures import rounded
from app.trade.bench.kinds import Arrangement, FaultGroup, HowSeen, Warmth
from app.trade.bench.ladder import OTHER, Ladder, Suspect
from app.trade.bench.quantities import HIGHEST_RUNG
from app.trade.sentence import Measure, Sentence, Value, words

MOST_TRIES = 50
WORTH_NAMING = Decimal("0.05")
MOST_NAMED = 5
SAYS_LITTLE = 0.05  # the one-sided p above which fewer stops prove nothing; common practice, no source


class RungState(StrEnum):
    """How a rung is drawn: solid, half, open."""

    REACHED = words("reached")
    STOPPED = words("stopped here")
    NOT_REACHED = words("not reached")


@dataclass(frozen=True, kw_only=True)
class StartUpResult:
    """One climb. ``rung``: the highest one reached in more than half of the tries, 0 for none. ``stopped_in``:
    the tries that stopped at the next one; where all twelve count, those that stopped anywhere. Only normal
    use picks the ladder's row, counts for the statistics and shows a cure."""

    rung: int
    tries: int = 1
    stopped_in: int = 1
    seen: HowSeen = HowSeen.NORMAL_USE
    warmth: Warmth = Warmth.BETWEEN
    warm_minutes: int | None = None
    room: Decimal | None = None
    disc: str = ""
    error_shown: str = ""

    @property
    def first_not_reached(self) -> int | None:
        """The rung before which it stops; None when it plays to the end."""
        return self.rung + 1 if self.rung < HIGHEST_RUNG else None

    @property
    def counts(self) -> bool:
        """Seen in normal use."""
        return self.seen is HowSeen.NORMAL_USE

    @property
    def states(self) -> tuple[RungState, ...]:
        """The state of each rung, 1 first."""
        return tuple(self._state(number) for number in range(1, HIGHEST_RUNG + 1))

    def _state(self, number: int) -> RungState:
        if number <= self.rung:
            return RungState.REACHED
        return RungState.STOPPED if number == self.first_not_reached else RungState.NOT_REACHED

    def headline(
        self, ladder: Ladder, arrangement: Arrangement | None, not_testable: Container[int] = ()
    ) -> Sentence:
        """Where the job stands, in one sentence: It plays, but stalls on a long seek. Where the next rung cannot
        be tested on the type, nobody knows whether it stops there or at the one above."""
        stop = self.first_not_reached
        if stop in not_testable and stop is not None and stop < HIGHEST_RUNG:
            return Sentence(
                "It stops before {next} or before {above}: the first of them cannot be tested on this type.",
                {
                    "next": ladder.rung(stop).name(arrangement),
                    "above": ladder.rung(stop + 1).name(arrangement),
                },
            )
        if stop is not None:
            return ladder.rung(stop).stop(arrangement)
        if self.stopped_in:
            return Sentence(
                "It plays to the end, but stops in {n} of {tries} tries.",
                {"n": self.stopped_in, "tries": self.tries},
            )
        return Sentence("It plays to the end.")

    @property
    def detail(self) -> Sentence:
        """Reached and stopped in figures, and what is known by that."""
        figures: dict[str, Value] = {
            "rung": self.rung,
            "all": HIGHEST_RUNG,
            "n": self.stopped_in,
            "tries": self.tries,
        }
        if not self.counts:
            return Sentence(
                "Reached rung {rung} of {all} in {seen}: it works when told to.",
                {**figures, "seen": Sentence(self.seen.value)},
            )
        if self.first_not_reached is None:
            if self.tries == 1:
                return Sentence("Reached all {all} rungs in the one try.", figures)
            return Sentence("Reached all {all} rungs in {tries} tries.", figures)
        figures["next"] = self.first_not_reached
        if self.rung == 0:
            return Sentence("Reached no rung, stopped at 1 in {n} of {tries} tries.", figures)
        if self.rung == 1:
            return Sentence(
                "Reached rung 1 of {all}, stopped at {next} in {n} of {tries} tries. It works to that extent.",
                figures,
            )
        return Sentence(
            "Reached rung {rung} of {all}, stopped at {next} in {n} of {tries} tries. "
            "Rungs 1 to {rung} work to that extent.",
            figures,
        )

    @property
    def conditions(self) -> Sentence:
        """How it was seen, small beside the ladder: warm after 40 min, room 21 °C, normal use, reference disc R2."""
        told = Sentence(self.warmth.value)
        if self.warm_minutes is not None:
            told = Sentence("{warmth} after {minutes} min", {"warmth": told, "minutes": self.warm_minutes})
        parts = [told]
        if self.room is not None:
            parts.append(Sentence("room {room}", {"room": Measure(self.room, "°C")}))
        parts.append(Sentence(self.seen.value))
        told = _listed(parts)
        return Sentence("{these}, {one}", {"these": told, "one": self.disc}) if self.disc else told


def fields_refused(result: StartUpResult, not_testable: Container[int] = ()) -> dict[str, Sentence]:
    """A sentence under the name of each field that cannot be right; empty: all can. A rung that cannot be tested
    on the type is passed unseen, so it is the highest of none."""
    if not 0 <= result.rung <= HIGHEST_RUNG:
        return {"rung": Sentence("Rungs run from 0 to {all}.", {"all": HIGHEST_RUNG})}
    if result.rung in not_testable:
        return {
            "rung": Sentence(
                "Rung {rung} cannot be tested on this type: give the highest one that was seen.",
                {"rung": result.rung},
            )
        }
    if not 1 <= result.tries <= MOST_TRIES:
        return {"tries": Sentence("Give between 1 and {most} tries.", {"most": MOST_TRIES})}
    if not 0 <= result.stopped_in <= result.tries:
        return {"stopped_in": Sentence("It cannot have stopped more often than it was tried.")}
    half_or_more = 2 * result.stopped_in >= result.tries
    if result.first_not_reached is None and half_or_more:
        return {"stopped_in": Sentence("A rung counts only when more than half of the tries reach it.")}
    if result.first_not_reached is not None and not half_or_more:
        return {
            "stopped_in": Sentence(
                "More than half of the tries went past rung {next}: then it counts as reached.",
                {"next": result.first_not_reached},
            )
        }
    return {}


def ladder_sentence(
    result: StartUpResult,
    ladder: Ladder,
    arrangement: Arrangement,
    not_testable: frozenset[int] = frozenset(),
    shares: Mapping[str, Decimal] | None = None,
) -> Sentence:
    """What follows from where the player stands: what works, and who is still suspect, by ``shares`` of a ranking
    or, before any reading, by the ladder alone. Never "defective"; and of no fault group is it said that it works
    while one of it is named as suspect."""
    stop = result.first_not_reached
    if stop is None:
        return Sentence("No fault shown: warm run, tap, other discs, on its edge.")
    if shares is None:
        shares = ladder.weights(stop, arrangement, not_testable)
    suspects = named_suspects(shares, ladder.suspects)
    named = _listed([suspect.short_name for suspect in suspects])
    if result.rung == 0:
        return Sentence("Suspect: {suspects}.", {"suspects": named})
    proven = set(ladder.row(result.rung, arrangement).works) - {suspect.group for suspect in suspects}
    parts = [part for part in WORKING if part.groups <= proven]
    if not parts:
        return Sentence("Still suspect: {suspects}.", {"suspects": named})
    told = [parts[0].first, *(part.later for part in parts[1:])]
    if len(told) == 1:
        return Sentence(
            "{part} works to that extent; still suspect: {suspects}.", {"part": told[0], "suspects": named}
        )
    return Sentence(
        "{parts} and {last} work to that extent; still suspect: {suspects}.",
        {"parts": _listed(told[:-1]), "last": told[-1], "suspects": named},
    )


@dataclass(frozen=True)
class Working:
    """A part that is said to work where all its fault groups do, as a sentence begins with it and later in it."""

    groups: frozenset[FaultGroup]
    first: Sentence
    later: Sentence


WORKING: tuple[Working, ...] = (
    Working(frozenset({FaultGroup.POWER}), Sentence("Power"), Sentence("power")),
    Working(frozenset({FaultGroup.LOADING}), Sentence("Tray"), Sentence("tray")),
    Working(frozenset({FaultGroup.LOADING}), Sentence("Clamp"), Sentence("clamp")),
    Working(frozenset({FaultGroup.LIGHT}), Sentence("Laser"), Sentence("laser")),
    Working(frozenset({FaultGroup.LIGHT, FaultGroup.FOCUS}), Sentence("Lens"), Sentence("lens")),
    Working(frozenset({FaultGroup.FOCUS}), Sentence("Focus"), Sentence("focus")),
    Working(frozenset({FaultGroup.SPINDLE}), Sentence("Spindle"), Sentence("spindle")),
    Working(frozenset({FaultGroup.RADIAL}), Sentence("Tracking"), Sentence("tracking")),
    Working(frozenset({FaultGroup.SIGNAL}), Sentence("Decoder"), Sentence("decoder")),
    Working(frozenset({FaultGroup.SOUND}), Sentence("Sound"), Sentence("sound")),
)


def _listed(sentences: Sequence[Sentence]) -> Sentence:
    return reduce(lambda these, one: Sentence("{these}, {one}", {"these": these, "one": one}), sentences)


def named_suspects(shares: Mapping[str, Decimal], suspects: Mapping[str, Suspect]) -> tuple[Suspect, ...]:
    """The suspects worth naming: at most five above 5 %, largest first, then by id; where nobody is above that,
    the largest five. Never one name alone while the second has more than half of the first."""
    ranked = sorted(
        (suspect for suspect in shares if suspect != OTHER), key=lambda suspect: (-shares[suspect], suspect)
    )
    above = [suspect for suspect in ranked if shares[suspect] > WORTH_NAMING]
    if len(above) == 1 and len(ranked) > 1 and 2 * shares[ranked[1]] > shares[ranked[0]]:
        above = ranked[:2]
    return tuple(suspects[suspect] for suspect in (above or ranked)[:MOST_NAMED])


def fisher_p(stopped_before: int, tries_before: int, stopped_after: int, tries_after: int) -> float:
    """Fisher's exact test, one-sided: the chance of so few stops afterwards, or fewer, if nothing had changed.
    With few tries even a full change says little: 2 of 3 to 0 of 3 gives 0.2."""
    if not (0 <= stopped_before <= tries_before and 0 <= stopped_after <= tries_after):
        raise ValueError("stops are between 0 and the tries")
    stopped, tries = stopped_before + stopped_after, tries_before + tries_after
    fewest = max(0, stopped - tries_before)
    ways = sum(
        math.comb(tries_after, n) * math.comb(tries_before, stopped - n)
        for n in range(fewest, stopped_after + 1)
    )
    return ways / math.comb(tries, stopped)


def tries_sentence(stopped_before: int, tries_before: int, stopped_after: int, tries_after: int) -> Sentence:
    """n of m before and after, with what Fisher's exact test says of it."""
    p = fisher_p(stopped_before, tries_before, stopped_after, tries_after)
    values: dict[str, Value] = {
        "n": stopped_before,
        "tries": tries_before,
        "left": stopped_after,
        "again": tries_after,
        "p": rounded(Decimal(p), 4),
    }
    if p > SAYS_LITTLE:
        return Sentence(
            "It stopped in {n} of {tries} tries before, in {left} of {again} after (p {p}): that says little.",
            values,
        )
    return Sentence("It stopped in {n} of {tries} tries before, in {left} of {again} after (p {p}).", values)
