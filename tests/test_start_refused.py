"""A book that is refused at the start: told in a small window and on the command line."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app import start
from app.screens import language
from app.screens.kit import measure, palette
from app.screens.log_file import log_folder
from app.screens.qt_words import speak
from app.screens.refused_window import RefusedWindow
from app.screens.window import MainWindow
from app.trade.wording import plain
from app.work.people.staff import add_staff
from app.work.shop_book import open_shop


@pytest.fixture
def lives(
    qapp: QApplication, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> Iterator[list[Callable[[RefusedWindow], object]]]:
    """What hands do in the small window, one deed after the other; then whatever is open is closed."""
    for name in ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"):
        monkeypatch.setenv(name, str(tmp_path / name))
    deeds: list[Callable[[RefusedWindow], object]] = []

    def shown(kind: type) -> list:  # type: ignore[type-arg]
        QApplication.processEvents()
        return [one for one in QApplication.topLevelWidgets() if isinstance(one, kind) and one.isVisible()]

    def live() -> int:
        for deed in deeds:
            deed(shown(RefusedWindow)[0])
            for _ in range(2000):
                if shown(MainWindow) or not shown(RefusedWindow):
                    break
                QTest.qWait(2)
        for window in shown(MainWindow):
            window.close()
        return 0

    monkeypatch.setattr(QApplication, "exec", staticmethod(live))
    yield deeds
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    qapp.setQuitOnLastWindowClosed(True)
    palette.apply(qapp, "light")
    measure.set_text_size(qapp, 100)
    speak(qapp, "en_GB")
    language.use(plain(UTC))


def test_closed_without_choosing_it_fails_and_the_sentence_was_said(
    lives: list[Callable[[RefusedWindow], object]],
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    letters = tmp_path / "letters.sqlite"
    letters.write_text("Dear customer")
    said: list[str] = []
    lives.append(lambda window: (said.append(window.words), window.leave.click()))
    assert start.main(["--book", str(letters)]) == 1
    assert capsys.readouterr().err.splitlines()[0] == f"{letters} is not a Spindlebook book."
    assert said[0].startswith(f"{letters} is not a Spindlebook book.")
    assert letters.read_text() == "Dear customer"
    log = (log_folder() / "spindlebook.log").read_text(encoding="utf-8")
    assert "the book was refused: {path} is not a Spindlebook book." in log
    assert str(letters) not in log


def test_with_another_book_chosen_the_program_goes_on_and_does_not_fail(
    lives: list[Callable[[RefusedWindow], object]], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    good = tmp_path / "good.sqlite"
    book = open_shop(good, make=True)
    add_staff(book, None, "Ine Varloes")
    book.close()
    monkeypatch.setattr("app.screens.between_books.QFileDialog.getOpenFileName", lambda *_: (str(good), ""))
    lives.append(lambda window: window.choose.click())
    assert start.main(["--book", str(tmp_path / "missing.sqlite")]) == 0
    open_shop(good).close()  # nothing holds it any more


@pytest.mark.parametrize(
    ("spoken", "words"), [("de_DE.UTF-8", "Noch einmal versuchen"), ("en_GB.UTF-8", "Try again")]
)
def test_it_speaks_the_language_of_the_system_as_no_book_says_which(
    lives: list[Callable[[RefusedWindow], object]],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    spoken: str,
    words: str,
) -> None:
    for name in ("LANGUAGE", "LC_ALL", "LC_MESSAGES"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("LANG", spoken)
    heard: list[str] = []
    lives.append(lambda window: (heard.append(window.try_again.words()), window.leave.click()))
    assert start.main(["--book", str(tmp_path / "missing.sqlite")]) == 1
    assert language.current().language == spoken[:2]
    assert heard == [words]
