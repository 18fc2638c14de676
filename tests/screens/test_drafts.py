"""Drafts: on disk a second after the last keystroke, whole or not at all, and back after a crash."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.screens import drafts as drafts_module
from app.screens.drafts import Drafts


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "place" / "drafts.json"


@pytest.fixture
def drafts(path: Path) -> Iterator[Drafts]:
    made = Drafts(path, delay_ms=10)
    yield made
    made.close()


def test_what_was_typed_is_on_disk_soon_after_the_last_keystroke(
    qtbot: QtBot, drafts: Drafts, path: Path
) -> None:
    with qtbot.waitSignal(drafts.kept) as signal:
        drafts.keep("intake", {"customer": "Bene"})
        drafts.keep("intake", {"customer": "Benedikt"})
    assert signal.args == ["intake"]
    assert json.loads(path.read_text("utf-8")) == {"intake": {"customer": "Benedikt"}}


def test_a_draft_is_there_again_after_the_program_was_started_anew(path: Path, drafts: Drafts) -> None:
    drafts.keep("intake", {"customer": "Ansgar Pöhlmeier", "came": ["mains lead"]})
    drafts.flush()
    again = Drafts(path)
    assert again.read("intake") == {"customer": "Ansgar Pöhlmeier", "came": ["mains lead"]}
    assert again.forms() == ("intake",)
    again.close()


def test_a_killed_program_leaves_the_whole_draft(path: Path) -> None:
    script = (
        "import os, signal, sys\n"
        "from pathlib import Path\n"
        "from PySide6.QtCore import QCoreApplication\n"
        "from app.screens.drafts import Drafts\n"
        "app = QCoreApplication([])\n"
        "drafts = Drafts(Path(sys.argv[1]), delay_ms=0)\n"
        "drafts.kept.connect(lambda form: os.kill(os.getpid(), signal.SIGKILL))\n"
        "drafts.keep('intake', {'fault': 'stops when warm'})\n"
        "app.exec()\n"
    )
    root = Path(drafts_module.__file__).parents[2]
    env = {**os.environ, "PYTHONPATH": str(root)}
    subprocess.run([sys.executable, "-c", script, str(path)], env=env, check=False, timeout=60)
    again = Drafts(path)
    assert again.read("intake") == {"fault": "stops when warm"}
    again.close()


def test_a_saved_form_has_no_draft_any_more(path: Path, drafts: Drafts) -> None:
    drafts.keep("intake", {"customer": "x"})
    drafts.drop("intake")
    drafts.flush()
    assert drafts.read("intake") is None
    assert json.loads(path.read_text("utf-8")) == {}


def test_the_same_values_again_are_not_written_again(path: Path, drafts: Drafts) -> None:
    drafts.keep("intake", {"customer": "x"})
    drafts.flush()
    before = path.stat().st_ino
    drafts.keep("intake", {"customer": "x"})
    drafts.flush()
    assert path.stat().st_ino == before


def test_a_write_that_fails_leaves_the_old_file_and_says_so(
    qtbot: QtBot, drafts: Drafts, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    drafts.keep("intake", {"customer": "first"})
    drafts.flush()

    def full(fd: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(drafts_module.os, "fsync", full)
    with qtbot.waitSignal(drafts.failed) as signal:
        drafts.keep("intake", {"customer": "second"})
    assert isinstance(signal.args[0], OSError)
    assert json.loads(path.read_text("utf-8")) == {"intake": {"customer": "first"}}
    assert drafts.read("intake") == {"customer": "second"}


@pytest.mark.parametrize("content", ['{"intake": {"cust', "[]", '{"intake": 3}'])
def test_a_damaged_file_never_stops_the_program(path: Path, content: str) -> None:
    path.parent.mkdir()
    path.write_text(content, "utf-8")
    made = Drafts(path)
    assert made.read("intake") is None
    made.close()


def test_an_unreadable_file_is_put_aside_not_overwritten(path: Path) -> None:
    path.parent.mkdir()
    path.write_text('{"intake": {"cust', "utf-8")
    Drafts(path).close()
    assert path.with_suffix(".json.damaged").read_text("utf-8") == '{"intake": {"cust'
