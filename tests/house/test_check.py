"""The check's own sums: which steps run, what a floor is, and what is said about a gap."""

from __future__ import annotations

import importlib.util
import json
import sys
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]


def load(name: str) -> ModuleType:
    """A script of .ci, loaded and not run."""
    spec = importlib.util.spec_from_file_location(f"ci_{name}", ROOT / ".ci" / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module  # dataclasses look their module up
    spec.loader.exec_module(module)
    return module


check = load("check")
floors = load("floors")


def entry(statements: int, ran: int, branches: int = 0, taken: int = 0, **gaps: Any) -> dict[str, Any]:
    """One file as coverage's JSON report has it."""
    return {
        "summary": {
            "num_statements": statements,
            "covered_lines": ran,
            "num_branches": branches,
            "covered_branches": taken,
        },
        "executed_lines": list(range(1, ran + 1)),
        "missing_lines": gaps.get("lines", []),
        "missing_branches": gaps.get("ways", []),
    }


def test_all_is_good_when_every_floor_is_reached() -> None:
    report = {"files": {"app/trade/money.py": entry(10, 10, 4, 4), "app/screens/window.py": entry(100, 90)}}
    assert floors.judge(report)[1]


def test_one_branch_missing_in_trade_is_too_little_and_is_named() -> None:
    report = {"files": {"app/trade/money.py": entry(1000, 1000, 1000, 999, ways=[[7, -3]])}}
    lines, good = floors.judge(report)
    assert not good
    assert lines[0] == "app/trade/  99.9 %, floor 100 %: too little"
    assert lines[1] == "    app/trade/money.py 99.9 %: ways 7->out"


def test_a_screen_may_lack_a_tenth_and_not_more() -> None:
    assert floors.judge({"files": {"app/screens/window.py": entry(1000, 900)}})[1]
    assert not floors.judge({"files": {"app/screens/window.py": entry(1000, 899)}})[1]


def test_the_whole_app_counts_trade_and_work_too() -> None:
    report = {
        "files": {"app/trade/a.py": entry(80, 80), "app/work/b.py": entry(10, 10), "app/c.py": entry(10, 0)}
    }
    assert floors.judge(report)[1]


def test_a_floor_of_the_house_that_is_not_built_yet_is_not_held_against_it() -> None:
    lines, good = floors.judge({"files": {}})
    assert good
    assert all("nothing there yet" in line for line in lines)


def test_paths_of_windows_are_the_same_paths() -> None:
    assert not floors.judge({"files": {"app\\work\\jobs.py": entry(10, 9, lines=[4])}})[1]


def test_neighbouring_lines_are_joined_and_ways_from_them_are_not_repeated() -> None:
    assert (
        floors.gaps(entry(9, 4, lines=[3, 4, 5, 9], ways=[[3, 4], [2, 3], [7, 8]]))
        == "lines 3-5, 9; ways 7->8"
    )


def test_a_file_that_no_test_imports_is_said_to_have_never_run() -> None:
    assert floors.gaps(entry(9, 0, lines=[1, 2, 3])) == "never ran"


def test_a_missing_report_is_a_sentence_and_not_good(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert floors.main(str(tmp_path / "none.json")) == 1
    assert "no coverage report" in capsys.readouterr().out


def test_the_report_on_disk_is_judged(tmp_path: Path) -> None:
    path = tmp_path / "report.json"
    path.write_text(json.dumps({"files": {"app/trade/a.py": entry(2, 1, lines=[2])}}))
    assert floors.main(str(path)) == 1


def test_words_after_two_dashes_go_to_pytest() -> None:
    assert check.split(["tests"]) == (["tests"], False, [])
    assert check.split(["--", "-k", "money"]) == ([], True, ["-k", "money"])


def test_an_unknown_step_is_a_wrong_use_and_the_steps_are_named(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        check.main(["typos"])
    assert stopped.value.code == 2
    assert "format, lint, types, imports, tests, coverage" in capsys.readouterr().err


def test_the_summary_names_what_failed_and_how_to_look_again(capsys: pytest.CaptureFixture[str]) -> None:
    lint, types = check.STEPS[1], check.STEPS[2]
    assert check.report([(lint, 1, 0.5), (types, 0, 2.0)]) == 1
    said = capsys.readouterr().out
    assert "lint      FAILED" in said
    assert "python3 run.py test lint" in said
    assert check.report([(types, 0, 2.0)]) == 0
