"""Taking everything out: what never leaves, a folder that cannot be written, and stopping half way."""

from __future__ import annotations

import json
from pathlib import Path

from tests.screens.office.conftest import Office


def test_every_table_is_there_and_no_pin_is(office: Office, tmp_path: Path) -> None:
    out = tmp_path / "out"
    page = office.open("upkeep", "export")
    page.export.start(out)
    office.settle()
    names = {path.name for path in out.iterdir()}
    assert {"staff.csv", "jobs.csv", "history.csv", "book.json"} <= names
    assert "staff" in json.loads((out / "book.json").read_text(encoding="utf-8"))["tables"]
    assert not any("argon2" in path.read_text(encoding="utf-8") for path in out.iterdir())


def test_a_folder_that_cannot_be_written_is_told(office: Office, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    page = office.open("upkeep", "export")
    page.export.start(tmp_path / "file")
    office.settle()
    assert "failed" in page.trouble.words
    assert page.export.words == ""


def test_it_can_be_stopped_and_says_so(office: Office, tmp_path: Path) -> None:
    page = office.open("upkeep", "export")
    page.export.start(tmp_path / "out")
    page.export.progress._stop.click()
    office.settle()
    assert page.export.words == "The export was stopped. What was half written was taken away again."
    assert not (tmp_path / "out" / "book.json").exists()


def test_from_here_one_comes_to_what_the_bookkeeper_gets(office: Office) -> None:
    page = office.open("upkeep", "export")
    office.push(page.export.bookkeeper)
    office.settle()
    assert office.page.title == "For the bookkeeper"
