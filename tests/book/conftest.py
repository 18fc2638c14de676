"""Books for the tests of the cabinet: a filled one made once and copied, and children that can be killed."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from app.book.door import Book
from app.book.opening import open_book
from tests.book.filled import SETTLE, open_filled

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def filled_template(tmp_path_factory: pytest.TempPathFactory, kept_statements: None) -> Path:
    """A closed book with two rounds of rows and their files; copy it, do not open it."""
    from datetime import UTC, datetime

    path = tmp_path_factory.mktemp("filled") / "book.sqlite"
    open_filled(path, lambda: datetime(2026, 3, 12, 9, 0, tzinfo=UTC)).close()
    return path


@pytest.fixture
def closed(filled_template: Path, tmp_path: Path) -> Path:
    """A fresh copy of that book, closed, with its files."""
    shutil.copytree(filled_template.parent, tmp_path / "shop")
    return tmp_path / "shop" / "book.sqlite"


@pytest.fixture
def book(closed: Path, clock: Any) -> Iterator[Book]:
    """The same, open for work."""
    opened = open_book(closed, clock=clock, settle=SETTLE)
    yield opened
    opened.close()


@pytest.fixture
def empty(tmp_path: Path, clock: Any, kept_statements: None) -> Iterator[Book]:
    """A new book without a row."""
    opened = open_book(tmp_path / "book.sqlite", clock=clock, settle=SETTLE, make=True)
    yield opened
    opened.close()


@dataclass
class Children:
    """Runs functions of tests/book/children.py in processes of their own, forked from one that is warm."""

    process: subprocess.Popen[str]

    def begin(self, name: str, *words: object) -> int:
        """Start a function with words as arguments; gives the child's process id."""
        return int(self._ask({"begin": name, "words": [str(word) for word in words]}))

    def wait(self, pid: int) -> int:
        """The child's exit code; a signal that ended it counts below zero."""
        return int(self._ask({"wait": pid}))

    def run(self, name: str, *words: object) -> int:
        """Both."""
        return self.wait(self.begin(name, *words))

    def _ask(self, question: dict[str, Any]) -> str:
        assert self.process.stdin is not None
        assert self.process.stdout is not None
        self.process.stdin.write(json.dumps(question) + "\n")
        self.process.stdin.flush()
        return self.process.stdout.readline()


@pytest.fixture(scope="session")
def children() -> Iterator[Children]:
    """One warm process for the whole run; Windows cannot fork."""
    if os.name != "posix":
        pytest.skip("needs fork")
    process = subprocess.Popen(
        [sys.executable, "-m", "tests.book.children"],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    yield Children(process)
    assert process.stdin is not None
    process.stdin.close()
    process.wait()
    assert process.stdout is not None
    process.stdout.close()


def snapshot_of(folder: Path) -> dict[str, str]:
    """Every file under a folder with the SHA-256 of its bytes."""
    return {
        str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
