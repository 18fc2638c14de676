"""``paper``: one issued paper as the PDF that is filed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from app.work.counter.taking_in import receive_unit
from app.work.shop_book import open_shop
from tests.commands.conftest import NOW
from tests.work.counter.test_taking_in import LARCH


def test_a_paper_is_written_where_it_was_asked_for(
    obey: Any, path: Path, shop_template: tuple[Path, dict[str, int]], tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    book = open_shop(path, clock=lambda: NOW)
    receive_unit(book, shop_template[1]["mirr"], LARCH)
    book.close()
    out = tmp_path / "ticket.pdf"
    assert obey("paper", "intake-ticket", "1001", "--to", out) == 0
    assert capsys.readouterr().out == f"Intake ticket 1001 written to {out}\n"
    assert out.read_bytes().startswith(b"%PDF")


def test_what_is_not_there_is_told_and_fails(
    obey: Any, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert obey("paper", "service-report", "2131", "--to", tmp_path / "x.pdf") == 1
    said = capsys.readouterr().err
    assert "No service report with the number 2131 was issued." in said
    assert "Issue it in the window first" in said
    assert obey("paper", "poster", "1", "--to", tmp_path / "x.pdf") == 1
    assert "Kinds: intake-ticket, bench-tag, estimate," in capsys.readouterr().err
