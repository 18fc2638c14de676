"""Which repairs come back: the question, the picture, the table, the reasons, and the jobs behind."""

from __future__ import annotations

from datetime import date

import pytest

from app.book.changes import Changes
from app.screens.kit import measure
from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import Outcome
from app.trade.settings import COMEBACK_WINDOW
from app.trade.statistics.comebacks import By
from app.work.office.settings import change_settings
from tests.screens.office.conftest import lines
from tests.work.past import Past


@pytest.fixture
def past(shop):
    """Velk A1: 12 of 30 came back; Grellin S1: 2 of 30; two with nothing known of the mechanism, too young."""
    book = Past(shop)
    with book.at_once():
        for name, back in (("Velk A1", 12), ("Grellin S1", 2)):
            for at in range(30):
                unit = book.unit(transport=name)
                book.job(unit, 900 + at, 890 + at)
                if at < back:
                    book.job(unit, 850 + at, group=FaultGroup.RADIAL)
        for _ in range(2):
            book.job(book.unit(transport=None), 30, 20)
    return book


def open_page(office):
    page = office.open("repeat_faults")
    office.settle()
    return page


def choose(office, combo, key):
    combo.set_value(key)
    office.settle()


def test_an_empty_book_says_what_will_stand_here(office):
    before = office.open("office")
    page = open_page(office)
    assert "Repairs that were handed back stand here" in office.sees()
    assert not page.beside.isVisible()
    assert not page.bars.isVisible()
    assert office.focus is page.bar.period
    office.press("Esc")
    assert office.page is before


def test_the_sentence_above_says_which_stands_out(office, past):
    open_page(office)
    said = office.sees()
    assert "Velk A1" in said
    assert "more often" in said
    assert "The book has repairs from" in said
    assert "Nothing to count yet: no transport noted." in said


def test_the_first_group_is_marked_and_explained_and_the_arrows_walk(office, past):
    page = open_page(office)
    assert [row.name for row in page.bars.rows] == ["Velk A1", "Grellin S1"]
    assert page.bars.rows[0].plain.startswith("Velk A1: 40\u00a0% (12 of 30)")
    assert page.bars.rows[0].verdict == "more"
    assert office.focus is page.bars
    assert "Velk A1: 40\u00a0%, from 25 to 58\u00a0%" in office.sees(page.beside)
    assert lines(page.why._counted) == [
        ["handed back", "30"],
        ["could have come back", "30"],
        ["came back, same fault group", "12"],
    ]
    office.press("Down")
    assert "Grellin S1" in office.sees(page.beside)
    office.press("Up")
    assert "Velk A1: 40" in office.sees(page.beside)


def test_what_does_not_count_is_told_with_its_reason(office, past):
    unit = past.unit()
    past.job(unit, 30, 20)
    past.job(past.unit(), 500, 490, outcome=Outcome.DECLINED)
    past.job(past.unit(), 2, -400)
    page = open_page(office)
    assert lines(page.why._counted) == [
        ["handed back", "33"],
        ["watched for less than 180 days", "\u22121"],
        ["not mended (declined, no fault shown)", "\u22121"],
        ["days cannot be right", "\u22121"],
        ["could have come back", "30"],
        ["came back, same fault group", "12"],
    ]


def test_enter_lists_the_jobs_behind_the_group(office, past):
    page = open_page(office)
    office.press("Return")
    behind = office.page
    assert behind.title == "Velk A1: all jobs handed back"
    assert behind.table.rows_model().rowCount() == 30
    office.press("Esc")
    assert office.page is page


def test_the_link_in_the_margin_lists_those_that_came_back(office, past):
    page = open_page(office)
    assert page.why.came.words() == "Show these 12 jobs"
    assert page.why.all_jobs.words() == "Show all 30"
    office.push(page.why.came)
    assert office.page.title == "Velk A1: jobs that came back"
    assert office.page.table.rows_model().rowCount() == 12
    assert "12 jobs, 12 came back within 180 days." in office.sees()
    office.press("Return")
    assert type(office.page).__name__ == "Blank"


def test_the_table_says_the_same_in_figures(office, past):
    page = open_page(office)
    office.press("Down")
    office.push(page.turn)
    assert page.turn.words() == "Show as a picture"
    assert [row[:4] for row in lines(page.table)] == [
        ["Velk A1", "12", "30", "40.0 %"],
        ["Grellin S1", "2", "30", "6.7 %"],
        ["no transport noted", "0", "0", ""],
    ]
    assert page.table.marked_key() == "Grellin S1"  # what was marked stays marked
    assert office.focus is page.table
    office.press("Down")
    assert "no transport noted: nothing to count yet" in office.sees(page.beside)
    office.push(page.turn)
    assert page.bars.isVisible()
    assert not page.table.isVisible()


def test_the_shop_s_own_window_is_asked_first_and_another_at_will(office, past):
    change_settings(past.shop.book, past.shop.ine, {COMEBACK_WINDOW: 30})
    page = open_page(office)
    assert page.bar.window_days.value() == 30
    assert page.found.question.window == 30
    choose(office, page.bar.window_days, 365)
    assert page.found.question.window == 365
    assert page.found.rates[0].counted.came_back == 12


@pytest.mark.parametrize(
    ("period", "since", "until"),
    [
        ("year", date(2025, 3, 12), None),
        ("three", date(2023, 3, 12), None),
        (2024, date(2024, 1, 1), date(2024, 12, 31)),
        ("whole", None, None),
    ],
)
def test_when_they_were_handed_back(office, past, period, since, until):
    page = open_page(office)
    choose(office, page.bar.period, "chosen")
    choose(office, page.bar.period, period)
    assert (page.found.question.since, page.found.question.until) == (since, until)
    assert not page.bar._days.isVisible()


def test_days_are_typed_as_people_write_them(office, past):
    page = open_page(office)
    choose(office, page.bar.period, "chosen")
    office.type_into(page.bar.since, "1 Jan 2026")
    office.type_into(page.bar.until, "11 Mar")
    assert (page.found.question.since, page.found.question.until) == (date(2026, 1, 1), date(2026, 3, 11))
    assert "Repairs that were handed back stand here" in office.sees()  # nothing watched long enough


def test_one_fault_group_and_another_way_to_part_them(office, past):
    page = open_page(office)
    choose(office, page.bar.group, FaultGroup.LIGHT)
    assert page.found.question.group is FaultGroup.LIGHT
    choose(office, page.bar.group, "all")
    choose(office, page.bar.by, By.FAULT_GROUP)
    assert [row.name for row in page.bars.rows] == ["radial"]
    assert page.bars.rows[0].verdict_word == "no other group"
    assert "radial by transport type" in office.sees(page.beside)
    assert "Velk A1 comes back more often than the others" in office.sees(page.beside)
    choose(office, page.bar.by, By.MODIFICATION)
    assert [row.name for row in page.bars.rows] == ["without a modification"]


def test_a_narrow_page_has_the_reasons_under_the_picture(office, past):
    page = open_page(office)
    office.window.resize(900, 768)
    office.settle()
    assert page.narrow
    assert not page.beside.isVisible()
    assert page.why_below.isVisible()
    assert page.key.isVisible()
    office.window.resize(1366, 768)
    office.settle()
    assert page.beside.isVisible()
    assert not page.why_below.isVisible()


def test_a_job_written_meanwhile_is_counted_and_the_mark_stays(office, past):
    page = open_page(office)
    office.press("Down")
    unit = past.unit(transport="Grellin S1")
    past.job(unit, 700, 690)
    office.desk.announce(Changes(kinds=frozenset({"jobs"})))
    office.settle()
    assert page.bars.rows[page.bars.at].key == "Grellin S1"
    assert next(r for r in page.found.rates if r.label == "Grellin S1").counted.could == 31
    asked = page._asked
    office.desk.announce(Changes(kinds=frozenset({"customers"})))
    assert page._asked is asked


def test_where_the_picture_has_no_room_the_table_stands_in_its_place(office, past, qapp):
    page = open_page(office)
    assert page.bars.isVisible()
    assert page.turn.isVisible()
    measure.set_text_size(qapp, 200)
    office.settle()
    assert page.table.isVisible()
    assert not page.bars.isVisible()
    assert not page.turn.isVisible()
    assert len(lines(page.table)) == 3
    measure.set_text_size(qapp, 100)
    office.settle()
    assert page.bars.isVisible()
    assert page.turn.isVisible()
