"""The customer's answer: what it agrees to, what the invoice takes over, and the way back of a declined player."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from decimal import Decimal

import pytest
from sqlalchemy import select

from app.book.bench.job_rows import JobRows
from app.book.tables import Agreement, Charge, Job
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import CaseStep, Outcome, Stage, Waiting, Way
from app.trade.money import MICRO, Money
from app.trade.office.estimate import OptionEntry, Taken
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatCategory, VatRate
from app.trade.refusal import FieldRefusal, Held, Refusal
from app.trade.sentence import Sentence
from app.trade.settings import PRICES_WITH_VAT, VAT_RATES
from app.trade.wording import plain
from app.work.bench.modifications import ModificationEntry, record_modification
from app.work.bench.work_done import note_case, put_part_back, record_labour, use_part
from app.work.counter.job_rows import JobRow, job_rows
from app.work.counter.messages import AgreementEntry, AgreementKind, add_agreement, what_was_said
from app.work.counter.stages import set_waiting
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.estimate_answers import AnswerEntry, record_answer, set_taken
from app.work.office.estimate_list import open_estimates
from app.work.office.estimate_view import estimate_view
from app.work.office.estimates import add_line, add_option, begin_estimate, issue_estimate
from app.work.office.invoices import draft_invoice, issue_invoice
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf
from app.work.people.customers import customer_card, edit_customer
from tests.papers.reading import whole
from tests.work.office.test_estimates import NOTE, TESTED, WORK, begun, out, view_of

YES = AnswerEntry(option_id=None, said_by=" Benedikt  Arnsvik ", words="Do it.")


def option(bench) -> int:
    return view_of(bench).out.options[0].kept.id


def say_yes(bench) -> int:
    estimate = out(bench)
    record_answer(bench.book, bench.who, estimate, replace(YES, option_id=option(bench)))
    return estimate


def say_no(bench) -> int:
    estimate = out(bench)
    record_answer(bench.book, bench.who, estimate, replace(YES, words="Too dear."))
    return estimate


def told(bench, fee: int = 4500) -> None:
    """The customer was told at taking in what looking costs."""
    with bench.book.change(bench.who, Sentence("told")) as change:
        job = change.get(Job, bench.job)
        job.diagnosis_fee, job.diagnosis_fee_told = fee, True


def job_of(bench) -> JobRow:
    return job_rows(bench.book, [bench.job])[0]


def stops(bench) -> list[str]:
    return [reason.key for reason in draft_invoice(bench.book, bench.job).held]


def test_the_chosen_option_is_what_the_job_may_cost_from_now_on(bench):
    say_yes(bench)
    view = view_of(bench)
    answer = view.out.answers[-1]
    assert (answer.letter, answer.title, answer.amount) == ("A", "repair", Money(18_564, "EUR"))
    assert (answer.said_by, answer.way, answer.words, answer.by) == (
        "Benedikt Arnsvik",
        Way.TELEPHONE,
        "Do it.",
        "Ine Varloes",
    )
    assert answer.said_at == bench.book.now()
    assert job_of(bench).waiting is Waiting.NOTHING
    assert open_estimates(bench.book) == ()
    said = what_was_said(bench.book, bench.job)[-1]
    assert (said.yes, said.amount, said.text) == (True, Money(18_564, "EUR"), "estimate 0001: repair")


def test_work_beyond_the_agreed_amount_is_a_stop_until_the_customer_agrees_to_more(bench):
    say_yes(bench)
    record_labour(bench.book, bench.who, bench.job, "All", Decimal("2.25"))
    assert stops(bench) == []
    record_labour(bench.book, bench.who, bench.job, "And more", Decimal("0.25"))
    assert stops(bench) == ["Agreed {agreed}, now {now}."]
    with pytest.raises(Held):
        issue_invoice(bench.book, bench.who, bench.job)
    more = AgreementEntry(
        kind=AgreementKind.PRICE, yes=True, what="a little more", said_by="B", amount=Money(21_000, "EUR")
    )
    add_agreement(bench.book, bench.who, bench.job, more)
    assert stops(bench) == []


def test_what_was_agreed_with_vat_is_not_passed_by_a_cent_that_vat_cannot_restore(bench):
    """45.00 with 19 % VAT is 37.82 net, and 37.82 net is 45.01 with VAT."""
    change_settings(bench.book, bench.who, {PRICES_WITH_VAT: True})
    estimate, first = begun(bench)
    add_line(bench.book, bench.who, first, replace(TESTED, price=45 * MICRO))
    issue_estimate(bench.book, bench.who, estimate)
    record_answer(bench.book, bench.who, estimate, replace(YES, option_id=first))
    drafted = draft_invoice(bench.book, bench.job)
    assert (drafted.totals.gross, drafted.totals.due) == (Money(4501, "EUR"), Money(4500, "EUR"))
    assert view_of(bench).out.answers[0].amount == Money(4500, "EUR")
    assert stops(bench) == []


def test_the_invoice_takes_fixed_charges_and_text_without_typing_again(bench):
    estimate, first = begun(bench)
    for line in (WORK, TESTED, NOTE):
        add_line(bench.book, bench.who, first, line)
    issue_estimate(bench.book, bench.who, estimate)
    record_labour(bench.book, bench.who, bench.job, "Arm bearing cleaned", Decimal("1.5"))
    assert [line.words for line in draft_invoice(bench.book, bench.job).draft.lines] == [
        "Arm bearing cleaned"
    ]
    record_answer(bench.book, bench.who, estimate, replace(YES, option_id=first))
    assert [line.words for line in draft_invoice(bench.book, bench.job).draft.lines] == [
        "Arm bearing cleaned",
        "Electrical safety test",
        "Your transport is kept.",
    ]
    assert view_of(bench).taken is Taken.AS_WORKED
    set_taken(bench.book, bench.who, bench.job, Taken.AS_ESTIMATED)
    drafted = draft_invoice(bench.book, bench.job)
    assert [line.words for line in drafted.draft.lines] == [
        "Bench work",
        "Electrical safety test",
        "Your transport is kept.",
    ]
    assert drafted.totals.due == Money(18_564, "EUR")
    issue_invoice(bench.book, bench.who, bench.job)
    with pytest.raises(Refusal, match="invoiced already"):
        set_taken(bench.book, bench.who, bench.job, Taken.AS_WORKED)


def test_a_no_ends_the_job_as_declined_with_the_fee_that_was_told(bench):
    told(bench)
    record_labour(bench.book, bench.who, bench.job, "Looked at it", Decimal(1))
    say_no(bench)
    assert (job_of(bench).outcome, job_of(bench).waiting) == (Outcome.DECLINED, Waiting.NOTHING)
    drafted = draft_invoice(bench.book, bench.job)
    assert [line.words for line in drafted.draft.lines] == ["Looking into it, as told at taking in"]
    assert drafted.totals.due == Money(4_500, "EUR")
    view = view_of(bench)
    assert (view.taken, view.out.answers[-1].letter, view.out.answers[-1].amount) == (
        Taken.FEES_ONLY,
        "",
        None,
    )
    assert view.way_back[0].done
    set_taken(bench.book, bench.who, bench.job, Taken.AS_WORKED)
    assert len(draft_invoice(bench.book, bench.job).draft.lines) == 2
    with pytest.raises(Refusal, match="No option was chosen"):
        set_taken(bench.book, bench.who, bench.job, Taken.AS_ESTIMATED)


def test_a_fee_that_stands_there_already_is_not_charged_twice(bench):
    told(bench)
    fee = ChargeEntry(kind=LineKind.FEE, words="Diagnosis", price=37_815_000, vat=VatRate(1900))
    add_charge(bench.book, bench.who, bench.job, fee)
    say_no(bench)
    assert [line.words for line in draft_invoice(bench.book, bench.job).draft.lines] == ["Diagnosis"]


def test_without_a_fee_that_was_told_looking_costs_nothing(bench):
    say_no(bench)
    assert draft_invoice(bench.book, bench.job).draft.lines == ()
    assert "No fee was told" in view_of(bench).way_back[0].words.key


def test_a_shop_without_vat_charges_the_fee_as_it_was_told(bench):
    change_settings(bench.book, bench.who, {VAT_RATES: (VatRate(0, VatCategory.EXEMPT, "small business"),)})
    told(bench)
    estimate, first = begun(bench)
    exempt = VatRate(0, VatCategory.EXEMPT, "small business")
    add_line(bench.book, bench.who, first, replace(TESTED, vat=exempt))
    issue_estimate(bench.book, bench.who, estimate)
    record_answer(bench.book, bench.who, estimate, YES)
    line = draft_invoice(bench.book, bench.job).draft.lines[0]
    assert (line.price, line.price_with_vat, line.vat_reason) == (45 * MICRO, None, "small business")


def test_the_last_word_counts_and_a_yes_takes_the_fee_back(bench):
    told(bench)
    estimate = say_no(bench)
    record_answer(bench.book, bench.who, estimate, replace(YES, option_id=option(bench), way=Way.LETTER))
    assert job_of(bench).outcome is None
    assert [line.words for line in draft_invoice(bench.book, bench.job).draft.lines] == [
        "Electrical safety test"
    ]
    with bench.book.ask() as session:
        assert session.scalars(select(Charge.struck_reason)).all() == ["the customer goes ahead"]
    assert [one.way for one in view_of(bench).out.answers] == [Way.TELEPHONE, Way.LETTER]
    record_answer(bench.book, bench.who, estimate, replace(YES, option_id=option(bench)))
    assert job_of(bench).outcome is None


def test_after_the_invoice_an_answer_is_kept_and_the_invoice_stands(bench):
    told(bench)
    estimate = say_no(bench)
    issue_invoice(bench.book, bench.who, bench.job)
    record_answer(bench.book, bench.who, estimate, replace(YES, option_id=option(bench)))
    record_answer(bench.book, bench.who, estimate, YES)
    with bench.book.ask() as session:
        assert session.scalars(select(Charge.struck_at)).all() == [None]
        assert len(session.scalars(select(Agreement.id)).all()) == 3


def test_an_answer_says_who_and_when_and_what_of(bench):
    estimate = out(bench)
    future = datetime(2026, 3, 13, tzinfo=UTC)
    for entry, field in (
        (replace(YES, said_by=" "), "said_by"),
        (replace(YES, said_by="x" * 301), "said_by"),
        (replace(YES, words="\u202e"), "words"),
        (replace(YES, said_at=future), "said_at"),
        (replace(YES, option_id=99), "option_id"),
    ):
        with pytest.raises(FieldRefusal) as refusal:
            record_answer(bench.book, bench.who, estimate, entry)
        assert set(refusal.value.fields) == {field}
    earlier = datetime(2026, 3, 11, 16, tzinfo=UTC)
    record_answer(bench.book, bench.who, estimate, replace(YES, said_at=earlier))
    assert view_of(bench).out.answers[0].said_at == earlier


def test_only_the_estimate_that_went_out_last_is_answered(bench):
    with pytest.raises(Refusal, match="No estimate"):
        set_taken(bench.book, bench.who, bench.job, Taken.AS_WORKED)
    first = out(bench)
    second = begin_estimate(bench.book, bench.who, bench.job).value
    with pytest.raises(Refusal, match="not gone out"):
        record_answer(bench.book, bench.who, second, YES)
    other = add_option(bench.book, bench.who, second, OptionEntry(title="used transport")).value
    add_line(bench.book, bench.who, other, TESTED)
    issue_estimate(bench.book, bench.who, second)
    with pytest.raises(Refusal, match="newer"):
        record_answer(bench.book, bench.who, first, YES)
    record_answer(bench.book, bench.who, second, replace(YES, option_id=other))
    assert view_of(bench).out.answers[-1].letter == "B"
    said = what_was_said(bench.book, bench.job)[-1]
    assert said.text == "estimate 0002, option B: used transport"


def test_an_answer_while_the_job_waits_for_a_part_leaves_it_waiting(bench):
    estimate = out(bench)
    set_waiting(bench.book, bench.who, bench.job, Waiting.PART)
    record_answer(bench.book, bench.who, estimate, YES)
    assert job_of(bench).waiting is Waiting.PART


def test_a_declined_player_goes_back_as_it_came(bench):
    say_no(bench)
    note_case(bench.book, bench.who, bench.job, CaseStep.OPENED)
    used = use_part(bench.book, bench.who, bench.job, bench.part, Decimal(1)).value.id
    assert [step.done for step in view_of(bench).way_back] == [True, False, True, False]
    put_part_back(bench.book, bench.who, used)
    note_case(bench.book, bench.who, bench.job, CaseStep.CLOSED)
    assert all(step.done for step in view_of(bench).way_back)
    assert plain(bench.book.zone)(view_of(bench).way_back[1].words).startswith("No part of the shop")


def test_a_job_that_is_not_declined_has_no_way_back(bench):
    say_yes(bench)
    assert estimate_view(bench.book, bench.job).way_back == ()
    with bench.book.change(bench.who, Sentence("closed")) as change:
        job = change.get(Job, bench.job)
        job.stage, job.outcome = Stage.HANDED_BACK, Outcome.DECLINED
    assert view_of(bench).way_back == ()
    with bench.book.ask() as session:
        assert len(JobRows(session, session.get_one(Job, bench.job)).estimate_lines) == 2


def test_no_answer_after_the_days_of_the_settings_is_told_on_the_page(bench):
    out(bench)
    bench.shop.clock.advance(days=4)
    assert view_of(bench).out.unanswered is None
    bench.shop.clock.advance(days=1)
    assert view_of(bench).out.unanswered == 5
    bench.shop.clock.advance(days=26)
    assert view_of(bench).out.expired


def test_a_yes_to_a_change_that_was_made_is_recorded_in_the_same_breath(bench):
    estimate = out(bench)
    entry = ModificationEntry(
        kind=Kind.REPLACED,
        circuit=Circuit.RADIAL_COIL,
        law=Law.CURRENT,
        where="R314",
        maker_value=Decimal("6.8"),
        new_value=Decimal("5.6"),
    )
    made = record_modification(bench.book, bench.who, bench.job, entry).value.id
    assert [key for key, _ in view_of(bench).without_yes] == [made]
    no = replace(YES, modifications=(made,))
    record_answer(bench.book, bench.who, estimate, no)
    assert [key for key, _ in view_of(bench).without_yes] == [made]
    record_answer(
        bench.book, bench.who, estimate, replace(no, option_id=option(bench), modifications=(made, 99))
    )
    assert view_of(bench).without_yes == ()
    said = what_was_said(bench.book, bench.job)[-1]
    assert (said.agreement, said.yes, said.modification_id) == (AgreementKind.MODIFICATION, True, made)
    assert said.with_whom == "Benedikt Arnsvik"


def test_a_no_is_said_to_what_was_offered(bench):
    say_no(bench)
    said = what_was_said(bench.book, bench.job)[-1]
    assert (said.yes, said.text) == (False, "estimate 0001: repair")


def test_a_no_to_several_options_is_one_to_the_estimate(bench):
    estimate, first = begun(bench)
    add_line(bench.book, bench.who, first, TESTED)
    add_option(bench.book, bench.who, estimate, OptionEntry(title="cleaned only"), like=first)
    issue_estimate(bench.book, bench.who, estimate)
    record_answer(bench.book, bench.who, estimate, YES)
    said = what_was_said(bench.book, bench.job)[-1]
    assert (said.yes, said.text) == (False, "estimate 0001")


def test_what_comes_onto_papers_of_a_german_customer_is_german(bench):
    """The shop itself speaks English."""
    card = customer_card(bench.book, 1)
    edit_customer(bench.book, bench.who, 1, card.version, replace(card.form, language="de"))
    told(bench)
    estimate = say_no(bench)
    assert [line.words for line in draft_invoice(bench.book, bench.job).draft.lines] == [
        "Nachsehen, wie bei der Annahme genannt"
    ]
    record_answer(bench.book, bench.who, estimate, replace(YES, option_id=option(bench)))
    paper = issue_invoice(bench.book, bench.who, bench.job).value.paper_id
    page = whole(paper_pdf(bench.book, paper).pdf)
    assert "Sie haben am 12. März 2026 zugestimmt: Kostenvoranschlag 0001: Reparatur." in page
