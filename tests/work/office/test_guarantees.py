"""The guarantee on the invoice, and a comeback within it: the book proposes, a person decides."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from app.book.bench.job_rows import JobRows
from app.book.tables import Invoice, Job, Labour, Paper
from app.trade.bench.kinds import ComebackStanding, FaultGroup
from app.trade.bench.stages import Outcome, Stage
from app.trade.office.guarantee import Answer, Covers
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings import GUARANTEE_DAYS, GUARANTEE_WORDS, LANGUAGE, PRICES_WITH_VAT
from app.work.bench.work_done import record_labour
from app.work.counter.taking_in import receive_unit
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.guarantees import answer_guarantee, guarantee_days_of, guarantee_view
from app.work.office.invoice_lists import gone_without_invoice, jobs_to_invoice
from app.work.office.invoices import draft_invoice, issue_invoice
from app.work.office.settings import change_settings
from tests.work.office.conftest import LARCH


def invoiced(bench, job=None):
    """The row of the invoice that is issued now."""
    issued = issue_invoice(bench.book, bench.who, job or bench.job).value
    with bench.book.ask() as session:
        row, facts = session.get_one(Invoice, issued.id), session.get_one(Paper, issued.paper_id).facts
        session.expunge_all()
        return row, facts


@pytest.fixture
def back(worked):
    """The same player again 20 days after it was handed back, as a comeback, with half an hour on it."""
    issue_invoice(worked.book, worked.who, worked.job)
    with worked.book.change(worked.who, Sentence("handed back")) as change:
        row = change.get(Job, worked.job)
        row.stage, row.outcome, row.handed_back_at = Stage.HANDED_BACK, Outcome.MENDED, change.now
        row.fault_group, row.guarantee_until = FaultGroup.RADIAL, date(2026, 9, 8)
    worked.shop.clock.advance(days=20)
    again = replace(LARCH, promised_on=None)
    job = receive_unit(worked.book, worked.who, again).value.job_id
    with worked.book.change(worked.who, Sentence("a comeback")) as change:
        row = change.get(Job, job)
        row.comeback_of_id, row.comeback, row.stage = (
            worked.job,
            ComebackStanding.CONFIRMED,
            Stage.ON_THE_BENCH,
        )
    record_labour(worked.book, worked.who, job, "Arm bearing cleaned again", Decimal("0.5"))
    worked.former, worked.job = worked.job, job
    return worked


def decide(bench, answer, reason=""):
    return answer_guarantee(bench.book, bench.shop.ine, bench.job, answer, reason)


def test_the_guarantee_stands_on_the_invoice_with_its_last_day(worked):
    row, facts = invoiced(worked)
    assert (row.guarantee_days, row.guarantee_until) == (180, date(2026, 9, 8))
    assert row.guarantee_covers is Covers.WORK
    assert GUARANTEE_WORDS.default in str(facts["guarantee"])


def test_what_the_shop_sets_later_changes_no_promise(worked):
    row, _ = invoiced(worked)
    change_settings(worked.book, worked.who, {GUARANTEE_DAYS: 30})
    with worked.book.ask() as session:
        assert session.get_one(Invoice, row.id).guarantee_days == 180


def test_a_shop_that_gives_none_promises_none(worked):
    change_settings(worked.book, worked.who, {GUARANTEE_DAYS: 0})
    row, facts = invoiced(worked)
    assert (row.guarantee_days, row.guarantee_until, row.guarantee_covers) == (None, None, None)
    assert facts["guarantee"] == ""


def test_a_comeback_is_proposed_at_no_charge_with_the_reason(back):
    view = guarantee_view(back.book, back.job)
    assert view is not None
    assert (view.proposal.job, view.proposal.answer) == (1001, Answer.NO_CHARGE)
    assert view.proposal.reason.values == {"job": "1001", "until": date(2026, 9, 8)}
    assert (view.answered, view.open) == (None, True)


def test_a_first_visit_and_a_denied_comeback_are_no_matter_of_guarantee(back):
    assert guarantee_view(back.book, back.former) is None
    with back.book.change(back.who, Sentence("denied")) as change:
        change.get(Job, back.job).comeback = ComebackStanding.DENIED
    assert guarantee_view(back.book, back.job) is None
    with pytest.raises(Refusal, match="No guarantee"):
        decide(back, Answer.NO_CHARGE)


def test_a_job_that_gave_no_guarantee_proposes_nothing(back):
    with back.book.change(back.who, Sentence("none given")) as change:
        change.get(Job, back.former).guarantee_until = None
    assert guarantee_view(back.book, back.job) is None


def test_nothing_happens_before_a_person_decides(back):
    assert draft_invoice(back.book, back.job).totals.due.minor == 3808  # half an hour at 64.00, with 19 %


def test_no_charge_makes_an_invoice_of_nothing_that_tells_what_was_done(back):
    decide(back, Answer.NO_CHARGE)
    draft = draft_invoice(back.book, back.job)
    assert draft.totals.due.minor == 0
    assert [discount.reason for discount in draft.draft.discounts] == ["Guarantee of job 1001"]
    row, facts = invoiced(back)
    assert (row.lines_net, row.discount, row.gross, row.due) == (3200, 3200, 0, 0)
    assert facts["lines"][0]["what"] == "Arm bearing cleaned again"
    view = guarantee_view(back.book, back.job)
    assert view is not None
    assert view.answered is not None
    assert (view.answered.answer, view.answered.by, view.open) == (Answer.NO_CHARGE, "Ine Varloes", False)
    with pytest.raises(Refusal, match="invoiced already"):
        decide(back, Answer.CHARGED, "changed my mind")


def test_what_is_added_after_the_decision_is_asked_for_until_it_is_decided_again(back):
    decide(back, Answer.NO_CHARGE)
    record_labour(back.book, back.who, back.job, "Belt", Decimal("0.5"))
    assert draft_invoice(back.book, back.job).totals.due.minor == 3808
    decide(back, Answer.NO_CHARGE)
    decide(back, Answer.NO_CHARGE)  # nothing is left to take off
    draft = draft_invoice(back.book, back.job)
    assert (draft.totals.due.minor, len(draft.draft.discounts)) == (0, 2)


def test_the_reason_on_the_paper_is_in_the_customers_language(back):
    change_settings(back.book, back.who, {LANGUAGE: "de"})
    decide(back, Answer.NO_CHARGE)
    assert draft_invoice(back.book, back.job).draft.discounts[0].reason == "Garantie auf Auftrag 1001"


def test_prices_typed_with_vat_leave_no_cent_to_pay(back):
    change_settings(back.book, back.who, {PRICES_WITH_VAT: True})
    fee = ChargeEntry(kind=LineKind.FEE, words="small parts", price=90_000, vat=VatRate(700))
    add_charge(back.book, back.who, back.job, fee)
    decide(back, Answer.NO_CHARGE)
    totals = draft_invoice(back.book, back.job).totals
    assert (totals.gross.minor, totals.due.minor) == (0, 0)


def test_a_decision_other_than_proposed_needs_its_reason(back):
    with pytest.raises(FieldRefusal) as refusal:
        decide(back, Answer.CHARGED, "  ")
    assert refusal.value.fields.keys() == {"reason"}
    with pytest.raises(FieldRefusal):
        decide(back, Answer.CHARGED, "a\x07b")
    decide(back, Answer.CHARGED, "A child pushed a coin in.")
    view = guarantee_view(back.book, back.job)
    assert view is not None
    assert view.answered is not None
    assert view.answered.reason == "A child pushed a coin in."
    assert draft_invoice(back.book, back.job).totals.due.minor == 3808


def test_without_an_invoice_the_job_waits_for_none(back):
    with back.book.change(back.who, Sentence("ready")) as change:
        row = change.get(Job, back.job)
        row.stage, row.ready_at = Stage.READY, change.now
    assert [row.job_id for row in jobs_to_invoice(back.book)] == [back.job]
    decide(back, Answer.NO_INVOICE, "ten minutes, a favour")
    assert jobs_to_invoice(back.book) == ()
    decide(back, Answer.NO_CHARGE)
    assert [row.job_id for row in jobs_to_invoice(back.book)] == [back.job]
    decide(back, Answer.NO_INVOICE, "after all")
    with back.book.change(back.who, Sentence("handed back")) as change:
        row = change.get(Job, back.job)
        row.stage, row.outcome, row.handed_back_at = Stage.HANDED_BACK, Outcome.MENDED, change.now
    assert gone_without_invoice(back.book) == ()
    view = guarantee_view(back.book, back.job)
    assert view is not None
    assert not view.open


def test_where_nothing_is_charged_no_invoice_is_proposed(back):
    with back.book.change(back.who, Sentence("struck")) as change:
        for row in change.session.query(Labour).filter(Labour.job_id == back.job):
            row.struck_at, row.struck_by, row.struck_reason = change.now, back.who, "a favour"
    view = guarantee_view(back.book, back.job)
    assert view is not None
    assert view.proposal.answer is Answer.NO_INVOICE
    decide(back, Answer.NO_INVOICE)


def test_a_modified_player_that_was_left_out_is_proposed_to_be_looked_at(back):
    with closing(sqlite3.connect(back.shop.path)) as hand:  # as if its invoice had promised this
        hand.execute("DROP TRIGGER tr_invoices_stand")
        hand.execute("UPDATE invoices SET guarantee_covers = ?", (Covers.NOT_MODIFIED.value,))
        hand.commit()
    view = guarantee_view(back.book, back.job)
    assert view is not None
    assert view.proposal.answer is Answer.CHARGED


def test_what_the_invoice_promised_runs_from_handing_back_whatever_the_shop_set_since(worked):
    with worked.book.ask() as session:
        assert guarantee_days_of(JobRows(session, session.get_one(Job, worked.job))) == 180
    issue_invoice(worked.book, worked.who, worked.job)
    change_settings(worked.book, worked.who, {GUARANTEE_DAYS: 30})
    with worked.book.ask() as session:
        assert guarantee_days_of(JobRows(session, session.get_one(Job, worked.job))) == 180


def test_an_invoice_without_a_guarantee_leaves_it_to_the_settings_of_the_day(worked):
    change_settings(worked.book, worked.who, {GUARANTEE_DAYS: 0})
    issue_invoice(worked.book, worked.who, worked.job)
    change_settings(worked.book, worked.who, {GUARANTEE_DAYS: 30})
    with worked.book.ask() as session:
        assert guarantee_days_of(JobRows(session, session.get_one(Job, worked.job))) == 30


def test_a_comeback_that_the_book_only_guesses_is_told_as_a_guess(back):
    with back.book.change(back.who, Sentence("guessed")) as change:
        change.get(Job, back.job).comeback = ComebackStanding.PROPOSED
    view = guarantee_view(back.book, back.job)
    assert view is not None
    assert "may be the same fault" in view.proposal.reason.key


def test_decided_otherwise_the_job_is_asked_for_again(back):
    decide(back, Answer.NO_CHARGE)
    back.shop.clock.advance(minutes=1)
    decide(back, Answer.CHARGED, "dropped in the rain")
    assert draft_invoice(back.book, back.job).totals.due.minor == 3808


def test_a_comeback_denied_after_the_decision_is_proposed_to_be_charged(back):
    decide(back, Answer.NO_CHARGE)
    with back.book.change(back.who, Sentence("denied")) as change:
        change.get(Job, back.job).comeback = ComebackStanding.DENIED
    view = guarantee_view(back.book, back.job)
    assert view is not None
    assert (view.proposal.answer, view.answered.answer) == (Answer.CHARGED, Answer.NO_CHARGE)
    assert "no comeback of job {job}" in view.proposal.reason.key
    back.shop.clock.advance(minutes=1)
    decide(back, Answer.CHARGED)
    assert draft_invoice(back.book, back.job).totals.due.minor == 3808
