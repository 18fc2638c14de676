"""A page of figures: the answer, its picture and tables, why, and the way to the jobs and the other questions."""

from __future__ import annotations

from app.book.changes import Changes
from app.screens.office.figures import figure_page
from app.screens.office.figures.figure_kinds import KINDS
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from tests.screens.office.conftest import lines, link


def test_every_question_is_answered_drawn_listed_and_explained(office, figure):
    for name, kind in KINDS.items():
        page = figure(name)
        counted = name != "cost"  # nothing was done without charge
        assert page.empty.isVisible() != counted, name
        assert page.picture.isVisible() == counted, name
        assert page.tables.isVisible() == counted, name
        said = office.sees(page.beside)
        assert ("How it was counted" in said) == counted, name
        assert ("What counts as a comeback" in said) == kind.defined, name
        assert "nan" not in (said + page.picture.text).lower(), name


def test_an_empty_book_says_so_under_its_heading(office):
    for name, kind in KINDS.items():
        page = office.open("figure", name)
        assert kind.title.key in office.sees(page.head)
        assert page.questions.isVisible()
        if name != "shop":  # its work in hand is none, and says so
            assert "Nothing to count stands here yet" in office.sees(), name
            assert not page.beside.isVisible()
            assert office.focus is page.bar.period


def test_a_marked_line_is_explained_and_marked_in_the_picture(office, figure):
    page = figure("how-long")
    assert [row[0] for row in lines(page.tables.tables[0])] == ["Grellin S1", "Velk A1", "not known"]
    page.tables.tables[0].setFocus()
    office.press("Down")
    assert page.picture.marked_mark().key == "Velk A1"
    assert page.why.title.text() == "Velk A1"
    assert ["Came back", "8"] in lines(page.why.facts)
    (interval,) = [row for row in lines(page.why.facts) if row[0] == "95 % interval"]
    assert " to " in interval[1]  # both ends in one row
    assert interval[1].count("%") == 1
    assert not {"from", "to"} & {row[0] for row in lines(page.why.facts)}


def test_the_picture_marks_its_line_and_enter_opens_the_jobs_behind(office, figure):
    page = figure("how-long")
    page.picture.panels[0].setFocus()
    office.press("Down")
    marked = page.picture.marked_mark()
    assert page.tables.tables[0].marked_key() == marked.key
    office.press("Return")
    assert office.page.title == marked.name
    assert office.page.table.rows_model().rowCount() == len(marked.jobs)
    office.press("Esc")
    assert office.page is page


def test_enter_on_a_line_and_the_link_in_the_margin_list_its_jobs(office, figure):
    page = figure("how-long")
    page.tables.tables[0].setFocus()
    office.press("Return")
    assert office.page.title == "Grellin S1"
    office.press("Esc")
    assert office.focus is page.tables.tables[0]
    office.push(page.why.behind)
    assert office.page.title == "Grellin S1"
    assert office.page.table.rows_model().rowCount() == 12


def test_of_a_course_the_latest_is_marked_first(office, figure):
    page = figure("shop")
    weeks = page.found.answer.rows
    assert page.picture.marked_mark().key in (weeks[-1].first.isoformat(), weeks[-2].first.isoformat())
    assert "Handed back" in [row[0] for row in lines(page.why.facts)]


def test_tab_reaches_everything_from_the_picture_to_the_reasons_and_round(office, figure):
    page = figure("how-long")
    first = office.focus
    assert first is page.picture.panels[0]
    reached = []
    while len(reached) < 40:
        office.press("Tab")
        if office.focus is first:
            break
        reached.append(office.focus)
    for stop in (*page.tables.tables, page.questions.links[0], page.why.behind, page.bar.period):
        assert stop in reached
    assert reached.index(page.why.behind) < reached.index(page.tables.tables[0])  # which would mark its own


def test_a_mark_that_has_no_line_is_told_in_the_margin(office, figure):
    page = figure("shop")
    mark = page.picture.panels[0].marks()[0]
    page.why.show_mark(mark)
    assert page.why.title.text() == mark.name
    assert mark.told in office.sees(page.why)
    assert page.why.facts.isHidden()


def test_the_definition_leads_to_its_settings(office, figure):
    page = figure("over-time")
    assert "within 180 days" in office.sees(page.beside)
    office.push(link(page.beside, "Change this in the settings"))
    assert office.page.title == "Settings: Counter"


def test_the_questions_stand_at_the_foot_and_filters_come_along(office, figure):
    page = figure("comeback-rate")
    page.bar.period.set_value("year")
    office.settle()
    office.push(link(page.questions, "How long"))
    other = office.page
    assert other.kind.name == "how-long"
    assert other.bar.period.value() == "year"
    assert other.found.answer.question.since is not None
    other.bar.period.set_value("whole")
    office.settle()
    office.press("Esc")
    assert office.page is page
    office.settle()
    assert page.found.answer.question.since is None  # what was set there is asked here


def test_a_filter_that_matches_nothing_says_so_and_can_be_taken_away(office, figure):
    page = figure("comeback-rate")
    page.bar.period.set_value(2022)
    office.settle()
    assert office.focus is page.bar.period  # the picture that had it is gone
    assert "No job fits what is asked." in office.sees(page.head)
    assert page.empty.isVisible()
    assert not page.picture.isVisible()
    office.push(page.bar.clear)
    assert page.picture.isVisible()


def test_only_what_was_asked_last_is_shown(office, figure):
    page = figure("comeback-rate")
    page.bar.window_days.set_value(30)
    page.bar.window_days.set_value(365)
    office.settle()
    assert page.found.answer.question.window == 365


def test_a_long_answer_can_be_stopped_and_asked_again(office, figure):
    page = figure("comeback-rate")
    before = page.found
    page._ask(page.shared.filters)
    page.progress.show()
    page.progress.step(1, 4)
    page.progress._stop.click()
    office.settle()
    assert page.found is before
    assert "The question was stopped." in office.sees()
    office.push(link(page, "Ask again"))
    assert page.found is not before
    assert not page.trouble.isVisible()


def test_trouble_is_told(office, figure, monkeypatch):
    page = figure("comeback-rate")

    def refuse(*_):
        raise Refusal(Sentence("The book is busy."))

    monkeypatch.setattr(figure_page, "look", refuse)
    page.bar.window_days.set_value(30)
    office.settle()
    assert "The book is busy." in office.sees()


def test_a_job_written_meanwhile_is_counted_and_the_mark_stays(office, figure, past):
    page = figure("comeback-rate")
    page.tables.tables[0].setFocus()
    office.press("Down")
    past.job(past.unit(transport="Grellin S1"), 700, 690)
    office.desk.announce(Changes(kinds=frozenset({"jobs"})))
    office.settle()
    assert page.tables.tables[0].marked_key() == "Grellin S1"
    assert next(row for row in page.found.answer.rows if row.label == "Grellin S1").could == 13
    asked = page._asked
    office.desk.announce(Changes(kinds=frozenset({"customers"})))
    assert page._asked is asked


def test_a_narrow_page_has_its_reasons_and_questions_under_the_tables(office, figure):
    page = figure("over-time")
    office.window.resize(1024, 768)
    office.settle()
    assert page.narrow
    assert not page.beside.isVisible()
    assert page.why_below.isVisible()
    assert page.sheet.indexOf(page.questions) > page.sheet.indexOf(page.why_below)
    office.window.resize(1366, 768)
    office.settle()
    assert page.beside.isVisible()
    assert not page.why_below.isVisible()


def test_what_promises_and_warnings_say_is_no_small_print(office, figure):
    page = figure("after-modification")
    assert page.aloud.text().startswith("These jobs were not drawn by lot")
    page = figure("shop")
    assert page.aloud.text() == "Too few such jobs were ready to say within how many days."
