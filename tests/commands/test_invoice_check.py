"""``invoice-check`` as typed: what it says and how it ends."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from app.commands.main import main
from app.papers.e_invoice_xml import e_invoice_xml
from app.trade.money import Money
from tests.papers.e_invoice_story import CASES


def obey(*words: object, language: str = "en") -> int:
    return main(["invoice-check", *map(str, words)], None, environment={"LANG": language})  # type: ignore[arg-type]


def test_right_sums_end_with_nought_and_need_no_book(tmp_path: Path, capsys: Any) -> None:
    path = tmp_path / "a.xml"
    path.write_bytes(e_invoice_xml(CASES["several rates"]))
    assert obey(path) == 0
    said = capsys.readouterr().out.splitlines()
    assert said[0] == "Invoice R-0412, EUR"
    assert said[1:3] == ["good   BR-05     currency (BT-5)", "good   BR-CO-10  sum of the lines (BT-106)"]
    assert "good   BR-CO-17  VAT of 19 % (BT-117)" in said
    assert said[-1] == "The sums are right."


def test_a_wrong_sum_ends_with_one_and_names_the_rule(tmp_path: Path, capsys: Any) -> None:
    path = tmp_path / "a.xml"
    path.write_bytes(e_invoice_xml(replace(CASES["credit note"], vat=Money(14, "EUR"))))
    assert obey(path) == 1
    said = capsys.readouterr().out.splitlines()
    assert said[0] == "Credit note R-0412, EUR"
    assert "wrong  BR-CO-14  sum of the VAT (BT-110)" in said
    assert "BR-CO-14: the sum of the VAT (BT-110) comes to 0.13, the invoice says 0.14." in said
    assert "The sums are right." not in said


def test_what_is_no_e_invoice_ends_with_one_and_a_sentence(tmp_path: Path, capsys: Any) -> None:
    path = tmp_path / "a.xml"
    path.write_text("hello")
    assert obey(path) == 1
    heard = capsys.readouterr()
    assert heard.out == ""
    assert heard.err == "This is no XML: it cannot be read from line 1 on.\n"


def test_a_file_has_to_be_named(capsys: Any) -> None:
    with pytest.raises(SystemExit) as ended:
        obey()
    assert ended.value.code == 2
    assert "FILE" in capsys.readouterr().err
