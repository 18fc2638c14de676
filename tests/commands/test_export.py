"""``export``: everything, or what the bookkeeper gets."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import pytest

from app.trade.sentence import Sentence


def test_an_export_says_where_it_went(obey: Any, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert obey("export", "--to", tmp_path / "out") == 0
    assert f"files written to {tmp_path / 'out'}" in capsys.readouterr().out
    assert json.loads((tmp_path / "out" / "book.json").read_text())["tables"]["staff"]


def test_the_bookkeeper_gets_journal_and_papers_of_the_month_before(
    obey: Any, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert obey("export", "--to", out, "--for-bookkeeper") == 0
    shown = capsys.readouterr()
    assert "0 invoices and credit notes as PDF" in shown.out
    assert "Taken less given back: 0.00" in shown.out
    assert shown.err == ""  # how far it is stands on a terminal only
    assert len(list(out.glob("journal_*-01_*.csv"))) == 1
    assert (out / "journal_columns.csv").read_text(encoding="utf-8-sig").startswith("column,meaning")


def test_the_bookkeepers_days_and_decimal_comma_can_be_named(obey: Any, tmp_path: Path) -> None:
    words = ("--for-bookkeeper", "--from", "2026-01-05", "--until", "2026-01-31", "--decimal-comma")
    assert obey("export", "--to", tmp_path, *words) == 0
    (journal,) = tmp_path.glob("journal_2026-01-05_2026-01-31.csv")
    assert journal.read_text(encoding="utf-8-sig").startswith("date;kind;number")


def test_half_a_period_is_asked_for_and_what_is_no_day_is_wrong_usage(
    obey: Any, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert obey("export", "--to", tmp_path, "--for-bookkeeper", "--from", "2026-01-05") == 1
    assert "Say from which day to which." in capsys.readouterr().err
    with pytest.raises(SystemExit) as exit_code:
        obey("export", "--to", tmp_path, "--for-bookkeeper", "--from", "5 January")
    assert exit_code.value.code == 2
    assert "5 January is no day." in capsys.readouterr().err


def test_a_paper_that_is_not_whole_is_told_and_makes_the_export_fail(
    obey: Any, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from app.commands import export
    from app.work.office import for_bookkeeper

    why = Sentence("The file is damaged.")

    def short(*told: Any, watch: Any, **more: Any) -> Any:
        watch(1, 2, "invoice_0001.pdf")
        watch(2, 2, "journal")
        sums = for_bookkeeper.sums_of([], "EUR")
        return for_bookkeeper.Written(tmp_path, tmp_path / "j.csv", 1, sums, (("invoice_0001.pdf", why),))

    monkeypatch.setattr(for_bookkeeper, "write_for_bookkeeper", short)
    monkeypatch.setattr(export.sys.stderr, "isatty", lambda: True, raising=False)
    assert obey("export", "--to", tmp_path, "--for-bookkeeper") == 1
    told = capsys.readouterr().err
    assert told == "\r1 of 2\r2 of 2\ninvoice_0001.pdf: The file is damaged.\n"


@pytest.mark.parametrize(
    ("words", "place"),
    [
        ((), "app.work.upkeep.export.export_everything"),
        (("--for-bookkeeper",), "app.work.office.for_bookkeeper.write_for_bookkeeper"),
    ],
)
@pytest.mark.parametrize(("terminal", "before"), [(True, "\n"), (False, "")])
def test_ctrl_c_is_answered_in_words(
    obey: Any,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    words: tuple[str, ...],
    place: str,
    terminal: bool,
    before: str,
) -> None:
    def stopped(*told: Any, **more: Any) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(place, stopped)
    monkeypatch.setattr(sys.stderr, "isatty", lambda: terminal, raising=False)
    assert obey("export", "--to", tmp_path / "out", *words) == 1
    assert capsys.readouterr().err == f"{before}Stopped. What was half written was taken away again.\n"


@pytest.mark.parametrize("words", [("--from", "2026-01-05"), ("--until", "2026-01-31"), ("--decimal-comma",)])
def test_a_period_without_the_bookkeeper_is_wrong_usage_and_writes_nothing(
    obey: Any, tmp_path: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...]
) -> None:
    assert obey("export", "--to", tmp_path / "out", *words) == 2
    assert "belong to --for-bookkeeper" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()
