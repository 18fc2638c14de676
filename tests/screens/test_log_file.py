"""The log: a file that turns over, without what people typed, and no reason not to work where it cannot be."""

from __future__ import annotations

import logging
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QMessageLogContext, QtMsgType

from app.screens import log_file
from app.screens.log_file import NAME, LogFile, as_text, hear_qt, log_folder

pytestmark = pytest.mark.logs_errors("these are about the log")
_log = logging.getLogger("app.tried")
TYPED = "Quistan"


@pytest.fixture
def log(tmp_path: Path) -> Iterator[LogFile]:
    made = LogFile(tmp_path / "log", {})
    yield made
    made.close()


def fail_by_name(name: str) -> None:
    """An error that names a customer, as SQLAlchemy's do, because of another that names one too."""
    try:
        int(name)
    except ValueError as error:
        raise LookupError(f"no customer {name}") from error


def logged(folder: Path) -> str:
    return (folder / "log" / NAME).read_text(encoding="utf-8")


def test_an_error_is_written_with_its_way_and_without_what_was_typed(tmp_path: Path, log: LogFile) -> None:
    try:
        fail_by_name(TYPED)
    except LookupError:
        _log.exception("a question failed")
    text = logged(tmp_path)
    assert "ERROR app.tried MainThread: a question failed" in text
    assert "test_log_file.py" in text
    assert text.index("ValueError\nwhich led to\n") < text.index("LookupError")
    assert TYPED not in text


def test_it_stays_so_when_another_handler_has_written_the_error_in_full(tmp_path: Path, log: LogFile) -> None:
    record = _log.makeRecord("app.tried", logging.ERROR, "", 0, "failed", (), None)
    record.exc_text = "ValueError: Quistan"
    logging.getLogger().handle(record)
    assert "failed" in logged(tmp_path)
    assert TYPED not in logged(tmp_path)


def test_whoever_asks_for_it_gets_everything(tmp_path: Path) -> None:
    log = LogFile(tmp_path / "log", {"SPINDLEBOOK_LOG": "Debug"})
    try:
        fail_by_name(TYPED)
    except LookupError:
        _log.debug("looked up", exc_info=True)
    log.close()
    assert "LookupError: no customer Quistan" in logged(tmp_path)


def test_what_is_said_at_debug_is_not_written_otherwise(tmp_path: Path, log: LogFile) -> None:
    _log.debug("typed: Quistan")
    _log.info("opened")
    assert "opened" in logged(tmp_path)
    assert "typed" not in logged(tmp_path)


def test_an_error_that_was_never_raised_has_only_its_kind() -> None:
    assert as_text(ValueError("Quistan")) == "ValueError"
    assert as_text(ValueError("a value"), full=True) == "ValueError: a value"


def test_what_was_meant_to_be_left_out_is_left_out() -> None:
    def fail() -> None:
        try:
            raise KeyError("before")
        except KeyError:
            raise ValueError("after") from None

    with pytest.raises(ValueError, match="after") as caught:
        fail()
    assert "which led to" not in as_text(caught.value)


def test_the_file_turns_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(log_file, "LARGEST", 400)
    log = LogFile(tmp_path / "log", {})
    for _ in range(60):
        _log.info("a line of some length, so that the file fills")
    log.close()
    assert sorted(path.name for path in (tmp_path / "log").iterdir()) == [
        NAME, *(f"{NAME}.{n}" for n in range(1, log_file.KEPT + 1))
    ]  # fmt: skip


def test_a_folder_that_cannot_be_written_is_no_reason_not_to_work(tmp_path: Path) -> None:
    (tmp_path / "log").write_text("in the way")
    log = LogFile(tmp_path / "log", {})
    assert log.path is None
    _log.info("nobody hears this")
    log.close()


def test_closed_it_leaves_logging_as_it_was(tmp_path: Path) -> None:
    root = logging.getLogger()
    before = (list(root.handlers), root.level)
    LogFile(tmp_path / "log", {}).close()
    assert (root.handlers, root.level) == before


@pytest.mark.parametrize(
    ("kind", "level"),
    [
        (QtMsgType.QtDebugMsg, logging.DEBUG),
        (QtMsgType.QtWarningMsg, logging.WARNING),
        (QtMsgType.QtCriticalMsg, logging.ERROR),
    ],
)
def test_what_qt_says_goes_to_the_log(kind: QtMsgType, level: int, caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.DEBUG):
        hear_qt(kind, QMessageLogContext(), "100 % of it")
    assert [(r.name, r.levelno, r.getMessage()) for r in caplog.records] == [("qt", level, "100 % of it")]


def test_its_folder_is_the_systems_for_logs(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    assert log_folder().parts[-2:] == ("Spindlebook", "log")
