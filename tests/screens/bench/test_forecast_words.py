"""What readings foretell, in words."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest

from app.screens import language
from app.screens.bench.forecast_words import forecast_words, three_figures, why_facts
from app.trade.bench.forecast import forecast
from app.trade.bench.stages import Moment
from app.trade.sentence import Sentence
from app.trade.wording import plain
from app.work.bench.life_curves import LifeCurve
from app.work.bench.transport_life import LifeReading

ZONE = ZoneInfo("Europe/Berlin")
FIRST = datetime(2019, 3, 4, 9, 0, tzinfo=UTC)
TODAY = date(2026, 11, 25)
RISE = (
    (0, "47.6"),
    (580, "49.0"),
    (1170, "50.6"),
    (1309, "50.5"),
    (1808, "52.3"),
    (2740, "55.6"),
    (2820, "56.0"),
)
UNSTEADY = ((0, "47.6"), (600, "49.9"), (1200, "49.4"), (1800, "52.0"), (2400, "51.6"))


@pytest.fixture(autouse=True)
def english() -> None:
    language.use(plain(ZONE))


def curve(
    pairs: tuple[tuple[int, str], ...],
    high: str | None = "57.6",
    low: str | None = None,
    parted: tuple[datetime, Sentence] | None = None,
) -> LifeCurve:
    ends = tuple(Decimal(end) if end is not None else None for end in (low, high))
    name = Sentence("laser current")
    readings = tuple(
        LifeReading(
            i, "laser_current", "", name, FIRST + timedelta(days=day), Decimal(value), Decimal("0.3"), "mA",
            *ends, "service document, p. 12", None, Moment.FINAL, False, 1, 1001,
        )
        for i, (day, value) in enumerate(pairs)
    )  # fmt: skip
    found = forecast([r.at.date() for r in readings], [r.value for r in readings], *ends)
    return LifeCurve(
        "laser_current", "", name, "mA", readings, found, *ends, "service document, p. 12", *(parted or (None, None))
    )  # fmt: skip


def told(of: LifeCurve, today: date = TODAY) -> str:
    return forecast_words(of, today, ZONE).replace("\u00a0", " ")


def test_a_rise_towards_the_limit_is_told_with_both_ends() -> None:
    assert told(curve(RISE)) == (
        "56.0 mA, rising by 1.10 mA a year. At this pace it crosses the limit of 57.6 mA around August 2028, "
        "between June 2027 and January 2030 (95 %)."
    )


def test_a_band_that_meets_the_limit_already_begins_today() -> None:
    words = told(curve(RISE), date(2027, 9, 10))
    assert "between today and" in words
    assert "has crossed the limit of 57.6 mA around August 2028" in told(curve(RISE), date(2029, 1, 10))


def test_an_open_late_end_is_said_to_be_open() -> None:
    words = told(curve(UNSTEADY, "55"), date(2025, 10, 10))
    assert "not before" in words
    assert words.endswith("how late, these readings do not say.")


@pytest.mark.parametrize(
    ("of", "begins"),
    [
        (curve(RISE[:3]), "Too few readings to say: 3 of the 4 that a trend needs."),
        (curve(tuple((3, value) for _, value in RISE)), "Too little time to say: all 7 readings are of one day."),
        (
            curve(((0, "50.1"), (300, "50.4"), (700, "49.9"), (1100, "50.2"), (1500, "50.0"))),
            "No trend shown: the 5 readings agree with a level line (−0.242 mA to +0.160 mA a year, 95 %).",
        ),
        (curve(RISE, None), "56.0 mA, rising by 1.10 mA a year. No limit lies ahead of it."),
        (curve(RISE, "51"), "56.0 mA, rising by 1.10 mA a year. It crossed the limit of 51 mA around "),
        (
            curve(RISE, "40"),
            "56.0 mA, rising by 1.10 mA a year. It lies beyond the limit of 40 mA from the first reading on.",
        ),
        (
            curve(RISE, "80"),
            "56.0 mA, rising by 1.10 mA a year. At this pace it keeps its limit of 80 mA until August 2034; ",
        ),
        (
            curve(tuple((day, str(100 - Decimal(value))) for day, value in RISE), None, "42.4"),
            "44.0 mA, falling by 1.10 mA a year. At this pace it crosses the limit of 42.4 mA around August 2028",
        ),
    ],
)  # fmt: skip
def test_every_other_state_has_its_sentence(of: LifeCurve, begins: str) -> None:
    assert told(of).startswith(begins)


def test_a_limit_out_of_reach_may_still_be_met_by_the_band() -> None:
    words = told(curve(UNSTEADY, "57.5"), date(2025, 10, 10))
    assert "though it could reach it from" in words
    assert words.endswith("these readings say nothing.")


def test_old_readings_say_nothing_of_today() -> None:
    assert told(curve(RISE, "80"), date(2040, 1, 1)).endswith(
        "Its readings are too old to say anything of today."
    )


def test_too_few_since_a_renewed_part_names_it() -> None:
    parted = (FIRST, Sentence("renewed: {part}", {"part": "pick-up"}))
    assert told(curve(RISE[:1], parted=parted)).endswith("Counted since 4 Mar 2019 (renewed: pick-up).")
    facts = dict(why_facts(curve(RISE, parted=parted), ZONE))
    assert facts["Counted since"].replace("\u00a0", " ") == "4 Mar 2019, renewed: pick-up"


def test_what_a_forecast_rests_on_is_told_with_its_numbers() -> None:
    facts = {word: value.replace("\u00a0", " ") for word, value in why_facts(curve(RISE), ZONE)}
    assert facts["Readings used"] == "7, 4 Mar 2019 to 22 Nov 2026"
    assert facts["Nothing is said after"] == "12 Aug 2034"
    assert set(facts) == {
        "Readings used", "Slope a year (95\u00a0%)", "Scatter around the line", "Nothing is said after",
        "Not in the band",
    }  # fmt: skip
    assert facts["Not in the band"] == "what all readings may be off together, up to ±0.600 mA"
    assert why_facts(curve(RISE[:2]), ZONE) == []


@pytest.mark.parametrize(
    ("value", "shown"), [(0.00001234, "0.0000123"), (12345.0, "12300"), (0.0, "0.00"), (-1.1, "-1.10")]
)
def test_figures_are_written_without_a_power_of_ten(value: float, shown: str) -> None:
    assert str(three_figures(value)) == shown
