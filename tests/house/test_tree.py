"""The house: rooms, file names and sizes (DESIGN.md section 3)."""

from __future__ import annotations

import ast
import re
from pathlib import Path
from typing import Any

CEILING = 400
ROLES = {
    "util", "utils", "helper", "helpers", "service", "services", "model", "models", "manager", "managers",
    "misc", "common", "lib", "stuff", "tools", "core", "types", "constants",
}  # fmt: skip


def test_files_are_named_for_the_thing_and_not_for_the_role(all_sources: list[Any]) -> None:
    wrong = []
    for source in all_sources:
        for part in Path(source.name).with_suffix("").parts:
            if part in ROLES or re.search(r"_(utils?|helpers?|services?|managers?|misc)$", part):
                wrong.append(source.name)
    assert wrong == []


def test_names_are_lower_case_with_underscores(all_sources: list[Any]) -> None:
    parts = {part for source in all_sources for part in Path(source.name).with_suffix("").parts}
    assert [part for part in sorted(parts) if not re.fullmatch(r"\.?[a-z0-9_]+", part)] == []


def test_no_file_is_longer_than_the_ceiling(all_sources: list[Any]) -> None:
    """Nor any of the tests, the demo shop and the check: what is long has a seam."""
    lengths = {source.name: source.text.count("\n") for source in all_sources}
    assert {name: length for name, length in lengths.items() if length > CEILING} == {}


def test_every_room_has_its_door_and_something_in_it(root: Path) -> None:
    rooms = [room for room in (root / "app").rglob("*") if room.is_dir() and room.name != "__pycache__"]
    inside = {room: {path.name for path in room.iterdir()} - {"__pycache__"} for room in rooms}
    rooms = [room for room in rooms if inside[room]]  # git keeps no empty folder
    assert [str(room) for room in rooms if "__init__.py" not in inside[room]] == []
    assert [str(room) for room in rooms if inside[room] == {"__init__.py"}] == []


def test_a_door_only_hands_names_on(app_sources: list[Any]) -> None:
    wrong = []
    for source in app_sources:
        if source.name.endswith("/__init__.py"):
            for node in source.tree.body:
                docstring = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
                dunder = isinstance(node, ast.Assign) and ast.unparse(node.targets[0]).startswith("__")
                if not (docstring or dunder or isinstance(node, (ast.Import, ast.ImportFrom))):
                    wrong.append(f"{source.name}:{node.lineno}")
    assert wrong == []


def test_every_file_of_the_program_says_what_it_is(app_sources: list[Any]) -> None:
    assert [source.name for source in app_sources if not ast.get_docstring(source.tree)] == []


def test_everything_is_the_grammar_of_python_3_11(all_sources: list[Any]) -> None:
    for source in all_sources:
        ast.parse(source.text, source.name, feature_version=(3, 11))


def test_every_test_stands_where_its_source_stands(root: Path) -> None:
    """tests/trade/bench/test_trials.py, or test_trials_by_hand.py, is about app/trade/bench/trials.py."""
    lost = []
    for test in sorted((root / "tests").rglob("test_*.py")):
        place = test.relative_to(root / "tests").parent
        if place.parts[:1] in [("days",), ("house",), ("benchmarks",)]:
            continue
        top = root if place.parts[:1] in [("demo_db",), ("migrations",)] else root / "app"
        stem = test.stem.removeprefix("test_")
        there = {path.stem for path in (top / place).glob("*") if path.suffix in ("", ".py")}
        there |= {place.name}  # a test of the whole room
        if not any(stem == name or stem.startswith(f"{name}_") for name in there if name):
            lost.append(test.relative_to(root).as_posix())
    assert lost == []
