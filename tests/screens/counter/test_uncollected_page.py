"""Players that nobody collects, and a notice by keys alone."""

from __future__ import annotations

from PySide6.QtCore import Qt

from app.book.tables import Job
from app.trade.bench.stages import Stage
from app.trade.sentence import Sentence
from tests.screens.office.conftest import lines


def make_ready(shop, job):
    with shop.book.change(shop.tobbe, Sentence("ready")) as change:
        row = change.get(Job, job)
        row.stage, row.ready_at, row.shelf = Stage.READY, change.now, "C 3"


def test_nobody_waits_too_long(counter):
    page = counter.open("uncollected")
    assert not page.empty.isHidden()
    assert page.notice.isHidden()
    counter.press(Qt.Key.Key_Return)
    assert counter.page.title == "In the shop"


def test_a_player_in_time_shows_with_all_that_are_ready_and_gets_no_notice(counter, shop, job):
    make_ready(shop, job)
    page = counter.open("uncollected", "ready")
    (row,) = lines(page.table)
    assert row[3] == "C 3"
    assert row[5] == "none yet"
    assert row[6].startswith("to ")
    assert page.notice.blocked
    page.notice.click()
    assert page.table.hasFocus()
    page.which.set_value("over")
    counter.settle()
    assert lines(page.table) == []


def test_one_that_waits_too_long_gets_a_notice_a_day_and_enter_opens_its_job(counter, shop, job):
    make_ready(shop, job)
    shop.clock.advance(days=31)
    page = counter.open("uncollected")
    assert page.head.below() == "1 player was not collected in time."
    assert lines(page.table)[0][6].startswith("1 day late")
    page.look.click()
    counter.settle()
    assert counter.papers[-1].title == "Notice to collect 1001, draft"
    assert counter.papers[-1].id is None
    page.notice.setFocus()
    counter.press(Qt.Key.Key_Return)
    assert counter.papers[-1].title == "Notice to collect 1001"
    assert lines(page.table)[0][7].startswith("one, ")
    shop.clock.advance(days=1)
    page.reload()
    counter.settle()
    page.notice.click()
    counter.settle()
    assert lines(page.table)[0][7].startswith("2, last ")
    page.table.setFocus()
    counter.press(Qt.Key.Key_Return)
    assert counter.window.page.key == job


def test_several_are_counted(counter, shop, take_in):
    for serial in ("1", "2"):
        make_ready(shop, take_in(serial=serial).job_id)
    shop.clock.advance(days=40)
    page = counter.open("uncollected")
    assert page.head.below() == "2 players were not collected in time."
    assert lines(page.table)[0][6].startswith("10 days late")


def test_the_counter_says_how_many_and_leads_there(counter, shop, take_in):
    make_ready(shop, take_in(serial="1").job_id)
    page = counter.open("counter")
    assert page.uncollected.isHidden()
    make_ready(shop, take_in(serial="2").job_id)
    shop.clock.advance(days=40)
    page.reload()
    counter.settle()
    assert page.uncollected.words() == "2 not collected"
    page.uncollected.setFocus()
    counter.press(Qt.Key.Key_Return)
    assert counter.page.title == "Not collected"
