"""What argparse says stands in the program's language, and wrong usage keeps its exit code."""

from __future__ import annotations

import argparse
import gettext
import inspect
from datetime import UTC
from typing import Any, cast

import pytest

from app.commands.argparse_words import OWN, speaking
from app.commands.command import Doors
from app.commands.main import main, parser
from app.trade.wording import Wording, plain
from app.work.language import wording_for

GERMAN = {"LANG": "de_DE.UTF-8"}


def leave(capsys: pytest.CaptureFixture[str], *words: str, language: dict[str, str]) -> tuple[Any, str]:
    with pytest.raises(SystemExit) as left:
        main(words, cast("Doors", None), environment=language)
    said = capsys.readouterr()
    return left.value.code, said.out + said.err


def test_help_is_german_throughout(capsys: pytest.CaptureFixture[str]) -> None:
    code, said = leave(capsys, "--help", language=GERMAN)
    assert code == 0
    assert said.startswith("Aufruf: spindlebook ")
    for english in ("usage", "options", "show this", "show program", "and exit", "positional"):
        assert english not in said
    assert "Optionen:" in said


@pytest.mark.parametrize("command", ["backup", "restore", "check", "export", "demo", "tour", "paper"])
def test_the_help_of_each_command_is_german_too(capsys: pytest.CaptureFixture[str], command: str) -> None:
    code, said = leave(capsys, command, "--help", language=GERMAN)
    assert code == 0
    assert "usage" not in said
    assert "arguments" not in said
    assert "PFAD" in said
    for english in ("PATH", "FOLDER", "FILE", "DAY", "KIND", "NUMBER", "COMMAND"):
        assert english not in said


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--nonsense",), "unbekannte Angaben: --nonsense"),
        (("mend",), "unzulässig: 'mend'"),
        (("export",), "diese Angaben fehlen: --to"),
        (("backup", "--to"), "eine Angabe fehlt"),
    ],
)
def test_wrong_usage_is_told_in_german_and_exits_with_2(
    capsys: pytest.CaptureFixture[str], words: tuple[str, ...], told: str
) -> None:
    code, said = leave(capsys, *words, language=GERMAN)
    assert code == 2
    assert told in said
    assert "Fehler: " in said
    for english in ("error", "usage", "argument", "expected", "required", "invalid"):
        assert english not in said


def test_english_stays_as_the_library_says_it(capsys: pytest.CaptureFixture[str]) -> None:
    code, said = leave(capsys, "backup", "--to", language={"LANG": "en_GB.UTF-8"})
    assert code == 2
    assert said.startswith("usage: spindlebook backup ")
    assert "error: argument --to: expected one argument" in said


def test_the_librarys_own_words_come_back_afterwards() -> None:
    with pytest.raises(ZeroDivisionError), speaking(wording_for("de", UTC)):
        raise ZeroDivisionError
    assert vars(argparse)["_"] is gettext.gettext
    assert vars(argparse)["ngettext"] is gettext.ngettext


def test_one_and_several_are_told_apart() -> None:
    said = {"expected %s argument": "one", "expected %s arguments": "several"}
    with speaking(Wording(lambda key: said.get(key, key), "de", UTC)):
        asked = [vars(argparse)["ngettext"](*said, count) for count in (1, 2)]
    assert asked == ["one", "several"]


def test_the_words_are_those_of_the_library() -> None:
    # Oracle: the source of argparse of the Python that runs. The choices of a command are quoted otherwise from
    # 3.12 on, but asked for by the same template.
    source = inspect.getsource(argparse)
    assert [word for word in OWN if repr(word)[1:-1] not in source] == []
    assert parser(plain(UTC)).prog == "spindlebook"
