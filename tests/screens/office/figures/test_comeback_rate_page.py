"""Which repairs come back: each group against the rest, explained and parted once more."""

from __future__ import annotations

from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import Outcome
from app.trade.settings import COMEBACK_WINDOW
from app.trade.statistics.comebacks import By
from app.work.office.settings import change_settings
from tests.screens.office.conftest import lines


def choose(office, combo, key):
    combo.set_value(key)
    office.settle()


def test_the_sentence_above_says_which_stands_out(office, figure):
    figure()
    said = office.sees()
    assert "One transport type comes back more often than the rest" in said or "Velk A1" in said
    assert "Only repairs watched for 180 days count" in said


def test_the_first_group_is_marked_and_explained_and_the_arrows_walk(office, figure):
    page = figure()
    assert office.focus is page.picture.panels[0]
    assert "Velk A1: 67" in page.why.title.text()
    assert lines(page.reasons[0].counted)[:3] == [
        ["handed back", "12"],
        ["could have come back", "12"],
        ["came back, same fault group", "8"],
    ]
    assert "All others together" in office.sees(page.beside)
    office.press("Down")
    assert page.why.title.text().startswith("Grellin S1")
    assert page.tables.tables[0].marked_key() == "Grellin S1"
    office.press("Up")
    assert page.why.title.text().startswith("Velk A1")


def test_what_does_not_count_is_told_with_its_reason(office, figure, past):
    past.job(past.unit(), 30, 20)
    past.job(past.unit(), 500, 490, outcome=Outcome.DECLINED)
    page = figure()
    counted = lines(page.reasons[0].counted)
    assert ["watched for less than 180 days", "\u22121"] in counted
    assert ["not mended (declined, no fault shown)", "\u22121"] in counted
    assert ["of these undecided", "8"] in counted
    assert ["denied, so not counted", "0"] in counted


def test_the_links_list_those_that_came_back_and_all_that_could(office, figure):
    page = figure()
    reasons = page.reasons[0]
    assert (reasons.came.words(), reasons.all_jobs.words()) == ("Show these 8 jobs", "Show all 12")
    office.push(reasons.came)
    assert office.page.title == "Velk A1: jobs that came back"
    assert "8 jobs, 8 came back within 180 days." in office.sees()
    office.press("Esc")
    office.push(reasons.all_jobs)
    assert office.page.table.rows_model().rowCount() == 12


def test_the_shop_s_own_window_is_asked_first_and_another_at_will(office, figure, past):
    change_settings(past.shop.book, past.shop.ine, {COMEBACK_WINDOW: 30})
    page = figure()
    assert page.bar.window_days.value() == 30
    assert page.found.answer.question.window == 30
    choose(office, page.bar.window_days, 365)
    assert page.found.answer.question.window == 365
    assert page.found.answer.rows[0].came_back == 8


def test_a_group_is_parted_once_more_where_it_has_parts(office, figure, past):
    with past.at_once():
        for _ in range(12):
            past.job(past.unit(), 700, 690, group=FaultGroup.LIGHT)
    page = figure()
    assert "Velk A1 by fault group" in office.sees(page.beside)
    assert [row[0] for row in lines(page.reasons[0].split)] == ["radial", "light"]
    choose(office, page.bar.by, By.FAULT_GROUP)
    assert "radial by transport type" in office.sees(page.beside)
    assert "Velk A1 comes back more often than the others" in office.sees(page.beside)
    choose(office, page.bar.by, By.MODIFICATION)
    assert page.reasons[0].isVisible()


def test_a_group_with_nothing_to_count_says_so(office, figure):
    page = figure()
    page.tables.tables[0].mark("not known")
    office.settle()
    assert page.why.title.text() == "not known: nothing to count yet"
    assert "No repair of this group could have come back yet." in office.sees(page.beside)


def test_two_groups_against_each_other_are_explained_by_their_own_cells(office, figure):
    page = figure()
    pairs = page.tables.tables[2]
    pairs.setFocus()
    pairs.mark_first()
    office.settle()
    assert page.why.group.isHidden()
    assert ["against", "Grellin S1"] in lines(page.why.facts)
