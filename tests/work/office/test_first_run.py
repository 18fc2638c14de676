"""The first page of a new book."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from app.trade.bench.stages import Mark
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.settings import (
    ADDRESS_LINES,
    CITY,
    COUNTRY,
    CURRENCY,
    LANGUAGE,
    PAGE_SIZE,
    POSTCODE,
    SHOP_NAME,
    TIME_ZONE,
)
from app.work.office.first_run import FirstRun, begin_book, check_first_run
from app.work.office.settings import shop_settings
from app.work.people.pins import check_pin
from app.work.people.staff import staff_list
from app.work.shop_book import close_book, open_shop

FORM = FirstRun(
    shop_name=" Lanternfield Workshop ",
    owner="Ine  Varloes",
    pin="470915",
    pin_again="470915",
    currency="GBP",
    language="de",
    time_zone="America/Los_Angeles",
    page_size="Letter",
)


@pytest.fixture
def new_book(tmp_path, clock, cheap_pins):
    book = open_shop(tmp_path / "new.sqlite", clock=clock, make=True)
    yield book
    close_book(book)


def test_settings_owner_and_pin_are_there_after_one_action(new_book, clock):
    done = begin_book(new_book, FORM)
    settings = shop_settings(new_book)
    assert settings[SHOP_NAME] == "Lanternfield Workshop"
    assert [settings[s] for s in (CURRENCY, LANGUAGE, TIME_ZONE, PAGE_SIZE)] == [
        "GBP",
        "de",
        "America/Los_Angeles",
        "Letter",
    ]
    (owner,) = staff_list(new_book)
    assert (owner.id, owner.name, owner.marks) == (done.value, "Ine Varloes", {Mark.OWNER})
    check_pin(new_book, owner.id, "470915", Mark.OWNER)
    assert {"staff", "staff_marks", "settings"} <= done.changes.kinds


def test_the_address_that_heads_every_paper_is_kept_as_it_was_typed(new_book):
    begin_book(
        new_book,
        replace(
            FORM, address_lines=" 4 Wickham Yard ", postcode=" LN9 4RT ", city=" Lanternfield ", country="gb "
        ),
    )
    settings = shop_settings(new_book)
    assert settings[ADDRESS_LINES] == ("4 Wickham Yard",)
    assert [settings[s] for s in (POSTCODE, CITY, COUNTRY)] == ["LN9 4RT", "Lanternfield", "GB"]


def test_the_address_may_follow_later(new_book):
    begin_book(new_book, FORM)
    settings = shop_settings(new_book)
    assert settings[ADDRESS_LINES] == ()
    assert [settings[s] for s in (POSTCODE, CITY, COUNTRY)] == ["", "", ""]


def test_the_owner_may_sign_at_once_wherever_the_shop_stands(new_book, clock):
    """Just after midnight UTC it is still yesterday in California: a mark of tomorrow would not count."""
    clock.instant = datetime(2026, 3, 13, 1, 0, tzinfo=UTC)
    begin_book(new_book, FORM)
    assert new_book.today() == date(2026, 3, 12)
    assert staff_list(new_book)[0].marks == {Mark.OWNER}


def test_a_book_is_begun_once(new_book):
    begin_book(new_book, FORM)
    with pytest.raises(Refusal, match="begun already"):
        begin_book(new_book, FORM)
    assert len(staff_list(new_book)) == 1


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"shop_name": "  "}, "shop_name"),
        ({"shop_name": "x" * 61}, "shop_name"),
        ({"owner": " "}, "owner"),
        ({"owner": "x" * 81}, "owner"),
        ({"pin": "1234", "pin_again": "1234"}, "pin"),
        ({"pin_again": "470916"}, "pin_again"),
        ({"address_lines": "x" * 61}, "address_lines"),
        ({"postcode": "1" * 17}, "postcode"),
        ({"city": "x" * 61}, "city"),
        ({"country": "Germany"}, "country"),
        ({"time_zone": "Nowhere"}, "time_zone"),
        ({"time_zone": ""}, "time_zone"),
        ({"currency": "XXX"}, "currency"),
        ({"language": "xx"}, "language"),
        ({"page_size": "A5"}, "page_size"),
    ],
)
def test_what_cannot_be_right_is_told_by_its_field_and_nothing_is_written(new_book, change, field):
    form = replace(FORM, **change)
    assert set(check_first_run(form)) == {field}
    with pytest.raises(FieldRefusal):
        begin_book(new_book, form)
    assert staff_list(new_book) == ()
