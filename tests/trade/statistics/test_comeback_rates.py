"""Comeback rates, each group against the rest of the shop."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.sentence import Measure, Sentence, Value
from app.trade.statistics.comeback_rates import Rate, Verdict, headline, per_cent, rates, shown_p, why
from app.trade.statistics.comebacks import By, Counted


def counted(label: str, came_back: int, could: int) -> Counted:
    return Counted(label, could, 0, 0, 0, could, came_back)


# The picture of the comebacks page; its p values were computed apart, with scipy and statsmodels.
PICTURE = [
    counted("Ponnik S5", 9, 33),
    counted("Velk A2", 14, 71),
    counted("Velk A1", 17, 118),
    counted("Murn A7", 1, 7),
    counted("Grellin S1", 12, 124),
    counted("Tirro A4", 8, 109),
    counted("Grellin S3", 5, 131),
]
SEEN = {
    "Ponnik S5": ("0.040", Verdict.MORE_OFTEN),
    "Velk A2": ("0.12", Verdict.CANNOT_TELL),
    "Velk A1": ("0.75", Verdict.CANNOT_TELL),
    "Murn A7": ("1.00", Verdict.TOO_FEW),
    "Grellin S1": ("1.00", Verdict.CANNOT_TELL),
    "Tirro A4": ("0.72", Verdict.CANNOT_TELL),
    "Grellin S3": ("0.010", Verdict.LESS_OFTEN),
}


def of(found: tuple[Rate, ...], label: str) -> Rate:
    return next(rate for rate in found if rate.label == label)


def test_the_picture_comes_out_as_drawn() -> None:
    found = rates(PICTURE)
    for label, (p, verdict) in SEEN.items():
        rate = of(found, label)
        assert shown_p(rate.adjusted) == Measure(Decimal(p))
        assert rate.verdict is verdict
    first = found[0]
    assert first.label == "Ponnik S5"
    assert (first.rest_came_back, first.rest_could) == (57, 560)
    assert per_cent(first.share or 0, 1) == Measure(Decimal("27.3"), "%")
    assert per_cent(first.low) == Measure(Decimal(15), "%")
    assert per_cent(first.high) == Measure(Decimal(44), "%")
    assert shown_p(first.p) == Measure(Decimal("0.0066"))
    assert [rate.label for rate in found][-1] == "Grellin S3"
    assert headline(found, By.TRANSPORT_TYPE, 180) == Sentence(
        "{group} comes back more often than the rest", {"group": "Ponnik S5"}
    )


def test_the_number_is_explained_in_sentences() -> None:
    found = rates(PICTURE)
    keys = [sentence.key for sentence in why(found[0])]
    assert len(keys) == 5
    assert keys[-1] == "Below {level}: more often than the rest."
    assert "less often" in why(of(found, "Grellin S3"))[-1].key
    assert "too few" in why(of(found, "Murn A7"))[-1].key
    assert "cannot be told" in why(of(found, "Tirro A4"))[-1].key


def test_two_groups_are_one_comparison() -> None:
    found = rates([counted("with", 15, 50), counted("without", 40, 400)])
    assert {rate.p for rate in found} == {rate.adjusted for rate in found}
    assert all(rate.tests == 1 for rate in found)
    assert len(why(found[0])) == 4
    assert headline(found, By.MODIFICATION, 180).key.endswith("more often than the others")
    turned = rates([counted("with", 1, 100), counted("without", 60, 400)])
    assert headline(turned, By.MODIFICATION, 180).key.endswith("less often than the others")
    same = rates([counted("with", 10, 100), counted("without", 40, 400)])
    assert "no difference" in headline(same, By.MODIFICATION, 180).key


def test_one_group_alone_has_nothing_to_be_compared_with() -> None:
    (only,) = rates([counted("radial", 3, 30)])
    assert only.verdict is Verdict.NO_REST
    assert only.rest_share is None
    assert "no other group" in why(only)[-1].key
    assert "No fault group" in headline([only], By.FAULT_GROUP, 90).key


def test_a_group_that_nobody_watched_long_enough_says_so() -> None:
    found = rates([counted("new", 0, 0), counted("old", 3, 30), counted("older", 4, 40)])
    assert found[-1].label == "new"
    assert found[-1].share is None
    assert len(why(found[-1])) == 1
    assert all(rate.tests == 1 for rate in found)


@pytest.mark.parametrize("groups", [[], [counted("a", 0, 0)], [counted("a", 3, 9), counted("b", 0, 9)]])
def test_few_repairs_say_nothing(groups: list[Counted]) -> None:
    assert headline(rates(groups), By.TRANSPORT_TYPE, 90) == Sentence(
        "Too few repairs have been watched for {days} days to say anything", {"days": 90}
    )


TWO_MORE = [("a", 30, 60), ("b", 30, 60), ("c", 5, 400)]
FOUR_MORE = [(letter, 30, 60) for letter in "abcd"] + [("e", 5, 900)]
ONE_LESS = [("z", 0, 60), ("a", 3, 25), ("b", 3, 25), ("c", 3, 25)]
TWO_LESS = [("y", 0, 80), ("z", 0, 80), ("a", 4, 25), ("b", 4, 25), ("c", 4, 25)]
FOUR_LESS = [(letter, 0, 300) for letter in "vwyz"] + [(letter, 4, 40) for letter in "abcdefgh"]


@pytest.mark.parametrize(
    ("groups", "by", "key", "values"),
    [
        (TWO_MORE, By.MAKER, "Come back more often than the rest: {groups}", {"groups": ("a", "b")}),
        (TWO_MORE, By.CAUSE, "Repairs come back more often than the rest: {groups}", {"groups": ("a", "b")}),
        (FOUR_MORE, By.FAULT_GROUP, "{count} fault groups come back more often than the rest", {"count": 4}),
        (ONE_LESS, By.MODEL, "{group} comes back less often than the rest", {"group": "z"}),
        (ONE_LESS, By.CHANGE, "Repairs come back less often than the rest: {group}", {"group": "z"}),
        (TWO_LESS, By.CAUSE, "Repairs come back less often than the rest: {groups}", {"groups": ("y", "z")}),
        (
            FOUR_LESS,
            By.TRANSPORT_TYPE,
            "{count} transport types come back less often than the rest",
            {"count": 4},
        ),
        (
            [("a", 5, 50), ("b", 5, 50), ("c", 5, 50)],
            By.FAULT_GROUP,
            "No fault group can be told from the rest",
            {},
        ),
    ],
)
def test_the_headline_names_what_stands_and_counts_more_than_three(
    groups: list[tuple[str, int, int]], by: By, key: str, values: dict[str, Value]
) -> None:
    found = rates([counted(*group) for group in groups])
    assert headline(found, by, 180) == Sentence(key, values)


def test_a_name_is_said_as_people_say_it() -> None:
    found = rates([counted("clean_lens", 30, 60), counted("solder", 5, 400)])
    said = headline(found, By.CHANGE, 180, lambda label: Sentence(label.replace("_", " ")))
    assert said.values == {"group": Sentence("clean lens")}


def test_small_p_values_are_said_as_under() -> None:
    assert shown_p(0.00001) == Sentence("under {p}", {"p": Measure(Decimal("0.0001"))})
    assert shown_p(0.0001) == Measure(Decimal("0.00010"))
    assert shown_p(1.0) == Measure(Decimal("1.00"))
    assert shown_p(0.5) == Measure(Decimal("0.50"))


GROUPS = st.lists(st.integers(0, 60).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))), max_size=8)


@given(GROUPS)
def test_any_counts_give_a_sentence_and_no_nan(groups: list[tuple[int, int]]) -> None:
    found = rates([counted(f"t{at}", x, n) for at, (x, n) in enumerate(groups)])
    assert len(found) == len(groups)
    for rate in found:
        assert 0 <= rate.low <= rate.high <= 1
        assert rate.p <= rate.adjusted <= 1
        assert why(rate)
        if rate.verdict in (Verdict.MORE_OFTEN, Verdict.LESS_OFTEN):
            assert rate.share is not None
            assert rate.rest_share is not None
            assert (rate.share > rate.rest_share) is (rate.verdict is Verdict.MORE_OFTEN)
    for by in By:
        assert headline(found, by, 30).key
