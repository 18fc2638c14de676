"""run.py: the words that it is given, and what it starts with them."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from types import ModuleType

import pytest

from tests.house.test_launcher import ROOT, calls, launcher, shop

__all__ = ["calls", "launcher", "shop"]


@pytest.fixture
def started(launcher: ModuleType, monkeypatch: pytest.MonkeyPatch) -> list[tuple[list[str], dict[str, str]]]:
    """What the launcher becomes, with its environment, instead of becoming it."""
    commands: list[tuple[list[str], dict[str, str]]] = []

    def run(command: list[str], environment: dict[str, str]) -> int:
        commands.append((command, environment))
        return 7

    monkeypatch.setattr(launcher, "set_up", lambda kind: None)
    monkeypatch.setattr(launcher, "run", run)
    return commands


@pytest.mark.parametrize("words", [[], ["demo"], ["backup", "--to", "some folder"], ["tester"]])
def test_words_go_to_the_program(
    launcher: ModuleType, started: list[tuple[list[str], dict[str, str]]], words: list[str]
) -> None:
    assert launcher.main(words) == 7
    command, environment = started[0]
    assert command[1:] == ["-P", "-m", "app.start", *words]
    assert environment["PYTHONPATH"].split(os.pathsep)[0] == str(ROOT)


def test_the_path_that_a_person_has_set_stays(
    launcher: ModuleType, started: list[tuple[list[str], dict[str, str]]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PYTHONPATH", "mine")
    launcher.main(["demo"])
    assert started[0][1]["PYTHONPATH"] == f"{ROOT}{os.pathsep}mine"


def test_the_word_test_starts_the_check(
    launcher: ModuleType, started: list[tuple[list[str], dict[str, str]]]
) -> None:
    launcher.main(["test", "lint", "--", "-k", "money"])
    command, _ = started[0]
    assert Path(command[1]) == ROOT / ".ci" / "check.py"
    assert Path(command[1]).exists()
    assert command[2:] == ["lint", "--", "-k", "money"]


def test_the_word_bench_measures_the_budgets(
    launcher: ModuleType, started: list[tuple[list[str], dict[str, str]]], monkeypatch: pytest.MonkeyPatch
) -> None:
    prepared: list[str] = []
    monkeypatch.setattr(launcher, "set_up", prepared.append)
    assert launcher.main(["bench", "--jobs", "300"]) == 7
    command, environment = started[0]
    assert command[1:] == ["-P", "-m", "tests.benchmarks.budgets", "--jobs", "300"]
    assert environment["PYTHONPATH"].split(os.pathsep)[0] == str(ROOT)
    assert prepared == ["test"]  # the story of the papers comes from the tests, and what they need with it


def test_the_benchmarks_can_be_started_and_are_documented() -> None:
    ended = subprocess.run(
        [sys.executable, "-P", "-m", "tests.benchmarks.budgets", "--help"],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    assert (ended.returncode, ended.stderr) == (0, "")
    developers = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert "python3 run.py bench " in developers
    for option in re.findall(r"^  (--\w+)", ended.stdout, re.MULTILINE):
        assert option in developers, option
    assert "python3 run.py bench " in (ROOT / "run.py").read_text(encoding="utf-8")


def test_the_benchmarks_stay_out_of_the_everyday_tests() -> None:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert "benchmarks" in settings["tool"]["pytest"]["ini_options"]["norecursedirs"]


def test_trouble_in_the_set_up_is_a_sentence_and_exit_code_1(
    launcher: ModuleType,
    started: list[tuple[list[str], dict[str, str]]],
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    def not_ready(kind: str) -> None:
        raise launcher.NotReady("No pip here.")

    monkeypatch.setattr(launcher, "set_up", not_ready)
    assert launcher.main(["demo"]) == 1
    assert capsys.readouterr().err == "No pip here.\n"
    assert started == []


def test_it_starts_for_real_from_another_folder(tmp_path: Path) -> None:
    (tmp_path / "app").mkdir()  # a folder of that name where the person stands is not taken for ours
    if not (ROOT / "app" / "start.py").exists():
        pytest.skip("the program has no start yet")
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    ended = subprocess.run(
        [sys.executable, "-P", "-m", "app.start", "--version"],
        capture_output=True,
        text=True,
        check=False,
        cwd=tmp_path,
        env=environment,
    )
    assert (ended.returncode, ended.stderr) == (0, "")
    assert "0.1.0" in ended.stdout


def test_an_older_python_can_read_it_far_enough_to_say_what_is_needed() -> None:
    source = (ROOT / "run.py").read_text(encoding="utf-8")
    ast.parse(source, feature_version=(3, 7))
    first = next(
        node
        for node in ast.parse(source).body
        if not isinstance(node, (ast.Expr, ast.Import, ast.ImportFrom))
    )
    assert "3.11 or later" in ast.unparse(first)
