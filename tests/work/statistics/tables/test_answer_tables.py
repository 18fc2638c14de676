"""Every answer as tables: on a small past, and with nothing in the book."""

from __future__ import annotations

import math
from datetime import date
from decimal import Decimal

import pytest

from app.book import tables as t
from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import CauseFound, Left, Moment, Outcome, TrialOutcome
from app.trade.money import Money
from app.trade.office.guarantee import Answer
from app.trade.sentence import Measure, Sentence
from app.trade.statistics.comebacks import By
from app.trade.statistics.definition import Followed
from app.work.statistics.question import Question
from app.work.statistics.questions import ANSWERS
from app.work.statistics.shop import AgeRow
from app.work.statistics.tables.answer_tables import tables_of
from app.work.statistics.tables.over_time import quarter_words
from app.work.statistics.tables.shop import age_words
from tests.work.past import DAY


def tables(past, name, **asked):
    return tables_of(ANSWERS[name](past.shop.book, Question(**asked)))


def cells(table, *keys):
    """The cells of the columns asked for, line by line; sentences by their English."""
    places = [[column.key for column in table.columns].index(key) for key in keys]
    return [tuple(_plain(line.cells[at]) for at in places) for line in table.lines]


def _plain(cell):
    return cell.key.format(**cell.values) if isinstance(cell, Sentence) else cell


@pytest.fixture
def two_types(past):
    """Velk A1: 6 of 12 came back, once confirmed and once denied; Grellin S1: none of 12, one too young."""
    with past.at_once():
        for name, back in (("Velk A1", 6), ("Grellin S1", 0)):
            for at in range(12):
                unit = past.unit(transport=name)
                job = past.job(unit, 870 + at, 860 + at)
                if at < back:
                    past.job(
                        unit,
                        820 + at,
                        comeback="confirmed" if at == 0 else None,
                        comeback_of_id=job if at == 0 else None,
                    )
        past.job(past.unit(transport="Grellin S1"), 30, 20)
        past.job(past.unit(transport="Grellin S1"), 930, 920, outcome=Outcome.DECLINED)
    return past


@pytest.mark.parametrize("name", list(ANSWERS))
def test_an_empty_book_has_tables_without_a_line_or_none(past, name):
    for table in tables(past, name):
        assert name == "shop"  # work in hand is none, and says so
        assert cells(table, "count") == [(0,)] * 4


@pytest.mark.parametrize("name", list(ANSWERS))
@pytest.mark.parametrize("by", [By.TRANSPORT_TYPE, By.MODIFICATION])
def test_lines_fit_their_columns_have_keys_of_their_own_and_no_number_that_is_none(two_types, name, by):
    found = tables(two_types, name, by=by)
    assert found
    for table in found:
        keys = [line.key for line in table.lines]
        assert len(keys) == len(set(keys))
        assert all(len(line.cells) == len(table.columns) for line in table.lines)
        numbers = [cell for line in table.lines for cell in line.cells if isinstance(cell, float)]
        assert all(math.isfinite(number) for number in numbers)


def test_rates_stand_with_their_interval_and_what_may_be_said(two_types):
    rates, counted, pairs = tables(two_types, "comeback-rate")
    assert cells(rates, "name", "came_back", "could", "share", "verdict") == [
        ("Velk A1", 6, 12, 0.5, "more often"),
        ("Grellin S1", 0, 12, 0.0, "less often"),
    ]
    assert rates.lines[0].cells[8] == pytest.approx(0.0137, abs=1e-3)  # two-sided exact test, scipy's own p
    assert cells(
        counted, "handed_back", "too_young", "not_counted", "came_back", "confirmed", "undecided"
    ) == [
        (12, 0, 0, 6, 1, 5),
        (14, 1, 1, 0, 0, 0),
    ]
    assert len(counted.lines[0].jobs) == 6
    assert cells(pairs, "first", "second", "difference", "apart") == [
        ("Velk A1", "Grellin S1", 0.5, "yes, on their own")
    ]
    assert len(pairs.lines[0].jobs) == 24


def test_a_small_group_is_faint_and_one_that_waits_says_so(past):
    past.job(past.unit(), 900, 890)
    past.job(past.unit(transport="Grellin S1"), 30, 20)
    rates = tables(past, "comeback-rate")[0]
    assert cells(rates, "name", "share", "low", "verdict", "p") == [
        ("Velk A1", 0.0, 0.0, "too few to say", None),
        ("Grellin S1", None, None, "watched too short", None),
    ]
    assert [line.faint for line in rates.lines] == [True, True]


def test_two_groups_alike_cannot_be_told_apart(two_types):
    with two_types.at_once():
        for _ in range(10):
            two_types.job(two_types.unit(transport=None), 900, 890)
    pairs = tables(two_types, "comeback-rate")[2]
    assert cells(pairs, "apart")[-1] == ("cannot tell",)


def test_how_long_repairs_last_with_those_still_watched(two_types):
    groups, at_risk = tables(two_types, "how-long", window=30)
    assert cells(groups, "name", "n", "came_back") == [("Grellin S1", 13, 0), ("Velk A1", 12, 6)]
    (_, (median, earliest, latest)) = cells(groups, "median", "earliest", "latest")
    assert median is not None  # half of them came back
    assert latest is None or earliest <= median <= latest
    assert at_risk.lines[0].cells[:2] == ("Grellin S1", 13)
    assert [column.least_wanted for column in at_risk.columns[-1:]] == [0]


def test_three_groups_are_compared_in_pairs(two_types):
    with two_types.at_once():
        for _ in range(10):
            two_types.job(two_types.unit(transport=None), 900, 890)
    pairs = tables(two_types, "how-long")[2]
    assert len(pairs.lines) == 3
    assert all(0 <= line.cells[4] <= 1 for line in pairs.lines)


@pytest.mark.parametrize(
    ("followed", "what", "named"),
    [(Followed.UNIT, "Players", "Player"), (Followed.TRANSPORT, "Transports", "Transport type")],
)
def test_those_that_keep_coming(two_types, followed, what, named):
    groups, most = tables(two_types, "keep-coming", followed=followed)
    assert groups.columns[1].name.key == what
    assert cells(groups, "name", "units", "visits") == [("Grellin S1", 14, 0), ("Velk A1", 12, 6)]
    assert most.columns[0].name.key == named
    assert cells(most, "visits") == [(2,)] * 6
    assert len(most.lines[0].jobs) == 2


def test_quarters_and_trend_tests(two_types):
    quarters, tests = tables(two_types, "over-time")
    assert cells(quarters, "quarter", "came_back", "could", "stands") == [
        ("Quarter 4 of 2023", 6, 24, "within the limits")
    ]
    assert quarters.lines[0].key == "2023-10-01"
    assert cells(tests, "test") == [("Laplace",), ("MIL-HDBK-189",)]
    assert {points for (points,) in cells(tests, "points")} <= {"more comebacks", "fewer comebacks"}


def test_a_quarter_without_a_repair_and_one_outside_the_limits_say_so(past):
    with past.at_once():
        for _ in range(60):
            past.job(past.unit(), 900, 890)
        for _ in range(60):
            unit = past.unit()
            past.job(unit, 500, 490)
            past.job(unit, 480)
    stands = [stands for (stands,) in cells(tables(past, "over-time")[0], "stands")]
    assert stands == ["outside the limits", "no repair", "no repair", "no repair", "outside the limits"]
    assert quarter_words(date(2024, 12, 31)).values == {"number": 4, "year": "2024"}


def test_what_fails_and_what_cured_it(two_types, add):
    job = two_types.job(two_types.unit(), 300, 290, group=FaultGroup.LIGHT, cause=CauseFound.DIRT)
    add(
        *(
            t.Trial(
                job_id=job,
                number=number,
                change="lens_clean",
                words="lens cleaned",
                outcome=TrialOutcome.CURED,
                left=Left.LEFT_SO,
                rung_before=before,
                at=two_types.at(291),
                by=two_types.shop.tobbe,
            )
            for number, before in ((1, 4), (2, 12))
        )
    )
    groups, causes, of_types, _, cures = tables(two_types, "what-fails")
    assert cells(groups, "found", "count") == [("radial", 26), ("light", 1)]
    assert groups.lines[1].jobs == (job,)
    assert ("Velk A1", "light", 1) in cells(of_types, "name", "found", "count")
    assert ("dirt or film", 1) in cells(causes, "found", "count")
    assert len(tables(two_types, "what-fails", transport_type="Velk A1")) == 3
    stopped = [line.cells[0] for line in cures.lines]
    assert stopped[0].values["number"] == 5
    assert stopped[1].key == "played to the end"


def test_a_change_of_ours_against_standard_repairs_and_its_readings(two_types, add):
    unit = two_types.unit()
    job = two_types.job(unit, 900, 890)
    two_types.modification(unit, job, 895)
    own = {"job_id": job, "transport_id": 27, "quantity": "laser_current", "typed": "50", "unit": "A"}
    own |= {"moment": Moment.FINAL, "by": two_types.shop.tobbe}
    add(*(t.Reading(**own, value=value, at=two_types.at(day)) for value, day in ((0.05, 895), (0.06, 891))))
    kinds, readings = tables(two_types, "after-modification")
    assert cells(kinds, "kind", "n", "could", "like") == [
        ("other non-standard change", 1, 1, 12),
        ("standard repair like these", 12, 12, None),
        ("standard repair", 25, 24, None),
    ]
    assert cells(readings, "transport", "quantity", "count", "first", "last") == [
        ("Velk A1", "laser current", 2, Measure(Decimal("50.0"), "mA"), Measure(Decimal("60.0"), "mA"))
    ]


def test_what_guarantee_work_and_unrepaired_jobs_cost(two_types, add):
    job = two_types.job(two_types.unit(), 300, 290)
    add(
        t.Labour(
            job_id=job,
            words="arm freed",
            hours=2_000_000,
            rate=60_000_000,
            vat_rate=1900,
            at=two_types.at(291),
            by=two_types.shop.tobbe,
        ),
        t.GuaranteeAnswer(
            job_id=job,
            former_job_id=job,
            answer=Answer.NO_CHARGE,
            at=two_types.at(291),
            by=two_types.shop.ine,
        ),
    )
    guarantee, unrepaired = tables(two_types, "cost")
    assert cells(guarantee, "name", "count", "hours", "lost") == [
        ("Velk A1", 1, Decimal(2), Money(12_000, "EUR"))
    ]
    assert cells(unrepaired, "outcome", "count", "median", "days") == [
        ("declined", 1, Decimal(0), Decimal(10))
    ]


def test_the_shop_with_its_short_tables_first(two_types, add):
    two_types.job(two_types.unit(), 40, 30, promised_on=date(2026, 2, 1), ready_at=two_types.at(30))
    two_types.job(two_types.unit(), 3)
    stay, promises, in_hand, *_, weeks = tables(two_types, "shop")
    assert cells(stay, "what", "n")[0] == ("in the shop", 27)
    assert cells(promises, "what", "count", "share")[1] == ("ready later than promised", 1, 1.0)
    assert promises.lines[1].jobs
    assert cells(in_hand, "age", "count")[0] == ("in the last 7 days", 1)
    assert cells(in_hand, "age")[1] == ("8 to 30 days ago",)
    assert (weeks.lines[0].cells[0] - weeks.lines[1].cells[0]) == 7 * DAY
    assert age_words(AgeRow(91, None, 0, ())).key == "{least} days ago and more"
