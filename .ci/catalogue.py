"""Keeps the one gettext catalogue in step with the words in code and data.

    .venv/bin/python .ci/catalogue.py update     collect all words, merge them into every language, compile
    .venv/bin/python .ci/catalogue.py missing    list what a language has not translated yet

Words are marked by ``Sentence(...)``, ``say(...)``, ``wording(...)`` and ``words(...)``; in assets/bench they
stand under the keys that its README names.
"""

from __future__ import annotations

import ast
import json
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

ROOT = Path(__file__).resolve().parents[1]
TRANSLATIONS = ROOT / "assets" / "translations"
DOMAIN = "spindlebook"
PROJECT = "the Spindlebook developers"
LANGUAGES = ("de",)
KEYWORDS = {"Sentence", "say", "wording", "words", "_wording"}
# In assets/bench: the files, and the keys whose texts people read (assets/bench/README.md names them).
DATA_FILES = ("quantities", "ladder", "changes", "lists", "likelihoods", "safety_notes")
DATA_KEYS = {
    "words", "short", "usual", "instrument", "high", "low", "caution", "source", "shows", "proves", "how",
    "tools", "leaves_words", "stopped", "title", "lead", "text", "why", "family",
}  # fmt: skip
STAMP = datetime(2026, 1, 1, tzinfo=UTC)  # a fixed one: the catalogue changes only when words do


def collected() -> Catalog:
    """Every message of code and data, with where it stands."""
    catalogue = Catalog(project="Spindlebook", version="", charset="utf-8", creation_date=STAMP)
    for path in sorted(path for top in ("app", "demo_db") for path in (ROOT / top).rglob("*.py")):
        for text in code_words(path.read_text(encoding="utf-8")):
            catalogue.add(text, locations=[(path.relative_to(ROOT).as_posix(), 0)])
    for name in DATA_FILES:
        path = ROOT / "assets" / "bench" / f"{name}.json"
        for text in data_words(json.loads(path.read_text(encoding="utf-8"))):
            catalogue.add(text, locations=[(path.relative_to(ROOT).as_posix(), 0)])
    return catalogue


def code_words(source: str) -> Iterator[str]:
    """The texts that a file hands to one of the keywords first, in the order of the file.

    The tree is read and not the tokens: inside an f-string Python 3.11 has no tokens, and babel sees nothing there.
    """
    calls = [node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call) and node.args]
    for call in sorted(calls, key=lambda node: (node.lineno, node.col_offset)):
        asked = call.func.func if isinstance(call.func, ast.Call) else call.func  # also _wording()("...")
        if ast.unparse(asked).rpartition(".")[2] in KEYWORDS:
            yield from _texts(call.args[0])


def _texts(node: ast.expr) -> Iterator[str]:
    """A text, or both texts of ``one if ... else other``; nothing that is put together."""
    if isinstance(node, ast.IfExp):
        yield from _texts(node.body)
        yield from _texts(node.orelse)
    elif isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value:
        yield node.value


def data_words(data: Any, under: str = "") -> Iterator[str]:
    """The texts under those keys, also where they stand by arrangement below their key."""
    if isinstance(data, dict):
        for key, value in data.items():
            by_arrangement = under if key in ("S", "T", "B") else ""
            yield from data_words(value, key if key in DATA_KEYS else by_arrangement)
    elif isinstance(data, list):
        for value in data:
            yield from data_words(value, under)
    elif isinstance(data, str) and under and any(letter.isalpha() for letter in data):
        yield data


def place(language: str) -> Path:
    """The file of a language, without its ending."""
    return TRANSLATIONS / language / "LC_MESSAGES" / DOMAIN


def read(language: str) -> Catalog:
    """The catalogue of a language, empty where there is none yet."""
    path = place(language).with_suffix(".po")
    if not path.exists():
        return Catalog(locale=language, charset="utf-8", creation_date=STAMP, revision_date=STAMP)
    with path.open("rb") as file:
        return read_po(file, locale=language)


def merged(language: str, whole: Catalog) -> Catalog:
    """The language's catalogue with exactly the messages of code and data; nothing is guessed."""
    old = read(language)
    new = Catalog(
        locale=language,
        header_comment="# Spindlebook's words. Kept in step with code and data by .ci/catalogue.py.",
        project="Spindlebook",
        version="1",
        msgid_bugs_address=PROJECT,
        last_translator=PROJECT,
        language_team=PROJECT,
        charset="utf-8",
        creation_date=STAMP,
        revision_date=STAMP,
        fuzzy=False,
    )
    for message in whole:
        if message.id:
            before = old.get(message.id)
            new.add(message.id, before.string if before else "", locations=message.locations)
    return new


def missing(language: str, whole: Catalog) -> list[str]:
    """Messages without a translation."""
    there = read(language)
    return [
        message.id
        for message in whole
        if message.id and not ((found := there.get(message.id)) and found.string)
    ]


def update() -> None:
    """Collect, merge, write and compile."""
    whole = collected()
    for language in LANGUAGES:
        catalogue = merged(language, whole)
        path = place(language)
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.with_suffix(".po").open("wb") as file:
            write_po(file, catalogue, sort_output=True, width=110, omit_header=False)
        with path.with_suffix(".mo").open("wb") as file:
            write_mo(file, catalogue)


def main(arguments: list[str]) -> int:
    """Do one of the two."""
    if arguments == ["update"]:
        update()
        return 0
    if arguments == ["missing"]:
        for language in LANGUAGES:
            for text in missing(language, collected()):
                sys.stdout.write(f"{language}: {text}\n")
        return 0
    sys.stdout.write(__doc__ or "")
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
