"""Column types mean the same on every database, lose nothing on the way, and refuse what cannot be meant."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy.dialects import postgresql, sqlite

from app.book.columns import Day, DecimalText, Flagged, Instant, Plain, Said, Word
from app.trade.bench.stages import Stage
from app.trade.sentence import Sentence

DIALECT = sqlite.dialect()


def there_and_back(column: Any, value: Any) -> Any:
    return column.process_result_value(column.process_bind_param(value, DIALECT), DIALECT)


@given(st.datetimes(timezones=st.timezones()))
def test_an_instant_keeps_its_moment_to_the_microsecond(value: datetime) -> None:
    try:
        expected = value.astimezone(UTC)
    except OverflowError:  # the first and last day that Python knows
        return
    assert there_and_back(Instant(), value) == expected


def test_a_naive_instant_is_refused() -> None:
    with pytest.raises(ValueError, match="naive instant"):
        Instant().process_bind_param(datetime(2026, 3, 12, 9, 30), DIALECT)  # noqa: DTZ001


def test_an_offset_is_not_dropped() -> None:
    # The engine's own DateTime gave 01:30 back for this, without a word.
    value = datetime(2026, 3, 12, 1, 30, tzinfo=timezone(timedelta(hours=2)))
    assert there_and_back(Instant(), value) == datetime(2026, 3, 11, 23, 30, tzinfo=UTC)


@given(st.dates())
def test_a_day_is_kept_in_the_order_of_days(value: date) -> None:
    assert there_and_back(Day(), value) == value
    assert Day().process_bind_param(value, DIALECT) >= Day().process_bind_param(date.min, DIALECT)


def test_an_instant_is_no_day() -> None:
    with pytest.raises(ValueError, match="no day"):
        Day().process_bind_param(datetime(2026, 3, 12, tzinfo=UTC), DIALECT)


@given(st.decimals(allow_nan=False, allow_infinity=False))
def test_a_decimal_keeps_every_digit(value: Decimal) -> None:
    back = there_and_back(DecimalText(), value)
    assert (back, back.as_tuple()) == (value, value.as_tuple())


@pytest.mark.parametrize("value", ["NaN", "Infinity", "-Infinity", "sNaN"])
def test_what_is_no_finite_number_is_refused(value: str) -> None:
    with pytest.raises(ValueError, match="not a finite number"):
        DecimalText().process_bind_param(Decimal(value), DIALECT)


def test_a_word_is_kept_as_the_word_and_only_known_ones_are_taken() -> None:
    column = Word(Stage)
    assert column.process_bind_param(Stage.ON_THE_BENCH, DIALECT) == "on the bench"
    assert there_and_back(column, "ready") is Stage.READY
    with pytest.raises(ValueError, match="flying"):
        column.process_bind_param("flying", DIALECT)


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.text(),
        lambda x: st.lists(x) | st.dictionaries(st.text(), x),
    )
)
def test_a_plain_value_comes_back(value: Any) -> None:
    assert there_and_back(Plain(), value) == value


def test_a_plain_values_text_is_canonical() -> None:
    assert Plain().process_bind_param({"b": [1, "ß"], "a": None}, DIALECT) == '{"a":null,"b":[1,"ß"]}'


def test_a_sentence_comes_back_with_its_values() -> None:
    sentence = Sentence("Job {number} is due on {day}", {"number": 12, "day": date(2026, 3, 12)})
    assert there_and_back(Said(), sentence) == sentence


@pytest.mark.parametrize("column", [Instant(), Day(), DecimalText(), Word(Stage), Plain(), Said(), Flagged()])
def test_nothing_stays_nothing(column: Any) -> None:
    assert there_and_back(column, None) is None


@pytest.mark.parametrize("value", [True, False])
def test_yes_and_no_are_one_and_zero(value: bool) -> None:
    assert Flagged().process_bind_param(value, DIALECT) == int(value)
    assert there_and_back(Flagged(), value) is value


def test_the_types_have_names_on_both_databases() -> None:
    names = {
        type(column): (
            column.compile(dialect=sqlite.dialect()),
            column.compile(dialect=postgresql.dialect()),
        )
        for column in (Instant(), Day(), DecimalText(), Flagged(), Plain())
    }
    # Only what SQLite's STRICT tables know: sqlite.org/stricttables.html
    assert {name for name, _ in names.values()} <= {"INTEGER", "TEXT", "REAL"}
    assert names[Instant] == ("INTEGER", "BIGINT")
