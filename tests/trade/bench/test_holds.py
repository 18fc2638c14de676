"""What holds a job, and the one way past an open safety stop."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from app.trade.bench.authority import MarkHeld
from app.trade.bench.facts import AskedFact, DiscFact, JobFacts, UnsafeReturn
from app.trade.bench.gates import Asks
from app.trade.bench.holds import (
    held_by,
    held_sentence,
    unsafe_return_refused,
    unsafe_stops,
    unsafe_way_closed,
)
from app.trade.bench.modifications import Circuit, Kind, Origin
from app.trade.bench.stages import MainsClass, Mark, Outcome
from app.trade.money import Money
from app.trade.wording import Wording

DAY = date(2026, 11, 26)
INE = MarkHeld(Mark.OWNER, "trade register", date(2019, 1, 2))
SANNA = MarkHeld(Mark.COMPETENT, "course certificate", date(2025, 3, 3), date(2028, 3, 3))
LEAVING = (Asks.READY, Asks.HAND_BACK, Asks.INVOICE)


@pytest.fixture
def foil(unlawful: Any) -> Any:
    """A customer's own fuse, bridged."""
    return unlawful(
        Kind.FUSE,
        Circuit.FUSE,
        where="F1",
        was="T 315 mA, 250 V",
        now="bridged with metal foil",
        origin=Origin.FOUND,
        assessed=True,
        named_on="",
    )


@pytest.fixture
def unsafe(job: Any, foil: Any, opened: Any, closed: Any) -> JobFacts:
    """Job 2119 of the papers: a bridged fuse, declined, opened and shut again, not tested."""
    facts: JobFacts = job(
        number=2119,
        mains_class=MainsClass.I,
        outcome=Outcome.DECLINED,
        rung_final=None,
        modifications=(foil,),
        case_events=(opened(1, 2119), closed(7, 2119)),
    )
    return facts


@pytest.fixture
def decided(unsafe: JobFacts, at: Any) -> JobFacts:
    """The owner let it go back, the warning is signed, the plug tagged."""
    way = UnsafeReturn("Ine", at(8), "declined every way", law_looked_at=True, plug_tagged=True, signed=True)
    return replace(unsafe, unsafe_return=way)


def said(reasons: tuple[Any, ...], english: Wording) -> list[str]:
    return [english(reason).replace("\u00a0", " ") for reason in reasons]


def test_a_job_with_everything_done_passes(job: Any) -> None:
    for asks in Asks:
        assert held_by(job(outcome=Outcome.MENDED), asks) == ()


def test_an_open_stop_holds_ready_hand_back_and_invoice_from_the_first_minute(
    job: Any, foil: Any, english: Wording
) -> None:
    for asks in LEAVING:
        reasons = said(held_by(job(modifications=(foil,)), asks), english)
        assert reasons[0] == "Fuse F1: maker T 315 mA, 250 V, found bridged with metal foil."


def test_stops_come_before_gates(job: Any, foil: Any, modification: Any, english: Wording) -> None:
    facts = job(rung_final=None, modifications=(foil, modification(number=2, agreed="")))
    reasons = said(held_by(facts, Asks.READY), english)
    assert reasons[0].startswith("Fuse F1")
    assert reasons[1].startswith("Coil current was raised, final readings missing")
    assert reasons[2].startswith("Without the customer's yes")


def test_a_gate_holds_only_what_it_is_for(job: Any, modification: Any) -> None:
    facts = job(rung_final=None, modifications=(modification(agreed="", named_on="", job=1206),))
    assert len(held_by(facts, Asks.READY)) == 2  # finals, yes
    assert len(held_by(facts, Asks.HAND_BACK)) == 3  # and paper
    assert len(held_by(facts, Asks.INVOICE)) == 1  # yes


def test_an_opened_player_does_not_leave_untested(
    job: Any, opened: Any, closed: Any, english: Wording
) -> None:
    facts = job(case_events=(opened(1), closed(7)))
    for asks in (Asks.READY, Asks.HAND_BACK):
        assert said(held_by(facts, asks), english) == ["Opened 24 Nov 2026, 10:00 and not tested since."]
    assert held_by(facts, Asks.INVOICE) == ()


def test_a_caution_or_a_note_alone_holds_nothing(job: Any, modification: Any) -> None:
    facts = job(modifications=(modification(job=1206),), balance=Money(5000, "EUR"), outcome=Outcome.MENDED)
    for asks in LEAVING:
        assert held_by(facts, asks) == ()


def test_keeping_the_player_here_is_held_by_the_customers_disc_only(job: Any, foil: Any) -> None:
    donor = job(outcome=Outcome.KEPT_AS_DONOR, modifications=(foil,), rung_final=None)
    assert held_by(donor, Asks.KEEP) == ()
    assert len(held_by(replace(donor, discs=(DiscFact(1, "tray"),)), Asks.KEEP)) == 1
    # Handing it out all the same, or an invoice, meets the stop.
    assert held_by(donor, Asks.HAND_BACK) != ()
    assert held_by(donor, Asks.INVOICE) != ()


def test_the_unsafe_player_goes_back_once_the_owner_has_decided(
    unsafe: JobFacts, decided: JobFacts, english: Wording
) -> None:
    for asks in LEAVING:
        assert said(held_by(unsafe, asks), english)[0].startswith("Fuse F1")
    named = replace(decided, modifications=(replace(decided.modifications[0], named_on="warning sheet"),))
    for asks in LEAVING:
        assert held_by(named, asks) == ()
    # Every other gate still holds: the change has to be named on the paper.
    assert len(held_by(decided, Asks.HAND_BACK)) == 1


def test_without_signature_and_tag_it_does_not_leave(decided: JobFacts, english: Wording) -> None:
    assert decided.unsafe_return is not None
    bare = replace(
        decided,
        unsafe_return=replace(decided.unsafe_return, signed=False, plug_tagged=False),
        modifications=(replace(decided.modifications[0], named_on="warning sheet"),),
    )
    assert said(held_by(bare, Asks.HAND_BACK), english) == [
        "The customer has not signed the warning.",
        "The plug does not carry its tag.",
    ]


def test_the_stop_stays_open_and_meets_the_next_visit(decided: JobFacts) -> None:
    assert [f.rule for f in unsafe_stops(decided)] == ["fuse"]
    again = replace(decided, number=2190, outcome=None, unsafe_return=None)
    assert [f.rule for f in unsafe_stops(again)] == ["fuse"]
    assert held_by(again, Asks.READY) != ()


def test_a_stop_that_is_not_about_safety_is_never_let_pass(decided: JobFacts, english: Wording) -> None:
    dear = replace(decided, agreed=Money(4500, "EUR"), work_so_far=Money(9000, "EUR"))
    assert said(held_by(dear, Asks.INVOICE), english) == ["Agreed 45.00 EUR, now 90.00 EUR."]


def test_a_request_to_bypass_the_interlock_is_refused_not_let_pass(decided: JobFacts) -> None:
    asked = replace(decided, asked=(AskedFact(1, "bridge the lid switch"),))
    assert len(held_by(asked, Asks.INVOICE)) == 1
    only_asked = replace(asked, modifications=())
    assert unsafe_way_closed(only_asked) is not None


@pytest.mark.parametrize("outcome", [None, Outcome.MENDED, Outcome.NO_FAULT_SHOWN, Outcome.KEPT_AS_DONOR])
def test_a_player_that_is_to_be_mended_never_goes_back_unsafe(
    outcome: Outcome | None, decided: JobFacts, english: Wording
) -> None:
    refused = unsafe_way_closed(replace(decided, outcome=outcome))
    assert refused is not None
    assert english(refused) == (
        "Only a player that is not to be mended goes back unsafe: beyond repair, declined, refused."
    )
    assert held_by(replace(decided, outcome=outcome), Asks.INVOICE) != ()


def test_what_our_own_work_made_unsafe_is_put_right_first(
    decided: JobFacts, foil: Any, unlawful: Any, english: Wording
) -> None:
    ours = unlawful(Kind.WIRING, Circuit.MAINS, number=9, now="cord not clamped", origin=Origin.OURS)
    mixed = replace(decided, modifications=(foil, ours))
    refused = unsafe_way_closed(mixed)
    assert refused is not None
    assert english(refused).startswith("Our own work made it unsafe; that is put right first. Mains wiring")
    assert len(held_by(mixed, Asks.INVOICE)) >= 2


def test_the_case_is_shut_first(decided: JobFacts, opened: Any) -> None:
    refused = unsafe_way_closed(replace(decided, case_events=(opened(1, 2119),)))
    assert refused is not None
    assert "close it first" in refused.key


def test_a_safe_player_goes_back_the_usual_way(job: Any, opened: Any, closed: Any) -> None:
    untested = job(outcome=Outcome.DECLINED, case_events=(opened(1), closed(2)))
    refused = unsafe_way_closed(untested)
    assert refused is not None
    assert "usual way" in refused.key


def decide(facts: JobFacts, **given: Any) -> Any:
    asked = {"marks": [INE], "day": DAY, "reason": "declined every way", "law_looked_at": True} | given
    return unsafe_return_refused(facts, **asked)


def test_only_the_owner_decides_with_a_reason_and_after_the_law(unsafe: JobFacts) -> None:
    assert decide(unsafe) is None
    assert "carries the mark" in decide(unsafe, marks=[SANNA]).key
    assert "Write the reason" in decide(unsafe, reason="  ").key
    assert "Local law" in decide(unsafe, law_looked_at=False).key
    assert "not to be mended" in decide(replace(unsafe, outcome=Outcome.MENDED)).key


@pytest.mark.parametrize("asks", Asks)
def test_each_refusal_has_its_heading(asks: Asks) -> None:
    assert held_sentence(asks).key.endswith("yet.")
