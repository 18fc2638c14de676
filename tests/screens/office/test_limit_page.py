"""Limits by keys alone: typed in the unit that is shown, kept in SI, never without a source."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from app.screens import language
from app.screens.office.limit_page import PRACTICE
from app.trade.bench.kinds import Arrangement
from app.work.language import wording_for
from app.work.office.shop_lists import LABEL, LimitLine, TypeLine, limits, save_limit, save_transport_type
from tests.screens.office.conftest import lines


@pytest.fixture
def velk(office):
    """A transport type."""
    line = TypeLine(name="Velk A1", arrangement=Arrangement.SWING_ARM)
    return save_transport_type(office.book, office.shop.ine, line).value


def kept(office, **more):
    return save_limit(office.book, office.shop.ine, LimitLine(**more)).value


def quantity(office, page, code):
    page.quantity.set_value(code)
    office.settle()


def test_it_is_typed_in_milliamps_and_kept_in_amps(office, velk):
    office.open("limits", velk)
    office.press("Return")
    page = office.page
    assert page.type.value() == velk  # of the type whose list it was
    quantity(office, page, "coil_current")
    assert "In mA." in office.sees()
    office.type_into(page.high, "250")
    assert page.high.echo() == "read as 250\u00a0mA"
    office.type_into(page.low, "abc")
    assert page.low.error()
    office.press("Ctrl+Return")
    assert office.focus is page.low.edit
    office.type_into(page.low, "")
    office.press("Ctrl+Return")
    assert "Say where the limit comes from" in page.source.error()
    office.type("Service manual p. 14")
    page.must.setFocus()
    office.press("Space")
    office.press("Ctrl+Return")
    (line,) = limits(office.book)
    assert (line.low, line.high, line.quantity) == (None, Decimal("0.250"), "coil_current")
    assert (line.transport_type_id, line.must, line.source) == (velk, True, "Service manual p. 14")
    assert lines(office.page.table) == [
        "Velk A1: 1 limit",
        [
            "radial coil current under stated demand",
            "at most 250\u00a0mA",
            "holds the job",
            "Service manual p. 14",
        ],
    ]


def test_it_is_shown_again_as_it_was_typed(office, velk):
    key = kept(office, quantity="coil_current", source="p. 2", high=Decimal("0.25"), transport_type_id=velk)
    page = office.open("limit", key)
    assert page.title == "Limit of radial coil current under stated demand, Velk A1"
    assert (page.low.text(), page.high.text()) == ("", "250 mA")
    page.retired.setChecked(True)
    office.press("Ctrl+Return")
    (line,) = limits(office.book, retired=True)
    assert (line.retired, line.high) == (True, Decimal("0.25"))


def test_the_laser_is_compared_with_its_label(office, velk):
    page = office.open("limit")
    page.type.set_value(velk)
    quantity(office, page, "coil_current")
    assert not page.label.isVisible()
    quantity(office, page, "laser_current")
    assert page.label.isVisible()
    page.label.setChecked(True)
    office.settle()
    assert "In %." in office.sees()
    office.type_into(page.low, "x")
    office.press("Ctrl+Return")
    assert page.low.error()
    office.type_into(page.low, "90 %")
    office.type_into(page.high, "115")
    office.type_into(page.source, "common practice, no source")
    office.press("Ctrl+Return")
    (line,) = limits(office.book)
    assert (line.low, line.high, line.relative_to) == (Decimal("0.9"), Decimal("1.15"), LABEL)
    page = office.open("limit", line.id)
    assert (page.low.text(), page.high.text()) == ("90", "115")
    assert page.label.isChecked()


def test_a_quantity_is_compared_with_the_same_transport_s_last_value(office, velk):
    page = office.open("limit")
    page.type.set_value(velk)
    quantity(office, page, "motor_current")
    page.earlier.setChecked(True)
    office.settle()
    assert "In %." in office.sees()
    office.type_into(page.high, "120")
    office.type_into(page.source, "common practice, no source")
    office.press("Ctrl+Return")
    (line,) = limits(office.book)
    assert (line.low, line.high, line.relative_to) == (None, Decimal("1.2"), "earlier")
    page = office.open("limit", line.id)
    assert page.earlier.isChecked()
    assert not page.label.isVisible()
    for low, high in (("0.8", None), ("0.8", "1.2")):
        kept(
            office,
            quantity="motor_current",
            transport_type_id=velk,
            source="p. 1",
            relative_to="earlier",
            low=Decimal(low),
            high=None if high is None else Decimal(high),
        )
    shown = [line[1] for line in lines(office.open("limits").table)[1:]]
    assert sorted(shown) == [
        "80 to 120 % of the last value",
        "at least 80 % of the last value",
        "at most 120 % of the last value",
    ]


def test_it_holds_for_a_maker_s_model_as_well(office):
    page = office.open("limit")
    page.holder.setFocus()
    office.press("Right")
    assert not page.type.isVisible()
    assert page.maker.isVisible()
    office.type_into(page.maker, "Quellmar")
    office.type_into(page.model, "Larch 2")
    quantity(office, page, "rail_dc")
    assert page.detail.isVisible()
    office.type_into(page.detail, "+8 V")
    office.type_into(page.low, "7,6")
    office.type_into(page.high, "8,4")
    office.type_into(page.source, "Service manual p. 3")
    office.press("Ctrl+Return")
    (line,) = limits(office.book)
    assert (line.unit_maker, line.unit_model, line.detail) == ("Quellmar", "Larch 2", "+8 V")
    page = office.open("limits")
    assert lines(page.table)[0] == "Quellmar Larch 2: 1 limit"
    assert lines(page.table)[1][0] == "supply rail, +8 V"


def test_a_limit_needs_an_end_a_holder_and_a_quantity(office):
    page = office.open("limit")
    office.type_into(page.source, "p. 2")
    office.press("Ctrl+Return")
    assert page.trouble.isVisible() or page.high.error()
    page.holder.set_value("model")
    office.type_into(page.high, "3")
    assert page.high.echo() == ""
    office.press("Ctrl+Return")
    assert limits(office.book) == ()


def test_the_words_of_every_kind_of_limit(office, velk):
    for low, high in (("0.9", None), (None, "1.2"), ("0.9", "1.15")):
        kept(
            office,
            quantity="laser_current",
            source="p. 1",
            low=None if low is None else Decimal(low),
            high=None if high is None else Decimal(high),
            relative_to=LABEL,
            transport_type_id=velk,
        )
    old = kept(office, quantity="jitter", source="p. 3", high=Decimal("3E-8"), transport_type_id=velk)
    line = next(one for one in limits(office.book) if one.id == old)
    save_limit(office.book, office.shop.ine, replace(line, retired=True))
    page = office.open("limits")
    assert [row[1] for row in lines(page.table)[1:]] == [
        "at least 90 % of the label",
        "at most 120 % of the label",
        "90 to 115 % of the label",
    ]
    office.push(page.turn)
    assert lines(page.table)[0] == "Velk A1: 4 limits"
    assert lines(page.table)[1][:3] == ["jitter no longer used", "at most 30\u00a0ns", "needs a reason"]
    office.press("Esc")


def test_common_practice_is_said_in_every_language_and_kept_in_one(office, velk):
    language.use(wording_for("de", office.book.zone))
    page = office.open("limit", ("new", velk))
    quantity(office, page, "jitter")
    office.type_into(page.high, "30")
    page.source.edit.insert(language.say(PRACTICE))  # QTest types no ü
    office.press("Ctrl+Return")
    (line,) = limits(office.book)
    assert line.source == PRACTICE
    assert office.open("limit", line.id).source.text() == language.say(PRACTICE) != PRACTICE


def test_two_savers_see_both(office, velk):
    key = kept(office, quantity="coil_current", source="p. 2", high=Decimal("0.25"), transport_type_id=velk)
    page = office.open("limit", key)
    office.type_into(page.high, "260")
    (line,) = limits(office.book)
    save_limit(office.book, office.shop.sanna, replace(line, high=Decimal("0.24"), must=True))
    page.save()
    office.settle()
    assert [(row.what, row.mine, row.theirs) for row in page.stale.rows] == [
        ("Limit", "at most 260\u00a0mA", "at most 240\u00a0mA"),
        ("A final reading outside", "needs a reason", "holds the job"),
    ]


def test_what_was_half_typed_stands_there_again(office, velk):
    office.open("limits")
    page = office.open("limit", ("new", velk))
    quantity(office, page, "jitter")
    office.type_into(page.high, "30")
    office.press("Esc")
    office.window.trail.close_page("limit", ("new", velk))
    page = office.open("limit", ("new", velk))
    assert (page.quantity.value(), page.high.text(), page.type.value()) == ("jitter", "30", velk)
    assert page.high.echo() == "read as 30\u00a0ns"
