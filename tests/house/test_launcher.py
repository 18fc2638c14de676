"""run.py: what it sets up, what it says when it cannot, and what it starts."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType, SimpleNamespace
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def launcher() -> ModuleType:
    """run.py, loaded afresh and not run."""
    spec = importlib.util.spec_from_file_location("launcher", ROOT / "run.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def shop(launcher: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder with two lock files, which the launcher takes for its own."""
    (tmp_path / "requirements.lock").write_text("a==1\n")
    (tmp_path / "requirements-dev.lock").write_text("a==1\nb==2\n")
    monkeypatch.setattr(launcher, "ROOT", tmp_path)
    monkeypatch.setattr(launcher, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(launcher, "PYTHON", tmp_path / ".venv" / "python")
    monkeypatch.setattr(launcher, "STAMPS", tmp_path / ".venv" / "spindlebook.stamps")
    return tmp_path


@pytest.fixture
def filled(launcher: ModuleType, shop: Path, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The steps of each set-up as they are taken; none of them does anything but the .venv's Python."""
    steps: list[str] = []

    def make_venv() -> None:
        steps.append("venv")
        (shop / ".venv").mkdir(exist_ok=True)
        (shop / ".venv" / "python").touch()

    monkeypatch.setattr(launcher, "make_venv", make_venv)
    monkeypatch.setattr(launcher, "require_qt_libraries", lambda: steps.append("libraries"))
    monkeypatch.setattr(launcher, "install", steps.append)
    return steps


# --- the second start is instant, until something changed --------------------------------------------------


def test_the_second_start_sets_nothing_up(launcher: ModuleType, filled: list[str]) -> None:
    launcher.set_up("run")
    assert filled == ["venv", "libraries", "requirements.lock"]
    launcher.set_up("run")
    assert len(filled) == 3


def test_the_check_after_the_demo_adds_what_it_needs(launcher: ModuleType, filled: list[str]) -> None:
    launcher.set_up("run")
    launcher.set_up("test")
    assert filled[3:] == ["venv", "libraries", "requirements-dev.lock"]


def test_the_demo_after_the_check_needs_nothing_more(launcher: ModuleType, filled: list[str]) -> None:
    launcher.set_up("test")
    launcher.set_up("run")
    launcher.set_up("test")
    assert len(filled) == 3


def test_a_changed_lock_file_is_installed_at_the_next_start(
    launcher: ModuleType, shop: Path, filled: list[str]
) -> None:
    launcher.set_up("run")
    (shop / "requirements.lock").write_text("a==2\n")
    launcher.set_up("run")
    assert len(filled) == 6


def test_a_lock_file_with_the_line_ends_of_windows_is_the_same_lock_file(
    launcher: ModuleType, shop: Path
) -> None:
    before = launcher.stamp("run")
    (shop / "requirements.lock").write_bytes(b"a==1\r\n")
    assert launcher.stamp("run") == before


def test_another_python_is_set_up_afresh(
    launcher: ModuleType, filled: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    launcher.set_up("run")
    monkeypatch.setattr(launcher.sys, "version", "3.99.0")
    launcher.set_up("run")
    assert len(filled) == 6


def test_a_moved_folder_is_set_up_afresh(
    launcher: ModuleType, shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = launcher.stamp("run")
    moved = shop / "moved"
    moved.mkdir()
    (moved / "requirements.lock").write_text("a==1\n")
    monkeypatch.setattr(launcher, "ROOT", moved)
    assert launcher.stamp("run") != before


def test_an_interrupted_set_up_is_taken_up_again(
    launcher: ModuleType, filled: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(lock: str) -> None:
        raise launcher.NotReady("no network")

    with monkeypatch.context() as during:
        during.setattr(launcher, "install", interrupted)
        with pytest.raises(launcher.NotReady):
            launcher.set_up("run")
    launcher.set_up("run")
    assert filled == ["venv", "libraries", "venv", "libraries", "requirements.lock"]


def test_a_folder_that_cannot_be_written_is_said_in_a_sentence(
    launcher: ModuleType, filled: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused() -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(launcher, "make_venv", refused)
    with pytest.raises(launcher.NotReady, match=r"Cannot set up in .*Permission denied"):
        launcher.set_up("run")


# --- the .venv ---------------------------------------------------------------------------------------------


@pytest.fixture
def calls(launcher: ModuleType, monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """The commands that the launcher would have called; each of them ends well."""
    made: list[list[str]] = []

    def call(command: list[str], **options: Any) -> int:
        made.append([str(word) for word in command])
        return 0

    def run(command: list[str], **options: Any) -> SimpleNamespace:
        made.append([str(word) for word in command])
        return SimpleNamespace(returncode=0, stdout="", stderr="")

    monkeypatch.setattr(launcher.subprocess, "call", call)
    monkeypatch.setattr(launcher.subprocess, "run", run)
    return made


def knows(launcher: ModuleType, monkeypatch: pytest.MonkeyPatch, *modules: str) -> None:
    """Let this Python have these modules and no .venv's Python have any."""
    monkeypatch.setattr(
        launcher, "has", lambda module, python=sys.executable: module in modules and python == sys.executable
    )


def test_without_ensurepip_the_hosts_pip_fills_the_venv(
    launcher: ModuleType, shop: Path, calls: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    knows(launcher, monkeypatch, "pip")
    launcher.make_venv()
    launcher.install("requirements.lock")
    assert "--without-pip" in calls[-3]
    assert calls[-2][:5] == [sys.executable, "-m", "pip", "--python", str(shop / ".venv" / "python")]


def test_with_ensurepip_the_venv_has_its_own(
    launcher: ModuleType, shop: Path, calls: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    knows(launcher, monkeypatch, "ensurepip", "pip")
    launcher.make_venv()
    assert calls[-1] == [sys.executable, "-m", "venv", "--clear", str(shop / ".venv")]


def test_with_neither_the_debian_package_is_named(
    launcher: ModuleType, shop: Path, calls: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    knows(launcher, monkeypatch)
    with pytest.raises(launcher.NotReady, match="apt-get install python3-venv"):
        launcher.make_venv()


def test_a_pip_that_fails_is_said_with_the_next_step(
    launcher: ModuleType, shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    knows(launcher, monkeypatch, "pip")
    monkeypatch.setattr(launcher.subprocess, "call", lambda command, **options: 1)
    with pytest.raises(launcher.NotReady, match="start again"):
        launcher.install("requirements.lock")


def test_whether_a_python_has_a_module_is_asked_of_that_python(launcher: ModuleType, tmp_path: Path) -> None:
    assert launcher.has("json")
    assert not launcher.has("no_such_module")
    assert not launcher.has("json", tmp_path / "no-such-python")


# --- Qt's libraries ----------------------------------------------------------------------------------------


@pytest.fixture
def linux(launcher: ModuleType, calls: list[list[str]], monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """A Debian without a screen and an ordinary person; put into the list what its loader cannot open."""
    absent: list[str] = []
    monkeypatch.setattr(launcher.sys, "platform", "linux")
    monkeypatch.setattr(launcher, "missing", lambda libraries: [name for name in libraries if name in absent])
    monkeypatch.setattr(launcher.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(launcher.os, "geteuid", lambda: 1000, raising=False)
    monkeypatch.delenv("DISPLAY", raising=False)
    return absent


def test_nothing_is_said_when_all_are_there(
    launcher: ModuleType, linux: list[str], calls: list[list[str]]
) -> None:
    launcher.require_qt_libraries()
    assert calls == []


def test_an_ordinary_person_gets_the_line_to_type(launcher: ModuleType, linux: list[str]) -> None:
    linux.extend(["libEGL.so.1", "libGL.so.1"])
    with pytest.raises(launcher.NotReady, match="sudo apt-get install libgl1 libegl1"):
        launcher.require_qt_libraries()


def test_elsewhere_than_debian_the_libraries_are_named(
    launcher: ModuleType, linux: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    linux.append("libEGL.so.1")
    monkeypatch.setattr(launcher.shutil, "which", lambda name: None)
    with pytest.raises(launcher.NotReady, match=r"libEGL\.so\.1.*package manager"):
        launcher.require_qt_libraries()


def test_a_screens_libraries_are_needed_only_with_a_screen(
    launcher: ModuleType, linux: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    linux.append("libxcb-cursor.so.0")
    launcher.require_qt_libraries()
    monkeypatch.setenv("DISPLAY", ":0")
    with pytest.raises(launcher.NotReady, match="libxcb-cursor0"):
        launcher.require_qt_libraries()


def test_a_printers_library_stops_nobody(
    launcher: ModuleType, linux: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    linux.append("libcups.so.2")
    monkeypatch.setenv("DISPLAY", ":0")
    launcher.require_qt_libraries()


def test_root_on_debian_gets_them_installed(
    launcher: ModuleType, linux: list[str], calls: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    linux.append("libEGL.so.1")
    monkeypatch.setattr(launcher.os, "geteuid", lambda: 0, raising=False)
    there = launcher.subprocess.run

    def installs(command: list[str], **options: Any) -> Any:
        if "install" in command:
            linux.clear()
        return there(command, **options)

    monkeypatch.setattr(launcher.subprocess, "run", installs)
    launcher.require_qt_libraries()
    assert [command[2] for command in calls] == ["update", "install"]
    assert calls[1][-1] == "libegl1"


def test_root_is_told_when_the_install_did_not_help(
    launcher: ModuleType, linux: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    linux.append("libEGL.so.1")
    monkeypatch.setattr(launcher.os, "geteuid", lambda: 0, raising=False)
    with pytest.raises(launcher.NotReady, match="    apt-get install libegl1"):
        launcher.require_qt_libraries()


@pytest.mark.parametrize("system", ["win32", "darwin"])
def test_other_systems_have_what_qt_needs(
    launcher: ModuleType, linux: list[str], monkeypatch: pytest.MonkeyPatch, system: str
) -> None:
    linux.append("libEGL.so.1")
    monkeypatch.setattr(launcher.sys, "platform", system)
    launcher.require_qt_libraries()


def test_a_library_that_is_not_there_is_missed(launcher: ModuleType) -> None:
    assert launcher.missing({"libno-such-thing.so.9": "none"}) == ["libno-such-thing.so.9"]


# --- what is started ---------------------------------------------------------------------------------------
