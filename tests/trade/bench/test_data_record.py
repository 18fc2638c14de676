"""Bench data are read strictly, and what is wrong with them is said with its place."""

from datetime import UTC
from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.data_record import Record, unique
from app.trade.bench.kinds import Arrangement
from app.trade.refusal import Refusal
from app.trade.wording import plain

D = Decimal


def record(**content: Any) -> Record:
    return Record(content, "changes belt")


def test_each_kind_of_value_is_read() -> None:
    found = record(
        words="belt",
        minutes=20,
        share="0.050",
        inside=True,
        arrangement="S",
        list=["a", "b"],
        part={"x": "1"},
    )
    assert found.text("words") == "belt"
    assert found.whole("minutes", 1, 600) == 20
    assert str(found.decimal("share")) == "0.050"
    assert found.truth("inside") is True
    assert found.arrangement() is Arrangement.SWING_ARM
    assert found.texts("list") == ("a", "b")
    part = found.record("part")
    assert list(part.items()) == [("x", "1")]
    part.done()
    found.done()


def test_what_may_be_left_out() -> None:
    found = record(low=None, arrangement="B", caution="")
    assert found.optional_text("words") == ""
    assert found.optional_text("caution") == ""
    assert found.optional_decimal("low") is None
    assert record(low="1").optional_decimal("low") == D(1)
    assert found.truth("inside") is False
    assert found.texts("list") == ()
    assert found.arrangement() is None
    found.done()


@pytest.mark.parametrize(
    ("content", "read", "said"),
    [
        ({}, lambda r: r.text("words"), "words is missing"),
        ({"words": "  "}, lambda r: r.text("words"), "words is no text"),
        ({"words": 3}, lambda r: r.text("words"), "words is no text"),
        ({"rung": 13}, lambda r: r.whole("rung", 1, 12), "rung is no whole number from 1 to 12"),
        ({"rung": True}, lambda r: r.whole("rung", 1, 12), "rung is no whole number from 1 to 12"),
        ({"rung": "3"}, lambda r: r.whole("rung", 1, 12), "rung is no whole number from 1 to 12"),
        ({"share": 0.05}, lambda r: r.decimal("share"), "share is no number in quotes"),
        ({"share": "a lot"}, lambda r: r.decimal("share"), "share is no number in quotes"),
        ({"share": "NaN"}, lambda r: r.decimal("share"), "share is no number in quotes"),
        ({"inside": 1}, lambda r: r.truth("inside"), "inside is neither true nor false"),
        ({"arrangement": "X"}, lambda r: r.arrangement(), "arrangement is none of S, T and B"),
        ({"list": "a"}, lambda r: r.list_of("list"), "list is no list"),
        ({"list": ["a", 1]}, lambda r: r.texts("list"), "list is no list of different texts"),
        ({"list": ["a", "a"]}, lambda r: r.texts("list"), "list is no list of different texts"),
        ({"wrods": "x"}, lambda r: r.done(), "nobody knows wrods"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_said_with_its_place(content: dict[str, Any], read: Any, said: str) -> None:
    with pytest.raises(Refusal) as refused:
        read(Record(content, "changes belt"))
    assert plain(UTC)(refused.value.sentence) == f"The bench data are wrong at changes belt: {said}."


def test_records_of_a_list_are_named_by_their_id_or_number_and_read_to_the_end() -> None:
    rows = [{"id": "a"}, {"id": "b", "odd": 1}]
    with pytest.raises(Refusal) as refused:
        [r.text("id") for r in record(rows=rows).records("rows")]
    assert plain(UTC)(refused.value.sentence) == "The bench data are wrong at rows b: nobody knows odd."
    with pytest.raises(Refusal) as refused:
        list(record(rows=[3]).records("rows"))
    assert plain(UTC)(refused.value.sentence) == "The bench data are wrong at rows 1: it is no record."


def test_no_id_stands_twice() -> None:
    unique(["a", "b"], record())
    with pytest.raises(Refusal) as refused:
        unique(["a", "b", "a"], record())
    assert plain(UTC)(refused.value.sentence).endswith("the id a stands there twice.")
