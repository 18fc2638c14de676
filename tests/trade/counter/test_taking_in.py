"""The taking-in form: what cannot be right says so, what is missing is asked when saving."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.kinds import HowOften, Means, TransitLock
from app.trade.bench.stages import MainsClass
from app.trade.calendar.promise import ShopCalendar
from app.trade.counter.fault_words import FaultWord, ReportedFault
from app.trade.counter.taking_in import ROOM, Intake, IntakeDay, check_field, check_intake, missing_in
from app.trade.money import Money

DAY = IntakeDay(date(2026, 11, 19), ShopCalendar(frozenset({1, 2, 3, 4, 5})), "EUR")

BENEDIKT = Intake(
    name="Benedikt Arnsvik",
    phone="01632 960 142",
    email="b.arnsvik@example.org",
    street="Flat 2\n18 Nowhere Lane",
    postcode="00000",
    city="Exampleton",
    country="GB",
    ring_when="after 17:00",
    serial="0420 158",
    maker="Quellmar",
    model="Larch 2",
    look="black",
    mains_class=MainsClass.II,
    mains_voltage="230 V",
    transport_type_id=1,
    transport_serial="55 871",
    fault="Plays nicely from the start, but when I jump to the last songs it hangs for ages.\nThen it stops.",
    faults=(ReportedFault(FaultWord.OTHER), ReportedFault(FaultWord.SKIPS, HowOften.SOMETIMES)),
    error_shown="",
    marks="Scratch on the cover, front left",
    opened_before=False,
    screws_missing=False,
    transit_lock=TransitLock.RELEASED,
    came_with=("remote control", "2 batteries"),
    disc_inside="tray",
    go_ahead_limit=Money(22000, "EUR"),
    diagnosis_fee=Money(4500, "EUR"),
    diagnosis_fee_told=True,
    deposit=Money(4000, "EUR"),
    deposit_means=Means.CASH,
    shelf="B 3",
    parts_returned=True,
    promised_on=date(2026, 11, 27),
)


def test_an_ordinary_form_can_be_saved() -> None:
    assert check_intake(BENEDIKT, DAY) == {}
    assert missing_in(BENEDIKT) == {}


def test_an_empty_form_is_not_wrong_yet_but_cannot_be_saved() -> None:
    assert check_intake(Intake(), DAY) == {}
    assert set(missing_in(Intake())) == {"name", "serial", "maker", "fault"}


def test_what_the_book_knows_need_not_be_typed_again() -> None:
    known = Intake(customer_id=7, unit_id=9, faults=(ReportedFault(FaultWord.SKIPS),))
    assert missing_in(known) == {}


@pytest.mark.parametrize(
    "enough", [{"serial_unreadable": True, "model": "Larch 2"}, {"serial": "0420", "maker": "Quellmar"}]
)
def test_serial_or_not_readable_and_maker_or_model_are_enough(enough: dict[str, Any]) -> None:
    assert missing_in(Intake(name="A", fault="dead", **enough)) == {}


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("name", "x" * 301),
        ("name", "a\nb"),
        ("phone", "ring me"),
        ("email", "b.arnsvik"),
        ("street", "x" * 241),
        ("postcode", "x" * 17),
        ("city", "a\x07"),
        ("country", "Germany"),
        ("country", "gb"),
        ("ring_when", "x" * 61),
        ("serial", "n/a"),
        ("maker", "x" * 61),
        ("mains_voltage", "12 V"),
        ("transport_serial", "x" * 41),
        ("fault", "x" * 2001),
        ("fault", "\x00"),
        ("faults", (ReportedFault(FaultWord.SKIPS), ReportedFault(FaultWord.SKIPS, HowOften.WHEN_WARM))),
        ("error_shown", "x" * 61),
        ("marks", "\u202eabc"),
        ("came_with", ("remote", " ")),
        ("came_with", ("x" * 81,)),
        ("came_with", ("thing",) * 31),
        ("go_ahead_limit", Money(-1, "EUR")),
        ("go_ahead_limit", Money(10**10, "EUR")),
        ("go_ahead_limit", Money(100, "USD")),
        ("diagnosis_fee", Money(-1, "EUR")),
        ("diagnosis_fee", None),
        ("deposit", Money(-1, "EUR")),
        ("deposit_means", None),
        ("promised_on", date(2026, 11, 18)),
        ("promised_on", date(2026, 11, 21)),
        ("comeback_denied", "x" * 201),
    ],
)
def test_a_field_that_cannot_be_right_says_so_while_typing(field: str, value: Any) -> None:
    form = replace(BENEDIKT, **{field: value})
    assert check_field(form, field, DAY) is not None
    assert set(check_intake(form, DAY)) == {field}


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("name", "x" * 300),
        ("name", "<b>Ödön</b> & 'שלום'"),
        ("phone", ""),
        ("marks", "one\ntwo"),
        ("go_ahead_limit", None),
        ("go_ahead_limit", Money(0, "EUR")),
        ("promised_on", None),
        ("promised_on", date(2026, 11, 19)),
        ("mains_voltage", ""),
        ("came_with", ()),
        ("comeback_denied", "another disc problem"),
        ("transit_lock", TransitLock.NOT_LOOKED),
        ("unit_id", 3),
    ],
)
def test_a_field_that_can_be_right_keeps_quiet(field: str, value: Any) -> None:
    form = replace(BENEDIKT, **{field: value})
    assert check_field(form, field, DAY) is None
    assert check_intake(form, DAY) == {}


def test_a_number_beside_not_readable_is_asked_back() -> None:
    assert set(check_intake(replace(BENEDIKT, serial_unreadable=True), DAY)) == {"serial"}


def test_no_deposit_needs_no_means() -> None:
    assert check_intake(replace(BENEDIKT, deposit=None, deposit_means=None), DAY) == {}
    assert check_intake(replace(BENEDIKT, deposit=Money(0, "EUR"), deposit_means=None), DAY) == {}


def test_a_comeback_is_either_accepted_or_denied() -> None:
    both = replace(BENEDIKT, comeback_of_id=3, comeback_denied="another disc problem")
    assert set(check_intake(both, DAY)) == {"comeback_denied"}
    assert check_intake(replace(BENEDIKT, comeback_of_id=3), DAY) == {}


def test_wrong_fields_come_in_the_order_of_the_form() -> None:
    form = replace(BENEDIKT, promised_on=date(2026, 1, 1), name="x" * 301, serial="?")
    assert list(check_intake(form, DAY)) == ["name", "serial", "promised_on"]


@given(st.sampled_from(sorted(ROOM)), st.text(max_size=700))
def test_no_text_breaks_the_form(field: str, text: str) -> None:
    check_intake(replace(BENEDIKT, **{field: text}), DAY)
