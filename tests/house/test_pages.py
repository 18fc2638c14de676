"""What README.md and DEVELOPERS.md say is there, is there."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PAGES = ("README.md", "DEVELOPERS.md")


def page(name: str) -> str:
    """The text of a page."""
    return (ROOT / name).read_text(encoding="utf-8")


def commands() -> set[str]:
    """The words that README.md says may follow `python3 run.py`."""
    table = page("README.md").partition("## Command line")[2].partition("\n## ")[0]
    rows = re.findall(r"^\| `(\S+?)[ `]", table, re.MULTILINE)
    blocks = re.findall(r"^python3 run\.py ([a-z]+)", page("README.md"), re.MULTILINE)
    return {*rows, *blocks}


def said(*words: str) -> subprocess.CompletedProcess[str]:
    """The program run with these words, by its own command line."""
    return subprocess.run(
        [sys.executable, "-P", "-m", "app.start", *words],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )


def test_the_readme_opens_with_what_it_is_for_and_then_two_commands() -> None:
    text = page("README.md")
    first = text.split("\n\n")[1]
    assert first.startswith("Spindlebook is the shop's book for a workshop that mends optical-disc players.")
    start = text.partition("## Start")[2].partition("```")[2].partition("```")[0]
    assert start.split("\n")[1:-1] == ["python3 run.py demo", "python3 run.py test"]


@pytest.mark.skipif(not (ROOT / "app" / "commands").is_dir(), reason="the command line is not there yet")
def test_every_command_of_the_readme_exists() -> None:
    told = said("--help").stdout
    assert [word for word in sorted(commands() - {"test"}) if word not in told] == []


@pytest.mark.skipif(not (ROOT / "app" / "commands").is_dir(), reason="the command line is not there yet")
def test_every_command_that_exists_stands_in_the_readme() -> None:
    listed = re.search(r"\{([a-z,]+)\}", said("--help").stdout)
    there = set(listed.group(1).split(",")) if listed else set()
    assert sorted(there - commands()) == []


@pytest.mark.parametrize("name", PAGES)
def test_every_file_that_a_page_names_is_there(name: str) -> None:
    named = re.findall(
        r"`((?:app|tests|migrations|demo_db|assets|\.ci)/[\w./]*|run\.py|pyproject\.toml)`", page(name)
    )
    assert [path for path in named if not (ROOT / path).exists()] == []


@pytest.mark.parametrize("name", PAGES)
def test_every_link_and_picture_of_a_page_is_there(name: str) -> None:
    targets = re.findall(r"\]\(([^)#]+)\)", page(name))
    assert [t for t in targets if "://" not in t and not (ROOT / t).exists()] == []


def test_the_parts_of_the_check_are_named_as_they_are() -> None:
    steps = re.findall(r'Step\(\s*"(\w+)"', (ROOT / ".ci" / "check.py").read_text(encoding="utf-8"))
    assert f"only these steps: {', '.join(steps)}" in page("DEVELOPERS.md")


def test_the_book_lies_where_the_readme_says() -> None:
    """platformdirs is what the program asks; it knows the places of systems that this one is not."""
    from platformdirs.macos import MacOS
    from platformdirs.unix import Unix

    home = str(Path.home())
    with pytest.MonkeyPatch.context() as patch:
        patch.delenv("XDG_DATA_HOME", raising=False)
        for places in (Unix, MacOS):
            folder = places("Spindlebook", appauthor=False).user_data_dir.replace(home, "~")
            assert f"`{folder}`" in page("README.md")
    assert r"`%LOCALAPPDATA%\Spindlebook`" in page("README.md")


def test_every_way_to_add_something_is_told() -> None:
    told = page("DEVELOPERS.md").partition("## How to add")[2].partition("\n## ")[0]
    for thing in ("quantity", "flag", "table", "paper", "setting", "page"):
        assert re.search(rf"^\*\*A {thing}", told, re.MULTILINE), thing
