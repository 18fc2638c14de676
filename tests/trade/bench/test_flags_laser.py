"""Rules about the laser, blind trimmers and parts of another type."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.facts import OtherTypeFact, TrialFact
from app.trade.bench.flag import Closing, FlagRaised, Level, Subject
from app.trade.bench.flags_laser import (
    laser_changed_at,
    laser_drive_changed,
    laser_up,
    other_type,
    trimmer_blind,
)
from app.trade.bench.modifications import Circuit, Kind, Law, Origin
from app.trade.bench.stages import Mark
from app.trade.bench.thresholds import DEFAULTS
from app.trade.bench.verdict import VerdictWord
from app.trade.sentence import Measure
from app.trade.wording import Wording

LABEL = Measure(Decimal("48.0"), "mA")


def told(rule: Any, facts: Any) -> list[FlagRaised]:
    return list(rule(facts, DEFAULTS))


def rules(rule: Any, facts: Any) -> list[str]:
    return [flag.rule for flag in told(rule, facts)]


def words(rule: Any, facts: Any, english: Wording) -> str:
    (flag,) = told(rule, facts)
    return english(flag.sentence).replace("\u00a0", " ")


@pytest.fixture
def current(reading: Any) -> Any:
    return lambda value, hours=5, **given: reading("laser_current", value, "mA", hours, **given)


@pytest.fixture
def set_up(at: Any) -> TrialFact:
    """We turned the laser's power to service data after four hours."""
    return TrialFact(number=1, change="laser_set", at=at(4), trimmer="VR1", reading_before=True)


def test_seven_per_cent_above_the_label_as_found_is_quiet(job: Any, current: Any) -> None:
    # Job 1 of the demo story: 51.2 mA on a label of 48.0, 106.67 %.
    assert told(laser_up, job(laser_label=LABEL, readings=(current("51.2", 1),))) == []


def test_as_found_only_a_reading_clearly_outside_speaks(job: Any, current: Any) -> None:
    close = current("55.7", 1, u=Decimal("0.5"))  # 116.0 % and U 2.1 %
    clear = current("56.5", 1, u=Decimal("0.3"))  # 117.7 % and U 1.3 %
    at_line = current("55.2", 1)  # 115 %
    assert told(laser_up, job(laser_label=LABEL, readings=(close,))) == []
    assert told(laser_up, job(laser_label=LABEL, readings=(at_line,))) == []
    assert told(laser_up, job(laser_label=LABEL)) == []
    assert rules(laser_up, job(laser_label=LABEL, readings=(clear,))) == ["laser_up"]


def test_the_types_own_limit_stands_before_the_usual_one(job: Any, current: Any) -> None:
    wide = current("56.5", 1, verdict=VerdictWord.WITHIN)
    narrow = current("50.5", 1, verdict=VerdictWord.HIGH)
    assert told(laser_up, job(laser_label=LABEL, readings=(wide,))) == []
    assert rules(laser_up, job(laser_label=LABEL, readings=(narrow,))) == ["laser_up"]


def test_after_a_change_of_ours_ten_per_cent_above_the_label_speaks(
    job: Any, current: Any, set_up: TrialFact, english: Wording
) -> None:
    facts = job(laser_label=LABEL, trials=(set_up,), readings=(current("53.0", 5),))
    assert words(laser_up, facts, english) == "Laser at 53.0 mA, label 48.0 mA: 110.4 %."
    at_line = job(laser_label=LABEL, trials=(set_up,), readings=(current("52.8", 5),))
    assert told(laser_up, at_line) == []
    same_minute = job(laser_label=LABEL, trials=(set_up,), readings=(current("53.0", 4),))
    assert rules(laser_up, same_minute) == ["laser_up"]
    before = job(laser_label=LABEL, trials=(set_up,), readings=(current("53.0", 3),))
    assert told(laser_up, before) == []


def test_a_worn_diode_is_the_owners_to_see(job: Any, current: Any, english: Wording) -> None:
    # Job 9: 79.4 mA on a label of 62.0, 128.06 %.
    facts = job(laser_label=Measure(Decimal("62.0"), "mA"), readings=(current("79.4", 1),))
    (flag,) = told(laser_up, facts)
    assert (flag.rule, flag.subject) == ("laser_up_big", Subject.TRANSPORT)
    assert (flag.closing, flag.needs, flag.owner_sees) == (Closing.REASON, Mark.OWNER, True)
    assert words(laser_up, facts, english) == (
        "Laser at 79.4 mA, label 62.0 mA: 128.1 %. "
        "A worn diode asks for more; more wears it faster. The owner acknowledges."
    )


def test_the_owners_line_is_drawn_whatever_the_types_limit_says(job: Any, current: Any) -> None:
    wide = current("60.0", 1, verdict=VerdictWord.WITHIN)  # 125 %
    at_line = current("57.6", 1, verdict=VerdictWord.WITHIN)  # 120 %
    outside = current("57.6", 1, verdict=VerdictWord.HIGH)
    assert rules(laser_up, job(laser_label=LABEL, readings=(wide,))) == ["laser_up_big"]
    assert told(laser_up, job(laser_label=LABEL, readings=(at_line,))) == []
    assert rules(laser_up, job(laser_label=LABEL, readings=(outside,))) == ["laser_up"]


def test_a_new_reading_not_above_clears_it(job: Any, current: Any) -> None:
    facts = job(laser_label=LABEL, readings=(current("60.0", 1), current("48.5", 6)))
    assert told(laser_up, facts) == []


def test_light_above_its_limit_speaks_without_any_label(job: Any, reading: Any, english: Wording) -> None:
    high = reading("optical_power", "0.34", "mW", high=Decimal("0.30"), verdict=VerdictWord.HIGH)
    assert words(laser_up, job(readings=(high,)), english) == "Light after the lens 0.34 mW, limit ≤ 0.30 mW."
    big = reading("optical_power", "0.37", "mW", high=Decimal("0.30"), verdict=VerdictWord.CLOSE)
    assert rules(laser_up, job(readings=(big,))) == ["laser_up_big"]
    at_line = reading("optical_power", "0.36", "mW", high=Decimal("0.30"), verdict=VerdictWord.HIGH)
    assert rules(laser_up, job(readings=(at_line,))) == ["laser_up"]


def test_without_a_label_the_limit_of_the_current_speaks(job: Any, current: Any, english: Wording) -> None:
    high = current("70.0", 1, high=Decimal("57.6"), verdict=VerdictWord.HIGH)
    assert words(laser_up, job(readings=(high,)), english) == "Laser at 70.0 mA, limit ≤ 57.6 mA."
    assert told(laser_up, job(readings=(current("70.0", 1),))) == []


def test_a_share_of_the_label_entered_by_itself_speaks_too(job: Any, reading: Any, english: Wording) -> None:
    def share(value: str, **given: Any) -> Any:
        return reading("laser_rel", value, "%", 2, **given)

    high = job(readings=(share("117", verdict=VerdictWord.HIGH),))
    assert words(laser_up, high, english) == "Laser at 117.0 % of its label."
    assert rules(laser_up, job(readings=(share("121"),))) == ["laser_up_big"]
    assert told(laser_up, job(readings=(share("117", verdict=VerdictWord.CLOSE),))) == []
    assert told(laser_up, job(readings=(share("117"),))) == []


def test_an_older_share_does_not_speak_over_a_newer_current(job: Any, reading: Any, current: Any) -> None:
    share = reading("laser_rel", "130", "%", 2, verdict=VerdictWord.HIGH)
    older, newer = current("48.5", 1), current("48.5", 3)
    assert rules(laser_up, job(laser_label=LABEL, readings=(older, share))) == ["laser_up_big"]
    assert told(laser_up, job(laser_label=LABEL, readings=(share, newer))) == []


def test_a_current_with_a_share_but_no_label_is_said_as_a_share(
    job: Any, reading: Any, current: Any, english: Wording
) -> None:
    share = reading("laser_rel", "117", "%", 2, verdict=VerdictWord.HIGH)
    facts = job(readings=(current("56.2", 2), share))
    assert words(laser_up, facts, english) == "Laser at 117.0 % of its label."


def test_a_label_in_another_unit_is_not_compared(job: Any, current: Any) -> None:
    for label in (Measure(Decimal("0.048"), "A"), Measure(Decimal(0), "mA")):
        assert told(laser_up, job(laser_label=label, readings=(current("79.4", 1),))) == []


def test_found_changes_of_the_laser_are_not_changes_of_ours(
    job: Any, unlawful: Any, set_up: TrialFact, at: Any
) -> None:
    ours = unlawful(Kind.TRIMMER, Circuit.LASER_SUPPLY, where="VR1")
    found = unlawful(Kind.TRIMMER, Circuit.LASER_SUPPLY, origin=Origin.FOUND)
    elsewhere = unlawful(Kind.TRIMMER, Circuit.SERVO_GAIN, where="VR7")
    assert laser_changed_at(job(modifications=(ours, elsewhere))) == at(4)
    assert laser_changed_at(job(modifications=(elsewhere,))) is None
    assert laser_changed_at(job(modifications=(found,))) is None
    assert laser_changed_at(job(trials=(set_up,))) == at(4)


def test_both_kinds_of_change_to_the_drive_ask_for_light(job: Any, unlawful: Any, modification: Any) -> None:
    trimmer = unlawful(Kind.TRIMMER, Circuit.LASER_SUPPLY, number=1)
    resistor = modification(number=2, circuit=Circuit.LASER_SUPPLY, law=Law.NEITHER)
    earlier = unlawful(Kind.TRIMMER, Circuit.LASER_SUPPLY, number=3, job=1206)
    wired = unlawful(Kind.WIRING, Circuit.LASER_SUPPLY, number=4)
    elsewhere = modification(number=5)
    facts = job(modifications=(trimmer, resistor, earlier, wired, elsewhere))
    assert laser_drive_changed(facts) == (trimmer, resistor)


def test_a_trimmer_turned_without_a_reading_cannot_be_cleared(
    job: Any, unlawful: Any, at: Any, english: Wording
) -> None:
    blind = unlawful(Kind.TRIMMER, Circuit.LASER_SUPPLY, where="VR1")
    read = unlawful(Kind.TRIMMER, Circuit.LASER_SUPPLY, number=2, where="VR2", reading_before=True)
    trials = (
        TrialFact(number=3, change="focus_set", at=at(2), trimmer="VR3"),
        TrialFact(number=4, change="focus_set", at=at(3), trimmer="VR4", reading_before=True),
        TrialFact(number=5, change="clean_lens", at=at(3)),
    )
    flags = told(trimmer_blind, job(modifications=(blind, read), trials=trials))
    assert [f.detail for f in flags] == ["modification 1", "trial 3"]
    assert all(f.level is Level.CAUTION and f.closing is Closing.FACTS for f in flags)
    assert english(flags[0].sentence) == (
        "VR1 was turned without a reading before: the way back is not known."
    )


def test_a_blind_trimmer_becomes_a_note_when_all_ends_within(job: Any, unlawful: Any, final: Any) -> None:
    blind = unlawful(Kind.TRIMMER, Circuit.LASER_SUPPLY, where="VR1")
    within = final("s_curve", "0.61", "V", verdict=VerdictWord.WITHIN)
    unjudged = final("drive", "0.61", "V")
    close = final("jitter", "34", "ns", verdict=VerdictWord.CLOSE)
    (note,) = told(trimmer_blind, job(modifications=(blind,), readings=(within, unjudged)))
    assert note.level is Level.NOTE
    (caution,) = told(trimmer_blind, job(modifications=(blind,), readings=(within, close)))
    assert caution.level is Level.CAUTION
    (caution,) = told(trimmer_blind, job(modifications=(blind,), readings=(unjudged,)))
    assert caution.level is Level.CAUTION


def test_a_transport_of_another_type_is_the_owners_until_limits_are_chosen(
    job: Any, english: Wording
) -> None:
    found = OtherTypeFact("transport", "Drevvo S8", "Ponnik S5")
    (flag,) = told(other_type, job(other_types=(found,)))
    assert english(flag.sentence) == (
        "Drevvo S8 fitted in place of Ponnik S5: limits and label of Ponnik S5 no longer apply."
    )
    assert (flag.closing, flag.subject) == (Closing.SEEN, Subject.UNIT)
    chosen = OtherTypeFact("pick-up", "Drevvo S8", "Ponnik S5", limits_chosen=True, in_transport=True)
    (flag,) = told(other_type, job(other_types=(chosen,)))
    assert (flag.closing, flag.subject) == (Closing.REASON, Subject.TRANSPORT)
    assert flag.owner_sees


def test_a_part_of_another_type_is_a_caution_unless_it_protects_people(
    job: Any, unlawful: Any, modification: Any, english: Wording
) -> None:
    part = unlawful(Kind.OTHER_TYPE, Circuit.SIGNAL, where="IC4", now="a slower driver")
    guard = unlawful(Kind.OTHER_TYPE, Circuit.MAINS, number=2, now="a plain capacitor")
    (flag,) = told(other_type, job(modifications=(part, guard, modification(number=3))))
    assert flag.detail == "modification 1"
    assert flag.closing is Closing.REASON
    assert english(flag.sentence).startswith("a slower driver fitted in place of the maker's part: limits")
