"""What the find box shows of what was found, worded."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from app.screens import find_hits
from app.trade.money import Money
from app.work.find.find import Found
from app.work.find.numbered import FoundNumbered
from app.work.papers.kinds import Kind


def test_a_paper_of_money_says_whose_it_is_and_leads_to_its_page(monkeypatch: pytest.MonkeyPatch) -> None:
    on = date(2026, 3, 12)
    found = (
        FoundNumbered(Kind.INVOICE, 1, "R-0412", 7, "Benedikt Arnsvik", on, Money(17850, "EUR")),
        FoundNumbered(Kind.CREDIT_NOTE, 2, "C-0012", 7, "", on, Money(1785, "EUR")),
        FoundNumbered(Kind.ESTIMATE, 3, "0412", 9, "Søren Łukaszewicz", on, None),
    )
    monkeypatch.setattr(find_hits, "find", lambda *_: Found(numbered=found))
    book: Any = None
    invoice, note, estimate = find_hits.hits_of(book, "412")
    assert (invoice.kind, invoice.title, invoice.target) == ("Invoices", "R-0412", ("invoice", 7))
    assert invoice.second.startswith("Benedikt Arnsvik · ")
    assert "178.50" in invoice.second
    assert (note.kind, note.target) == ("Credit notes", ("invoice", 7))  # it stands with what it corrects
    assert note.second.count("·") == 1
    assert (estimate.kind, estimate.target) == ("Estimates", ("estimate", 9))
    assert "2026" in estimate.second
