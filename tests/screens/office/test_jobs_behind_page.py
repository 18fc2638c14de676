"""The jobs behind a number, each with what became of it."""

from __future__ import annotations

import pytest

from app.book.changes import Changes
from app.trade.bench.stages import Outcome
from app.trade.statistics.comebacks import By
from app.work.office.repeat_faults import Question
from tests.screens.office.conftest import lines
from tests.work.past import Past


@pytest.fixture
def past(shop):
    """One that came back after a day, one after nine, one that stayed well, one without a fault group, one declined."""
    book = Past(shop)
    for after in (1, 9):
        unit = book.unit()
        book.job(unit, 410, 400)
        book.job(unit, 400 - after)
    book.job(book.unit(), 420, 405)
    book.job(book.unit(), 430, 415, group=None)
    book.job(book.unit(), 440, 425, outcome=Outcome.DECLINED)
    return book


def test_each_job_says_what_became_of_it(office, past):
    page = office.open("jobs_behind", (Question(), "Velk A1", False))
    assert page.title == "Velk A1: all jobs handed back"
    shown = {row[0]: (row[5], row[6], row[7]) for row in lines(page.table)}
    assert shown == {
        "1001": ("radial", "came back after 1 day", "1002 6\u00a0Feb\u00a02025"),
        "1003": ("radial", "came back after 9 days", "1004 14\u00a0Feb\u00a02025"),
        "1005": ("radial", "held", ""),
        "1006": ("not known", "held", ""),
        "1007": ("radial", "not mended", ""),
    }
    assert "5 jobs, 2 came back within 180 days." in office.sees()
    assert lines(page.table)[0][2:4] == ["Quellmar Larch 2", "Benedikt Arnsvik"]


def test_only_those_that_came_back(office, past):
    page = office.open("jobs_behind", (Question(), "Velk A1", True))
    assert page.title == "Velk A1: jobs that came back"
    assert sorted(row[0] for row in lines(page.table)) == ["1001", "1003"]


def test_enter_opens_the_job_and_a_link_the_one_it_came_back_as(office, past):
    page = office.open("jobs_behind", (Question(), "Velk A1", True))
    assert office.focus is page.table
    first = page.table.marked_key()
    office.press("Return")
    assert (type(office.page).__name__, office.page.key) == ("Blank", first)
    office.desk.back()
    office.settle()
    page = office.page
    page.table.link_opened.emit(2)
    office.settle()
    assert office.page.key == 2


def test_the_list_follows_the_book_and_keeps_its_mark(office, past):
    page = office.open("jobs_behind", (Question(by=By.FAULT_GROUP), "radial", False))
    page.table.mark(3)
    past.job(past.unit(), 500, 490)
    office.desk.announce(Changes(kinds=frozenset({"customers"})))
    office.settle()
    assert page.model.rowCount() == 4
    office.desk.announce(Changes(kinds=frozenset({"jobs"})))
    office.settle()
    assert page.model.rowCount() == 5
    assert page.table.marked_key() == 3


def test_one_job_is_one_job(office, shop):
    past = Past(shop)
    past.job(past.unit(), 420, 405)
    office.open("jobs_behind", (Question(), "Velk A1", False))
    assert "1 job, 0 came back within 180 days." in office.sees()
