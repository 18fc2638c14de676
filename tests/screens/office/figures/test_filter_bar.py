"""The filter bar: folded to what is set, every filter by keyboard, a typed one never in the way."""

from __future__ import annotations

from datetime import date

from PySide6.QtGui import QGuiApplication

from app.screens.language import say
from app.screens.office.figures.filter_fields import ANY
from app.trade.bench.kinds import Arrangement, FaultGroup
from app.trade.statistics.definition import Followed


def test_it_is_folded_to_what_is_set(office, figure):
    bar = figure().bar
    assert not bar.combos["group"].isVisible()
    assert not bar.clear.isVisible()
    office.push(bar.fold)
    assert all(combo.isVisible() for combo in bar.combos.values())
    assert bar.player.isVisible()
    bar.combos["group"].set_value(FaultGroup.RADIAL)
    office.settle()
    office.push(bar.fold)
    assert bar.combos["group"].isVisible()
    assert not bar.combos["arrangement"].isVisible()
    office.push(bar.clear)
    assert not bar.combos["group"].isVisible()
    assert bar.combos["group"].currentText() == "all"


def test_each_filter_is_asked_and_told(office, figure):
    page = figure()
    for name, chosen, said in (
        ("transport_type", "Velk A1", "Transport type: Velk A1"),
        ("arrangement", Arrangement.SWING_ARM, f"Arrangement: {Arrangement.SWING_ARM.value}"),
        ("group", FaultGroup.RADIAL, "Fault group: radial"),
        ("modified", False, "Modification inside: without"),
    ):
        page.bar.combos[name].set_value(chosen)
        office.settle()
        assert getattr(page.found.answer.question, name) == chosen
        assert any(say(words).startswith(said) for words in page.found.asked)
    page.bar.combos["group"].set_value("any")
    office.settle()
    assert page.found.answer.question.group is None


def test_the_transport_can_be_followed_instead_of_the_player(office, figure):
    page = figure()
    followed = page.bar.combos["followed"]
    assert not followed.isVisible()
    office.push(page.bar.fold)
    assert followed.currentText() == "as the shop has set it"
    followed.set_value(Followed.TRANSPORT)
    office.settle()
    assert page.found.answer.question.followed is Followed.TRANSPORT
    assert "the transport comes in again" in page.why._defined.text()
    followed.set_value(ANY)
    office.settle()
    assert page.found.answer.question.followed is Followed.UNIT
    shop = figure("shop")
    office.push(shop.bar.fold)
    assert not shop.bar.combos["followed"].isVisible()


def test_a_technician_is_asked_by_name(office, figure):
    page = figure()
    page.bar.combos["technician"].set_value(office.shop.tobbe)
    office.settle()
    assert page.found.answer.question.technician == office.shop.tobbe
    assert page.bar.combos["technician"].currentText() == "Tobbe Ruskamp"


def test_a_player_is_typed_with_completion_and_asked_once_it_is_known(office, figure):
    page = figure()
    office.push(page.bar.fold)
    office.type_into(page.bar.player, "quellmar larch 2")
    assert (page.found.answer.question.maker, page.found.answer.question.model) == ("Quellmar", "Larch 2")
    office.type_into(page.bar.player, "nobody")
    office.press("Tab")
    assert page.bar.player.error() == "No player in the book has this name."
    office.type_into(page.bar.player, "Quellmar")
    assert not page.bar.player.error()
    assert page.found.answer.question.maker == "Quellmar"


def test_days_are_typed_as_people_write_them(office, figure):
    page = figure()
    page.bar.period.set_value("chosen")
    office.settle()
    office.type_into(page.bar.since, "1 Jan 2024")
    office.type_into(page.bar.until, "11 Mar")
    question = page.found.answer.question
    assert (question.since, question.until) == (date(2024, 1, 1), date(2026, 3, 11))
    page.bar.period.set_value("whole")
    office.settle()
    assert not page.bar.since.isVisible()


def test_a_page_has_only_the_filters_that_say_something_there(office, figure):
    bar = figure("shop").bar
    office.push(bar.fold)
    assert not bar.window_days.isVisible()
    assert not bar.by.isVisible()
    bar = figure("after-modification").bar
    office.push(bar.fold)
    assert bar.window_days.isVisible()
    assert not bar.combos["modified"].isVisible()


def test_words_marked_in_a_field_are_copied_and_not_the_answer(office, figure):
    page = figure()
    office.push(page.bar.fold)
    office.type_into(page.bar.player, "Quellmar")
    office.press("Ctrl+A")
    office.press("Ctrl+C")
    assert QGuiApplication.clipboard().text() == "Quellmar"
