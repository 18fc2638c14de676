"""The one way past an open safety stop, and everything that keeps it narrow."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.book.tables import CaseEvent, Charge, Flag, Job, Modification, Paper, UnsafeReturnKept
from app.trade.bench.flag import Level
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Collector, MainsClass, Outcome, Stage, Way
from app.trade.counter.agreements import AgreementEntry, AgreementKind
from app.trade.counter.hand_back import HandBack, UnsafeWay
from app.trade.money import MICRO, Money
from app.trade.office.invoice import net_of
from app.trade.refusal import FieldRefusal, Held, Refusal
from app.trade.sentence import Sentence
from app.work.counter.hand_back import hand_back
from app.work.counter.hand_back_view import hand_back_view
from app.work.counter.messages import add_agreement
from app.work.counter.unsafe_return import decide_unsafe_return
from app.work.papers.issuing import paper_pdf

WAY = UnsafeWay(reason="declined", law_looked_at=True, signed=True, plug_tagged=True, case_shut=True)
BACK = HandBack(outcome=Outcome.DECLINED, collector=Collector.CUSTOMER, shown_and_told=True, unsafe=WAY)


def found(shop, job, circuit=Circuit.FUSE, *, ours=False, unit=1):
    """A change of somebody else's (or ours) that makes the player unsafe."""
    with shop.book.change(shop.tobbe, Sentence("found")) as change:
        return change.add(
            Modification(
                job_id=job,
                unit_id=unit,
                ours=ours,
                kind=Kind.OTHER,
                circuit=circuit,
                law=Law.NEITHER,
                reference="F1",
                part_before="T 315 mA",
                part_after="foil",
                at=change.now,
                by=change.by,
            )
        ).id


@pytest.fixture
def unsafe(shop, take_in) -> int:
    """A class I player whose fuse was found bridged with foil; the customer declined."""
    job = take_in(mains_class=MainsClass.I).job_id
    found(shop, job)
    return job


def decide(shop, job, **differs):
    way = {
        "outcome": Outcome.DECLINED,
        "reason": "The customer does not want it mended.",
        "law_looked_at": True,
    }
    way.update(differs)
    return decide_unsafe_return(shop.book, shop.ine, shop.pin("ine"), job, **way).value


def open_stops(shop):
    with shop.book.ask() as session:
        return [
            f.rule for f in session.query(Flag).filter(Flag.cleared_at.is_(None), Flag.level == Level.STOP)
        ]


def test_without_the_owners_decision_it_stays(shop, unsafe):
    with pytest.raises(Held):
        hand_back(shop.book, shop.mirr, unsafe, replace(BACK, unsafe=None))
    with pytest.raises(Refusal, match="owner has not decided"):
        hand_back(shop.book, shop.mirr, unsafe, BACK)


def test_decided_signed_and_tagged_it_goes_and_the_stop_stays_open(shop, unsafe):
    add_agreement(
        shop.book,
        shop.mirr,
        unsafe,
        AgreementEntry(
            kind=AgreementKind.WORK,
            yes=False,
            what="repair and test",
            amount=Money(14875, "EUR"),
            said_by="B. Arnsvik",
            way=Way.TELEPHONE,
        ),
    )
    decided = decide(shop, unsafe)
    with shop.book.ask() as session:
        facts = session.get_one(Paper, decided.sheet_id).facts
    assert facts["owner"] == "Ine Varloes"
    assert facts["owner_reason"] == "The customer does not want it mended."
    assert len(facts["unsafe"]) == 1
    assert facts["offers"][0]["what"]["sentence"][1]["amount"] == {"money": [14875, "EUR"]}
    assert "plug" in facts["signs"]
    view = hand_back_view(shop.book, unsafe)
    assert view.decision is not None
    assert (view.decision.owner, view.decision.signed) == ("Ine Varloes", False)
    assert paper_pdf(shop.book, decided.sheet_id).pdf.startswith(b"%PDF")
    hand_back(shop.book, shop.mirr, unsafe, BACK)
    with shop.book.ask() as session:
        assert session.get_one(Job, unsafe).stage is Stage.HANDED_BACK
        kept = session.get_one(UnsafeReturnKept, decided.decision_id)
        assert (kept.signed, kept.plug_tagged) == (True, True)
    assert open_stops(shop) == ["fuse"]


@pytest.mark.parametrize(
    "way",
    [
        {"signed": False},
        {"plug_tagged": False},
        {"case_shut": False},
        {"law_looked_at": False},
        {"reason": ""},
    ],
)
def test_no_step_of_it_can_be_left_out(shop, unsafe, way):
    decide(shop, unsafe)
    with pytest.raises(FieldRefusal):
        hand_back(shop.book, shop.mirr, unsafe, replace(BACK, unsafe=replace(WAY, **way)))


def test_only_the_owner_decides_by_her_own_pin(shop, unsafe):
    with pytest.raises(Refusal, match="cannot sign"):
        decide_unsafe_return(
            shop.book,
            shop.sanna,
            shop.pin("sanna"),
            unsafe,
            outcome=Outcome.DECLINED,
            reason="x",
            law_looked_at=True,
        )
    with pytest.raises(Refusal, match="not the PIN"):
        decide_unsafe_return(
            shop.book, shop.ine, "0000", unsafe, outcome=Outcome.DECLINED, reason="x", law_looked_at=True
        )


@pytest.mark.parametrize(
    ("differs", "word"),
    [
        ({"outcome": Outcome.MENDED}, "not to be mended"),
        ({"reason": " "}, "Write the reason"),
        ({"law_looked_at": False}, "Local law"),
    ],
)
def test_the_decision_needs_outcome_reason_and_law(shop, unsafe, differs, word):
    with pytest.raises(Refusal, match=word):
        decide(shop, unsafe, **differs)


def test_a_reason_has_room_for_so_much(shop, unsafe):
    with pytest.raises(FieldRefusal):
        decide(shop, unsafe, reason="x" * 601)


def test_what_our_own_work_made_unsafe_is_put_right_first(shop, take_in):
    job = take_in(mains_class=MainsClass.I).job_id
    found(shop, job, ours=True)
    with pytest.raises(Refusal, match="Our own work"):
        decide(shop, job)
    with pytest.raises(FieldRefusal):
        hand_back(shop.book, shop.mirr, job, BACK)


def test_an_open_case_is_shut_first(shop, unsafe):
    with shop.book.change(shop.tobbe, Sentence("opened")) as change:
        change.add(CaseEvent(job_id=unsafe, opened=True, at=change.now, by=change.by))
    with pytest.raises(Refusal, match="case is open"):
        decide(shop, unsafe)


def test_deciding_again_asks_for_a_new_signature(shop, unsafe):
    first = decide(shop, unsafe)
    with shop.book.change(shop.mirr, Sentence("signed")) as change:
        change.get(UnsafeReturnKept, first.decision_id).signed = True
    second = decide(shop, unsafe, reason="He will take it to another shop.")
    assert second.decision_id == first.decision_id
    assert second.sheet_id != first.sheet_id
    assert hand_back_view(shop.book, unsafe).decision.signed is False


def test_the_sheet_of_a_bridged_lid_switch_warns_of_light(shop, take_in):
    job = take_in(mains_class=MainsClass.BATTERY).job_id
    found(shop, job, Circuit.INTERLOCK)
    sheet = decide(shop, job, outcome=Outcome.REFUSED).sheet_id
    with shop.book.ask() as session:
        facts = session.get_one(Paper, sheet).facts
    assert "eye" in facts["warning"]["sentence"][0]
    assert "laser" in facts["signs"]
    assert "plug" not in facts["signs"]
    assert len(facts["first_steps"]) == 2
    assert facts["offers"][0]["answer"]["sentence"][0] == "refused"


def test_the_fee_on_the_sheet_is_the_fee_that_will_be_invoiced(shop, unsafe):
    with shop.book.change(shop.mirr, Sentence("fee")) as change:
        change.add(
            Charge(
                job_id=unsafe,
                kind="fee",
                words="diagnosis",
                quantity=MICRO,
                price=45 * MICRO,
                vat_rate=1900,
                at=change.now,
                by=change.by,
            )
        )
    add_agreement(
        shop.book,
        shop.mirr,
        unsafe,
        AgreementEntry(kind=AgreementKind.WORK, yes=False, what="repair", said_by="B. Arnsvik"),
    )
    with shop.book.ask() as session:
        facts = session.get_one(Paper, decide(shop, unsafe).sheet_id).facts
    assert facts["fee"] == {"money": [5355, "EUR"]}
    assert facts["offers"][0]["what"] == "repair"


def test_a_fee_told_with_vat_stands_on_the_sheet_to_the_cent_and_the_tag_says_what_is_unsafe(shop, unsafe):
    """45.00 with 19 % VAT is 37.82 net, and 37.82 net is 45.01 with VAT."""
    with shop.book.change(shop.mirr, Sentence("told")) as change:
        told = {"price": net_of(45 * MICRO, 1900), "price_with_vat": 45 * MICRO, "vat_rate": 1900}
        more = {"words": "diagnosis", "quantity": MICRO, "at": change.now, "by": change.by}
        change.add(Charge(job_id=unsafe, kind="fee", **told, **more))
    with shop.book.ask() as session:
        facts = session.get_one(Paper, decide(shop, unsafe).sheet_id).facts
    assert facts["fee"] == {"money": [4500, "EUR"]}
    assert facts["tag_hazard"] == facts["unsafe"][0]


def test_the_ordinary_way_stays_closed_to_a_safe_player(shop, take_in):
    job = take_in().job_id
    with pytest.raises(Refusal, match="No safety stop"):
        decide(shop, job)


def test_a_failed_safety_test_is_said_to_be_all_that_was_looked_at(shop, take_in):
    from app.book.tables import SafetyStep, SafetyTest

    job = take_in(mains_class=MainsClass.I).job_id
    found(shop, job)
    with shop.book.change(shop.sanna, Sentence("tested")) as change:
        test = change.add(
            SafetyTest(
                job_id=job,
                unit_id=1,
                mains_class=MainsClass.I,
                standard="EN 50678",
                edition="2020",
                result="failed",
                at=change.now,
                by=change.by,
            )
        )
        change.add(SafetyStep(test_id=test.id, position=1, step="visual", meets=False))
    sheet = decide(shop, job).sheet_id
    with shop.book.ask() as session:
        facts = session.get_one(Paper, sheet).facts
    assert "was not looked for" in facts["not_measured"]["sentence"][0]
    assert "not done" not in facts["not_measured"]["sentence"][0]
