"""The reference by which a transfer finds its invoice."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum import iso11649 as oracle

from app.trade.office.creditor_reference import creditor_reference, numbers_referred
from app.trade.office.numbers import invoice_number


def test_the_example_of_the_standard() -> None:
    """ISO 11649's commonly published example (also python-stdnum's)."""
    assert creditor_reference("539007547034") == "RF18539007547034"
    assert oracle.is_valid("RF18 5390 0754 7034")


def test_a_reference_leads_back_to_the_invoices_that_it_may_be_of() -> None:
    reference = creditor_reference("R2-0001")
    assert numbers_referred(f"{reference[:4]} {reference[4:]}".lower()) == (("R", 20001), ("R2", 1))
    assert numbers_referred(creditor_reference("0412")) == (("", 412),)
    wrong = f"RF{(int(reference[2:4]) + 1) % 100:02}{reference[4:]}"
    assert not oracle.is_valid(wrong)
    for none in (wrong, "RF18539007547034", "invoice 12", "RF", "", "0412"):
        assert numbers_referred(none) == ()


@given(st.sampled_from(["", "R", "AB12C3"]), st.integers(1, 999_999_999))
def test_every_invoice_number_has_a_reference_that_another_program_takes(series: str, number: int) -> None:
    """Library oracle: python-stdnum's ISO 11649."""
    reference = creditor_reference(invoice_number(series, number))
    assert oracle.is_valid(reference)
    assert (series, number) in numbers_referred(reference)
    assert reference.endswith(f"{number:04d}")


@pytest.mark.parametrize("number", ["", "-", "9" * 22])
def test_what_no_reference_can_hold_is_refused(number: str) -> None:
    with pytest.raises(ValueError, match="no creditor reference"):
        creditor_reference(number)
