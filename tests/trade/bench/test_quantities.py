"""The catalogue of quantities: as shipped, and what is refused in it."""

import json
from collections.abc import Callable
from datetime import UTC
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from app.trade.bench.bound import Bound
from app.trade.bench.kinds import Arrangement
from app.trade.bench.quantities import Quantity, catalogue_of
from app.trade.bench.stages import MainsClass
from app.trade.bench.typed_value import TypedValue, read_value
from app.trade.bench.uncertainty import Accuracy, Counted, Fixed, Propagated
from app.trade.bench.verdict import Limit, judge
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.wording import plain

D = Decimal

SAY = plain(UTC)
SHIPPED = json.loads((Path(__file__).parents[3] / "assets/bench/quantities.json").read_text(encoding="utf-8"))
CATALOGUE = catalogue_of(SHIPPED)


def said(value: Any) -> str:
    return SAY.value(value).replace("\u00a0", " ")


def typed(quantity: Quantity, text: str) -> D:
    found = read_value(text, quantity.entry)
    assert isinstance(found, TypedValue)
    assert found.value is not None
    return found.value


def test_all_fifty_quantities_are_there_in_the_order_of_the_bench() -> None:
    ids = list(CATALOGUE)
    assert len(ids) == 50
    assert (ids[0], ids[-1]) == ("mains_v", "touch_current")
    assert {
        "focus_coil_r",
        "radial_coil_r",
        "c1_inner",
        "c1_middle",
        "c1_outer",
        "tilt_rad",
        "tilt_tan",
    } <= set(ids)


@pytest.mark.parametrize("quantity", CATALOGUE.values(), ids=list(CATALOGUE))
def test_each_reads_its_own_example_and_shows_it_again(quantity: Quantity) -> None:
    found = read_value(str(quantity.example), quantity.entry)
    assert isinstance(found, TypedValue)
    assert said(quantity.shown(found.value)) == said(found.measure)
    assert quantity.words
    for window in quantity.windows:
        for end in (window.limit.low, window.limit.high):
            assert end is None or quantity.low <= quantity.unit.to_shown(end) <= quantity.high


def test_only_what_is_taken_from_outside_leaves_the_case_shut() -> None:
    outside = {one for one, quantity in CATALOGUE.items() if not quantity.inside}
    assert outside == {
        "mains_v", "unit_power", "load_time", "leadin_time", "seek_time", "audio_level", "audio_balance",
        "pe_resistance", "insulation", "pe_current", "touch_current",
    }  # fmt: skip


def test_one_arrangement_is_not_asked_for_the_others_quantities() -> None:
    wobble, sled, seek = CATALOGUE["wobble_amp"], CATALOGUE["sled_current"], CATALOGUE["seek_time"]
    assert wobble.fits(Arrangement.SWING_ARM)
    assert not wobble.fits(Arrangement.SLED)
    assert sled.fits(Arrangement.SLED)
    assert wobble.fits(None)  # the arrangement is not known yet
    assert seek.fits(Arrangement.SLED)


def test_nothing_is_offered_above_the_rung_reached() -> None:
    assert not CATALOGUE["seek_time"].readable(9)
    assert CATALOGUE["seek_time"].readable(10)
    assert CATALOGUE["focus_coil_r"].readable(0)


def test_the_usual_window_may_depend_on_the_arrangement() -> None:
    seek = CATALOGUE["seek_time"]
    windows = [seek.window(a) for a in (Arrangement.SWING_ARM, Arrangement.SLED, None)]
    assert [None if w is None else said(seek.limit_words(w)) for w in windows] == [
        "at most 1.5 s",
        "at most 4 s",
        None,
    ]
    assert CATALOGUE["mains_v"].window(None) is None
    assert CATALOGUE["driver_temp"].window(None) == Limit(None, D(70))


@pytest.mark.parametrize(
    ("one", "words"),
    [
        ("hf_eye", "0.8 Vpp to 1.4 Vpp"),
        ("dropout_passed", "at least 0.5 mm"),
        ("laser_rel", "90 % to 115 %"),
        ("jitter", "at most 35 ns"),
        ("focus_offset", "−50 mV to 50 mV"),
    ],
)
def test_limits_are_said_in_the_unit_shown(one: str, words: str) -> None:
    quantity = CATALOGUE[one]
    limit = quantity.window(None)
    assert limit is not None
    assert said(quantity.limit_words(limit)) == words


def test_a_bench_day_is_judged_as_worked_by_hand() -> None:
    # Common practice, no source: job of a swing-arm player that stalls on a long seek.
    day = {
        "laser_current": ("51.2", Limit(None, D("0.0576")), "within"),
        "hf_eye": ("1.08", CATALOGUE["hf_eye"].window(None), "within"),
        "focus_offset": ("12", CATALOGUE["focus_offset"].window(None), "within"),
        "radial_offset": ("-38", CATALOGUE["radial_offset"].window(None), "within"),
        "radial_drive": ("228", CATALOGUE["radial_drive"].window(None), "within"),
        "c1_inner": ("12", CATALOGUE["c1_inner"].window(None), "within"),
        "rail_dc": ("7.96", Limit(D("7.60"), D("8.40")), "within"),
        "seek_time": ("4.8", CATALOGUE["seek_time"].window(Arrangement.SWING_ARM), "outside"),
    }
    for one, (text, limit, word) in day.items():
        quantity = CATALOGUE[one]
        assert limit is not None
        value = typed(quantity, text)
        assert SAY(judge(value, quantity.uncertainty([value]).u, limit).short) == word, one
    start = CATALOGUE["arm_start_current"]
    found = start.uncertainty([typed(start, text) for text in ("28.4", "30.4", "32.4")])
    assert float(found.u) == pytest.approx(0.0013015, abs=5e-8)
    verdict = judge(found.value, found.u, Limit(None, D("0.030")))
    assert verdict.probability == pytest.approx(0.379, abs=5e-4)
    assert said(start.rounded(found.value)) == "30.4 mA"


def test_words_with_what_tells_one_rail_from_another() -> None:
    rail = CATALOGUE["rail_dc"]
    assert rail.asks_name
    assert said(rail.named("+8 V")) == "supply rail, +8 V"
    assert said(rail.named("")) == "supply rail"


def test_bounds_and_open_circuits_are_shown_as_such() -> None:
    assert said(CATALOGUE["insulation"].shown(D("1E+8"), Bound.MORE)) == "more than 100 MΩ"
    assert said(CATALOGUE["focus_coil_r"].shown(None, Bound.OPEN)) == "open"
    assert CATALOGUE["focus_coil_r"].open_circuit
    assert CATALOGUE["insulation"].mains_classes == (MainsClass.I, MainsClass.II)


def test_each_kind_of_uncertainty_is_read_in_si() -> None:
    assert CATALOGUE["laser_current"].model == Accuracy(D(1), D(0), D("0.0002"))
    assert CATALOGUE["driver_temp"].model == Fixed(D("1.5"))
    assert CATALOGUE["speed"].model == Fixed(D(0), D("0.01"))
    assert CATALOGUE["c1_outer"].model == Counted()
    assert isinstance(CATALOGUE["laser_rel"].model, Propagated)
    assert CATALOGUE["laser_rel"].worked_out
    assert not CATALOGUE["laser_current"].worked_out
    assert CATALOGUE["focus_offset"].repeatability.size == D("0.002")
    assert CATALOGUE["seek_time"].repeats == 5


def _changed(**more: Any) -> list[dict[str, Any]]:
    return [{**SHIPPED[0], **more}]


@pytest.mark.parametrize(
    ("rows", "what"),
    [
        (lambda: _changed(unit="furlong"), "the unit is not known"),
        (lambda: _changed(range=["1"]), "range needs its two ends"),
        (lambda: _changed(range=["1", "x"]), "end is no number in quotes"),
        (lambda: _changed(example="300"), "the example lies outside the range"),
        (lambda: _changed(needs=13), "needs is no whole number from 0 to 12"),
        (lambda: _changed(limits=[{"arrangement": "B", "source": "x"}]), "a limit needs a low or a high end, the right way round"),
        (
            lambda: _changed(limits=[{"arrangement": "B", "low": "2", "high": "1", "source": "x"}]),
            "a limit needs a low or a high end, the right way round",
        ),
        (lambda: _changed(model={"percent": "-1", "digits": "0", "step": "1"}), "percent is below 0"),
        (lambda: _changed(model={"u": "1", "step": "1"}), "nobody knows step"),
        (lambda: _changed(repeatability={}), "share is missing"),
        (lambda: _changed(classes=["III"]), "classes are I and II"),
        (lambda: _changed(colour="red"), "nobody knows colour"),
        (lambda: [SHIPPED[0], SHIPPED[0]], "the id mains_v stands there twice"),
        (lambda: "nothing", "quantities is no list"),
    ],
)  # fmt: skip
def test_data_that_cannot_be_right_are_refused(rows: Callable[[], object], what: str) -> None:
    with pytest.raises(Refusal) as refused:
        catalogue_of(rows())
    sentence = refused.value.sentence.values["what"]
    assert isinstance(sentence, Sentence)
    assert SAY(sentence) == what


def test_what_decides_over_safety_is_read_as_it_stands_and_never_as_a_mean() -> None:
    assert CATALOGUE["arm_start_current"].entry.repeats == 10
    assert CATALOGUE["pe_resistance"].entry.repeats == 1
    assert CATALOGUE["insulation"].entry.repeats == 1
