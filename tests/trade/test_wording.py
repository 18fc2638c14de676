"""Sentences worded in one language, numbers and dates by locale."""

from __future__ import annotations

from datetime import UTC, date, datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest

from app.trade.money import Money
from app.trade.sentence import Measure, Sentence
from app.trade.wording import Wording, plain

BERLIN = ZoneInfo("Europe/Berlin")
WORDS = {"{n} days left": "noch {n} Tage", "taken in": "angenommen"}
GERMAN = Wording(lambda key: WORDS.get(key, key), "de", BERLIN)
ENGLISH = plain(BERLIN)


def test_a_template_is_translated_and_filled() -> None:
    assert ENGLISH("{n} days left", n=3) == "3 days left"
    assert GERMAN(Sentence("{n} days left", {"n": 3})) == "noch 3 Tage"
    assert GERMAN("taken in") == "angenommen"
    assert (GERMAN.language, ENGLISH.language) == ("de", "en")


def test_a_template_without_values_keeps_its_braces() -> None:
    assert ENGLISH("Looking costs {diagnosis_fee}") == "Looking costs {diagnosis_fee}"


def test_values_are_worded_by_their_kind() -> None:
    at = datetime(2026, 11, 24, 13, 5, tzinfo=UTC)
    assert ENGLISH("{at}: {stage}", at=at, stage=Sentence("taken in")) == (
        "24\u00a0Nov\u00a02026,\u00a014:05: taken in"
    )
    assert GERMAN.value(Sentence("taken in")) == "angenommen"
    assert ENGLISH.value(date(2026, 11, 24)) == "24\u00a0Nov\u00a02026"
    assert ENGLISH.value((Decimal("1.5"), "two", 3)) == "1.5, two, 3"
    assert ENGLISH.value(Measure(Decimal("51.20"), "mA")) == "51.20\u00a0mA"
    assert GERMAN.value(Measure(Decimal("51.20"), "mA")) == "51,20\u00a0mA"
    assert ENGLISH.value(Measure(Decimal(3))) == "3"
    assert ENGLISH.value(Money(123450, "EUR")) == "1\u202f234.50\u00a0EUR"
    assert GERMAN.value(Money(-123456789, "EUR")) == "\u22121\u202f234\u202f567,89\u00a0EUR"


@pytest.mark.parametrize(
    ("number", "signed", "text"),
    [
        ("-0.50", False, "\u22120.50"),
        ("-0.00", False, "0.00"),
        ("-0.00", True, "0.00"),
        ("12", True, "+12"),
        ("1E+3", False, "1000"),
        ("1E-7", False, "0.0000001"),
    ],
)
def test_all_digits_given_are_kept_and_the_minus_is_a_minus(number: str, signed: bool, text: str) -> None:
    assert ENGLISH.number(Decimal(number), signed=signed) == text


def test_what_is_no_number_or_no_moment_is_refused() -> None:
    with pytest.raises(ValueError, match="finite"):
        ENGLISH.number(Decimal("NaN"))
    with pytest.raises(ValueError, match="naive"):
        ENGLISH.moment(datetime(2026, 11, 24))  # noqa: DTZ001  # naive on purpose


def test_a_moment_is_a_day_and_the_clock_or_one_of_them() -> None:
    at = datetime(2026, 11, 24, 23, 5, tzinfo=UTC)  # 25 November in Berlin
    assert GERMAN.moment(at, "EEE d MMM, HH:mm") == "Mi.\u00a025.\u00a0Nov.,\u00a000:05"
    assert ENGLISH.moment(at, "d MMM HH:mm") == "25\u00a0Nov\u00a000:05"
    assert ENGLISH.moment(at, "d MMM") == "25\u00a0Nov"
    assert ENGLISH.moment(at, "HH:mm") == "00:05"


def test_german_writes_a_point_behind_the_day() -> None:
    german = Wording(lambda key: key, "de", ZoneInfo("Europe/Berlin"))
    assert german.day(date(2026, 11, 24), "d MMMM y").replace("\u00a0", " ") == "24. November 2026"
    assert german.day(date(2026, 11, 24), "y-MM-dd") == "2026-11-24"


def test_no_words_stay_no_words_whatever_the_catalogue_says_of_itself() -> None:
    """gettext translates the empty text into the header of its catalogue (GNU gettext manual, section 6.2)."""
    german = Wording(lambda key: key or "Project-Id-Version: 1", "de", ZoneInfo("Europe/Berlin"))
    assert german("") == german(Sentence("")) == ""
