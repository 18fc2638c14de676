"""A shop that kept a paper book goes on counting from there."""

from __future__ import annotations

from typing import Any

from app.trade.counter.taking_in import Intake
from app.trade.settings.terms import FIRST_JOB
from app.work.counter.intake_offers import intake_offers
from app.work.counter.taking_in import receive_unit
from app.work.office.settings import change_settings


def take_in(shop: Any, serial: str) -> int:
    intake = Intake(name="Odile Varenne", maker="Ostrind", model="Osier 7", serial=serial, fault="dead")
    return int(receive_unit(shop.book, shop.mirr, intake).value.number)


def test_the_first_job_takes_the_number_that_was_set(shop: Any) -> None:
    change_settings(shop.book, shop.ine, {FIRST_JOB: 1567})
    assert intake_offers(shop.book).number == 1567
    assert [take_in(shop, "1"), take_in(shop, "2")] == [1567, 1568]


def test_once_a_job_is_taken_in_the_setting_changes_no_number(shop: Any) -> None:
    first = take_in(shop, "1")
    change_settings(shop.book, shop.ine, {FIRST_JOB: 4000})
    assert intake_offers(shop.book).number == first + 1
    assert take_in(shop, "2") == first + 1
