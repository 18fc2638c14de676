"""The reference by which a transfer finds its invoice."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum import iso11649 as oracle

from app.trade.office.creditor_reference import creditor_reference, is_creditor_reference
from app.trade.office.numbers import invoice_number


def test_the_example_of_the_standard() -> None:
    """ISO 11649's commonly published example (also python-stdnum's)."""
    assert creditor_reference("539007547034") == "RF18539007547034"
    assert is_creditor_reference("RF18 5390 0754 7034")
    assert not is_creditor_reference("RF19 5390 0754 7034")
    assert not is_creditor_reference("invoice 12")


@given(st.sampled_from(["", "R", "AB12C3"]), st.integers(1, 999_999_999))
def test_every_invoice_number_has_a_reference_that_another_program_takes(series: str, number: int) -> None:
    """Library oracle: python-stdnum's ISO 11649."""
    reference = creditor_reference(invoice_number(series, number))
    assert oracle.is_valid(reference)
    assert is_creditor_reference(reference)
    assert reference.endswith(f"{number:04d}")


@pytest.mark.parametrize("number", ["", "-", "9" * 22])
def test_what_no_reference_can_hold_is_refused(number: str) -> None:
    with pytest.raises(ValueError, match="no creditor reference"):
        creditor_reference(number)
