"""What is owed, by age, and when somebody may be reminded of it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from app.trade.office.owed import BY_AGE, AgeClass, Owed, age_class, pay_anew_by, reminder_refused

DUE = date(2026, 11, 10)


@pytest.mark.parametrize(
    ("late", "age"),
    [
        (-3, AgeClass.NOT_DUE),
        (0, AgeClass.NOT_DUE),
        (1, AgeClass.TO_14),
        (14, AgeClass.TO_14),
        (15, AgeClass.TO_30),
        (30, AgeClass.TO_30),
        (31, AgeClass.TO_60),
        (60, AgeClass.TO_60),
        (61, AgeClass.OLDER),
        (4000, AgeClass.OLDER),
    ],
)
def test_an_invoice_is_as_old_as_its_last_day_to_pay(late: int, age: AgeClass) -> None:
    assert age_class(DUE, DUE + timedelta(days=late)) is age


def test_the_oldest_stands_first() -> None:
    assert BY_AGE[0] is AgeClass.OLDER
    assert BY_AGE[-1] is AgeClass.NOT_DUE


def test_nobody_is_reminded_before_the_day_to_pay_is_over() -> None:
    refused = reminder_refused(Owed(500, DUE), DUE)
    assert refused is not None
    assert refused.values == {"day": DUE}
    assert reminder_refused(Owed(500, DUE), DUE + timedelta(days=1)) is None


@pytest.mark.parametrize("open_", [0, -500])
def test_nobody_is_reminded_of_nothing(open_: int) -> None:
    assert reminder_refused(Owed(open_, DUE), DUE + timedelta(days=40)) is not None


def test_nobody_is_reminded_twice_on_one_day() -> None:
    day = DUE + timedelta(days=20)
    assert reminder_refused(Owed(500, DUE, reminded_on=day), day) is not None
    assert reminder_refused(Owed(500, DUE, reminded_on=day - timedelta(days=1)), day) is None


def test_a_reminder_names_a_new_day() -> None:
    assert pay_anew_by(date(2026, 12, 28), 10) == date(2027, 1, 7)
