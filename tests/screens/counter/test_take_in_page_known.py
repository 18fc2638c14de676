"""Taking in whom and what the book knows already: matches while typing, the former job, the comeback."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt

from app.book.tables import Customer, Job
from app.screens.counter.take_in_page import TakeInPage
from app.trade.bench.kinds import (
    ComebackStanding,
    FaultGroup,
)
from app.trade.bench.stages import MainsClass, Outcome, Stage
from app.trade.counter.fault_words import FaultWord
from app.trade.people.customer import CustomerForm
from app.trade.sentence import Sentence
from app.work.people.customers import add_customer
from tests.screens.counter.test_take_in_page import enter, page

__all__ = ["page"]


def test_a_known_customer_is_offered_while_typing_and_fills_the_form(counter, shop, rows):
    add_customer(
        shop.book,
        shop.mirr,
        CustomerForm(
            name="Benedikt Arnsvik",
            phone="01632 960 142",
            street="9 Weir Lane\nYard",
            city="Mossgate Quay",
            ring_when="after 17:00",
        ),
    )
    page = counter.open("take_in")
    counter.type("arns")
    (match,) = page.matches.list.rows.matches
    assert match.title == "Benedikt Arnsvik"
    assert "1 in the book" in page.fields.name.echo()
    counter.press(Qt.Key.Key_Down)
    enter(counter)
    assert page.fields.phone.text() == "01632 960 142"
    assert page.fields.street.text() == "9 Weir Lane, Yard"
    assert page.fields.ring_when.text() == "after 17:00"
    assert page.fields.name.echo() == "known since 2026, 0 jobs"
    assert page.fields.customer_id == rows(Customer)[0].id


def test_another_name_typed_is_another_customer(counter, shop):
    add_customer(shop.book, shop.mirr, CustomerForm(name="Benedikt Arnsvik", phone="01632 960 142"))
    page = counter.open("take_in")
    page.fields.phone.setFocus()
    counter.type("0142")
    (match,) = page.matches.list.rows.matches
    assert (match.title, match.second) == ("01632 960 142", "Benedikt Arnsvik")
    counter.press(Qt.Key.Key_Down)
    enter(counter)
    assert page.fields.customer_id is not None
    counter.type_into(page.fields.name.edit, "x")
    assert page.fields.customer_id is None
    assert "known" not in page.fields.name.echo()


@pytest.fixture
def former(shop, take_in):
    """The Larch after its first visit, 47 days ago."""
    taken = take_in()
    with shop.book.change(shop.tobbe, Sentence("back")) as change:
        job = change.get(Job, taken.job_id)
        job.stage, job.outcome, job.handed_back_at = Stage.HANDED_BACK, Outcome.MENDED, change.now
        job.fault_group, job.guarantee_until = FaultGroup.RADIAL, change.today + timedelta(days=180)
    shop.clock.advance(days=47)
    return taken


def take_the_larch(counter, page):
    page.fields.serial.setFocus()
    counter.type("0420")
    counter.press(Qt.Key.Key_Down)
    enter(counter)
    counter.settle()


def test_a_player_seen_before_fills_in_with_its_owner_and_its_story(counter, former):
    page = counter.open("take_in")
    take_the_larch(counter, page)
    fields = page.fields
    assert (fields.maker.text(), fields.model.text(), fields.name.text()) == (
        "Quellmar",
        "Larch 2",
        "Benedikt Arnsvik",
    )
    assert fields.mains_class.value() is MainsClass.II
    assert not page.knows.isHidden()
    words = [line.flag.word for line in page.knows.flags.lines()]
    assert words == ["Guarantee running"]
    assert page.knows.visits.rows_model().rowCount() == 1


def test_the_fault_word_proposes_the_comeback_and_one_key_takes_it(counter, former, rows):
    page = counter.open("take_in")
    take_the_larch(counter, page)
    button = page.fields.faults.word(FaultWord.SKIPS)
    button.setFocus()
    counter.press(Qt.Key.Key_Space)
    flag = page.knows.flags.lines()[0].flag
    assert flag.word == "Comeback proposed"
    page.knows.asked.emit(flag.buttons[0][1])
    assert page.fields.comeback_of_id == former.job_id
    page.fields.fault.set_text("skips again")
    page.save()
    counter.settle()
    job = rows(Job)[-1]
    assert (job.comeback_of_id, job.comeback) == (former.job_id, ComebackStanding.CONFIRMED)


def test_a_denied_comeback_asks_why_and_can_be_taken_back(counter, former, rows):
    page = counter.open("take_in")
    take_the_larch(counter, page)
    page.fields.faults.word(FaultWord.SKIPS).click()
    counter.settle()
    page.knows.asked.emit("deny")
    assert page.knows.reason.edit.hasFocus()
    counter.type("another disc")
    assert page.fields.comeback_denied == "another disc"
    page.knows.asked.emit("undo")
    assert page.fields.comeback_denied == ""
    assert page.knows.flags.lines()[0].flag.word == "Comeback proposed"
    page.knows.asked.emit("deny")
    counter.type("another disc")
    page.fields.fault.set_text("skips")
    page.save()
    counter.settle()
    assert rows(Job)[-1].comeback is ComebackStanding.DENIED


def test_another_serial_typed_is_another_player(counter, former):
    page = counter.open("take_in")
    take_the_larch(counter, page)
    counter.type_into(page.fields.serial.edit, "9")
    assert page.fields.unit_id is None
    assert page.knows.isHidden()


def test_players_are_offered_by_maker_and_model_too(counter, former):
    page = counter.open("take_in")
    counter.type_into(page.fields.maker.edit, "quell")
    (match,) = page.matches.list.rows.matches
    assert (match.title, match.second, match.third) == ("Quellmar Larch 2", "0420 158", "Benedikt Arnsvik")
    page.fields.maker.edit.clear()
    counter.type_into(page.fields.model.edit, "larch")
    counter.press(Qt.Key.Key_Down)
    enter(counter)
    assert page.fields.serial.text() == "0420 158"


def test_a_player_that_stands_here_already_says_so_and_opens_its_job(counter, take_in, shop):
    taken = take_in()
    page = counter.open("take_in")
    take_the_larch(counter, page)
    flag = page.knows.flags.lines()[0].flag
    assert flag.word == "In the shop already"
    page.fields.fault.set_text("skips")
    page.save()
    counter.settle()
    assert "in the shop already, as job 1001" in page.trouble.words
    page.knows.asked.emit(flag.target)
    counter.settle()
    assert counter.page.key == taken.job_id


# --- drafts, offers, narrow -------------------------------------------------------------------------------


def test_a_half_filled_form_is_kept_and_comes_back(counter, former):
    page = counter.open("take_in")
    take_the_larch(counter, page)
    page.fields.faults.word(FaultWord.SKIPS).click()
    page.fields.deposit.set_text("20")
    counter.settle()
    counter.press(Qt.Key.Key_Escape)
    counter.desk.drafts.flush()
    again = TakeInPage(counter.desk)
    counter.window.trail.addWidget(again)
    counter.settle()
    assert again.fields.values() == page.fields.values()
    assert again.knows.known is not None
    again.put_away()


def test_narrow_the_matches_and_flags_stand_above_the_form(counter, former):
    counter.window.resize(1024, 700)
    page = counter.open("take_in")
    counter.settle()
    assert page.narrow
    assert page.margin is not None
    assert not page.margin.isVisible()
    page.fields.serial.setFocus()
    counter.type("0420")
    assert page.matches.list.isVisible()
    counter.press(Qt.Key.Key_Down)
    enter(counter)
    counter.settle()
    assert page._folded_flags.isVisible()
    counter.window.resize(1366, 768)
    counter.settle()
    assert page.margin.isVisible()
    assert not page._folded_flags.isVisible()
