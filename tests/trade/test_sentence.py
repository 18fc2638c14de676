"""Sentences: key and values, kept in the book and read back equal."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime, timedelta, timezone
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.money import Money
from app.trade.sentence import Measure, Sentence, Value, words

INSTANT = datetime(2026, 11, 24, 14, 5, tzinfo=timezone(timedelta(hours=1)))
FULL = Sentence(
    "{a}{b}{c}{d}{e}{f}{g}{h}{i}",
    {
        "a": 7,
        "b": "text",
        "c": Decimal("1.50"),
        "d": date(2026, 11, 24),
        "e": INSTANT,
        "f": Money(150, "EUR"),
        "g": Measure(Decimal("51.20"), "mA", signed=True),
        "h": Sentence("{x}", {"x": Decimal("0.1")}),
        "i": (1, "two", Sentence("three")),
    },
)


def test_a_sentence_kept_in_the_book_comes_back_equal() -> None:
    assert Sentence.from_json(FULL.key, FULL.values_as_json()) == FULL
    assert Sentence.of_json(FULL.as_json()) == FULL
    kept = json.loads(FULL.values_as_json())
    assert kept["e"] == {"instant": "2026-11-24T13:05:00+00:00"}
    assert kept["g"] == {"measure": ["51.20", "mA", True]}


def test_equal_sentences_are_one_and_others_are_not() -> None:
    assert Sentence("a", {"n": 1}) == Sentence("a", {"n": 1})
    assert (
        len({Sentence("a", {"n": 1}), Sentence("a", {"n": 1}), Sentence("a", {"n": 2}), Sentence("b")}) == 3
    )
    assert Sentence("a") != "a"


def test_a_sentence_cannot_be_changed_from_outside() -> None:
    values: dict[str, Value] = {"n": 1}
    sentence = Sentence("{n}", values)
    values["n"] = 2
    assert sentence.values["n"] == 1
    with pytest.raises(TypeError):
        sentence.values["n"] = 2  # type: ignore[index]


def test_a_naive_instant_is_refused() -> None:
    naive = Sentence("{at}", {"at": datetime(2026, 11, 24)})  # noqa: DTZ001  # naive on purpose
    with pytest.raises(ValueError, match="naive"):
        naive.values_as_json()


def test_a_kind_that_no_program_wrote_is_refused() -> None:
    with pytest.raises(ValueError, match="unknown value kind"):
        Sentence.from_json("{a}", '{"a": {"colour": "red"}}')


def test_words_are_handed_on_as_they_stand() -> None:
    assert words("taken in") == "taken in"


VALUES = st.recursive(
    st.integers()
    | st.text(max_size=9)
    | st.decimals(allow_nan=False, allow_infinity=False)
    | st.dates()
    | st.datetimes(timezones=st.just(UTC)),
    lambda inner: st.lists(inner, max_size=3).map(tuple),
    max_leaves=5,
)


@given(st.dictionaries(st.text(max_size=5), VALUES, max_size=4))
def test_any_values_come_back(values: dict[str, Value]) -> None:
    sentence = Sentence("key", values)
    assert Sentence.of_json(sentence.as_json()) == sentence
