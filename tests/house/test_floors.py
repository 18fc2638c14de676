"""Imports point down only. import-linter holds the floors of app/; here stands what it does not see."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from importlinter.cli import EXIT_STATUS_SUCCESS, lint_imports


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


def test_the_demo_shop_is_built_by_what_people_do(all_sources: list[Any]) -> None:
    """demo_db uses app.work (and app.trade's words), and of the book only the bulk path: it can never lie."""
    allowed = ("app.work", "app.trade", "app.book.bulk", "app.__version__", "demo_db")
    found = []
    for source in all_sources:
        if source.name.startswith("demo_db/"):
            for line, name in source.imports():
                if name.split(".")[0] in (
                    "app",
                    "migrations",
                    "sqlalchemy",
                    "PySide6",
                ) and not name.startswith(allowed):
                    found.append(f"{source.name}:{line} {name}")
    assert found == []


def test_the_program_never_imports_its_demo_or_its_tests_at_start(app_sources: list[Any]) -> None:
    found = []
    for source in app_sources:
        for line, name in source.imports(only_at_start=True):
            if name.split(".")[0] in ("demo_db", "tests", "pytest", "hypothesis"):
                found.append(f"{source.name}:{line} {name}")
    assert found == []
