"""A book of app.work's tests, doors that show nothing, and the command line on them."""

from __future__ import annotations

import shutil
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from app.commands.main import main
from tests.work.conftest import cheap_pins, shop_template

__all__ = ["cheap_pins", "shop_template"]

NOW = datetime(2026, 3, 12, 9, 30, tzinfo=UTC)


class FakeDoors:
    """Notes what would have been shown."""

    def __init__(self) -> None:
        self.asked: list[Any] = []

    def open_window(self, book: Path, *, make: bool) -> int:
        self.asked.append(("window", book, make))
        return 0

    def show_demo(self) -> int:
        self.asked.append("demo")
        return 0

    def build_demo(self, folder: Path) -> int:
        self.asked.append(("build", folder))
        return 0

    def run_tour(self, folder: Path) -> int:
        self.asked.append(("tour", folder))
        return 1


@pytest.fixture
def doors() -> FakeDoors:
    return FakeDoors()


@pytest.fixture
def path(shop_template: tuple[Path, dict[str, int]], tmp_path: Path) -> Path:
    """A closed book with four people in it."""
    path = tmp_path / "shop" / "book.sqlite"
    path.parent.mkdir()
    shutil.copyfile(shop_template[0], path)
    return path


@pytest.fixture
def obey(path: Path, doors: FakeDoors) -> Any:
    """Runs the command line on that book; gives the exit code."""

    def run(*words: object, book: Path | None = path) -> int:
        given = [] if book is None else ["--book", str(book)]
        return main([*given, *map(str, words)], doors, clock=lambda: NOW, environment={})

    return run
