"""The paper of a credit note: it is found by its number, with the series and without."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from app.trade.money import MICRO
from app.work.office.credit_notes import issue_credit_note
from app.work.office.invoices import issue_invoice
from app.work.papers.issued import save_issued


@pytest.fixture
def credited(worked: Any) -> Any:
    """One line of an invoice was given back."""
    invoice = issue_invoice(worked.book, worked.who, worked.job).value.id
    issue_credit_note(worked.book, worked.who, invoice, {0: MICRO}, "a mistake")
    return worked


def test_the_series_of_a_credit_note_need_not_be_typed(credited: Any, tmp_path: Path) -> None:
    for number in ("C-0001", "c-1", "1", "0001"):
        saved = save_issued(credited.book, "credit-note", number, tmp_path / "x.pdf")
        assert saved.title == "Credit note C-0001"
