"""Writing an estimate: begun, options and lines put on and taken out, issued, copied, given up."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from sqlalchemy import select

from app.book.tables import Job, Paper
from app.trade.bench.stages import Stage, Waiting
from app.trade.money import MICRO, Money
from app.trade.office.estimate import OptionEntry
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatCategory, VatRate
from app.trade.refusal import FieldRefusal, Held, Refusal, StaleRow
from app.trade.sentence import Sentence
from app.trade.settings import HOURLY_RATE, PRICES_WITH_VAT, VAT_RATES
from app.work.counter.job_rows import job_rows
from app.work.counter.jobs_list import Show, job_ids
from app.work.office.estimate_list import open_estimates
from app.work.office.estimate_view import estimate_view
from app.work.office.estimates import (
    EstimatedLine,
    add_line,
    add_option,
    begin_estimate,
    change_line,
    change_option,
    give_up,
    issue_estimate,
    preview_estimate,
    set_head,
    take_out_line,
    take_out_option,
)
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf

FULL, LOW = VatRate(1900), VatRate(700)
WORK = EstimatedLine(kind=LineKind.LABOUR, words=" Bench work ", quantity=2_250_000, vat=FULL)
TESTED = EstimatedLine(kind=LineKind.FIXED_CHARGE, words="Electrical safety test", price=12 * MICRO, vat=FULL)
NOTE = EstimatedLine(kind=LineKind.TEXT, words="Your transport is kept.", price=5, vat=FULL)
KEPT = OptionEntry(title=" modified, yours kept ", design="R314", never_above=30_000)


def begun(bench) -> tuple[int, int]:
    """An estimate with its first option."""
    estimate = begin_estimate(bench.book, bench.who, bench.job).value
    return estimate, view_of(bench).now.options[0].kept.id


def view_of(bench):
    return estimate_view(bench.book, bench.job)


def out(bench) -> int:
    """An estimate of 2.25 h and a safety test that went to the customer."""
    estimate, option = begun(bench)
    add_line(bench.book, bench.who, option, WORK)
    add_line(bench.book, bench.who, option, TESTED)
    issue_estimate(bench.book, bench.who, estimate)
    return estimate


def test_an_estimate_begins_with_one_way_to_mend_it_and_the_days_of_the_settings(bench):
    assert view_of(bench).now is None
    begun(bench)
    view = view_of(bench)
    assert (view.now.number, view.now.issued, view.out) == ("", False, None)
    assert view.now.valid_until == bench.book.today() + timedelta(days=30)
    assert [one.kept.option.entry.title for one in view.now.options] == ["repair"]
    assert "costs anything" in view.now.wrong[0].key
    with pytest.raises(Refusal, match="being written"):
        begin_estimate(bench.book, bench.who, bench.job)


def test_working_time_takes_the_shops_hour_and_a_part_its_price_in_stock(bench):
    _, option = begun(bench)
    add_line(bench.book, bench.who, option, WORK)
    belt = EstimatedLine(
        kind=LineKind.PART, words="Loading belt", part_id=bench.part, quantity=2 * MICRO, vat=LOW
    )
    add_line(bench.book, bench.who, option, belt)
    add_line(bench.book, bench.who, option, NOTE)
    lines = view_of(bench).now.options[0].kept.option.lines
    assert [(line.words, line.unit, line.price, line.vat_rate, line.quantity) for line in lines] == [
        ("Bench work", "HUR", 64 * MICRO, 1900, 2_250_000),
        ("Loading belt", "H87", 3_800_000, 1900, 2 * MICRO),
        ("Your transport is kept.", "C62", 0, 0, 0),
    ]
    # 144.00 + 7.60 = 151.60 net, 28.804 VAT
    assert view_of(bench).now.options[0].ceiling == Money(18_040, "EUR")


def test_a_part_whose_rate_the_shop_has_given_up_takes_the_rate_chosen(bench):
    _, option = begun(bench)
    change_settings(bench.book, bench.who, {VAT_RATES: (VatRate(0, VatCategory.EXEMPT, "small business"),)})
    exempt = VatRate(0, VatCategory.EXEMPT, "small business")
    add_line(
        bench.book,
        bench.who,
        option,
        EstimatedLine(kind=LineKind.PART, words="b", part_id=bench.part, vat=exempt),
    )
    line = view_of(bench).now.options[0].kept.option.lines[0]
    assert (line.vat_rate, line.category, line.price_with_vat) == (0, VatCategory.EXEMPT, None)


def test_a_price_typed_with_vat_comes_back_to_the_cent(bench):
    change_settings(bench.book, bench.who, {PRICES_WITH_VAT: True})
    _, option = begun(bench)
    add_line(bench.book, bench.who, option, replace(TESTED, price=19_990_000))
    add_line(
        bench.book, bench.who, option, replace(TESTED, price=10_000_000, vat=VatRate(0, VatCategory.ZERO))
    )
    assert view_of(bench).now.options[0].totals.due == Money(2_999, "EUR")


@pytest.mark.parametrize(
    ("line", "fields"),
    [
        (replace(WORK, words=" "), {"words"}),
        (replace(TESTED, price=None), {"price"}),
        (replace(TESTED, quantity=0), {"quantity"}),
        (replace(TESTED, kind=LineKind.FEE), {"kind"}),
        (replace(TESTED, vat=VatRate(0)), {"vat_rate"}),
    ],
)
def test_a_line_that_cannot_be_right_is_refused_by_its_field(bench, line, fields):
    _, option = begun(bench)
    with pytest.raises(FieldRefusal) as refusal:
        add_line(bench.book, bench.who, option, line)
    assert set(refusal.value.fields) == fields


def test_a_line_is_changed_under_the_version_that_was_seen_and_taken_out(bench):
    _, option = begun(bench)
    line = add_line(bench.book, bench.who, option, WORK).value
    change_line(bench.book, bench.who, line, replace(WORK, quantity=MICRO), version=1)
    with pytest.raises(StaleRow):
        change_line(bench.book, bench.who, line, WORK, version=1)
    assert view_of(bench).now.options[0].kept.lines[0].line.quantity == MICRO
    take_out_line(bench.book, bench.who, line)
    assert view_of(bench).now.options[0].kept.lines == ()


def test_a_second_option_begins_with_the_lines_of_the_first(bench):
    estimate, option = begun(bench)
    add_line(bench.book, bench.who, option, WORK)
    second = add_option(bench.book, bench.who, estimate, KEPT, like=option).value
    options = view_of(bench).now.options
    assert [(one.kept.option.letter, one.kept.option.entry.title) for one in options] == [
        ("A", "repair"),
        ("B", "modified, yours kept"),
    ]
    assert options[1].kept.option.lines == options[0].kept.option.lines
    assert options[1].ceiling == Money(30_000, "EUR")
    change_option(
        bench.book, bench.who, second, replace(KEPT, never_above=None, risk="It may not help."), version=2
    )
    assert view_of(bench).now.options[1].kept.option.entry.risk == "It may not help."
    take_out_option(bench.book, bench.who, option)
    assert [(one.kept.option.letter, one.kept.id) for one in view_of(bench).now.options] == [("A", second)]


def test_words_of_an_option_and_the_day_are_checked(bench):
    estimate, option = begun(bench)
    for refused in (
        lambda: add_option(bench.book, bench.who, estimate, OptionEntry(title=" ")),
        lambda: change_option(bench.book, bench.who, option, OptionEntry(title="x", never_above=-1)),
        lambda: set_head(bench.book, bench.who, estimate, intro="", valid_until=date(2026, 3, 1)),
    ):
        with pytest.raises(FieldRefusal):
            refused()
    set_head(bench.book, bench.who, estimate, intro=" Stops at 11. ", valid_until=date(2026, 4, 1), version=1)
    assert (view_of(bench).now.intro, view_of(bench).now.valid_until) == ("Stops at 11.", date(2026, 4, 1))


def test_no_more_options_and_lines_than_have_room(bench, monkeypatch):
    estimate, option = begun(bench)
    add_option(bench.book, bench.who, estimate, KEPT)
    add_option(bench.book, bench.who, estimate, KEPT)
    with pytest.raises(Refusal, match="At most"):
        add_option(bench.book, bench.who, estimate, KEPT)
    monkeypatch.setattr("app.work.office.estimates.MOST_LINES_OF_OPTION", 1)
    add_line(bench.book, bench.who, option, WORK)
    with pytest.raises(Refusal, match="At most"):
        add_line(bench.book, bench.who, option, WORK)


def test_an_estimate_that_lacks_something_does_not_go_out_and_says_what(bench):
    change_settings(bench.book, bench.who, {HOURLY_RATE: 0})
    estimate, option = begun(bench)
    add_line(bench.book, bench.who, option, WORK)
    with pytest.raises(Held) as held:
        issue_estimate(bench.book, bench.who, estimate)
    assert [reason.key for reason in held.value.reasons] == [
        "Option {letter}: an hour of work has no price yet."
    ]
    assert view_of(bench).now.number == ""


def test_issuing_gives_it_a_number_a_paper_and_the_job_waits_for_the_answer(bench):
    estimate, option = begun(bench)
    add_line(bench.book, bench.who, option, WORK)
    assert preview_estimate(bench.book, estimate).startswith(b"%PDF-")
    issued = issue_estimate(bench.book, bench.who, estimate).value
    assert issued.number == "0001"
    with bench.book.ask() as session:
        assert (
            session.scalars(select(Paper.title).where(Paper.id == issued.paper_id)).one() == "Estimate 0001"
        )
    assert paper_pdf(bench.book, issued.paper_id).pdf.startswith(b"%PDF-")
    view = view_of(bench)
    assert (view.now.number, view.now.paper_id, view.now.issued_on) == (
        "0001",
        issued.paper_id,
        date(2026, 3, 12),
    )
    assert view.now.issued_by == "Ine Varloes"
    assert bench.job in job_ids(bench.book, Show.WAITING).ids
    assert job_rows(bench.book, [bench.job])[0].waiting is Waiting.ANSWER


def test_what_went_out_never_changes_and_a_new_one_takes_it_over(bench):
    estimate = out(bench)
    option = view_of(bench).now.options[0].kept
    for refused in (
        lambda: add_line(bench.book, bench.who, option.id, WORK),
        lambda: take_out_line(bench.book, bench.who, option.lines[0].id),
        lambda: give_up(bench.book, bench.who, estimate),
        lambda: issue_estimate(bench.book, bench.who, estimate),
    ):
        with pytest.raises(Refusal, match="as it stands"):
            refused()
    new = begin_estimate(bench.book, bench.who, bench.job).value
    view = view_of(bench)
    assert (view.now.id, view.out.id) == (new, estimate)
    assert view.now.options[0].kept.option == option.option
    issue_estimate(bench.book, bench.who, new)
    view = view_of(bench)
    assert (view.out.number, [number for number, _ in view.former]) == ("0002", ["0001"])


def test_one_given_up_is_gone_from_the_page_and_stays_in_the_book(bench):
    estimate, option = begun(bench)
    give_up(bench.book, bench.who, estimate)
    assert view_of(bench).now is None
    with pytest.raises(Refusal, match="given up"):
        add_line(bench.book, bench.who, option, WORK)
    begin_estimate(bench.book, bench.who, bench.job)


def test_a_closed_job_gets_no_estimate(bench):
    with bench.book.change(bench.who, Sentence("closed")) as change:
        change.get(Job, bench.job).stage = Stage.HANDED_BACK
    with pytest.raises(Refusal, match="closed"):
        begin_estimate(bench.book, bench.who, bench.job)
    assert not view_of(bench).changes


def test_the_office_lists_what_waits_for_an_answer_before_what_is_being_written(bench):
    out(bench)
    bench.shop.clock.advance(days=5)
    begun_id = begin_estimate(bench.book, bench.who, bench.job).value
    take_out_option(bench.book, bench.who, view_of(bench).now.options[0].kept.id)
    found = open_estimates(bench.book)
    assert [(row.number, row.days, row.highest) for row in found] == [
        ("0001", 5, Money(18_564, "EUR")),
        ("", None, None),
    ]
    assert (found[0].job_number, found[0].customer, found[0].player) == (
        1001,
        "Benedikt Arnsvik",
        "Quellmar Larch 2",
    )
    assert view_of(bench).now.id == begun_id
