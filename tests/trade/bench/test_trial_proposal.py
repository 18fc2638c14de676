"""What the book proposes for a trial: rungs, readings against limits, and what the change alone foretells."""

from __future__ import annotations

from datetime import UTC
from decimal import Decimal

import pytest

from app.trade.bench.climbs import ClimbPair
from app.trade.bench.stages import TrialOutcome
from app.trade.bench.start_up import StartUpResult
from app.trade.bench.trial_proposal import (
    BY_MODIFICATION,
    HELD,
    UNPROVEN,
    Moved,
    Pair,
    Proposal,
    TrialSides,
    propose,
    shown_z,
)
from app.trade.bench.uncertainty import Accuracy, Counted, Fixed, Model, Repeatability, reading_u
from app.trade.bench.verdict import Limit
from app.trade.sentence import Measure, Sentence
from app.trade.wording import plain

D = Decimal
SAY = plain(UTC)
# The instruments of bench.md section 1 for these quantities.
WATCH, SCOPE = Fixed(D("0.09")), Accuracy(D(1), D(0), D(5))
AGAIN = Repeatability()
METER = Accuracy(D("0.5"), D(2), D(1))
K = D("6.8") / D("5.6")  # bench.md section 12, job 1: R314 6.8 by 5.6 ohm
CURED, BETTER, NONE, WORSE = (
    TrialOutcome.CURED,
    TrialOutcome.BETTER,
    TrialOutcome.NO_DIFFERENCE,
    TrialOutcome.WORSE,
)


def pair(before: str, after: str, u_before: str, u_after: str, unit: str = "s", **more: object) -> Pair:
    limit = more.pop("limit", None)
    return Pair(
        name=Sentence("seek time"),
        before=D(before),
        u_before=D(u_before),
        after=D(after),
        u_after=D(u_after),
        shown_before=Measure(D(before), unit),
        shown_after=Measure(D(after), unit),
        limit=Limit(*limit) if isinstance(limit, tuple) else None,
        **more,  # type: ignore[arg-type]
    )


def read(
    before: str, after: str, model: Model, unit: str, again: Repeatability = AGAIN, **more: object
) -> Pair:
    """Before and after with the uncertainties that the instrument gives them."""
    u_before, u_after = (str(reading_u(model, again, D(y)).u) for y in (before, after))
    return pair(before, after, u_before, u_after, unit, **more)


def seek(before: str, after: str) -> Pair:
    return read(before, after, WATCH, "s", limit=(None, D("1.5")))


def drive(before: str, after: str, **more: object) -> Pair:
    return read(before, after, SCOPE, "mV", limit=(D(-300), D(300)), **more)


def climb(rung: int, stopped: int | None = None, tries: int = 1) -> StartUpResult:
    if stopped is None:
        stopped = 0 if rung == 12 else tries
    return StartUpResult(rung=rung, tries=tries, stopped_in=stopped)


def outcome(
    *climbs: tuple[StartUpResult, StartUpResult], pairs: tuple[Pair, ...] = ()
) -> TrialOutcome | None:
    return propose(TrialSides(tuple(ClimbPair(*both) for both in climbs), pairs)).outcome


def said(proposal: Proposal) -> str:
    return " ".join(SAY(reason) for reason in proposal.reasons)


def test_three_trials_of_the_demo_story_show_no_difference() -> None:
    # bench.md section 12, job 1: 4.8 to 4.7 s is z -0.54, 4.7 to 4.8 s z 0.54, radial offset -38 to -4 mV z 10.2
    # (a real change, within its limits before and after), rung 10 each time.
    flex = seek("4.8", "4.7")
    assert shown_z(flex.plain) == Measure(D("-0.54"))
    assert shown_z(seek("4.7", "4.8").plain) == Measure(D("0.54"))
    offset = read("-38", "-4", METER, "mV", again=Repeatability(D(0), D(2)), limit=(D(-100), D(100)))
    assert shown_z(offset.plain) == Measure(D("10.2"))
    assert SAY(offset.sentences[0]).endswith("a real change that its limit does not ask for.")
    for pairs in ((flex,), (offset, flex)):
        assert outcome((climb(10, 3, 3), climb(10)), pairs=pairs) is NONE


def test_more_coil_current_plays_and_is_better_never_cured() -> None:
    # bench.md sections 8 and 12: 228 to 188 mV is z -6.17 against 228 and 0.0403 against the 187.76 foretold;
    # seek time 4.7 to 1.3 s z -21.2, within; rung 10 to 12; the technician's word was "better".
    moved = drive("228", "188", ratio_after=K)
    time = seek("4.7", "1.3")
    assert shown_z(time.plain) == Measure(D("-21.2"))
    assert moved.moved is Moved.NOT
    assert moved.plain.z is not None
    assert round(moved.plain.z, 2) == D("-6.17")
    assert round(moved.telling.z or D(9), 2) == D("0.04")
    both = (ClimbPair(climb(10, 3, 3), climb(12, 0, 3)),)
    found = propose(TrialSides(both, (moved, time), modifies=True))
    assert found.outcome is BETTER
    assert found.reasons[-1] == BY_MODIFICATION
    assert "228 mV foretells 187.8 mV, 188 mV was read" in said(found).replace("\u00a0", " ")
    assert propose(TrialSides(both, (moved, time))).outcome is CURED


def test_a_cure_says_by_what_it_is_shown_or_what_would_show_it() -> None:
    both = (ClimbPair(climb(10, 4, 5), climb(12, 0, 5)),)
    assert propose(TrialSides(both)).reasons[-1] == UNPROVEN
    assert propose(TrialSides(both, proof=HELD)).reasons[-1] == HELD
    assert propose(TrialSides(both, modifies=True, proof=HELD)).reasons[-1] == BY_MODIFICATION


def test_a_cure_seen_in_fewer_stops_needs_enough_tries() -> None:
    # bench.md section 12, job 3: 4 of 5 cold before, 0 of 5 after: p 0.0238 (1/42), one-sided.
    pair_ = ClimbPair(climb(10, 4, 5), climb(12, 0, 5))
    assert pair_.p == pytest.approx(1 / 42)
    assert pair_.step == 1
    assert "(p 0.0238)" in SAY(pair_.sentence)
    assert outcome((climb(10, 4, 5), climb(12, 0, 5))) is CURED
    # bench.md section 2: 2 of 3 to 0 of 3 gives 0.2 and says little.
    few = ClimbPair(climb(10, 2, 3), climb(12, 0, 3))
    assert few.step == 0
    assert "that says little" in SAY(few.sentence)
    assert outcome((climb(10, 2, 3), climb(12, 0, 3))) is NONE


def test_the_same_with_the_arm_start_current_that_fell_is_cured() -> None:
    # bench.md section 12, job 3: 41 (u 0.96) to 18 mA is z -19.2; limit 30 mA.
    start = pair("41", "18", "0.96", "0.717", "mA", limit=(None, D(30)))
    assert shown_z(start.plain) == Measure(D("-19.2"))
    assert start.moved is Moved.TOWARD
    assert outcome((climb(10, 4, 5), climb(12, 0, 5)), pairs=(start,)) is CURED


def test_a_drive_put_back_to_the_maker_s_value_is_judged_by_what_that_foretells() -> None:
    # bench.md section 12, job 3: 111 mV with 5.6 ohm, 135 mV with 6.8 ohm again: 134.8 foretold, z 0.05.
    back = drive("111", "135", ratio_before=K)
    assert round(back.plain.z or D(0), 1) > 2
    assert round(back.telling.z or D(9), 2) == D("0.05")
    assert back.moved is Moved.NOT


def test_a_drive_within_as_read_is_judged_at_the_maker_s_value() -> None:
    # bench.md section 8: 253 mV is within 300, but 253 k = 307.2 is not.
    worse = drive("228", "253", ratio_before=K, ratio_after=K)
    assert worse.moved is Moved.AWAY
    assert not worse.now_within
    assert worse.telling.z == worse.plain.z


def test_one_try_each_way_is_seen_and_said_to_be_few() -> None:
    found = propose(TrialSides((ClimbPair(climb(10), climb(12)),)))
    assert found.outcome is CURED
    assert "Few tries for it: 1 before, 1 after (p 0.50)" in said(found)
    many = ClimbPair(climb(10, 3, 3), climb(12, 0, 3))  # 1 of 20
    assert SAY(many.sentence) == (
        "Rung 10 to 12 of 12. It stopped in 3 of 3 tries before, in 0 of 3 after (p 0.0500)."
    )
    same = ClimbPair(climb(10, 3, 3), climb(10, 2, 2))  # nothing to tell apart
    assert SAY(same.sentence) == "Rung 10 as before."


def test_further_up_but_not_to_the_end_is_better() -> None:
    assert outcome((climb(7), climb(10))) is BETTER
    assert outcome((climb(10, 5, 5), climb(12, 1, 5))) is BETTER
    assert ClimbPair(climb(10, 5, 5), climb(12, 1, 5)).step == 1


def test_a_rung_lost_is_worse_whatever_the_readings_say() -> None:
    assert outcome((climb(10), climb(7)), pairs=(seek("4.7", "1.3"),)) is WORSE
    assert outcome((climb(12, 0, 5), climb(10, 4, 5))) is WORSE
    assert ClimbPair(climb(12, 0, 5), climb(10, 4, 5)).p == pytest.approx(1 / 42)


def test_further_when_cold_and_less_far_when_warm_is_left_to_the_technician() -> None:
    found = propose(TrialSides((ClimbPair(climb(7), climb(10)), ClimbPair(climb(12), climb(10)))))
    assert found.outcome is None
    assert "for you to weigh" in said(found)


def test_nothing_on_both_sides_proposes_nothing() -> None:
    found = propose(TrialSides())
    assert found.outcome is None
    assert "cannot tell" in said(found)


def test_readings_alone_are_better_and_cured_only_when_it_plays_and_all_are_within() -> None:
    # bench.md section 12, job 2: c1_outer 310 (30 s, u 31) to 24 (u 2.6), z -9.1.
    u_before, u_after = (str(reading_u(Counted(), Repeatability(D("0.1")), D(y), D(30)).u) for y in (310, 24))
    c1 = pair("310", "24", u_before, u_after, "/s", limit=(None, D(220)))
    assert shown_z(c1.plain).value == pytest.approx(D("-9.1"), abs=D("0.05"))  # type: ignore[union-attr]
    assert c1.telling.real
    assert outcome(pairs=(c1,)) is BETTER
    assert outcome((climb(12, 0, 3), climb(12, 0, 3)), pairs=(c1,)) is CURED
    half = pair("310", "230", "10", "5", "/s", limit=(None, D(220)))
    assert outcome((climb(12, 0, 3), climb(12, 0, 3)), pairs=(c1, half)) is BETTER
    shimmed = propose(TrialSides((ClimbPair(climb(12), climb(12)),), (c1,), modifies=True))
    assert (shimmed.outcome, shimmed.reasons[-1]) == (BETTER, BY_MODIFICATION)


def test_readings_that_left_their_limits_are_worse_and_both_ways_is_open() -> None:
    toward, away = seek("4.7", "3.0"), seek("1.2", "4.0")
    assert "toward its limit" in SAY(toward.sentences[0])
    assert "further from its limit" in SAY(away.sentences[0])
    assert outcome(pairs=(away,)) is WORSE
    assert outcome(pairs=(toward, away)) is None
    assert outcome((climb(10), climb(12)), pairs=(away,)) is BETTER


def test_below_a_low_limit_counts_as_far_as_above_a_high_one() -> None:
    eye = pair("0.60", "1.10", "0.02", "0.02", "Vpp", limit=(D("0.8"), D("1.4")))
    assert eye.moved is Moved.TOWARD
    assert "within its limit now" in SAY(eye.sentences[0])


def test_without_a_limit_a_real_change_says_nothing_of_a_mend() -> None:
    bare = pair("48.6", "54.3", "1.013336", "1.131818", "mA")
    # bench.md section 8, trimmer: z 3.7521.
    assert shown_z(bare.plain) == Measure(D("3.75"))
    assert bare.moved is Moved.ASIDE
    assert not bare.now_within
    assert "without a limit" in SAY(bare.sentences[0])
    assert outcome(pairs=(bare,)) is NONE


def test_without_any_uncertainty_there_is_no_z() -> None:
    exact = pair("4.7", "4.7", "0", "0")
    assert "z not known" in SAY(exact.sentences[0])


def test_a_drive_of_nothing_foretells_nothing() -> None:
    still = drive("0", "0", ratio_after=K)
    assert "0 mV foretells 0.0 mV" in " ".join(map(SAY, still.sentences)).replace("\u00a0", " ")
