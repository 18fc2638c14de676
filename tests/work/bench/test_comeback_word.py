"""The technician's word on a proposed comeback, and what becomes of a denial that the bench contradicts."""

from __future__ import annotations

import pytest

from app.book import tables as t
from app.trade.bench.kinds import ComebackStanding, FaultGroup
from app.trade.refusal import FieldRefusal, Refusal, StaleRow
from app.trade.sentence import Sentence
from app.work.bench.comeback_word import comeback_view, confirm_comeback, deny_comeback, take_back_word
from app.work.bench.findings import Findings, record_findings
from tests.work.past import Past


@pytest.fixture
def back(shop):
    """A player that was mended 300 days ago and stands here again, its comeback proposed."""
    past = Past(shop)
    unit = past.unit()
    first = past.job(unit, 310, 300)
    past.back = past.job(
        unit, 5, group=None, comeback_of_id=first, comeback=ComebackStanding.PROPOSED, words=("skips",)
    )
    return past


def row(past):
    with past.shop.book.ask() as session:
        job = session.get_one(t.Job, past.back)
        return job.comeback, job.comeback_reason, job.version


def test_it_is_confirmed_or_denied_with_a_reason(back):
    book, sanna = back.shop.book, back.shop.sanna
    assert confirm_comeback(book, sanna, back.back, version=1).value == back.back
    assert row(back) == (ComebackStanding.CONFIRMED, "", 2)
    deny_comeback(book, sanna, back.back, " other disc problem ", version=2)
    assert row(back)[:2] == (ComebackStanding.DENIED, "other disc problem")
    with pytest.raises(StaleRow):
        confirm_comeback(book, sanna, back.back, version=1)


@pytest.mark.parametrize("reason", ["", "  ", "x" * 201, "a\x07"])
def test_a_denial_says_why(back, reason):
    with pytest.raises(FieldRefusal) as refused:
        deny_comeback(back.shop.book, back.shop.sanna, back.back, reason, version=1)
    assert list(refused.value.fields) == ["reason"]
    assert row(back)[0] is ComebackStanding.PROPOSED


def test_what_nobody_proposed_is_not_decided(back):
    other = back.job(back.unit(), 3)
    with pytest.raises(Refusal):
        confirm_comeback(back.shop.book, back.shop.sanna, other, version=1)


@pytest.mark.parametrize(
    ("found", "stands"),
    [
        (FaultGroup.RADIAL, ComebackStanding.PROPOSED),
        (FaultGroup.SOUND, ComebackStanding.DENIED),
        (None, ComebackStanding.DENIED),
    ],
)
def test_a_denial_is_open_again_when_the_bench_finds_the_same_group(back, found, stands):
    deny_comeback(back.shop.book, back.shop.mirr, back.back, "another fault, she says", version=1)
    record_findings(back.shop.book, back.shop.sanna, back.back, Findings(fault_group=found), version=2)
    assert row(back)[:2] == (stands, "another fault, she says")


def test_a_denial_of_the_bench_stays_when_the_group_stays(back):
    book, sanna = back.shop.book, back.shop.sanna
    record_findings(book, sanna, back.back, Findings(fault_group=FaultGroup.RADIAL), version=1)
    deny_comeback(book, sanna, back.back, "other disc problem", version=2)
    found = Findings(fault_group=FaultGroup.RADIAL, cause_note="a cracked disc")
    record_findings(book, sanna, back.back, found, version=3)
    assert row(back)[0] is ComebackStanding.DENIED


def test_findings_of_a_job_that_denies_nobody_are_just_kept(back):
    with back.shop.book.change(back.shop.ine, Sentence("imported")) as change:
        job = change.get(t.Job, back.back)
        job.comeback, job.comeback_of_id = ComebackStanding.DENIED, None
    found = Findings(fault_group=FaultGroup.RADIAL)
    record_findings(back.shop.book, back.shop.sanna, back.back, found, version=2)
    assert row(back)[0] is ComebackStanding.DENIED


def told(past):
    """What was said so far: whose word, and what."""
    view = comeback_view(past.shop.book, past.back)
    assert view is not None
    return [(word.by, word.words.key, word.words.values.get("reason")) for word in view.said]


def test_what_was_said_stays_with_who_said_it_and_can_be_taken_back(back):
    book, sanna, ine = back.shop.book, back.shop.sanna, back.shop.ine
    assert told(back) == [("", "Proposed", None)]
    deny_comeback(book, sanna, back.back, "other disc problem", version=1)
    view = comeback_view(book, back.back)
    assert (view.former, view.standing) == (1001, ComebackStanding.DENIED)
    assert view.reason == Sentence("other disc problem")  # a usual one, for every language
    take_back_word(book, sanna, back.back, version=2)
    assert row(back)[:2] == (ComebackStanding.PROPOSED, "")
    confirm_comeback(book, ine, back.back, "heard it myself", version=3)
    assert told(back) == [
        ("", "Proposed", None),
        ("Sanna Wickerel", "It is none: {reason}", Sentence("other disc problem")),
        ("Sanna Wickerel", "Taken back", None),
        ("Ine Varloes", "It is one: {reason}", "heard it myself"),
    ]


def test_without_a_reason_and_with_another_reason_the_words_follow(back):
    book, sanna = back.shop.book, back.shop.sanna
    confirm_comeback(book, sanna, back.back, version=1)
    confirm_comeback(book, sanna, back.back, "the arm sticks again", version=2)
    with book.change(back.shop.ine, Sentence("imported")) as change:
        job = change.get(t.Job, back.back)
        job.comeback, job.comeback_reason = ComebackStanding.DENIED, ""
    assert [said for _, said, _ in told(back)[1:]] == ["It is one", "It is one: {reason}", "It is none"]


def test_nothing_said_is_nothing_to_take_back(back):
    with pytest.raises(Refusal, match="Nobody has said"):
        take_back_word(back.shop.book, back.shop.sanna, back.back, version=1)
    assert comeback_view(back.shop.book, back.job(back.unit(), 3)) is None


def test_a_denial_that_the_bench_contradicts_is_told_as_open_again(back):
    deny_comeback(back.shop.book, back.shop.mirr, back.back, "another fault", version=1)
    record_findings(
        back.shop.book, back.shop.sanna, back.back, Findings(fault_group=FaultGroup.RADIAL), version=2
    )
    assert told(back)[-1] == ("", "Open again: the same fault group was found", None)


def test_what_was_said_of_nothing_is_not_told(back):
    with back.shop.book.change(back.shop.ine, Sentence("imported")) as change:
        job = change.get(t.Job, back.back)
        job.comeback = None
        job.comeback_reason = "left over"
    assert comeback_view(back.shop.book, back.back) is None
    with back.shop.book.change(back.shop.ine, Sentence("imported")) as change:
        change.get(t.Job, back.back).comeback = ComebackStanding.CONFIRMED
    assert [said for _, said, _ in told(back)] == ["Proposed", "It is one: {reason}"]


def test_a_fault_that_only_the_bench_shows_to_be_the_same_is_proposed(shop):
    past = Past(shop)
    unit = past.unit()
    first = past.job(unit, 60, 50)
    past.back = past.job(unit, 5, group=None, words=("no power",))
    record_findings(shop.book, shop.sanna, past.back, Findings(fault_group=FaultGroup.SOUND), version=1)
    assert row(past)[0] is None
    record_findings(shop.book, shop.sanna, past.back, Findings(fault_group=FaultGroup.RADIAL), version=2)
    assert row(past)[0] is ComebackStanding.PROPOSED
    assert comeback_view(shop.book, past.back).former_id == first
