"""The command line: words in, words and an exit code out."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from app import __version__
from app.commands.main import COMMANDS, language_of, main
from app.trade.refusal import Fault, Refusal
from app.trade.sentence import Sentence
from app.work.shop_book import open_shop, peek_shop
from app.work.upkeep.places import default_book
from tests.commands.conftest import FakeDoors

ROOT = Path(__file__).resolve().parents[2]


def test_no_command_opens_the_shops_own_book_and_makes_it_the_first_time(doors: FakeDoors, obey: Any) -> None:
    assert obey(book=None) == 0
    assert doors.asked == [("window", default_book(), True)]


def test_another_book_is_opened_and_made_only_when_asked(doors: FakeDoors, obey: Any, path: Path) -> None:
    assert obey() == 0
    assert obey("--new") == 0
    assert doors.asked == [("window", path, False), ("window", path, True)]


def test_demo_and_tour_go_through_their_doors(doors: FakeDoors, obey: Any, tmp_path: Path) -> None:
    assert obey("demo") == 0
    assert obey("demo", "--build", tmp_path) == 0
    assert obey("tour", "--to", tmp_path) == 1  # a step failed
    assert doors.asked == ["demo", ("build", tmp_path), ("tour", tmp_path)]


def test_the_version_is_the_programs(obey: Any, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        obey("--version")
    assert ended.value.code == 0
    assert capsys.readouterr().out == f"Spindlebook {__version__}\n"


@pytest.mark.parametrize(
    "words", [["nonsense"], ["tour"], ["export"], ["restore"], ["restore", "x", "--list"], ["--nope"]]
)
def test_wrong_usage_exits_with_two(obey: Any, words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        obey(*words)
    assert ended.value.code == 2
    assert "usage: spindlebook" in capsys.readouterr().err


@pytest.mark.parametrize("command", ["", *COMMANDS])
def test_help_says_what_each_command_does_in_whole_sentences(
    obey: Any, command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        obey(*[command] if command else [], "--help")
    assert ended.value.code == 0
    shown = " ".join(capsys.readouterr().out.split())
    about = (
        COMMANDS[command].ABOUT
        if command
        else "Exit code: 0 done, 1 failed (the reason is said), 2 wrong usage."
    )
    assert " ".join(about.split()) in shown
    assert "--book PATH" in shown


def test_the_book_may_stand_behind_the_command(doors: FakeDoors, path: Path, capsys: Any) -> None:
    assert main(["check", "--book", str(path)], doors, environment={}) == 0
    assert "The book is good." in capsys.readouterr().out


def test_a_backup_says_what_is_in_it(obey: Any, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert obey("backup", "--to", tmp_path / "stick") == 0
    shown = capsys.readouterr().out
    (copy,) = (tmp_path / "stick").glob("*.sqlite")
    assert shown.startswith("Copied and checked: 0 jobs, ")
    assert str(copy) in shown
    assert obey("backup") == 0  # without a place, beside the book


def test_a_backup_tells_of_files_it_had_to_leave_out(
    obey: Any, path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(
            "INSERT INTO settings (key, value, version) VALUES ('logo', ?, 1)", (f'"{"ab" * 32}"',)
        )
        connection.commit()
    assert obey("backup") == 0
    assert "1 files of the book are missing" in capsys.readouterr().out


def test_a_backup_can_be_made_while_a_window_is_open(obey: Any, path: Path, tmp_path: Path) -> None:
    book = open_shop(path)
    try:
        assert obey("backup", "--to", tmp_path / "stick") == 0
        assert obey("export", "--to", tmp_path / "out") == 0
        assert obey("check") == 0
    finally:
        book.close()


def test_restore_lists_and_restores_any_copy(
    obey: Any, path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert obey("backup") == 0
    (copy,) = (path.parent / "book.copies").glob("*.sqlite")
    capsys.readouterr()
    assert obey("restore", "--list") == 0
    shown = capsys.readouterr().out
    assert str(copy) in shown
    assert (
        "copied 12\u00a0Mar\u00a02026,\u00a010:30, by hand; 0 jobs, last entry 2\u00a0Mar\u00a02026" in shown
    )
    assert obey("restore", copy) == 0
    shown = capsys.readouterr().out
    assert "The former book lies in" in shown
    assert "A copy of it was made" in shown


def test_restore_works_when_the_book_is_damaged_or_gone(
    obey: Any, path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert obey("backup") == 0
    (copy,) = (path.parent / "book.copies").glob("*.sqlite")
    path.write_bytes(b"overwritten")
    assert obey("check") == 1
    capsys.readouterr()
    assert obey("restore", copy) == 0
    assert "No copy of it could be made" in capsys.readouterr().out
    assert obey("check") == 0
    path.unlink()
    assert obey("restore", copy) == 0
    assert obey("check") == 0


def test_copies_are_listed_also_when_the_book_is_gone(
    obey: Any, path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert obey("backup") == 0
    path.unlink()
    capsys.readouterr()
    assert obey("restore", "--list") == 0
    shown = capsys.readouterr().out
    # The shop's clock stood in the book: 09:30 UTC, which the shop's list calls 10:30.
    assert "copied 12\u00a0Mar\u00a02026,\u00a009:30, by hand" in shown
    assert not path.exists()


def test_restore_tells_of_files_that_are_missing(
    obey: Any, path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(
            "INSERT INTO settings (key, value, version) VALUES ('logo', ?, 1)", (f'"{"ab" * 32}"',)
        )
        connection.commit()
    assert obey("backup") == 0
    (copy,) = (path.parent / "book.copies").glob("*.sqlite")
    assert obey("restore", copy) == 0
    assert "1 files that it names are missing" in capsys.readouterr().out


def test_copies_without_word_of_their_content_are_listed_as_such(
    obey: Any, path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert obey("restore", "--list") == 1
    assert "no copies" in capsys.readouterr().err
    assert obey("backup") == 0
    for sidecar in (path.parent / "book.copies").glob("*.json"):
        sidecar.unlink()
    assert obey("restore", "--list") == 0
    assert "nothing is known of what is inside" in capsys.readouterr().out


def test_a_copy_of_an_empty_book_is_called_empty(
    doors: FakeDoors, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "book.sqlite"
    open_shop(path, make=True).close()
    for words in (["backup"], ["restore", "--list"]):
        assert main(["--book", str(path), *words], doors, environment={}) == 0
    assert "by hand; empty" in capsys.readouterr().out


def test_a_check_says_what_it_looked_at_and_what_it_found(
    obey: Any, path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert obey("check") == 0
    shown = capsys.readouterr().out
    assert "rows of history" in shown
    assert "wrong" not in shown
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("DROP TRIGGER tr_history_stay")
        connection.commit()
    assert obey("check") == 1
    shown = capsys.readouterr().out
    assert "wrong" in shown
    assert "The trigger tr_history_stay is missing." in shown
    assert "The book is good." not in shown


@pytest.mark.parametrize("words", [["backup"], ["check"], ["export", "--to", "x"], ["restore", "--list"]])
def test_what_cannot_be_done_is_said_with_the_next_step_and_how_it_is_typed_and_exits_with_one(
    doors: FakeDoors, tmp_path: Path, words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--book", str(tmp_path / "gone.sqlite"), *words], doors, environment={}) == 1
    shown = capsys.readouterr()
    assert shown.out == ""
    *said, typed = shown.err.splitlines()
    assert said
    assert "spindlebook restore FILE" in typed
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_is_no_book_is_refused_with_the_words_for_another_one_and_for_a_copy(
    doors: FakeDoors, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    letters = tmp_path / "letters.sqlite"
    letters.write_text("Dear customer")
    assert main(["--book", str(letters), "check"], doors, environment={}) == 1
    assert capsys.readouterr().err.splitlines() == [
        f"{letters} is not a Spindlebook book.",
        "Choose another book, or restore a copy.",
        "Another book: spindlebook --book PATH",
        "The copies: spindlebook restore --list; one of them: spindlebook restore FILE",
    ]


def test_a_refusal_without_a_next_step_is_one_line(
    obey: Any, doors: FakeDoors, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse() -> int:
        raise Refusal(Sentence("There is no demo today."))

    monkeypatch.setattr(doors, "show_demo", refuse)
    assert obey("demo") == 1
    assert capsys.readouterr().err == "There is no demo today.\n"


def test_our_own_mistake_is_called_so(
    obey: Any, doors: FakeDoors, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail() -> int:
        raise Fault("no row 9 in jobs")

    monkeypatch.setattr(doors, "show_demo", fail)
    assert obey("demo") == 1
    assert "mistake of the program itself: no row 9 in jobs" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("environment", "language"),
    [
        ({}, "en"),
        ({"LANG": "de_DE.UTF-8"}, "de"),
        ({"LANG": "C.UTF-8"}, "C"),
        ({"LC_ALL": "en_GB", "LANG": "de"}, "en"),
        ({"LANGUAGE": "de:en", "LC_ALL": "en_GB"}, "de"),
        ({"LANG": ".UTF-8"}, "en"),
    ],
)
def test_it_speaks_the_systems_language(environment: dict[str, str], language: str) -> None:
    assert language_of(environment) == language


def test_a_reader_that_has_heard_enough_is_no_error(path: Path) -> None:
    run = (
        "import sys; from app.commands.main import main; from tests.commands.test_main import FakeDoors;"
        f" sys.exit(main(['--book', {str(path)!r}, 'check'], FakeDoors()))"
    )
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run([sys.executable, "-u", "-c", run], cwd=ROOT, stdout=writing, stderr=subprocess.PIPE)
    os.close(writing)
    assert (done.returncode, done.stderr) == (0, b"")
    peek_shop(path).close()


def test_no_command_brings_qt(path: Path) -> None:
    run = (
        "import sys; from app.commands.main import main; from tests.commands.test_main import FakeDoors;"
        f" [main(['--book', {str(path)!r}, *words], FakeDoors()) for words in (['check'], ['backup'])];"
        " sys.exit(sum(name.startswith('PySide6') for name in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", run], cwd=ROOT, capture_output=True)
    assert done.returncode == 0
