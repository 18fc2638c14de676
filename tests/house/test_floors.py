"""Imports point down only. import-linter holds the floors of app/; here stands what it does not see."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from importlinter.cli import EXIT_STATUS_SUCCESS, lint_imports

from tests.house.conftest import Source


def test_the_floors_hold(
    root: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    monkeypatch.chdir(root)
    # It would switch off every logger there is, and with them the guard that sees errors in the log.
    monkeypatch.setattr("importlinter.cli._configure_logging", lambda verbose: None)
    status = lint_imports(config_filename=str(root / "pyproject.toml"), cache_dir=str(tmp_path))
    assert status == EXIT_STATUS_SUCCESS, capsys.readouterr().out


# The floors that may use what each contract of pyproject.toml keeps from the others.
MAY = {
    "Qt stands on the screens' floor, and where everything is wired together": {"app.screens"},
    "SQL is spoken in the book, and in app.work to ask": {"app.book", "app.work"},
    "Only upgrading a book needs alembic": set(),
    "Only papers draw with reportlab": {"app.papers"},
}


def test_each_contract_holds_every_floor_but_those_that_may(root: Path) -> None:
    floors = {f"app.{path.parent.name}" for path in (root / "app").glob("*/__init__.py")}
    told = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))
    contracts = {contract["name"]: contract for contract in told["tool"]["importlinter"]["contracts"]}
    for name, may in MAY.items():
        assert set(contracts[name]["source_modules"]) == floors - may, name


# What the demo shop is made of: what people do, and the trade's words for it.
DEMO_MAY = ("app.work", "app.trade", "app.__version__", "demo_db")
# The book of the benchmarks (demo_db/many) is too large to be typed in by people. It may lay its rows down in bulk, and
# may ask the book how a row follows from facts, so that each is as the door would have made it. Nothing else of it.
MANY_MAY = (
    *DEMO_MAY,
    "app.book.bulk",
    "app.book.tables",
    "app.book.attachments",
    "app.book.bench.catalogue",
    "app.book.bench.flag_rows",
    "app.book.bench.job_facts",
    "app.book.bench.modification_facts",
    "app.book.office.shop_settings",
    "app.papers.facts_json",
    "app.papers.press",
)
OURS = ("app", "migrations", "sqlalchemy", "PySide6")


def beyond(source: Any) -> list[str]:
    """The imports of a file of demo_db that it may not have."""
    may = MANY_MAY if source.name.startswith("demo_db/many/") else DEMO_MAY
    return [
        f"{source.name}:{line} {name}"
        for line, name in source.imports()
        if name.split(".")[0] in OURS and not any(f"{name}.".startswith(f"{allowed}.") for allowed in may)
    ]


def test_the_demo_shop_is_built_by_what_people_do(all_sources: list[Any]) -> None:
    """demo_db uses app.work and app.trade's words: it can never lie. Only its many jobs are laid down in bulk."""
    of_demo = [source for source in all_sources if source.name.startswith("demo_db/")]
    assert [line for source in of_demo for line in beyond(source)] == []


@pytest.mark.parametrize(
    ("name", "line", "may"),
    [
        ("demo_db/years.py", "from app.work.shop_book import open_shop", True),
        ("demo_db/years.py", "from app.book.bulk import Laying", False),
        ("demo_db/years.py", "from app.book.tables import Job", False),
        ("demo_db/many/rows.py", "from app.book.bulk import Laying", True),
        ("demo_db/many/rows.py", "from app.book.tables import Job", True),
        ("demo_db/many/rows.py", "from app.book.door import Door", False),
        ("demo_db/many/rows.py", "import sqlalchemy", False),
        ("demo_db/manyfold.py", "from app.book.bulk import Laying", False),
        ("demo_db/years.py", "from app.workshop import anything", False),
    ],
)
def test_only_the_many_jobs_may_be_laid_down_in_bulk(name: str, line: str, may: bool) -> None:
    assert (beyond(Source(name, line)) == []) is may


def test_the_program_never_imports_its_demo_or_its_tests_at_start(app_sources: list[Any]) -> None:
    found = []
    for source in app_sources:
        for line, name in source.imports(only_at_start=True):
            if name.split(".")[0] in ("demo_db", "tests", "pytest", "hypothesis"):
                found.append(f"{source.name}:{line} {name}")
    assert found == []
