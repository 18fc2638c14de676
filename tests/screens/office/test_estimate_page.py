"""The estimate page by keys alone: begun, lines and options, issued, answered, a declined player's way back."""

from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtWidgets import QLabel

from app.screens.kit.buttons import Button
from app.screens.office.estimate_page import EstimatePage
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.money import MICRO, Money
from app.trade.office.estimate import OptionEntry, Taken
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings import PRICES_WITH_VAT
from app.work.bench.modifications import ModificationEntry, record_modification
from app.work.counter.jobs_list import shop_counts
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.estimate_answers import AnswerEntry, record_answer
from app.work.office.estimate_view import estimate_view
from app.work.office.estimates import EstimatedLine, add_line, add_option, begin_estimate, issue_estimate
from app.work.office.invoices import draft_invoice
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf
from tests.screens.office.conftest import lines, link

FULL = VatRate(1900)
WORK = EstimatedLine(kind=LineKind.LABOUR, words="Bench work", quantity=2_250_000, vat=FULL)
TESTED = EstimatedLine(kind=LineKind.FIXED_CHARGE, words="Electrical safety test", price=12 * MICRO, vat=FULL)
MODIFIED = OptionEntry(title="modified, yours kept", design="R314", never_above=30_000)


@pytest.fixture
def written(bench):
    """An estimate of work and a safety test that is being written; gives its key and that of its option."""
    key = begin_estimate(bench.book, bench.who, bench.job).value
    option = estimate_view(bench.book, bench.job).now.options[0].kept.id
    add_line(bench.book, bench.who, option, WORK)
    add_line(bench.book, bench.who, option, TESTED)
    return key, option


@pytest.fixture
def issued(bench, written):
    """The same with a second option, at the customer."""
    add_option(bench.book, bench.who, written[0], MODIFIED, like=written[1])
    issue_estimate(bench.book, bench.who, written[0])
    return written[0]


def view(bench):
    return estimate_view(bench.book, bench.job)


def told(page) -> dict[str, int]:
    return {line.words: line.amount.minor for line in page.options.sums.lines}


def test_an_empty_page_says_what_belongs_there_and_begins_it_with_enter(office, bench):
    page = office.open("estimate", bench.job)
    assert "What it costs to mend this player" in office.sees()
    office.press("Return")
    assert view(bench).now is not None
    assert office.focus is page.options.time_link
    assert "Option A has no line that costs anything." in office.sees()
    assert page.issue.blocked
    office.push(page.issue)
    assert office.focus is page.options.time_link


def test_working_time_is_written_by_keys_and_takes_the_shops_hour(office, bench):
    page = office.open("estimate", bench.job)
    office.press("Return")
    office.press("Ctrl+Shift+W")
    office.type("Bench work")
    office.press("Return")
    office.type("2:15")
    form = page.options.place.form
    assert form.quantity.echo() == "read as 2\u00a0h 15\u00a0min"
    assert form.price.echo() == "comes to 144.00\u00a0EUR without VAT"
    office.press("Ctrl+Return")
    assert lines(page.options.table) == [["Bench work", "2.25", "h", "64.00", "19 %", "144.00"]]
    assert told(page) == {"Without VAT": 14_400, "VAT 19\u00a0%": 2_736, "With VAT": 17_136}
    assert page.paper.pdf.startswith(b"%PDF-")
    assert not page.issue.blocked


def test_a_part_of_the_stock_brings_words_and_price(office, bench, written):
    page = office.open("estimate", bench.job)
    office.press("Ctrl+Shift+A")
    office.type("b-22")
    form = page.options.place.form
    assert form.price.echo() == "comes to 3.80\u00a0EUR without VAT"
    office.press("Ctrl+Return")
    assert lines(page.options.table)[-1] == ["Loading belt 22 mm", "1", "piece", "3.80", "19 %", "3.80"]
    office.press("Ctrl+Shift+A")
    office.type("a belt of another maker")
    office.press("Ctrl+Return")
    assert "Write what one costs." in page.options.place.form.price.error()
    office.type_into(page.options.place.form.quantity, "x")
    assert page.options.place.form.price.echo() == ""


def test_enter_on_a_line_changes_it_and_ctrl_del_takes_it_out(office, bench, written):
    page = office.open("estimate", bench.job)
    page.options.table.setFocus()
    page.options.table.mark_first()
    office.press("Return")
    form = page.options.place.form
    assert (form.what.text(), form.quantity.text(), form.price.text()) == ("Bench work", "2.25", "")
    office.type_into(form.quantity, "1 h")
    office.press("Ctrl+Return")
    assert lines(page.options.table)[0][1] == "1"
    office.push(link(page, "Change the marked line"))
    assert page.options.place.form is not None
    office.press("Esc")
    page.options.table.setFocus()
    office.press("Ctrl+Del")
    assert [row[0] for row in lines(page.options.table)] == ["Electrical safety test"]
    page.options.table.mark_first()
    office.press("Return")
    assert page.options.place.form.price.text() == "12.00"


def test_text_lines_and_charges_typed_with_vat(office, bench, written):
    change_settings(bench.book, bench.who, {PRICES_WITH_VAT: True})
    page = office.open("estimate", bench.job)
    office.push(link(page, "Add a fixed charge"))
    office.type("Running in")
    office.type_into(page.options.place.form.price, "21.42")
    assert page.options.place.form.price.echo() == "comes to 18.00\u00a0EUR without VAT"
    office.press("Ctrl+Return")
    office.push(link(page, "Add a text line"))
    office.type("Your transport is kept.")
    office.press("Ctrl+Return")
    assert [row[0] for row in lines(page.options.table)][2:] == ["Running in", "Your transport is kept."]
    page.options.change_line(view(bench).now.options[0].kept.lines[2].id)
    assert page.options.place.form.price.text() == "21.42"
    page.options.change_line(view(bench).now.options[0].kept.lines[3].id)
    assert page.options.place.form.what.text() == "Your transport is kept."


def test_a_second_option_begins_with_the_same_lines_and_comes_into_sight(office, bench, written):
    page = office.open("estimate", bench.job)
    office.push(page.options.new_link)
    office.type("modified, yours kept")
    form = page.options.place.form
    form.design.set_text("R314, undone by fitting 6.8 again")
    office.type_into(form.highest, "x")
    office.press("Ctrl+Return")
    assert form.highest.error()
    office.type_into(form.highest, "215")
    office.press("Ctrl+Return")
    assert "R314, undone by fitting 6.8 again" in office.sees()
    assert told(page)["Never above"] == 21_500
    assert [row[0] for row in lines(page.options.table)] == ["Bench work", "Electrical safety test"]
    page.options.choice.changed.emit(0)
    assert "Never above" not in told(page)
    office.push(page.options.words_link)
    page.options.place.form.risk.set_text("It may not help.")
    office.press("Ctrl+Return")
    assert view(bench).now.options[0].kept.option.entry.risk == "It may not help."
    page.options.choice.changed.emit(1)
    office.push(page.options.words_link)
    assert page.options.place.form.highest.amount() == Money(21_500, "EUR")
    office.press("Esc")
    office.push(link(page, "Take this option out"))
    assert [one.kept.option.entry.title for one in view(bench).now.options] == ["repair"]


def test_what_was_seen_and_until_when_it_stands(office, bench, written):
    page = office.open("estimate", bench.job)
    office.push(page.options.head_link)
    office.type("Stops at the long seek.")
    form = page.options.place.form
    office.type_into(form.until, "nonsense")
    office.press("Ctrl+Return")
    assert "No day" in form.until.error()
    office.type_into(form.until, "+8")
    office.press("Ctrl+Return")
    assert "Open until 20\u00a0March\u00a02026." in office.sees()
    assert "Stops at the long seek." in office.sees()


@pytest.mark.parametrize(
    ("opens", "field"),
    [
        (lambda part: part.write_head(), "intro"),
        (lambda part: part.write_words(), "what"),
        (lambda part: part.add_option(), "title"),
        (lambda part: part.add_line(LineKind.FIXED_CHARGE), "words"),
    ],
)
def test_what_was_half_typed_stands_there_again(office, bench, written, opens, field):
    page = office.open("estimate", bench.job)
    opens(page.options)
    page.options.place.form.named[field].set_text("half typed")
    page.options.place.form.keep_draft()
    office.press("Esc")
    assert page.options.place.form is None
    office.press("Esc")
    again = EstimatePage(office.desk, bench.job, office.window)
    again.reload()
    office.settle()
    assert again.options.place.form.named[field].text() == "half typed"
    again.put_away()


def test_issuing_shows_the_filed_paper_and_waits_for_the_answer(office, bench, written):
    page = office.open("estimate", bench.job)
    office.push(page.issue)
    now = view(bench).now
    assert now.number == "0001"
    assert page.title == "Estimate 0001"
    assert "Issued 12\u00a0Mar\u00a02026 by Ine Varloes. Job 1001." in office.sees()
    assert "It waits for the answer." in office.sees()
    assert page.paper.pdf == paper_pdf(bench.book, now.paper_id).pdf
    assert office.focus is page.answers.record_link
    office.press("Ctrl+P")
    office.push(page.copy_button)
    filed, copy = office.papers
    assert (filed.title, filed.kind) == ("Estimate 0001", "estimate")
    assert copy.pdf != filed.pdf
    assert not page.options.head_link.isVisible()


def test_the_answer_by_telephone_is_what_the_job_may_cost(office, bench, issued):
    page = office.open("estimate", bench.job)
    office.press("Ctrl+Shift+Y")
    form = page.answers.place.form
    assert form.said_by.text() == "Benedikt Arnsvik"
    office.press("Ctrl+Return")
    assert "Choose what the customer answered." in office.sees(form)
    form.option.set_value(str(view(bench).out.options[1].kept.id))
    form.words.set_text("The second one.")
    office.press("Ctrl+Return")
    answer = view(bench).out.answers[0]
    assert (answer.letter, answer.amount) == ("B", Money(30_000, "EUR"))
    page.answers.taken.changed.emit(str(Taken.AS_ESTIMATED))
    office.settle()
    assert view(bench).taken is Taken.AS_ESTIMATED
    assert len(draft_invoice(bench.book, bench.job).draft.lines) == 2
    page.answers.taken.changed.emit(str(Taken.AS_ESTIMATED))
    office.settle()
    assert view(bench).taken is Taken.AS_ESTIMATED
    office.window.open("counter")
    again = office.open("estimate", bench.job)
    assert again.options._chosen in (0, 1)


def test_the_chosen_option_is_in_sight_first(office, bench, issued):
    second = view(bench).out.options[1].kept.id
    record_answer(bench.book, bench.who, issued, AnswerEntry(option_id=second, said_by="B", words="Yes."))
    page = office.open("estimate", bench.job)
    assert told(page)["Never above"] == 30_000
    assert office.focus is page.print_button


def test_a_no_by_keys_ends_the_job_as_declined_and_shows_its_way_back(office, bench, written):
    issue_estimate(bench.book, bench.who, written[0])
    page = office.open("estimate", bench.job)
    office.press("Ctrl+Shift+Y")
    form = page.answers.place.form
    form.option.set_value("none")
    office.press("Ctrl+Return")
    said = [line.text() for line in page.answers.lines.findChildren(QLabel)]
    assert "No: return it unrepaired  (Benedikt Arnsvik; Ine Varloes)" in said
    assert view(bench).taken is Taken.FEES_ONLY
    assert page.answers.way.isVisible()
    assert not any(link.words() == "Open the invoice" for link in page.answers.way.findChildren(Button))
    page.answers.opened.emit("invoice")
    office.settle()
    assert office.page.job_id == bench.job


def test_no_answer_after_the_days_of_the_settings_is_said(office, bench, issued):
    bench.shop.clock.advance(days=31)
    page = office.open("estimate", bench.job)
    assert "No answer for 31 days: ring, or write a line." in office.sees()
    assert "It was open until 11\u00a0April\u00a02026." in office.sees()
    assert shop_counts(bench.book).unanswered == 1
    overview = office.open("office")
    assert lines(overview.table)[:2] == [
        "Estimates: 1 without an answer",
        [
            "1001",
            "Benedikt Arnsvik Quellmar Larch 2",
            "0001 open until Sat\u00a011\u00a0Apr",
            "no answer, 31 days",
            "300.00 EUR",
        ],
    ]
    overview.table.mark_first()
    overview.table.setFocus()
    office.press("Return")
    assert office.page is page or office.page.job_id == bench.job


def test_a_new_one_takes_over_and_can_be_given_up(office, bench, issued):
    page = office.open("estimate", bench.job)
    office.push(page.new_button)
    assert "Estimate 0001 is with the customer." in office.sees()
    assert [row[0] for row in lines(page.options.table)] == ["Bench work", "Electrical safety test"]
    assert "being written" in str(lines(office.open("office").table))
    page = office.open("estimate", bench.job)
    office.press("Ctrl+Shift+Y")
    assert page.answers.place.form is not None
    office.press("Esc")
    office.push(page.give_up_button)
    assert view(bench).writing is None
    office.press("Esc")


def test_a_draft_is_looked_at_where_the_window_is_narrow(office, bench, written):
    office.window.resize(1024, 700)
    page = office.open("estimate", bench.job)
    office.push(page.draft_button)
    assert office.papers[0].title == "Draft of the estimate of job 1001"


def test_without_anybody_at_work_nothing_is_done(office, bench):
    office.desk.set_staff(None)
    page = office.open("estimate", bench.job)
    office.press("Return")
    assert "Say first who works here now" in office.sees()
    assert view(bench).now is None
    page.reload(changes=type("Changes", (), {"jobs": (), "kinds": ()})())


def test_what_app_work_refuses_is_told_at_the_top(office, bench, issued, monkeypatch):
    def refused(*_: object) -> None:
        raise Refusal(Sentence("The disk is full."))

    page = office.open("estimate", bench.job)
    monkeypatch.setattr("app.screens.office.estimate_page.begin_estimate", refused)
    office.push(page.new_button)
    assert "The disk is full." in office.sees()


def test_a_fee_that_was_charged_is_ticked_on_the_way_back(office, bench, written):
    issue_estimate(bench.book, bench.who, written[0])
    with bench.book.change(
        bench.who, __import__("app.trade.sentence").trade.sentence.Sentence("told")
    ) as change:
        from app.book.tables import Job

        job = change.get(Job, bench.job)
        job.diagnosis_fee, job.diagnosis_fee_told = 4500, True
    record_answer(bench.book, bench.who, written[0], AnswerEntry(option_id=None, said_by="B"))
    add_charge(
        bench.book,
        bench.who,
        bench.job,
        ChargeEntry(kind=LineKind.TEXT, words="Nothing was changed.", vat=FULL),
    )
    page = office.open("estimate", bench.job)
    assert page.answers.way.isVisible()
    assert [step.done for step in view(bench).way_back] == [True, True, True, True]


def test_the_invoice_says_what_it_takes_over_and_leads_to_the_estimate(office, bench, issued):
    page = office.open("invoice", bench.job)
    assert "From the estimate" not in office.sees()
    second = view(bench).out.options[1].kept.id
    record_answer(bench.book, bench.who, issued, AnswerEntry(option_id=second, said_by="B"))
    page.reload()
    office.settle()
    assert "From the estimate: time and parts as worked, with its fixed charges." in office.sees()
    page.lines.table.mark_first()
    page.lines.table.setFocus()
    office.press("Ctrl+Del")
    assert "What is taken over from an estimate is chosen on its page" in office.sees()
    office.push(link(page, "Open the estimate"))
    assert office.page.title == "Estimate 0001"


def test_a_change_that_waits_for_a_yes_can_be_ticked_with_the_answer(office, bench, issued):
    entry = ModificationEntry(
        kind=Kind.REPLACED,
        circuit=Circuit.RADIAL_COIL,
        law=Law.CURRENT,
        where="R314",
        maker_value=Decimal("6.8"),
        new_value=Decimal("5.6"),
    )
    made = record_modification(bench.book, bench.who, bench.job, entry).value.id
    page = office.open("estimate", bench.job)
    office.press("Ctrl+Shift+Y")
    form = page.answers.place.form
    form.option.set_value(str(view(bench).out.options[1].kept.id))
    assert [key for key, _ in form.yes_to] == [made]
    form.yes_to[0][1].setChecked(True)
    office.press("Ctrl+Return")
    assert view(bench).without_yes == ()
