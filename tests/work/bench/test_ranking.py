"""The ranking of a job from a real book: the player of the demo story, and what is left out on purpose."""

from __future__ import annotations

from datetime import UTC
from decimal import Decimal
from typing import Any

from app.trade.bench.evidence import Asked
from app.trade.bench.kinds import HowSeen, Warmth
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Moment, TrialOutcome
from app.trade.sentence import Sentence
from app.trade.wording import plain
from app.work.bench.modifications import ModificationEntry, record_modification, reverse_modification
from app.work.bench.ranking import NO_CLIMB, NO_TRANSPORT, RankingCard, ranking_of
from app.work.bench.strike_out import strike_out
from app.work.bench.symptoms import answer_symptoms
from app.work.bench.transports import take_out
from app.work.bench.trials import TrialEntry, judge_trial, record_trial
from app.work.office.shop_lists import LimitLine, save_limit

SAY = plain(UTC)


def card(bench: Any) -> RankingCard:
    found = ranking_of(bench.book, bench.job)
    assert isinstance(found, RankingCard), found
    return found


def share(bench: Any, suspect: str) -> str:
    return next((f"{line.share:.3f}" for line in card(bench).lines if line.id == suspect), "")


def ask(bench: Any, **answers: Asked) -> None:
    answer_symptoms(bench.book, bench.tobbe, bench.job, answers)


def tried(bench: Any, change: str, outcome: TrialOutcome = TrialOutcome.NO_DIFFERENCE) -> int:
    bench.later(minutes=10)
    reason = "the owner asks for it"  # needed only of what comes last
    entry = TrialEntry(change=change, words=change or "Something of our own", order_reason=reason)
    number = record_trial(bench.book, bench.tobbe, bench.job, entry).value
    bench.later(minutes=10)
    judge_trial(bench.book, bench.tobbe, number, outcome)
    return int(number)


def raised(bench: Any, trial_id: int | None = None) -> int:
    entry = ModificationEntry(
        kind=Kind.REPLACED,
        circuit=Circuit.RADIAL_COIL,
        law=Law.CURRENT,
        where="R314",
        maker_value=Decimal("6.8"),
        new_value=Decimal("5.6"),
        maker_tolerance=Decimal(5),
        new_tolerance=Decimal(5),
        trial_id=trial_id,
    )
    return int(record_modification(bench.book, bench.tobbe, bench.job, entry).value.id)


def arrive(bench: Any) -> None:
    """Job 1 of the trade's reference data, section 12."""
    limit = LimitLine(
        quantity="hf_eye",
        transport_type_id=bench.type,
        low=Decimal("0.8"),
        high=Decimal("1.4"),
        source="service document, p. 11",
    )
    save_limit(bench.book, bench.tobbe, limit)
    bench.climb(10, tries=3, warmth=Warmth.WARM)
    ask(bench, warm=Asked.DENIED, drop=Asked.DENIED)
    for quantity, typed in (
        ("laser_current", "51.2"),
        ("hf_eye", "1.08"),
        ("focus_offset", "12"),
        ("radial_drive", "228"),
        ("seek_time", "4.8"),
    ):
        bench.read(quantity, typed)
    bench.read("c1_inner", "12", seconds=30)
    bench.read("rail_dc", "7.96", detail="+8 V")
    bench.read("arm_start_current", "28.4; 30.4; 32.4")


def test_the_player_of_the_story_is_ranked_as_worked_by_hand(bench: Any) -> None:
    # Reference data, section 10, example A in full.
    arrive(bench)
    assert [share(bench, s) for s in ("arm_drag", "radial_magnet", "flex_drag", "radial_driver")] == [
        "0.292",
        "0.152",
        "0.169",
        "0.109",
    ]
    first = card(bench)
    assert (first.rung, first.jobs) == (11, 0)
    assert [offer.id for offer in first.steps.offers][:5] == [
        "other_disc",
        "flex_dress",
        "wobble_amp",
        "coil_current",
        "arm_emf",
    ]
    assert SAY(first.moves_nothing[0]) == (
        "seek time, first to last track is the rung itself: judged, but it moves nothing."
    )
    for change, lead in (("flex_dress", "0.336"), ("resolder", "0.346"), ("radial_set", "0.360")):
        tried(bench, change)
        assert share(bench, "arm_drag") == lead
    before = card(bench)
    assert not before.clear_leader
    assert "no clear leader" in SAY(before.sentence)
    assert "flex_dress" not in [offer.id for offer in before.steps.offers]
    assert SAY(before.standing).startswith(
        "Laser, lens, focus, spindle, decoder and sound work to that extent;"
    )
    assert "still suspect: arm bearing" in SAY(before.standing)
    # More current makes it play to the end; readings taken after it tell of another player.
    trial = tried(bench, "coil_current", TrialOutcome.BETTER)
    raised(bench, trial)
    bench.read("radial_drive", "188", Moment.DURING, trial_id=trial, trial_side="after")
    bench.read("seek_time", "1.3", Moment.DURING)
    bench.later(minutes=5)
    bench.climb(12, Moment.DURING, trial_id=trial, trial_side="after")
    after = card(bench)
    assert [line.share for line in after.lines] == [line.share for line in before.lines]
    assert "establishes no cause" in SAY(after.moves_nothing[-1])


def test_each_suspect_tells_its_whole_path(bench: Any) -> None:
    arrive(bench)
    line = card(bench).lines[0]
    why = [SAY(one) for one in line.why]
    assert why[0] == "The ladder gives it 24 in 100; no closed job here names a cause."
    assert any("“after a move, drop or post” was denied" in one for one in why)
    assert any(one.startswith("radial drive, within its limit") and "Counted as one" in one for one in why)
    assert why[-1] == f"Set against all others: {SAY(line.words)}."
    assert (line.words.key, line.entered, line.other) == ("{n} in 100", False, False)
    assert [one.other for one in card(bench).lines].count(True) == 1


def test_before_the_first_climb_there_is_nothing_to_rank(bench: Any) -> None:
    assert ranking_of(bench.book, bench.job) == NO_CLIMB
    bench.climb(10, seen=HowSeen.TEST_MODE)
    assert ranking_of(bench.book, bench.job) == NO_CLIMB
    struck = bench.climb(10)
    strike_out(bench.book, bench.tobbe, "start-up", struck, "wrong player")
    assert ranking_of(bench.book, bench.job) == NO_CLIMB


def test_a_player_without_a_known_transport_is_not_ranked(bench: Any) -> None:
    bench.climb(10)
    take_out(bench.book, bench.tobbe, bench.job)
    assert ranking_of(bench.book, bench.job) == NO_TRANSPORT


def test_a_player_that_only_ever_played_to_the_end_has_no_suspects(bench: Any) -> None:
    bench.climb(12)
    found = ranking_of(bench.book, bench.job)
    assert isinstance(found, Sentence)
    assert SAY(found) == "No fault shown: warm run, tap, other discs, on its edge."


def test_a_fault_that_shows_only_when_cold_stays_in_view(bench: Any) -> None:
    bench.climb(10, tries=5, stopped_in=4, warmth=Warmth.COLD)
    bench.climb(12, tries=5, warmth=Warmth.WARM)
    assert card(bench).rung == 11


def test_the_comeback_is_judged_at_the_makers_value(bench: Any) -> None:
    # Reference data, section 12, job 3: 253 mV with k 1.214286 is 307.2 at the maker's value, P(high) .862.
    bench.climb(10)
    raised(bench)
    bench.later(minutes=5)
    ask(bench, cold=Asked.SAID, tap=Asked.DENIED)
    assert share(bench, "arm_drag") == "0.393"
    assert [line.id for line in card(bench).lines if line.entered] == ["rail_caps"]
    bench.read("rail_dc", "7.96", detail="+8 V")
    limit = LimitLine(
        quantity="rail_ripple", transport_type_id=bench.type, high=Decimal("0.05"), source="common practice"
    )
    save_limit(bench.book, bench.tobbe, limit)
    bench.read("rail_ripple", "12", detail="+8 V")
    bench.read("arm_start_current", "40; 41; 42")
    bench.read("radial_drive", "253")
    assert [share(bench, s) for s in ("arm_drag", "flex_drag", "radial_magnet")] == [
        "0.588",
        "0.190",
        "0.110",
    ]
    assert [line.id for line in card(bench).lines if line.entered] == []
    assert any("radial drive, too close to call" in SAY(one) for one in card(bench).lines[0].why)
    # A cure counts whole once it was seen both cold and warm.
    trial = tried(bench, "arm_clean", TrialOutcome.CURED)
    not_yet = share(bench, "arm_drag")
    assert "counts as better" in SAY(card(bench).lines[0].why[-2])
    bench.climb(12, Moment.DURING, warmth=Warmth.COLD, trial_id=trial, trial_side="after")
    assert share(bench, "arm_drag") == not_yet
    bench.climb(12, Moment.DURING, warm_minutes=60, trial_id=trial, trial_side="after")
    assert share(bench, "arm_drag") == "0.907"
    # The readings of the mended arm change nothing of that.
    bench.read("arm_start_current", "18", Moment.DURING, trial_id=trial, trial_side="after")
    bench.later(minutes=1)
    bench.read("radial_drive", "111", Moment.FINAL)
    assert share(bench, "arm_drag") == "0.907"


def test_after_the_change_is_reversed_a_drive_is_judged_as_it_is(bench: Any) -> None:
    bench.climb(10)
    modification = raised(bench)
    bench.later(minutes=5)
    reverse_modification(bench.book, bench.tobbe, modification, bench.job)
    bench.later(minutes=5)
    bench.read("radial_drive", "253")
    assert any("radial drive, within its limit" in SAY(one) for one in card(bench).lines[0].why)


def test_a_drive_read_under_a_change_stays_judged_so_after_the_change_is_reversed(bench: Any) -> None:
    bench.climb(10)
    modification = raised(bench)
    bench.later(minutes=5)
    bench.read("radial_drive", "253")
    bench.later(minutes=5)
    reverse_modification(bench.book, bench.tobbe, modification, bench.job)
    assert any("radial drive, too close to call" in SAY(one) for one in card(bench).lines[0].why)


def test_final_readings_and_those_after_a_cure_move_nothing(bench: Any) -> None:
    bench.climb(10)
    bare = share(bench, "arm_drag")
    bench.read("arm_start_current", "45", Moment.FINAL)
    assert share(bench, "arm_drag") == bare
    # Also one entered in the same moment as the trial itself.
    entry = TrialEntry(change="other_disc", words="Reference disc tried")
    trial = record_trial(bench.book, bench.tobbe, bench.job, entry).value
    judge_trial(bench.book, bench.tobbe, trial, TrialOutcome.BETTER)
    better = share(bench, "arm_drag")
    bench.read("arm_start_current", "45", Moment.DURING, trial_id=trial, trial_side="after")
    assert share(bench, "arm_drag") == better


def test_a_trial_that_left_a_modification_moves_nothing_even_when_it_was_put_back(bench: Any) -> None:
    bench.climb(10)
    bare = share(bench, "wobble")
    trial = tried(bench, "radial_set", TrialOutcome.CURED)
    assert share(bench, "wobble") > bare
    modification = raised(bench, trial)
    assert share(bench, "wobble") == bare
    reverse_modification(bench.book, bench.tobbe, modification, bench.job)
    assert share(bench, "wobble") == bare


def test_readings_are_the_last_ones_taken_while_the_fault_stood(bench: Any) -> None:
    bench.climb(10)
    bare = share(bench, "arm_drag")
    old = bench.read("arm_start_current", "20").id
    low = share(bench, "arm_drag")
    assert low < bare
    bench.read("arm_start_current", "45")
    high = share(bench, "arm_drag")
    assert high > bare
    last = bench.sheet.readings[-1].id
    strike_out(bench.book, bench.tobbe, "reading", last, "probe slipped")
    assert share(bench, "arm_drag") == low
    strike_out(bench.book, bench.tobbe, "reading", old, "probe slipped")
    assert share(bench, "arm_drag") == bare


def test_what_made_it_worse_and_its_readings_move_nothing(bench: Any) -> None:
    bench.climb(10)
    bench.read("arm_start_current", "45")
    high = share(bench, "arm_drag")
    trial = tried(bench, "flex_dress", TrialOutcome.WORSE)
    bench.read("arm_start_current", "20", Moment.DURING, trial_id=trial, trial_side="after")
    assert share(bench, "arm_drag") == high
    assert "put it back first" in SAY(card(bench).moves_nothing[0])


def test_when_it_stops_again_after_a_cure_readings_speak_again(bench: Any) -> None:
    bench.climb(10)
    trial = tried(bench, "flex_dress", TrialOutcome.BETTER)
    bench.climb(10, Moment.DURING, trial_id=trial, trial_side="before")
    bench.later(minutes=5)
    at_better = share(bench, "arm_drag")
    bench.read("arm_start_current", "45", Moment.DURING)
    assert share(bench, "arm_drag") == at_better
    bench.read("arm_start_current", "45", Moment.DURING, trial_id=trial, trial_side="before")
    assert share(bench, "arm_drag") > at_better
    bench.later(minutes=5)
    bench.climb(10, Moment.DURING)
    bench.read("arm_start_current", "20", Moment.DURING)
    assert share(bench, "arm_drag") < at_better


def test_either_direction_of_a_tilt_is_one_reading(bench: Any) -> None:
    bench.climb(11)
    bare = share(bench, "tilt")
    bench.read("tilt_rad", "-6.0")
    alone = share(bench, "tilt")
    bench.read("tilt_tan", "1.0")
    assert share(bench, "tilt") == alone > bare
    line = next(line for line in card(bench).lines if line.id == "tilt")
    assert any("above its limit: the direct check of tilt" in SAY(one) for one in line.why)


def test_an_open_coil_speaks_loudly(bench: Any) -> None:
    bench.climb(10)
    limit = LimitLine(
        quantity="radial_coil_r",
        transport_type_id=bench.type,
        low=Decimal(5),
        high=Decimal(40),
        source="service document, p. 2",
    )
    save_limit(bench.book, bench.tobbe, limit)
    bench.read("radial_coil_r", "open")
    entered = {line.id: line for line in card(bench).lines if line.entered}
    assert set(entered) == {"flex", "radial_coil"}
    assert any("radial coil resistance, above its limit" in SAY(one) for one in entered["radial_coil"].why)


def test_a_trial_not_judged_or_in_own_words_moves_nothing(bench: Any) -> None:
    bench.climb(10)
    bare = share(bench, "arm_drag")
    entry = TrialEntry(change="arm_clean", words="Arm bearing cleaned")
    waiting = record_trial(bench.book, bench.tobbe, bench.job, entry).value
    assert share(bench, "arm_drag") == bare
    assert "arm_clean" not in [offer.id for offer in card(bench).steps.offers]
    strike_out(bench.book, bench.tobbe, "trial", waiting, "was not done")
    tried(bench, "", TrialOutcome.BETTER)
    assert share(bench, "arm_drag") == bare
    assert SAY(card(bench).moves_nothing[0]) == (
        "Trial 2: Something of our own moves nothing: it is not on the list of changes."
    )
