"""Facts of an issued paper are kept as text and come back equal, so that the paper can be printed again."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from decimal import Decimal

import pytest

from app.papers.facts import FlagLevel, Said, Shown
from app.papers.facts_json import Frozen, pack
from app.trade.money import Money
from app.trade.sentence import Measure, Sentence


@dataclass(frozen=True)
class Inner(Frozen):
    said: Said
    shown: Shown = ""


@dataclass(frozen=True)
class Outer(Frozen):
    name: str
    number: int
    yes: bool
    when: datetime
    day: date
    price: Decimal
    sum: Money
    level: FlagLevel
    inner: Inner
    many: tuple[Inner, ...] = ()
    words: tuple[Said, ...] = ()
    maybe: Money | None = None
    maybe_inner: Inner | None = None


FULL = Outer(
    name='Łódź "a<b" 🙂',
    number=2131,
    yes=True,
    when=datetime(2026, 11, 19, 10, 20, tzinfo=UTC),
    day=date(2026, 11, 19),
    price=Decimal("62.00"),
    sum=Money(4000, "EUR"),
    level=FlagLevel.STOP,
    inner=Inner(Sentence("limit {limit}", {"limit": Money(22000, "EUR")}), Measure(Decimal("5.6"), "Ω")),
    many=(Inner("typed", Decimal("1.214")), Inner("x", Sentence("not readable"))),
    words=("typed", Sentence("said {n}", {"n": 3})),
    maybe=Money(-5, "JPY"),
    maybe_inner=Inner("deep"),
)


def test_facts_come_back_equal_with_every_kind_of_value() -> None:
    assert Outer.from_json(FULL.to_json()) == FULL


def test_what_is_missing_comes_back_as_none() -> None:
    facts = replace(FULL, maybe=None, maybe_inner=None, many=(), words=())
    assert Outer.from_json(facts.to_json()) == facts


def test_digits_of_a_price_are_kept() -> None:
    assert str(Outer.from_json(FULL.to_json()).price) == "62.00"


def test_equal_facts_give_equal_text() -> None:
    assert replace(FULL).to_json() == FULL.to_json()


def test_facts_kept_before_a_name_was_added_take_its_default() -> None:
    assert Inner.from_json('{"said": "old"}') == Inner("old", "")


@pytest.mark.parametrize(
    "text",
    [
        '{"said": "x", "from_the_future": 1}',
        "{}",
        '{"said": null}',
        '{"said": 3}',
    ],
)
def test_text_that_is_no_such_fact_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"\w"):
        Inner.from_json(text)


def test_a_wrong_plain_value_is_refused() -> None:
    wrong = FULL.to_json().replace('"number": 2131', '"number": "2131"')
    with pytest.raises(ValueError, match="is no int"):
        Outer.from_json(wrong)


def test_a_naive_instant_is_refused() -> None:
    with pytest.raises(ValueError, match="naive"):
        replace(FULL, when=FULL.when.replace(tzinfo=None)).to_json()


def test_a_value_of_no_known_kind_is_refused() -> None:
    with pytest.raises(ValueError, match="no place on a paper"):
        pack(1.5)
