"""The program's own source, read and parsed once for the rules about it."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
OURS = ("app", "migrations", "demo_db", "tests", ".ci")


@dataclass(frozen=True)
class Source:
    """One Python file: where it lies (with slashes, from the top), and its text."""

    name: str
    text: str

    @cached_property
    def tree(self) -> ast.Module:
        """The file, parsed."""
        return ast.parse(self.text, self.name)

    @cached_property
    def nodes(self) -> tuple[ast.AST, ...]:
        """Every node, walked once: many rules look at them."""
        return tuple(ast.walk(self.tree))

    def walk(self) -> Iterator[ast.AST]:
        """Every node."""
        return iter(self.nodes)

    def imports(self, *, only_at_start: bool = False) -> Iterator[tuple[int, str]]:
        """Line and full name of everything imported; `from a import b` is a.b."""
        for node in self.tree.body if only_at_start else self.walk():
            if isinstance(node, ast.Import):
                yield from ((node.lineno, alias.name) for alias in node.names)
            elif isinstance(node, ast.ImportFrom):
                yield from ((node.lineno, f"{node.module}.{alias.name}") for alias in node.names)


def sources(folder: str) -> list[Source]:
    """Every Python file under a folder of the top."""
    return [
        Source(path.relative_to(ROOT).as_posix(), path.read_text(encoding="utf-8"))
        for path in sorted((ROOT / folder).rglob("*.py"))
    ]


@pytest.fixture(scope="session")
def root() -> Path:
    """The top folder."""
    return ROOT


@pytest.fixture(scope="session")
def app_sources() -> list[Source]:
    """Every Python file of app/."""
    return sources("app")


@pytest.fixture(scope="session")
def all_sources() -> list[Source]:
    """Every Python file of ours."""
    top = [Source("run.py", (ROOT / "run.py").read_text(encoding="utf-8"))]
    return top + [source for folder in OURS for source in sources(folder)]
