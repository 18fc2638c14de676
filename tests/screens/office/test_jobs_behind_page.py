"""The jobs behind a number, each with what became of it."""

from __future__ import annotations

import pytest

from app.book.changes import Changes
from app.screens.office.jobs_behind_page import Behind
from app.trade.bench.stages import Outcome
from app.work.statistics.question import Question
from tests.papers.reading import whole
from tests.screens.office.conftest import lines
from tests.work.past import Past


@pytest.fixture
def past(shop):
    """One that came back after a day, one after nine, one that stayed well, one without a fault group, one declined, and
    one that is still here."""
    book = Past(shop)
    for after in (1, 9):
        unit = book.unit()
        book.job(unit, 410, 400)
        book.job(unit, 400 - after)
    book.job(book.unit(), 420, 405)
    book.job(book.unit(), 430, 415, group=None)
    book.job(book.unit(), 440, 425, outcome=Outcome.DECLINED)
    return book


def behind(*jobs: int) -> Behind:
    return Behind("Velk A1", "Which repairs come back", jobs, Question())


def test_each_job_says_what_became_of_it(office, past):
    page = office.open("jobs_behind", behind(1, 2, 3, 5, 6, 7))
    assert page.title == "Velk A1"
    assert "Which repairs come back" in office.sees()
    shown = {row[0]: (row[1], row[5], row[6], row[7]) for row in lines(page.table)}
    assert shown == {
        "1001": ("5\u00a0Feb\u00a02025", "radial", "came back after 1 day", "1002 6\u00a0Feb\u00a02025"),
        "1002": ("", "radial", "still in the shop", ""),
        "1003": ("5\u00a0Feb\u00a02025", "radial", "came back after 9 days", "1004 14\u00a0Feb\u00a02025"),
        "1005": ("31\u00a0Jan\u00a02025", "radial", "held", ""),
        "1006": ("21\u00a0Jan\u00a02025", "not known", "held", ""),
        "1007": ("11\u00a0Jan\u00a02025", "radial", "not mended", ""),
    }
    assert "6 jobs, 2 came back within 180 days." in office.sees()
    assert lines(page.table)[0][2:4] == ["Quellmar Larch 2", "Benedikt Arnsvik"]


def test_enter_opens_the_job_and_a_link_the_one_it_came_back_as(office, past):
    page = office.open("jobs_behind", behind(1, 3))
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


def test_what_became_of_them_follows_the_book_and_the_mark_stays(office, past):
    page = office.open("jobs_behind", behind(1, 3, 5))
    page.table.mark(5)
    past.job(3, 380)
    office.desk.announce(Changes(kinds=frozenset({"customers"})))
    office.settle()
    assert "3 jobs, 2 came back" in office.sees()
    office.desk.announce(Changes(kinds=frozenset({"jobs"})))
    office.settle()
    assert "3 jobs, 3 came back" in office.sees()
    assert page.table.marked_key() == 5


def test_one_job_is_one_job(office, past):
    office.open("jobs_behind", behind(5))
    assert "1 job, 0 came back within 180 days." in office.sees()


def test_the_list_is_printed_with_the_question_it_answers(office, past):
    office.open("jobs_behind", behind(1, 3))
    office.press("Ctrl+Shift+P")
    said = whole(office.papers[-1].pdf)
    for words in ("Velk A1", "Which repairs come back", "2 rows"):
        assert words in said
