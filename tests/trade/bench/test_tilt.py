"""Tilt by two reflected lines. Worked numbers: common practice, no source; geometry by a ray trace."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.trade.bench.tilt import length_in, on_the_disc, tilt_of, tilt_words, total
from app.trade.bench.verdict import Limit, judge

D = Decimal


@pytest.mark.parametrize(
    ("offset", "length", "degrees", "u"),
    [
        ("1.5", "300", 0.1432, None),
        ("2.0", "300", 0.1910, None),
        ("2.8", "300", 0.2674, 0.0486),
        ("-1.6", "300", -0.1528, 0.0480),
        ("6.0", "300", 0.5729, None),
        ("1.0", "300", 0.0955, None),
        ("3", "150", 0.5729, None),
        ("3", "200", 0.4297, None),
        ("3", "500", 0.1719, None),
    ],
)  # fmt: skip
def test_the_angle_is_half_the_angle_of_the_lines(
    offset: str, length: str, degrees: float, u: float | None
) -> None:
    tilt = tilt_of(D(offset), D("0.5"), D(length), D(10))
    assert tilt.degrees == pytest.approx(degrees, abs=6e-5)
    if u is not None:
        assert tilt.u == pytest.approx(u, abs=6e-5)


def test_an_offset_on_the_disc_belongs_to_a_shorter_length_than_on_the_scale() -> None:
    assert on_the_disc(D(300), D(300)) == 150
    assert tilt_of(D("3.979"), D(0), D(300)).degrees == pytest.approx(0.38, abs=1e-4)
    assert tilt_of(D("1.990"), D(0), D(150)).degrees == pytest.approx(0.38, abs=1e-4)


def test_both_directions_make_one_angle() -> None:
    assert total(0.1432, 0.1910) == pytest.approx(0.2387, abs=1e-4)
    assert total(0.2674, -0.1528) == pytest.approx(0.3079, abs=1e-4)


def test_the_size_is_judged_in_millimetres_with_its_chance() -> None:
    within = Limit(D("-3"), D("3"))
    assert judge(D("2.8"), D("0.5"), within).probability == pytest.approx(0.6554, abs=5e-5)
    assert judge(D("-1.6"), D("0.5"), within).probability == pytest.approx(0.9974, abs=5e-5)


@pytest.mark.parametrize(
    ("radial", "tangential", "words"),
    [
        ("3.0", "-2.9", "within within"),  # with U = 1 mm the radial one lies on the limit: still within
        ("3.1", "-1.0", "close within"),
        ("-1.0", "4.9", "within close"),
        ("5.1", "-5.1", "high low"),
    ],
)
def test_within_4_mm_holds_in_both_directions(radial: str, tangential: str, words: str) -> None:
    # "Within 4 mm" for the two reflected lines, each direction: common practice, no source; u_d 0.5 mm.
    four = Limit(D("-0.004"), D("0.004"))
    found = [judge(D(one).scaleb(-3), D("0.0005"), four).word for one in (radial, tangential)]
    assert " ".join(word.name.lower() for word in found) == words


@pytest.mark.parametrize(
    ("place", "metres"),
    [
        ("L 300", "0.3"),
        ("mid swing, L=500 mm", "0.5"),
        ("scale, B 300", "0.3"),
        ("on the disc, B 300, E 300", "0.15"),
        ("inner", None),
        ("L 000", None),
        ("E 300", None),
        ("B 000, E 000", None),
    ],
)
def test_the_length_is_read_from_the_note_of_the_place(place: str, metres: str | None) -> None:
    assert length_in(place) == (None if metres is None else D(metres))


def test_the_angle_is_said_with_the_limit_as_an_angle_or_what_is_missing() -> None:
    said = tilt_words(D("0.0028"), D("0.0005"), "L 300", D("0.003"))
    assert {k: str(m.value) for k, m in said.values.items()} == {
        "angle": "0.267",
        "u": "0.097",
        "length": "300",
        "limit": "0.286",
    }
    assert "limit" not in tilt_words(D("0.0028"), D("0.0005"), "L 300", None).values
    assert "without the geometry" in tilt_words(D("0.0028"), D("0.0005"), "", None).key
