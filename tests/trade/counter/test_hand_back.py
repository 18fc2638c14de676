"""The hand-back page: who collects, what is ticked, and the unsafe way."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from app.trade.bench.stages import Collector, Outcome
from app.trade.counter.hand_back import (
    HandBack,
    HandBackFacts,
    LeftKind,
    LeftThing,
    UnsafeWay,
    check_hand_back,
)
from app.trade.money import Money

FORM = HandBack(
    outcome=Outcome.MENDED,
    collector=Collector.CUSTOMER,
    things=(
        LeftThing(LeftKind.THING, "remote control", given=True),
        LeftThing(LeftKind.DISC, "one disc, tray", given=True),
        LeftThing(LeftKind.OLD_PART, "R314, 6.8 ohm", note="not wanted"),
    ),
    shown_and_told=True,
)
FACTS = HandBackFacts()


def wrong(form: HandBack, facts: HandBackFacts = FACTS) -> set[str]:
    return set(check_hand_back(form, facts))


def test_an_ordinary_hand_back_can_be_saved() -> None:
    assert wrong(FORM) == set()


def test_an_empty_page_asks_how_it_ended_and_who_collects() -> None:
    assert wrong(HandBack()) == {"outcome", "collector"}


@pytest.mark.parametrize(
    ("collector", "more", "fields"),
    [
        (Collector.TICKET, {}, {"collector_name"}),
        (Collector.TICKET, {"collector_name": "A. Brother"}, set()),
        (Collector.NAMED, {}, {"collector_name"}),
        (Collector.NAMED, {"collector_name": "A. Sister"}, set()),
        (Collector.TICKET_LOST, {}, {"proof"}),
        (Collector.TICKET_LOST, {"proof": "passport"}, set()),
        (Collector.CUSTOMER, {"collector_name": "x" * 301}, {"collector_name"}),
        (Collector.CUSTOMER, {"proof": "x" * 201}, {"proof"}),
    ],
)
def test_each_way_of_collecting_needs_its_proof(
    collector: Collector, more: dict[str, Any], fields: set[str]
) -> None:
    assert wrong(replace(FORM, collector=collector, **more)) == fields


def test_the_outcome_says_whether_a_change_stays_inside() -> None:
    changed = HandBackFacts(changes_left=1)
    assert wrong(FORM, changed) == {"outcome"}
    assert wrong(replace(FORM, outcome=Outcome.MENDED_MODIFIED), changed) == set()
    assert wrong(replace(FORM, outcome=Outcome.MENDED_MODIFIED)) == {"outcome"}
    assert wrong(replace(FORM, outcome=Outcome.DECLINED), changed) == set()


@pytest.mark.parametrize("outcome", [Outcome.KEPT_AS_DONOR, Outcome.UNCOLLECTED])
def test_a_player_that_stays_here_is_collected_by_nobody(outcome: Outcome) -> None:
    assert wrong(replace(FORM, outcome=outcome, collector=None)) == set()
    assert wrong(replace(FORM, outcome=outcome)) == {"collector"}


def test_everything_left_is_ticked_or_accounted_for_and_a_disc_always_goes_back() -> None:
    disc = LeftThing(LeftKind.DISC, "one disc", note="kept")
    lead = LeftThing(LeftKind.THING, "mains lead")
    long = LeftThing(LeftKind.THING, "box", given=True, note="x" * 201)
    assert wrong(replace(FORM, things=(disc, lead, long))) == {"things.0", "things.1", "things.2"}
    assert wrong(replace(FORM, things=(replace(lead, note="stays for the next repair"),))) == set()


def test_an_open_balance_is_noted_but_holds_nobody() -> None:
    open_balance = HandBackFacts(balance=Money(15932, "EUR"))
    assert wrong(FORM, open_balance) == {"paid_words"}
    assert wrong(replace(FORM, paid_words="transfer by Friday"), open_balance) == set()
    assert wrong(FORM, HandBackFacts(balance=Money(0, "EUR"))) == set()
    assert wrong(FORM, HandBackFacts(balance=Money(-500, "EUR"))) == set()
    assert wrong(replace(FORM, paid_words="x" * 201)) == {"paid_words"}


UNSAFE = replace(
    FORM,
    outcome=Outcome.DECLINED,
    unsafe=UnsafeWay("Fuse bridged; repair declined", True, True, True, True),
)
STOP = HandBackFacts(safety_stop=True)


def test_the_unsafe_way_needs_every_step() -> None:
    assert wrong(UNSAFE, STOP) == set()
    assert wrong(replace(UNSAFE, unsafe=UnsafeWay()), STOP) == {
        "unsafe.reason",
        "unsafe.law_looked_at",
        "unsafe.signed",
        "unsafe.plug_tagged",
        "unsafe.case_shut",
    }
    long = UnsafeWay("x" * 601, True, True, True, True)
    assert wrong(replace(UNSAFE, unsafe=long), STOP) == {"unsafe.reason"}


def test_the_unsafe_way_is_only_for_a_customers_own_unmended_player_with_a_stop() -> None:
    assert wrong(UNSAFE) == {"unsafe"}
    assert wrong(UNSAFE, replace(STOP, made_by_us=True)) == {"unsafe"}
    assert wrong(replace(UNSAFE, outcome=Outcome.MENDED), STOP) == {"outcome"}
    for outcome in (Outcome.BEYOND_REPAIR, Outcome.REFUSED):
        assert wrong(replace(UNSAFE, outcome=outcome), STOP) == set()
