"""The help that ships: each page in both languages, links that lead somewhere, keys that exist."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from app.screens.actions import ACTS
from app.screens.frame.help_margin import HELP
from app.screens.keys_page import ELSEWHERE

PAGES = sorted(HELP.rglob("*.md"))
NAMES = [path.relative_to(HELP).as_posix() for path in PAGES]
ROOT = Path(__file__).resolve().parents[3]

# How German keyboards name keys; what Qt calls Return is Enter for people, in both languages.
GERMAN = {"Strg": "Ctrl", "Umschalt": "Shift", "Entf": "Del", "Links": "Left", "Rechts": "Right"}
GERMAN |= {"Auf": "Up", "Ab": "Down"}
KEY = re.compile(
    r"\b(?:Ctrl|Strg|Alt|Shift|Umschalt)(?:\+(?:Shift|Umschalt))?\+(?:[A-Z][a-zäöü]+|[A-Z0-9]|,)"
)


def served() -> set[str]:
    """Every key of the menus, and those that fields, forms and lists know by themselves."""
    keys = {act.key for act in ACTS} | {key for _, deeds in ELSEWHERE for _, these in deeds for key in these}
    return {key.replace("Return", "Enter") for key in keys if key}


def in_english(key: str) -> str:
    return "+".join(GERMAN.get(part, part) for part in key.split("+"))


def words(path: Path) -> str:
    return path.read_text(encoding="utf-8")


@pytest.mark.parametrize("path", PAGES, ids=NAMES)
def test_the_keys_that_a_page_names_exist(path: Path) -> None:
    named = {in_english(key) for key in KEY.findall(words(path))}
    assert sorted(named - served()) == []


@pytest.mark.parametrize("path", PAGES, ids=NAMES)
def test_its_links_lead_to_other_pages(path: Path) -> None:
    for target in re.findall(r"\]\(([^)]*)\)", words(path)):
        assert (path.parent / target).is_file(), target
        assert (path.parent / target).resolve() != path.resolve()


@pytest.mark.parametrize("path", PAGES, ids=NAMES)
def test_it_begins_with_its_name_and_is_short_enough_to_be_read_standing(path: Path) -> None:
    text = words(path)
    assert text.startswith("# ")
    assert len(text.split()) < 450
    assert "!" not in text
    assert "<" not in text.replace("`<`", "")


def test_both_languages_have_the_same_pages_with_the_same_keys_and_links() -> None:
    english, german = (sorted(path.name for path in (HELP / code).iterdir()) for code in ("en", "de"))
    assert english == german
    for name in english:
        en, de = words(HELP / "en" / name), words(HELP / "de" / name)
        assert {in_english(k) for k in KEY.findall(de)} == set(KEY.findall(en)), name
        assert re.findall(r"\]\((.*?)\)", de) == re.findall(r"\]\((.*?)\)", en), name
        assert re.findall(r"`.*?`", de)[:6] or not re.findall(r"`.*?`", en), name


def test_every_topic_of_a_page_is_written() -> None:
    topics = {
        topic
        for path in (ROOT / "app" / "screens").rglob("*.py")
        for topic in re.findall(r'^    help_topic = "([\w-]+)"', words(path), re.MULTILINE)
    }
    assert topics >= {"index", "counter", "job_sheet"}
    assert sorted(topic for topic in topics if not (HELP / "en" / f"{topic}.md").is_file()) == []


def test_every_page_is_reached_by_f1_or_by_a_link() -> None:
    reached = {"index.md"}
    for path in (HELP / "en").iterdir():
        reached |= set(re.findall(r"\]\(([^)]*)\)", words(path)))
    topics = {
        f"{topic}.md"
        for path in (ROOT / "app" / "screens").rglob("*.py")
        for topic in re.findall(r'help_topic = "([\w-]+)"', words(path))
    }
    assert sorted({path.name for path in (HELP / "en").iterdir()} - reached - topics) == []


@pytest.mark.parametrize(
    "name", ["job_sheet", "safety_test", "readings", "take_in", "modifications", "transport"]
)
def test_where_a_beam_or_the_mains_is_near_the_page_says_what_to_be_careful_of(name: str) -> None:
    assert "## Careful" in words(HELP / "en" / f"{name}.md")
    assert "## Vorsicht" in words(HELP / "de" / f"{name}.md")
