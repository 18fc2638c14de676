"""What may not stand in the source: promises, places of one machine, shouting."""

from __future__ import annotations

import ast
import re
from pathlib import Path
from typing import Any

HERE = Path(__file__).name
# "XXX" as a quoted word is ISO 4217's code for "no currency".
PROMISES = re.compile(r"""\b(TODO|FIXME|HACK|WIP)\b|(?<!["'])\bXXX\b(?!["'])""")
ONE_MACHINE = re.compile(r"(?<![\w.])/(home|root|work|Users)/\w|[A-Z]:\\\\?Users|/tmp/\w")


def found(sources: list[Any], words: re.Pattern[str]) -> list[str]:
    """File and line of every match."""
    return [
        f"{source.name}:{number} {line.strip()}"
        for source in sources
        if not source.name.endswith(HERE)
        for number, line in enumerate(source.text.splitlines(), 1)
        if words.search(line)
    ]


def test_no_promise_is_left_in_the_source(all_sources: list[Any]) -> None:
    assert found(all_sources, PROMISES) == []


def test_no_place_of_one_machine_is_written_down(all_sources: list[Any]) -> None:
    assert found([s for s in all_sources if not s.name.startswith("tests/")], ONE_MACHINE) == []


def test_no_sentence_shouts(app_sources: list[Any]) -> None:
    """Sentences for people end in a full stop or nothing, never in an exclamation mark."""
    shouts = []
    for source in app_sources:
        for node in source.walk():
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                if re.search(r"[a-z]!(\s|$)", node.value):
                    shouts.append(f"{source.name}:{node.lineno} {node.value!r}")
    assert shouts == []


def test_the_pages_about_the_program_make_no_promise_either(root: Path) -> None:
    pages = [path for path in root.glob("*.md") if PROMISES.search(path.read_text(encoding="utf-8"))]
    assert pages == []
