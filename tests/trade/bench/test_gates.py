"""What is still to do, done, or not needed, and when each box counts."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.facts import Answer, DiscFact, TrialFact, UnsafeReturn
from app.trade.bench.flags import evaluate
from app.trade.bench.gates import READY_GATES, Asks, Gate, GateState, ask_for, gates_of
from app.trade.bench.modifications import Circuit, Kind, Origin
from app.trade.bench.stages import MainsClass, Mark, Outcome, Stage
from app.trade.sentence import Sentence
from app.trade.wording import Wording


def gate(facts: Any, rule: str) -> Gate:
    (found,) = [g for g in gates_of(facts) if g.rule == rule]
    return found


def states(facts: Any) -> dict[str, GateState]:
    return {g.rule: g.state for g in gates_of(facts)}


def test_a_player_just_taken_in_shows_what_every_job_meets(job: Any, english: Wording) -> None:
    facts = job(stage=Stage.TAKEN_IN, rung_final=None, powered=False)
    assert states(facts) == {
        "safety_missing": GateState.NOT_NEEDED,
        "final_missing": GateState.TO_DO,
        "not_agreed": GateState.NOT_NEEDED,
        "told": GateState.NOT_NEEDED,
    }
    assert [english(g.words) for g in gates_of(facts)] == [
        "safety test",
        "final readings",
        "changes agreed",
        "changes named on paper",
    ]
    agreed = gate(facts, "not_agreed")
    assert agreed.how is not None
    assert english(agreed.how) == "no change stays in the player"


def test_the_safety_test_is_ticked_with_time_and_person(
    job: Any, opened: Any, closed: Any, passed: Any, english: Wording
) -> None:
    open_box = gate(job(case_events=(opened(1), closed(7))), "safety_missing")
    assert open_box.open
    assert open_box.how is None
    assert open_box.at == {Asks.READY, Asks.HAND_BACK}
    ticked = gate(job(case_events=(opened(1), closed(7)), safety_tests=(passed(9),)), "safety_missing")
    assert ticked.state is GateState.DONE
    assert ticked.how is not None
    assert english(ticked.how).replace("\u00a0", " ") == "passed 24 Nov 2026, 18:00, Sanna"
    battery = gate(job(mains_class=MainsClass.BATTERY, case_events=(opened(1),)), "safety_missing")
    assert battery.state is GateState.NOT_NEEDED


def test_final_readings_are_ticked_or_reasoned(job: Any, english: Wording) -> None:
    assert gate(job(), "final_missing").state is GateState.DONE
    reasoned = gate(job(rung_final=None, finals_reason="no disc in the house"), "final_missing")
    assert reasoned.state is GateState.DONE
    assert reasoned.how is not None
    assert english(reasoned.how) == "no disc in the house"
    assert gate(job(outcome=Outcome.DECLINED), "final_missing").state is GateState.NOT_NEEDED


def test_a_change_of_ours_waits_for_the_customers_yes_and_holds_the_invoice_too(
    job: Any, modification: Any, english: Wording
) -> None:
    silent = gate(job(modifications=(modification(agreed=""), modification(number=2))), "not_agreed")
    assert silent.open
    assert silent.how is None
    assert silent.at == {Asks.READY, Asks.HAND_BACK, Asks.INVOICE}
    assert english(silent.reason).replace("\u00a0", " ") == (
        "Without the customer's yes, 1 change(s) stay in the player: "
        "R314 (radial coil drive): 5.6 Ω in place of the maker's 6.8 Ω."
    )
    said_yes = gate(job(modifications=(modification(),)), "not_agreed")
    assert said_yes.state is GateState.DONE
    assert said_yes.how is not None
    assert english(said_yes.how) == "24 Nov 2026, telephone, Mirr"


def test_a_found_change_needs_no_yes_but_is_named(job: Any, modification: Any, english: Wording) -> None:
    found = modification(origin=Origin.FOUND, agreed="", named_on="")
    assert gate(job(modifications=(found,)), "not_agreed").state is GateState.NOT_NEEDED
    told = gate(job(modifications=(found,)), "told")
    assert told.open
    assert told.how is None
    assert told.at == {Asks.HAND_BACK}
    named = gate(job(modifications=(modification(),)), "told")
    assert named.state is GateState.DONE
    assert named.how is not None
    assert english(named.how) == "invoice 2026-0412"


def test_a_reversed_change_needs_neither_yes_nor_paper(job: Any, modification: Any, put_back: Any) -> None:
    gone = modification(agreed="", named_on="", reversal=put_back())
    assert states(job(modifications=(gone,)))["not_agreed"] is GateState.NOT_NEEDED
    assert states(job(modifications=(gone,)))["told"] is GateState.NOT_NEEDED


def test_changed_laser_drive_asks_for_light_measured_after_it(
    job: Any, unlawful: Any, reading: Any, at: Any, english: Wording
) -> None:
    turned = unlawful(Kind.TRIMMER, Circuit.LASER_SUPPLY, reading_before=True)  # after four hours
    before, after = (reading("optical_power", "0.18", "mW", h) for h in (3, 5))
    assert gate(job(modifications=(turned,)), "laser_no_power").open
    assert gate(job(modifications=(turned,), readings=(before,)), "laser_no_power").open
    other = reading("laser_current", "51.2", "mA", 5)
    assert gate(job(modifications=(turned,), readings=(other,)), "laser_no_power").open
    measured = gate(job(modifications=(turned,), readings=(before, after)), "laser_no_power")
    assert measured.state is GateState.DONE
    assert measured.how is not None
    assert english(measured.how) == "0.18\u00a0mW"
    set_up = TrialFact(number=1, change="laser_set", at=at(4))
    assert gate(job(trials=(set_up,), readings=(before,)), "laser_no_power").open
    assert "laser_no_power" not in states(job())


def test_a_trimmer_found_turned_needs_any_light_reading_of_this_job(
    job: Any, unlawful: Any, reading: Any
) -> None:
    found = unlawful(Kind.TRIMMER, Circuit.LASER_SUPPLY, origin=Origin.FOUND)
    assert gate(job(modifications=(found,)), "laser_no_power").open
    light = reading("optical_power", "0.07", "mW", 1)
    assert not gate(job(modifications=(found,), readings=(light,)), "laser_no_power").open


def test_a_disc_has_to_go_back_also_when_the_player_stays(job: Any, english: Wording) -> None:
    here = (DiscFact(1, "tray"),)
    box = gate(job(discs=here), "disc_inside")
    assert box.open
    assert box.at == {Asks.HAND_BACK, Asks.KEEP}
    assert english(box.reason) == "The customer's disc is still here: tray."
    nobody_comes = gate(job(discs=here, outcome=Outcome.UNCOLLECTED), "disc_inside")
    assert nobody_comes.at == {Asks.HAND_BACK}
    back = gate(job(discs=(DiscFact(1, "tray", returned=True),)), "disc_inside")
    assert back.state is GateState.DONE


def test_what_the_owner_has_to_see_is_seen_before_the_player_leaves(
    job: Any, modification: Any, at: Any, english: Wording
) -> None:
    far = modification(kind=Kind.PARALLEL, new_value=Decimal(10))  # k 1.68
    facts = job(modifications=(far,))
    box = gate(facts, "owner_sees")
    assert box.open
    assert box.at == {Asks.HAND_BACK}
    assert english(box.reason) == "The owner has not acknowledged: coil current high."
    (flag,) = [f for f in evaluate(facts) if f.rule == "coil_up_big"]
    seen = Answer(flag.rule, flag.detail, flag.sentence, Mark.OWNER, "Ine", at(6), "arm is worn, seen")
    assert gate(job(modifications=(far,), answers=(seen,)), "owner_sees").state is GateState.DONE
    assert "owner_sees" not in states(job(modifications=(modification(),)))


def test_going_back_unsafe_adds_signature_and_tag(job: Any, at: Any) -> None:
    decided = UnsafeReturn("Ine", at(8), "declined, wants it back", law_looked_at=True)
    assert states(job(unsafe_return=decided))["unsafe_signed"] is GateState.TO_DO
    assert states(job(unsafe_return=decided))["unsafe_tagged"] is GateState.TO_DO
    done = UnsafeReturn("Ine", at(8), "declined", law_looked_at=True, plug_tagged=True, signed=True)
    assert states(job(unsafe_return=done))["unsafe_signed"] is GateState.DONE


def test_the_steps_for_ready_are_named_once(job: Any, modification: Any, unlawful: Any, at: Any) -> None:
    turned = unlawful(Kind.TRIMMER, Circuit.LASER_SUPPLY, number=2)
    far = modification(kind=Kind.PARALLEL, new_value=Decimal(10))
    facts = job(
        modifications=(far, turned),
        discs=(DiscFact(1, "tray"),),
        unsafe_return=UnsafeReturn("Ine", at(8), "declined", law_looked_at=True),
    )
    assert {g.rule for g in gates_of(facts) if Asks.READY in g.at} == READY_GATES
    assert len(gates_of(facts)) == 9


@pytest.mark.parametrize(
    ("outcome", "asks"),
    [
        (Outcome.MENDED, Asks.HAND_BACK),
        (Outcome.KEPT_AS_DONOR, Asks.KEEP),
        (Outcome.UNCOLLECTED, Asks.KEEP),
        (None, Asks.HAND_BACK),
    ],
)
def test_closing_a_job_asks_for_what_its_outcome_means(outcome: Outcome | None, asks: Asks) -> None:
    assert ask_for(outcome) is asks


def test_every_open_box_says_what_to_press(job: Any, modification: Any, at: Any) -> None:
    facts = job(
        rung_final=None,
        modifications=(modification(agreed="", named_on=""),),
        discs=(DiscFact(1, "tray"),),
        unsafe_return=UnsafeReturn("Ine", at(8), "declined", law_looked_at=True),
    )
    for box in gates_of(facts):
        assert isinstance(box.link, Sentence)
        assert box.reason.key[0].isupper() or not box.open
