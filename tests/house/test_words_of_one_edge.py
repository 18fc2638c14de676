"""Words that only a command line knows are said on the floor of the commands and nowhere else."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
FLOORS = ("trade", "book", "work", "papers", "screens")
SAYING = {"Sentence", "say", "wording", "words"}
TYPED = re.compile(r"(?:^|\s)--[a-z]|\bspindlebook [a-z-]|\bFILE\b|\bFOLDER\b")


def said(source: str) -> Iterator[str]:
    """Every template that the source words."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call) and node.args and isinstance(node.args[0], ast.Constant):
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if name in SAYING and isinstance(node.args[0].value, str):
                yield node.args[0].value


def test_no_sentence_that_a_window_shows_tells_anybody_to_type_a_command() -> None:
    found = [
        f"{path.relative_to(ROOT)}: {template}"
        for floor in FLOORS
        for path in sorted((ROOT / "app" / floor).rglob("*.py"))
        for template in said(path.read_text(encoding="utf-8"))
        if TYPED.search(template)
    ]
    assert found == []


def test_the_rule_would_see_one() -> None:
    (template,) = said('refuse(Sentence("Restore a copy: spindlebook restore FILE"))')
    assert TYPED.search(template)
    assert TYPED.search("Choose another with --book.")
