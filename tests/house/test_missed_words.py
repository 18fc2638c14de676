"""Words on a screen or paper pass through translation; here those are found that were missed.

Two nets. The wide one takes every literal that reads like a sentence or a label, wherever it stands. The fine one
takes any word at all that is handed to something visible.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.house.conftest import ROOT, Source
from tests.house.test_check import load

WORDED = {"Sentence", "say", "wording", "words", "_wording"}
# What is not for people: who looks after the program reads the log, and errors of ours.
NOT_FOR_PEOPLE = {"setObjectName", "setProperty", "getLogger", "setCreator", "register", "load", "draft_key"}

A_WORD = re.compile(r"[^\W\d_]{2,}")
LIKE_A_LABEL = re.compile(r"^\W*[A-Z][a-z]{2,}")
LIKE_A_SENTENCE = re.compile(r"[^\W\d_]+ [^\W\d_]+ [^\W\d_]+")
# Keys as Qt writes them, patterns of dates, names of files, and the names that stay as they are.
KEY = re.compile(r"(?:(?:Ctrl|Shift|Alt)\+)*(?:Ctrl|Return|Enter|Esc|Tab|Del|Left|Right|Up|Down|F1|\S)")
PATTERN = re.compile(r"[dMyEHmsa.,:/ ]+")
FILE = re.compile(r"[\w.-]+\.\w{2,4}")
NAMES = {"Spindlebook", "Fusion", "Letter", "A4"}
# Files in which literals are names of programs, fonts and licences, or what a hand types.
OF_NAMES = (
    "app/screens/versions.py",
    "app/screens/log_file.py",
    "app/papers/fonts.py",
    "app/papers/e_invoice.py",
    "app/papers/e_invoice_xml.py",
    "app/screens/tour/",
    "app/screens/kit/day_words.py",
)

# Which arguments are shown, by position and by name.
SHOWN: dict[str, tuple[tuple[int, ...], tuple[str, ...]]] = {
    "Label": ((0,), ("text",)),
    "Button": ((0,), ("text",)),
    "Heading": ((0,), ("title", "above", "below")),
    "Section": ((0, 1), ("word", "summary")),
    "Field": ((0,), ("name", "hint")),
    "TextArea": ((0,), ("name", "hint")),
    "DayField": ((0,), ("name", "hint")),
    "Choice": ((0,), ("name",)),
    "Combo": ((0,), ("name",)),
    "Tick": ((0,), ("text",)),
    "EmptyPage": ((0, 1), ("sentence", "soft")),
    "FlagBar": ((0,), ()),
    "FlagFacts": ((1, 2, 3, 4), ("word", "sentence", "clears", "action")),
    "GateRow": ((0,), ("note",)),
    "GateFacts": ((0, 2, 3), ("word", "how", "link")),
    "Table": ((0,), ()),
    "SmallTable": ((0,), ()),
    "Words": ((0, 1), ("text", "second", "tip")),
    "Two": ((0, 1), ("first", "second", "tip")),
    "Link": ((0,), ("text", "second", "tip")),
    "Group": ((0, 1), ("word", "second")),
    "Paper": ((0,), ("title",)),
    "FindHit": ((0, 1, 2), ("kind", "title", "second")),
    "set_title": ((0,), ()),
    "set_below": ((0,), ()),
    "set_words": ((0,), ("above", "below")),
    "set_echo": ((0,), ()),
    "set_error": ((0,), ()),
    "set_summary": ((0,), ()),
    "set_name": ((0,), ()),
    "tell_below": ((0,), ()),
    "show_trouble": ((0, 1), ("what", "why")),
    "section": ((0,), ()),
    "row": ((0, 1, 2, 3, 4, 5, 6, 7), ()),
    "block": ((0,), ("reason",)),
    "setText": ((0,), ()),
    "setToolTip": ((0,), ()),
    "setAccessibleName": ((0,), ()),
    "setAccessibleDescription": ((0,), ()),
    "setPlaceholderText": ((0,), ()),
    "setWindowTitle": ((0,), ()),
    "addAction": ((0,), ()),
    "addMenu": ((0,), ()),
    "getOpenFileName": ((1, 3), ()),
    "getOpenFileNames": ((1, 3), ()),
    "getSaveFileName": ((1, 3), ()),
    "getExistingDirectory": ((1,), ()),
}


@pytest.fixture(scope="module")
def faces(app_sources: list[Source]) -> list[Source]:
    """The files whose words people see."""
    return [s for s in app_sources if s.name.startswith(("app/screens/", "app/papers/"))]


def name_of(call: ast.Call) -> str:
    """The last name of what is called."""
    return ast.unparse(call.func).rpartition(".")[2]


def literals(node: ast.AST, *, whole: bool = True) -> Iterator[ast.Constant]:
    """The texts below a node that pass through no door: not worded, not logged, not raised, no key of a table."""
    if isinstance(node, ast.Call):
        name = name_of(node)
        if name in WORDED or name in NOT_FOR_PEOPLE or ast.unparse(node.func).startswith("_log."):
            return
        yield from literals(node.func, whole=whole)
        known_by = 1 if name == "Row" else 0  # the key of a row comes back, and is not shown
        for argument in [*node.args[known_by:], *(keyword.value for keyword in node.keywords)]:
            if whole or name not in SHOWN:
                yield from literals(argument, whole=whole)
        return
    if isinstance(node, (ast.Raise, ast.Assert)):
        return
    if isinstance(node, ast.Constant):
        if isinstance(node.value, str):
            yield node
        return
    if isinstance(node, ast.Subscript):
        yield from literals(node.value, whole=whole)
        return
    if isinstance(node, ast.Compare):
        return
    if isinstance(node, ast.IfExp):
        yield from literals(node.body, whole=whole)
        yield from literals(node.orelse, whole=whole)
        return
    for child in ast.iter_child_nodes(node):
        docstring = isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant)
        note = isinstance(node, (ast.AnnAssign, ast.arg)) and child is node.annotation
        note = note or (isinstance(node, ast.AnnAssign) and ast.unparse(node.annotation) == "TypeAlias")
        if not docstring and not note:
            yield from literals(child, whole=whole)


def no_words(text: str) -> bool:
    """Whether it is a key, a pattern of a date, the name of a file, or a name that every language leaves."""
    return text in NAMES or any(p.fullmatch(text) for p in (KEY, PATTERN, FILE))


def shown(call: ast.Call) -> Iterator[ast.expr]:
    """The arguments of a call that people will see."""
    places, names = SHOWN.get(name_of(call), ((), ()))
    yield from (call.args[i] for i in places if i < len(call.args))
    yield from (keyword.value for keyword in call.keywords if keyword.arg in names)


def missed(source: Source) -> list[str]:
    """What both nets catch in a file."""
    caught: dict[int, str] = {}
    wide = () if source.name.startswith(OF_NAMES) else literals(source.tree)
    for node in wide:
        if (LIKE_A_LABEL.search(node.value) or LIKE_A_SENTENCE.search(node.value)) and not no_words(
            node.value
        ):
            caught[id(node)] = f"{source.name}:{node.lineno} {node.value!r}"
    for call in source.walk():
        if isinstance(call, ast.Call):
            for argument in shown(call):
                for node in literals(argument, whole=False):
                    if A_WORD.search(node.value) and not no_words(node.value):
                        caught[id(node)] = f"{source.name}:{node.lineno} {node.value!r}"
    return list(caught.values())


def test_no_word_on_a_screen_or_paper_is_missed(faces: list[Source]) -> None:
    assert [line for source in faces for line in missed(source)] == []


@pytest.mark.parametrize(
    "line",
    [
        'Label("Ready")',
        'button.setText("ready" if done else "not yet")',
        'Label(f"{n} jobs")',
        'trouble.show_trouble(say("Held"), why="by " + name)',
        'WORDS = {"a": "what the customer said"}',
        'KINDS = (("a", "Stopped here"),)',
        'Section(say("Parts"), summary="none yet")',
        'form.row("Phone", field)',
    ],
)
def test_a_missed_word_is_found(line: str) -> None:
    assert missed(Source("app/screens/tried.py", line))


@pytest.mark.parametrize(
    "line",
    [
        'Label(say("Ready"), "large strong")',
        'button.setText(say("ready") if kind == "Main kind of it" else "")',
        'Label(f"{n} {say(unit)}")',
        'Button(say("Save"), save, kind="main", key="Ctrl+Return")',
        '_log.error("a change of the bench failed")',
        'raise ValueError("no such kind of page")',
        'style = pages["counter"]',
        'words("Stopped here")',
        'day(when, "EEE d MMM y")',
    ],
)
def test_what_is_worded_or_not_for_people_is_left_alone(line: str) -> None:
    assert missed(Source("app/screens/tried.py", line)) == []


# --- German is the proof ------------------------------------------------------------------------------------

catalogue = load("catalogue")
GERMAN = ROOT / "assets" / "translations" / "de"


@pytest.fixture(scope="module")
def collected() -> Any:
    """Every message of code and data."""
    return catalogue.collected()


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ('say("Ready")', ["Ready"]),
        ("""f"{say('Since {day}.', day=day)} {told}\"""", ["Since {day}."]),
        ('self.say("one" if n == 1 else "many")', ["one", "many"]),
        ('_wording()("No screen " "here.")', ["No screen here."]),
        ('Sentence("A {b}", {"b": words("c")})', ["A {b}", "c"]),
        ('say(name); say(""); print("Ready"); say()', []),
    ],
)
def test_the_words_of_a_line_are_collected(line: str, found: list[str]) -> None:
    assert list(catalogue.code_words(line)) == found


def test_the_catalogue_collects_words_of_every_kind(collected: Any) -> None:
    for text in ("Take in a player", "&Book", "handed back", "No job has the number {number}."):
        assert collected.get(text) is not None, text


@pytest.mark.skipif(not GERMAN.is_dir(), reason="nothing is translated yet")
def test_every_message_is_said_in_german(collected: Any) -> None:
    assert catalogue.missing("de", collected) == []


@pytest.mark.skipif(not GERMAN.is_dir(), reason="nothing is translated yet")
def test_a_translation_fills_the_same_braces(collected: Any) -> None:
    """Each brace of the English template stands in the German one too, and no other."""
    braces = re.compile(r"\{(\w*)\}")
    there = catalogue.read("de")
    wrong = [
        message.id
        for message in collected
        if message.id
        and (found := there.get(message.id))
        and found.string
        and set(braces.findall(message.id)) != set(braces.findall(found.string))
    ]
    assert wrong == []


@pytest.mark.skipif(not GERMAN.is_dir(), reason="nothing is translated yet")
def test_the_compiled_catalogue_is_of_today() -> None:
    """What is read at run time says the same as what people edit."""
    import gettext

    spoken = gettext.translation("spindlebook", ROOT / "assets" / "translations", ["de"])
    stale = [m.id for m in catalogue.read("de") if m.id and m.string and spoken.gettext(m.id) != m.string]
    assert stale == []


def test_every_language_of_the_settings_has_its_folder_or_is_english() -> None:
    folders = {path.name for path in Path(ROOT / "assets" / "translations").glob("*")} | {"en"}
    assert set(catalogue.LANGUAGES) <= folders or not GERMAN.is_dir()
