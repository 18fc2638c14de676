"""The Counter place: what stands on the list, and what keys do there."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Qt

from app.book.tables import Job
from app.screens.kit.cells import Group, Row
from app.trade.bench.stages import Stage, Waiting
from app.trade.counter.agreements import MessageEntry
from app.trade.sentence import Sentence
from app.work.counter.jobs_list import Promise, Show
from app.work.counter.messages import add_message
from app.work.counter.requests import note_unsafe_request


def lines(counter):
    """The plain words of every line, groups with theirs."""
    model = counter.page.model
    found = []
    for place in range(model.rowCount()):
        model.row_at(place)
    counter.settle()
    for place in range(model.rowCount()):
        row = model.row_at(place)
        found.append(
            f"{row.word} {row.second}"
            if isinstance(row, Group)
            else [c.plain if c else "" for c in row.cells]
        )
    return found


def test_an_empty_book_says_what_belongs_here_and_how_to_begin(counter):
    page = counter.open("counter")
    assert not page.empty.isHidden()
    assert page.table.isHidden()
    counter.press(Qt.Key.Key_Return)
    assert counter.page.title == "Take in a player"


def test_jobs_stand_in_groups_by_promise_with_what_matters(counter, take_in, shop):
    take_in(serial="1", promised_on=date(2026, 3, 13))
    take_in(serial="2", promised_on=date(2026, 3, 16), promised_time="10:00")
    take_in(serial="3", promised_on=date(2026, 3, 16))
    asked = take_in(serial="4", promised_on=None).job_id
    shop.clock.advance(days=4)
    add_message(shop.book, shop.mirr, asked, MessageEntry(text="Asked.", awaits_answer=True))
    note_unsafe_request(shop.book, shop.mirr, asked, "bridge the lid switch")
    page = counter.open("counter")
    shown = lines(counter)
    assert shown[0] == "Late 1 job, tell the customer today"
    assert shown[1][:4] == [
        "1001",
        "3 days late Fri\u00a013\u00a0Mar",
        "Quellmar Larch 2 1",
        "Benedikt Arnsvik",
    ]
    assert shown[2] == "Today, Mon\u00a016\u00a0Mar 2 jobs"
    assert [line[1] for line in shown[3:5]] == ["10:00", "any time today"]
    assert shown[5] == "Later 1 job"
    assert shown[6][1] == "no date yet"
    assert shown[6][5] == "taken in waiting for answer"
    assert shown[6][6].startswith("stop: ")
    assert "note: asked 16\u00a0Mar" in shown[6][6]
    assert "4 players. 1 is late, 2 are promised for today, 1 is held by a stop." in words_of(page)


def words_of(page):
    from app.screens.kit.label import Label

    return [label.text() for label in page.findChildren(Label)]


def test_enter_opens_the_marked_job_and_ctrl_h_hands_it_back(counter, take_in):
    job = take_in().job_id
    page = counter.open("counter")
    page.arrive()
    counter.settle()
    counter.press(Qt.Key.Key_Down)
    assert page.table.marked_key() == job
    counter.press(Qt.Key.Key_Return)
    assert counter.page.key == job
    counter.window.go_to("counter")
    counter.settle()
    counter.page.commands()["hand_back"]()
    counter.settle()
    assert counter.page.job_id == job


def test_choices_filter_by_stage_and_promise(counter, take_in, shop):
    first, second = take_in(serial="1").job_id, take_in(serial="2", promised_on=None).job_id
    with shop.book.change(shop.tobbe, Sentence("bench")) as change:
        change.get(Job, second).stage = Stage.ON_THE_BENCH
        change.get(Job, second).waiting = Waiting.CUSTOMER
    page = counter.open("counter")
    for show, ids in (
        (Show.ON_THE_BENCH, [second]),
        (Show.WAITING, [second]),
        (Show.READY, []),
        (Show.EVERY, [first, second]),
    ):
        page.show_choice.set_value(show)
        counter.settle()
        assert list(page.model.ids()) == ids, show
    page.show_choice.set_value(Show.IN_THE_SHOP)
    page.promise.set_value(Promise.LATE)
    counter.settle()
    assert list(page.model.ids()) == []


def test_a_column_sorts_by_its_header_and_groups_leave(counter, take_in):
    take_in(serial="1", maker="Tavossa", model="Tamarack")
    take_in(serial="2", maker="Brelluk", model="Bramble C")
    page = counter.open("counter")
    page.table.sort_asked.emit("player", False)
    counter.settle()
    assert [line[2] for line in lines(counter)] == ["Brelluk Bramble C 2", "Tavossa Tamarack 1"]
    page.table.sort_asked.emit("player", True)
    counter.settle()
    assert [line[2] for line in lines(counter)] == ["Tavossa Tamarack 1", "Brelluk Bramble C 2"]


def test_a_change_elsewhere_reaches_the_list(counter, take_in, shop):
    take_in()
    counter.open("counter")
    done = take_in(serial="2")
    counter.desk.announce(type("Changes", (), {"kinds": {"jobs"}, "jobs": {done.job_id}})())
    counter.settle()
    assert len(counter.page.model.ids()) == 2


def test_ticket_and_tag_of_the_marked_job_are_shown(counter, take_in):
    take_in()
    page = counter.open("counter")
    page.arrive()
    counter.settle()
    counter.press(Qt.Key.Key_Down)
    page.commands()["ticket"]()
    counter.settle()
    page.commands()["bench_tag"]()
    counter.settle()
    assert [paper.title for paper in counter.papers] == ["Intake ticket 1001", "Bench tag 1001"]
    assert all(paper.pdf.startswith(b"%PDF") for paper in counter.papers)


def test_handed_back_ones_say_when(counter, take_in, shop):
    from tests.work.counter.test_taking_in import close

    job = take_in().job_id
    close(shop, job)
    page = counter.open("counter")
    page.show_choice.set_value(Show.HANDED_BACK)
    counter.settle()
    (line,) = lines(counter)
    assert line[1] == "Thu\u00a012\u00a0Mar handed back"
    assert isinstance(page.model.row_at(0), Row)
