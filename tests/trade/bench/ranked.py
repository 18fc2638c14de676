"""The shipped knowledge of the bench, and evidence written short, for the tests of the ranking."""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path
from typing import Any

from app.trade.bench.changes import read_changes
from app.trade.bench.evidence import Asked, ReadingSeen, TrialSeen, reading_seen
from app.trade.bench.kinds import Arrangement
from app.trade.bench.ladder import read_ladder
from app.trade.bench.likelihood_data import read_likelihoods
from app.trade.bench.quantities import catalogue_of
from app.trade.bench.ranking import Knowledge, Ranking, RankingCase, rank
from app.trade.bench.stages import TrialOutcome
from app.trade.bench.verdict import VerdictWord
from app.trade.bench.weighing import Evidence
from app.trade.sentence import Sentence

ASSETS = Path(__file__).parents[3] / "assets/bench"
S, T = Arrangement.SWING_ARM, Arrangement.SLED
WITHIN, HIGH, LOW, CLOSE = VerdictWord.WITHIN, VerdictWord.HIGH, VerdictWord.LOW, VerdictWord.CLOSE
CURED, BETTER, NONE, WORSE = (
    TrialOutcome.CURED,
    TrialOutcome.BETTER,
    TrialOutcome.NO_DIFFERENCE,
    TrialOutcome.WORSE,
)


def shipped(name: str) -> Any:
    """The data as they ship, to be altered at will."""
    return json.loads((ASSETS / f"{name}.json").read_text(encoding="utf-8"))


LADDER = read_ladder(shipped("ladder"))
QUANTITIES = catalogue_of(shipped("quantities"))
CHANGES = read_changes(shipped("changes"), LADDER.suspects)
LIKELIHOODS = read_likelihoods(shipped("likelihoods"), LADDER.suspects, QUANTITIES)
KNOWLEDGE = Knowledge(LADDER.suspects, LIKELIHOODS, CHANGES)


def seen(evidence: str, verdict: VerdictWord, high: float | None = None, low: float = 0.0) -> ReadingSeen:
    """A reading with its verdict."""
    found = reading_seen(LIKELIHOODS.readings[evidence], Sentence(evidence), verdict, high, low)
    assert found is not None
    return found


def within(*evidence: str) -> tuple[ReadingSeen, ...]:
    """Readings within their limits."""
    return tuple(seen(one, WITHIN) for one in evidence)


def tried(number: int, change: str, outcome: TrialOutcome = NONE, **more: Any) -> TrialSeen:
    """A trial, without effect unless said."""
    return TrialSeen(number, change, Sentence(change), outcome, **more)


def evidence(
    arrangement: Arrangement,
    rung: int,
    readings: tuple[ReadingSeen, ...] = (),
    trials: tuple[TrialSeen, ...] = (),
    **symptoms: Asked,
) -> Evidence:
    """Evidence of a player that stops before a rung."""
    return Evidence(arrangement=arrangement, rung=rung, symptoms=symptoms, readings=readings, trials=trials)


def ranked(weights: Mapping[str, Any], known: Evidence, counts: Mapping[str, int] | None = None) -> Ranking:
    """The ranking by the shipped knowledge."""
    return rank(RankingCase(weights=weights, evidence=known, counts=counts or {}), KNOWLEDGE)


# Three worked examples of the trade's reference data (section 10, computed there by script as exact fractions).
WEIGHTS_A = {
    "arm_drag": Fraction(2, 5),
    "radial_magnet": Fraction(1, 4),
    "flex_drag": Fraction(1, 5),
    "wobble": Fraction(1, 10),
    "other": Fraction(1, 20),
}
COUNTS_A = {"arm_drag": 3, "flex_drag": 1, "wobble": 1}
READ_A = within("c1_inner", "radial_drive")
TRIED_A = (tried(1, "flex_dress"), tried(2, "radial_set"), tried(3, "coil_current", BETTER, modifies=True))
CASE_A = evidence(S, 11, READ_A, TRIED_A)

WEIGHTS_B = {
    "sled_rail": Fraction(3, 10),
    "tilt": Fraction(3, 10),
    "spindle_bearing": Fraction(3, 20),
    "disc": Fraction(3, 20),
    "other": Fraction(1, 10),
}
COUNTS_B = {"sled_rail": 3, "tilt": 5, "spindle_bearing": 1, "disc": 3}
READ_B = (seen("c1_outer", HIGH), seen("motor_current", WITHIN))
CASE_B = evidence(T, 12, READ_B, (tried(1, "other_disc"),))

WEIGHTS_C = LADDER.weights(8, S, {8})
COUNTS_C = {"lens_dirt": 4, "radial_magnet": 2, "servo_caps": 2, "laser_worn": 1}
READ_C = (seen("hf_eye", LOW), seen("laser_rel", WITHIN))
CASE_C = evidence(S, 8, READ_C, (tried(1, "clean_lens"),))

# The player of job 1 there, on the whole row: 30.4 mA against 30 with u 1.3015 is too close to call.
P_HIGH = 0.6207068237178734
WEIGHTS_FULL = LADDER.weights(11, S)
READ_FULL = (
    *within("rail_dc", "laser_rel", "focus_offset", "hf_eye", "c1_inner", "radial_drive"),
    seen("arm_start_current", CLOSE, P_HIGH),
    seen("seek_time", HIGH),
)
WORDS_FULL = {"warm": Asked.DENIED, "drop": Asked.DENIED}
