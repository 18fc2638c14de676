"""The catalogue is complete, in step with code and data, and German keeps to the rules of its texts."""

from __future__ import annotations

import gettext
import importlib
import pkgutil
import re
from collections import Counter
from collections.abc import Callable, Iterator
from enum import StrEnum

import pytest

import app.trade
from app.screens.actions import ACTS, MENUS, clashes, mnemonic
from tests.house.test_check import load

catalogue = load("catalogue")
BRACES = re.compile(r"\{[^{}]*\}")
MARKS = ".:?…,;"
WORD = re.compile(r"[^\W\d_]{2,}")
# German writes these words as English does.
SAME = {
    "in {player}",
    "A4", "Code", "Disc", "Export", "In {unit}.", "Laser", "Laser.", "Letter", "Logo", "Magnet", "NAME", "Name", "PIN",
    "Spindlebook", "Version", "in", "in {year}", "min", "warm", "{name}, {minutes} min warm",
    "BIC", "Decoder", "IBAN", "{width} × {height} mm", "Laplace", "MIL-HDBK-189", "Magnet.", "{quantity} in {unit}",
}  # fmt: skip


@pytest.fixture(scope="module")
def keys() -> list[str]:
    """Every message of code and data."""
    return [message.id for message in catalogue.collected() if message.id]


@pytest.fixture(scope="module")
def pairs() -> list[tuple[str, str]]:
    """Every message of the file that people edit, with its German."""
    return [(message.id, message.string) for message in catalogue.read("de") if message.id]


@pytest.fixture(scope="module")
def german() -> Callable[[str], str]:
    """German as the program reads it, compiled."""
    with catalogue.place("de").with_suffix(".mo").open("rb") as file:
        return gettext.GNUTranslations(file).gettext


def test_every_word_of_code_and_data_is_german_too(keys: list[str], pairs: list[tuple[str, str]]) -> None:
    assert sorted(key for key, said in pairs if said) == sorted(keys)


def test_what_is_compiled_is_what_was_edited(
    pairs: list[tuple[str, str]], german: Callable[[str], str]
) -> None:
    assert [key for key, said in pairs if german(key) != said] == []


def test_the_braces_are_the_same(pairs: list[tuple[str, str]]) -> None:
    assert [k for k, said in pairs if Counter(BRACES.findall(k)) != Counter(BRACES.findall(said))] == []


def test_a_word_left_as_it_was_is_the_same_word_in_german(pairs: list[tuple[str, str]]) -> None:
    left = {key for key, said in pairs if key == said and WORD.search(BRACES.sub("", key))}
    assert left - SAME == set()


def test_spaces_and_marks_at_the_ends_are_kept(pairs: list[tuple[str, str]]) -> None:
    def mark(text: str) -> str:
        last = text.rstrip("”“\"'")[-1:]
        return last if last in MARKS else ""

    def spaces(text: str) -> tuple[bool, bool]:
        return text[:1].isspace(), text[-1:].isspace()

    assert [key for key, said in pairs if spaces(key) != spaces(said)] == []
    # A lead and the text behind it are one sentence, which German parts with a comma; the point of a word cut
    # short is no mark of the sentence, and ends it as well.
    others = [k for k, said in pairs if mark(k) != mark(said) and not said.endswith(("MwSt.", "Nr.", "nr."))]
    assert others == ["Pull the mains plug"]
    assert [key for key, said in pairs if "  " in said and "  " not in key] == []


def test_german_is_plain(pairs: list[tuple[str, str]]) -> None:
    for key, said in pairs:
        assert "!" not in said, key
        assert "'" not in said, key
        assert '"' not in said, key
        assert "—" not in said, key
        assert said.count("„") == said.count("“"), key
        assert "”" not in said, key


def test_a_letter_of_a_german_menu_stands_for_one_thing(german: Callable[[str], str]) -> None:
    assert clashes((act, german(act.text)) for act in ACTS) == []
    assert [act.id for act in ACTS if not mnemonic(german(act.text))] == []
    titles = [mnemonic(german(title)) for _, title in MENUS]
    assert len(set(titles)) == len(MENUS)
    assert "" not in titles


def choices() -> Iterator[type[StrEnum]]:
    """Every set of words that records are kept with."""
    for module in pkgutil.walk_packages(app.trade.__path__, "app.trade."):
        for kind in vars(importlib.import_module(module.name)).values():
            if isinstance(kind, type) and issubclass(kind, StrEnum) and kind.__module__ == module.name:
                yield kind


@pytest.mark.parametrize("kind", list(choices()), ids=lambda kind: kind.__name__)
def test_words_to_choose_from_stay_apart_in_german(kind: type[StrEnum], german: Callable[[str], str]) -> None:
    said = [german(word.value) for word in kind]
    assert len(set(said)) == len(said)
