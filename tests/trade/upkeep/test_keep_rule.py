"""Which backups stay: tables of dates, and random histories with clocks that jump."""

from __future__ import annotations

import itertools
import os
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.trade.upkeep.keep_rule import APART, DAILY, MONTHLY, WEEKLY, BackupMade, due, kept, thinned

NOW = datetime(2026, 11, 26, 12, 0, tzinfo=UTC)
BERLIN = ZoneInfo("Europe/Berlin")
MANY = 10_000 if os.environ.get("SPINDLEBOOK_LONG") == "1" else 500


def made(text: str, *, verified: bool = True, history: int = 0) -> BackupMade:
    return BackupMade(text, datetime.fromisoformat(text).replace(tzinfo=UTC), history, verified)


def names(*backups: BackupMade, now: datetime = NOW) -> set[str]:
    return set(kept(backups, now, UTC))


def test_everything_of_today_and_yesterday_stays() -> None:
    all_of_it = [made(f"2026-11-{day}T{hour:02d}:00") for day in (25, 26) for hour in range(12)]
    assert names(*all_of_it) == {backup.name for backup in all_of_it}


def test_before_that_the_newest_of_each_day_stays() -> None:
    backups = [made(f"2026-11-{day}T{hour}:00") for day in (22, 23, 24) for hour in ("09", "17")]
    assert names(*backups) == {f"2026-11-{day}T17:00" for day in (22, 23, 24)}


def test_a_day_begins_at_midnight_in_the_shop() -> None:
    # 23:30 UTC on the 23rd is 00:30 of the 24th in Berlin: the same day as noon of the 24th.
    late, noon = made("2026-11-23T23:30"), made("2026-11-24T11:00")
    assert kept([late, noon], NOW, UTC) == {late.name, noon.name}
    assert kept([late, noon], NOW, BERLIN) == {noon.name}


@pytest.mark.parametrize("hour", [4, 12, 23])
def test_a_backup_a_day_thins_to_twelve_days_ten_weeks_nine_months(hour: int) -> None:
    backups: list[BackupMade] = []
    now = NOW.replace(hour=hour) - timedelta(days=800)
    for _ in range(800):
        now += timedelta(days=1)
        backups.append(BackupMade(now.isoformat(), now))
        stay = kept(backups, now, UTC)
        backups = [b for b in backups if b.name in stay]
    days = [(now.date() - b.taken.date()).days for b in backups]
    days.sort()
    assert days[:14] == list(range(14))  # today, yesterday, and twelve days before
    assert len(days) == 2 + DAILY + WEEKLY + MONTHLY
    weekly = days[14 : 14 + WEEKLY]
    assert all(6 <= b - a <= 8 for a, b in itertools.pairwise(weekly))
    monthly = days[14 + WEEKLY :]
    assert all(21 <= b - a <= 38 for a, b in itertools.pairwise(monthly))
    assert monthly[-1] > 300


def test_weeks_of_the_turn_of_the_year_are_iso_weeks() -> None:
    # 31 Dec 2020 and 2 Jan 2021 lie in the same ISO week 2020-W53.
    daily = [made(f"2021-02-{day:02d}T12:00") for day in range(1, 13)]
    weekly = [made("2020-12-31T12:00"), made("2021-01-02T12:00")]
    stay = kept([*daily, *weekly], datetime(2021, 2, 20, tzinfo=UTC), UTC)
    assert {b.name for b in weekly} & stay == {"2021-01-02T12:00"}


def test_a_backup_that_did_not_verify_takes_nobodys_place() -> None:
    good, bad = made("2026-11-20T09:00"), made("2026-11-20T17:00", verified=False)
    newest = made("2026-11-21T09:00")
    assert names(good, bad, newest) == {good.name, newest.name}


def test_the_newest_and_the_last_verified_are_never_deleted() -> None:
    verified = made("2026-01-05T09:00", history=10)
    broken = [made(f"2026-02-{day:02d}T09:00", verified=False, history=10 + day) for day in range(1, 20)]
    stay = names(verified, *broken)
    assert stay == {verified.name, broken[-1].name}


def test_a_clock_put_back_loses_nothing() -> None:
    # Made under a clock that ran a year behind: oldest by its time, newest by the history in it.
    ahead = [made(f"2026-11-{day:02d}T09:00", history=day) for day in range(1, 25)]
    behind = made("2025-11-26T09:00", history=99)
    older_days = [made(f"2025-11-{day}T09:00", history=1) for day in (27, 28)]
    assert behind.name in names(*ahead, *older_days, behind)
    in_the_past = datetime(2025, 11, 26, 12, 0, tzinfo=UTC)
    assert names(*ahead, behind, now=in_the_past) == {b.name for b in (*ahead, behind)}


def test_a_clock_that_jumps_ahead_thins_no_more_than_days_going_by() -> None:
    backups = [made(f"2026-11-{day:02d}T09:00", history=day) for day in range(10, 25)]
    stay = names(*backups, now=datetime(2046, 1, 1, tzinfo=UTC))
    assert {f"2026-11-{day:02d}T09:00" for day in range(13, 25)} <= stay


def test_what_may_go_is_named_oldest_first() -> None:
    backups = [made(f"2026-11-23T{hour:02d}:00") for hour in (9, 8, 10)]
    assert [b.name for b in thinned(backups, NOW, UTC)] == ["2026-11-23T08:00", "2026-11-23T09:00"]


def test_without_backups_nothing_stays() -> None:
    assert kept([], NOW, UTC) == frozenset()
    assert thinned([], NOW, UTC) == ()


@pytest.mark.parametrize(
    ("last", "history", "is_due"),
    [
        (None, 0, True),
        (made("2026-11-26T10:59", history=5), 5, False),
        (made("2026-11-26T10:59", history=5), 6, True),
        (made("2026-11-26T11:00", history=5), 6, True),
        (made("2026-11-26T11:01", history=5), 6, False),
        (made("2026-11-26T11:01", history=5), 5, False),
        (made("2026-11-26T12:30", history=5), 6, True),  # the clock was put back
        (made("2026-11-26T12:30", history=5), 5, False),
        (made("2026-11-26T10:00", history=9), 5, True),  # an older book was restored
    ],
)
def test_a_backup_is_due_when_something_changed_and_an_hour_has_passed(
    last: BackupMade | None, history: int, is_due: bool
) -> None:
    assert due(last, history, NOW) is is_due


STEPS = st.lists(
    st.tuples(
        st.sampled_from([1, 10, 40, 61, 300, 1440, 2000, 10_080, 45_000, -30, -1440, -500_000]), st.booleans()
    ),
    min_size=1,
    max_size=40,
)
ZONES = st.sampled_from(["UTC", "Europe/Berlin", "Pacific/Kiritimati", "America/New_York", "Pacific/Apia"])


@settings(max_examples=MANY, deadline=None)
@given(STEPS, ZONES)
def test_no_history_of_clocks_loses_the_newest_or_the_last_verified(
    steps: list[tuple[int, bool]], zone: str
) -> None:
    now, history = NOW, 0
    held: list[BackupMade] = []
    last: BackupMade | None = None
    for minutes, verified in steps:
        now += timedelta(minutes=minutes)
        history += 1
        if not due(last, history, now):
            continue
        if last is not None and minutes > 0 and now >= last.taken:
            assert now - last.taken >= APART  # no storm while the clock runs on
        last = BackupMade(f"{history}", now, history, verified)
        held.append(last)
        stay = kept(held, now, ZoneInfo(zone))
        held = [backup for backup in held if backup.name in stay]
        assert last in held
        assert kept(held, now, ZoneInfo(zone)) == stay  # thinning again at the same moment deletes nothing
        if any(b.verified for b in held):
            best = max((b for b in held if b.verified), key=lambda b: b.history_length)
            assert best.name in stay
        settled = [b for b in held if b.taken <= now - timedelta(days=3)]
        assert len(settled) <= DAILY + WEEKLY + MONTHLY + 4
