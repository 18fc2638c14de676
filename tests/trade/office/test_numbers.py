"""Job codes, invoice numbers and gapless series."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.office.numbers import (
    gaps_in,
    invoice_number,
    job_code,
    read_invoice_number,
    read_job_number,
)


@given(st.integers(1, 999_999_999))
def test_a_job_code_reads_back(number: int) -> None:
    assert read_job_number(job_code(number)) == number
    assert read_job_number(str(number)) == number


def test_a_typed_job_number_may_come_with_or_without_its_letter() -> None:
    assert read_job_number(" j 2131 ") == 2131
    for text in ("0142", "", "J", "21 31", "2131a", "-5", "٢"):
        assert read_job_number(text) is None


@given(st.sampled_from(["", "R", "AB2", "GUT"]), st.integers(1, 999_999))
def test_an_invoice_number_reads_back(series: str, number: int) -> None:
    assert read_invoice_number(invoice_number(series, number)) == (series, number)


def test_two_series_never_print_the_same_number() -> None:
    assert invoice_number("R1", 23) == "R1-0023"
    assert invoice_number("R", 123) == "R-0123"
    assert invoice_number("", 41_200) == "41200"
    assert read_invoice_number("r-412") == ("R", 412)
    for text in ("", "R-", "0000", "R-0", "2026-0412", "R 412"):
        assert read_invoice_number(text) is None


def test_no_job_and_no_invoice_is_number_nought() -> None:
    with pytest.raises(ValueError):
        job_code(0)
    with pytest.raises(ValueError):
        invoice_number("R", 0)


def test_a_gap_and_a_double_are_named() -> None:
    assert gaps_in([]) is None
    assert gaps_in([3, 1, 2]) is None
    assert gaps_in([1002, 1001], first=1001) is None
    missing = gaps_in([1, 2, 4])
    assert missing is not None
    assert missing.values == {"number": 3}
    double = gaps_in([1, 2, 2, 3])
    assert double is not None
    assert double.values == {"number": 2}
    assert "twice" in double.key
