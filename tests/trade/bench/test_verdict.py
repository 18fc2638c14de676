"""Verdicts: the guard band of two standard uncertainties, and the chance of being within."""

from dataclasses import replace
from datetime import UTC
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from app.trade.bench.bound import Bound
from app.trade.bench.verdict import Limit, VerdictWord, in_hundred, judge, normal_cdf
from app.trade.wording import plain

D = Decimal

SAY = plain(UTC)


def at_most(high: str) -> Limit:
    return Limit(None, D(high))


def at_least(low: str) -> Limit:
    return Limit(D(low), None)


def between(low: str, high: str) -> Limit:
    return Limit(D(low), D(high))


@pytest.mark.parametrize(
    ("value", "u", "limit", "word", "probability"),
    [
        # JCGM 106, worked examples: inputs from memory, answers recomputed; printed 0.92 and 0.66.
        ("-5.47", "0.05", at_most("-5.40"), VerdictWord.CLOSE, 0.9192),
        ("13.6", "1.8", between("12.5", "16.3"), VerdictWord.CLOSE, 0.6626),
        # Common practice, no source: a bench day worked by hand.
        ("30.4", "1.3015", at_most("30"), VerdictWord.CLOSE, 0.379),
        ("4.8", "0.1316", at_most("1.5"), VerdictWord.HIGH, 0.0),
        ("0.61", "0.01714", at_least("0.60"), VerdictWord.CLOSE, 0.720),
        ("118.04", "2.46", between("90", "115"), VerdictWord.CLOSE, 0.108),
        ("307.2", "6.6", at_most("300"), VerdictWord.CLOSE, 1 - 0.862),
        ("0.31", "0.0216", at_most("0.30"), VerdictWord.CLOSE, 0.322),
        ("0.30", "0.0216", at_most("0.30"), VerdictWord.CLOSE, 0.500),
        ("0.12", "0.0216", at_most("0.30"), VerdictWord.WITHIN, 1.0),
        ("0.07", "0.005", at_least("0.1"), VerdictWord.LOW, 0.0),
    ],
)
def test_verdict_and_chance_of_being_within(
    value: str, u: str, limit: Limit, word: VerdictWord, probability: float
) -> None:
    verdict = judge(D(value), D(u), limit)
    assert verdict.word is word
    assert verdict.probability == pytest.approx(probability, abs=5e-4)


def test_the_two_sides_outside_are_kept_apart_for_later_ranking() -> None:
    # 0.78 V, u 0.03 V, limits 0.80 to 1.40 V: common practice, no source.
    verdict = judge(D("0.78"), D("0.03"), between("0.80", "1.40"))
    assert verdict.probability_low == pytest.approx(0.747507, abs=5e-7)
    assert verdict.probability == pytest.approx(0.252493, abs=5e-7)
    assert verdict.probability_high == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(
    ("value", "word"),
    [
        ("8", VerdictWord.WITHIN),  # 8 + 2 lies on the limit
        ("8.001", VerdictWord.CLOSE),
        ("12", VerdictWord.CLOSE),  # 12 - 2 lies on the limit: not wholly beyond
        ("12.001", VerdictWord.HIGH),
        ("2", VerdictWord.WITHIN),
        ("1.999", VerdictWord.CLOSE),
        ("-2", VerdictWord.CLOSE),
        ("-2.001", VerdictWord.LOW),
    ],
)
def test_the_ends_belong_to_within_and_to_too_close(value: str, word: VerdictWord) -> None:
    assert judge(D(value), D(1), between("0", "10")).word is word


def test_without_uncertainty_the_comparison_itself_decides() -> None:
    assert judge(D("0.30"), D(0), at_most("0.30")).probability == 1.0
    assert judge(D("0.31"), D(0), at_most("0.30")).probability == 0.0
    assert judge(D("0.5"), D(0), at_least("0.5")).word is VerdictWord.WITHIN
    assert judge(D("0.49"), D(0), at_least("0.5")).word is VerdictWord.LOW


def test_a_lower_bound_settles_only_what_it_lies_beyond() -> None:
    enough = judge(D("100E+6"), D(0), at_least("2E+6"), Bound.MORE)
    assert (enough.word, enough.probability) == (VerdictWord.WITHIN, 1.0)
    short = judge(D("1E+6"), D(0), at_least("2E+6"), Bound.MORE)
    assert (short.word, short.probability) == (VerdictWord.CLOSE, None)
    assert SAY(short.sentence) == "Too close to call: only a lower bound was read."
    beyond = judge(D(20), D(0), at_most("20"), Bound.MORE)
    assert (beyond.word, beyond.probability_high) == (VerdictWord.HIGH, 1.0)
    assert judge(D(19), D(0), between("1", "20"), Bound.MORE).word is VerdictWord.CLOSE


def test_an_open_circuit_lies_above_every_limit() -> None:
    verdict = judge(None, D(0), between("5", "40"), Bound.OPEN)
    assert (verdict.word, verdict.value, verdict.probability) == (VerdictWord.HIGH, None, 0.0)
    assert judge(None, D(0), at_least("5"), Bound.OPEN).word is VerdictWord.WITHIN


@pytest.mark.parametrize(
    ("value", "u", "bound"),
    [
        (None, D(1), Bound.EXACT),
        (D("NaN"), D(1), Bound.EXACT),
        (D(1), D(-1), Bound.EXACT),
        (D(1), D("Infinity"), Bound.EXACT),
        (None, D(0), Bound.MORE),
        (D("Infinity"), D(0), Bound.MORE),
    ],
)
def test_what_is_no_number_is_never_judged(value: D | None, u: D, bound: Bound) -> None:
    with pytest.raises(ValueError):
        judge(value, u, at_most("1"), bound)


@pytest.mark.parametrize(
    ("low", "high"), [(None, None), (D(2), D(1)), (D("NaN"), None), (None, D("Infinity"))]
)
def test_a_limit_has_a_finite_side_and_stands_the_right_way_round(low: D | None, high: D | None) -> None:
    with pytest.raises(ValueError):
        Limit(low, high)


def test_the_words_for_table_and_sentence() -> None:
    limit = at_most("30")
    said = [
        (SAY(v.short), SAY(v.sentence))
        for v in (judge(D(y), D("1.3015"), limit) for y in ("20", "30.4", "40"))
    ]
    assert said == [
        ("within", "Within the limit."),
        ("too close to call", "Too close to call: within in 38 in 100."),
        ("outside", "Outside: above the limit."),
    ]
    assert SAY(judge(D(1), D(0), at_least("2")).sentence) == "Outside: below the limit."


@pytest.mark.parametrize(
    ("probability", "said"),
    [
        (0.0, "0 in 100"),
        (0.004, "under 1 in 100"),
        (0.005, "1 in 100"),
        (0.379, "38 in 100"),
        (0.996, "over 99 in 100"),
        (1.0, "100 in 100"),
    ],
)
def test_a_chance_is_said_in_whole_hundredths(probability: float, said: str) -> None:
    assert SAY(in_hundred(probability)) == said


def test_acceptance_draws_the_limits_in_by_the_guard_band() -> None:
    # JCGM 106, precision resistors: 1499.82 to 1500.18 ohm from u 0.04 ohm would be 2.25 u; with k = 2 it is 0.08.
    verdict = judge(D(1500), D("0.04"), between("1499.8", "1500.2"))
    assert verdict.acceptance == (D("1499.88"), D("1500.12"))
    assert judge(D(1), D("0.5"), at_most("3")).acceptance == (None, D("2.0"))
    assert judge(D(1), D("0.5"), at_least("0")).acceptance == (D("1.0"), None)


@given(st.floats(-8, 8))
def test_the_normal_distribution_agrees_with_scipy(z: float) -> None:
    assert normal_cdf(z) == pytest.approx(float(norm.cdf(z)), rel=1e-12, abs=1e-300)


@pytest.mark.parametrize(("z", "p"), [(0.84, 0.80), (1.28, 0.90), (1.64, 0.95), (2.33, 0.99), (3.09, 0.999)])
def test_one_sided_points_of_jcgm_106_table_1(z: float, p: float) -> None:
    assert normal_cdf(z) == pytest.approx(p, abs=1e-3)


_VALUES = st.decimals(-1000, 1000, places=3)


@given(_VALUES, st.decimals(0, 100, places=3), _VALUES, _VALUES)
def test_the_three_chances_sum_to_one_and_agree_with_the_word(value: D, u: D, one: D, other: D) -> None:
    verdict = judge(value, u, Limit(min(one, other), max(one, other)))
    assert verdict.probability is not None
    assert verdict.probability_low is not None
    assert verdict.probability_high is not None
    whole = verdict.probability + verdict.probability_low + verdict.probability_high
    assert whole == pytest.approx(1.0, abs=1e-9)
    if verdict.word is VerdictWord.WITHIN:
        assert verdict.probability > 0.95 - 1e-9
    if verdict.word.outside:
        assert verdict.probability < 0.023


def test_a_verdict_keeps_the_limit_and_the_rule_it_was_given_by() -> None:
    verdict = judge(D(1), D("0.1"), Limit(None, D(2), "service data", version=3, must=True))
    assert (verdict.limit.source, verdict.limit.version, verdict.limit.must) == ("service data", 3, True)
    assert (verdict.k, verdict.guard, verdict.rule_version) == (D(2), D("0.2"), 1)
    assert replace(verdict) == verdict
