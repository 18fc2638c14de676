"""Imports point down only. import-linter holds the floors of app/; here stands what it does not see."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from importlinter.cli import EXIT_STATUS_SUCCESS, lint_imports


def test_the_floors_hold(
    root: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    monkeypatch.chdir(root)
    status = lint_imports(config_filename=str(root / "pyproject.toml"), cache_dir=str(tmp_path))
    assert status == EXIT_STATUS_SUCCESS, capsys.readouterr().out


def test_the_demo_shop_is_built_by_what_people_do(all_sources: list[Any]) -> None:
    """demo_db uses app.work (and app.trade's words), and of the book only the bulk path: it can never lie."""
    allowed = ("app.work", "app.trade", "app.book.bulk", "demo_db")
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
