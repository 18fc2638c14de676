"""A file from anywhere looked through: as XML, as PDF, or as neither."""

from __future__ import annotations

import os
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from app.papers.e_invoice import e_invoice
from app.papers.e_invoice_xml import e_invoice_xml
from app.papers.press import printed
from app.trade.money import Money
from app.trade.refusal import Refusal
from app.work.office import e_invoice_check
from app.work.office.e_invoice_check import check_e_invoice
from tests.papers.e_invoice_story import CASES
from tests.papers.story import ENGLISH, LABEL


def test_xml_and_hybrid_pdf_are_looked_through_alike(tmp_path):
    facts = CASES["several rates"]
    xml, pdf = tmp_path / "a.xml", tmp_path / "a.pdf"
    xml.write_bytes(e_invoice_xml(facts))
    made = datetime(2026, 1, 2, tzinfo=UTC)
    pdf.write_bytes(e_invoice(printed(LABEL, ENGLISH), facts, title="x", language="en", issued_at=made))
    checked = check_e_invoice(xml)
    assert checked == check_e_invoice(pdf)
    assert (checked.number, checked.credit_note, checked.currency, checked.broken) == (
        "R-0412",
        False,
        "EUR",
        (),
    )


def test_a_credit_note_is_told_as_one_and_a_wrong_sum_is_named(tmp_path):
    facts = replace(CASES["credit note"], due=Money(1, "EUR"))
    path = tmp_path / "a.xml"
    path.write_bytes(e_invoice_xml(facts))
    checked = check_e_invoice(path)
    assert checked.credit_note
    assert [sentence.values["rule"] for sentence in checked.broken] == ["BR-CO-16"]


def test_a_file_that_is_not_there_a_folder_and_a_pipe_are_none(tmp_path):
    if hasattr(os, "mkfifo"):  # Windows has none
        os.mkfifo(tmp_path / "pipe")
    for name in ("nothing.xml", ".", "pipe"):
        with pytest.raises(Refusal, match="There is no file"):
            check_e_invoice(tmp_path / name)


def test_a_file_that_cannot_be_read_says_why(tmp_path, monkeypatch):
    path = tmp_path / "a.xml"
    path.write_bytes(b"x")

    def denied(self, mode):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(type(path), "open", denied)
    with pytest.raises(Refusal) as told:
        check_e_invoice(path)
    assert told.value.sentence.values["why"] == "Permission denied"


def test_a_file_that_is_too_large_is_not_read_to_its_end(tmp_path, monkeypatch):
    monkeypatch.setattr(e_invoice_check, "MOST_BYTES", 1000)
    path = tmp_path / "a.xml"
    path.write_bytes(b" " * 1001)
    with pytest.raises(Refusal, match="larger than"):
        check_e_invoice(path)
