"""What was said: every call a line, every yes or no with exactly what it was about."""

from __future__ import annotations

from datetime import timedelta

import pytest

from app.book.tables import Job, Modification
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Waiting, Way
from app.trade.counter.agreements import AgreementEntry, AgreementKind, MessageEntry
from app.trade.money import Money
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.counter.messages import add_agreement, add_message, what_was_said
from app.work.counter.requests import note_unsafe_request, refuse_unsafe_request


def waiting(shop, job_id):
    with shop.book.ask() as session:
        return session.get_one(Job, job_id).waiting


YES = AgreementEntry(
    kind=AgreementKind.PRICE, yes=True, what="up to 120", said_by="B. Arnsvik", amount=Money(12000, "EUR")
)


def test_messages_and_agreements_stand_in_the_order_in_which_they_were_said(shop, job):
    add_message(shop.book, shop.mirr, job, MessageEntry(text=" Asked about the price. ", awaits_answer=True))
    assert waiting(shop, job) is Waiting.ANSWER
    shop.clock.advance(minutes=5)
    earlier = shop.clock() - timedelta(minutes=2)
    add_agreement(shop.book, shop.mirr, job, YES)
    add_message(
        shop.book,
        shop.mirr,
        job,
        MessageEntry(
            text="Rang back.", to_customer=False, way=Way.MESSAGE, spoke_with="his sister", at=earlier
        ),
    )
    lines = what_was_said(shop.book, job)
    assert [line.text for line in lines] == ["Asked about the price.", "Rang back.", "up to 120"]
    assert [line.agreement for line in lines] == [None, None, AgreementKind.PRICE]
    assert (lines[2].amount, lines[2].yes, lines[2].by) == (Money(12000, "EUR"), True, "Mirr Quistan")
    assert lines[1].with_whom == "his sister"
    assert waiting(shop, job) is Waiting.NOTHING


def test_an_answer_of_the_customer_ends_the_waiting_but_not_that_for_a_part(shop, job):
    add_message(shop.book, shop.mirr, job, MessageEntry(text="Asked.", awaits_answer=True))
    add_message(shop.book, shop.mirr, job, MessageEntry(text="Answered.", to_customer=False))
    assert waiting(shop, job) is Waiting.NOTHING
    with shop.book.change(shop.tobbe, Sentence("part")) as change:
        change.get(Job, job).waiting = Waiting.PART
    add_message(shop.book, shop.mirr, job, MessageEntry(text="Asked how it goes.", to_customer=False))
    add_agreement(shop.book, shop.mirr, job, YES)
    assert waiting(shop, job) is Waiting.PART


def test_the_agreed_amount_moves_the_limit_that_work_is_held_against(shop, take_in):
    from app.book.bench.job_facts import facts_of

    job = take_in(go_ahead_limit=Money(9000, "EUR")).job_id
    add_agreement(shop.book, shop.mirr, job, YES)
    with shop.book.ask() as session:
        assert facts_of(session, session.get_one(Job, job), shop.book.today()).agreed == Money(12000, "EUR")


def test_what_is_missing_or_cannot_be_is_named_by_field(shop, job):
    later = shop.clock() + timedelta(hours=1)
    with pytest.raises(FieldRefusal) as refusal:
        add_message(shop.book, shop.mirr, job, MessageEntry(text=" ", spoke_with="x" * 301, at=later))
    assert set(refusal.value.fields) == {"text", "spoke_with", "at"}
    with pytest.raises(FieldRefusal) as refusal:
        add_agreement(
            shop.book,
            shop.mirr,
            job,
            AgreementEntry(kind=AgreementKind.PRICE, yes=True, what="", said_by=" ", said_at=later),
        )
    assert set(refusal.value.fields) == {"what", "said_by", "amount", "said_at"}


def test_a_yes_to_a_modification_names_one_that_is_in_this_player(shop, job, take_in):
    other = take_in(serial="9")
    with shop.book.change(shop.tobbe, Sentence("modified")) as change:
        ours = [
            change.add(
                Modification(
                    job_id=at,
                    unit_id=unit,
                    kind=Kind.OTHER,
                    circuit=Circuit.OTHER,
                    law=Law.NEITHER,
                    reference="R314",
                    part_after="wire",
                    at=change.now,
                    by=change.by,
                )
            ).id
            for at, unit in ((job, 1), (other.job_id, other.unit_id))
        ]
    said = AgreementEntry(
        kind=AgreementKind.MODIFICATION,
        yes=True,
        what="wire at R314",
        said_by="B. Arnsvik",
        modification_id=ours[0],
    )
    add_agreement(shop.book, shop.mirr, job, said)
    with pytest.raises(FieldRefusal, match="another player"):
        add_agreement(
            shop.book,
            shop.mirr,
            job,
            AgreementEntry(
                kind=AgreementKind.MODIFICATION, yes=True, what="x", said_by="B.", modification_id=ours[1]
            ),
        )


def test_a_request_that_would_make_it_unsafe_stops_the_job_until_it_is_refused(shop, job, waive):
    from app.trade.bench.stages import Stage
    from app.trade.refusal import Held
    from app.work.counter.stages import set_stage

    waive(job)
    request = note_unsafe_request(shop.book, shop.mirr, job, "bridge the lid switch so it plays open").value
    with pytest.raises(Held):
        set_stage(shop.book, shop.tobbe, job, Stage.READY)
    refuse_unsafe_request(shop.book, shop.tobbe, request)
    set_stage(shop.book, shop.tobbe, job, Stage.READY)
    with pytest.raises(Refusal, match="refused already"):
        refuse_unsafe_request(shop.book, shop.tobbe, request)


@pytest.mark.parametrize("what", ["  ", "x" * 2001])
def test_a_request_is_written_in_words(shop, job, what):
    with pytest.raises(FieldRefusal):
        note_unsafe_request(shop.book, shop.mirr, job, what)
