"""Help in the margin: our own files, nothing fetched."""

from __future__ import annotations

from datetime import UTC
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QUrl
from pytestqt.qtbot import QtBot

from app.screens import language
from app.screens.frame import help_margin
from app.screens.frame.help_margin import HELP, HelpMargin, help_file
from app.trade.wording import Wording


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for code, topic, text in (
        ("en", "index", "# The book\n\nSee [taking in](intake.md) or [away](https://example.org)."),
        ("en", "intake", "# Taking in"),
        ("de", "intake", "# Annehmen"),
    ):
        (tmp_path / code).mkdir(exist_ok=True)
        (tmp_path / code / f"{topic}.md").write_text(text, "utf-8")
    monkeypatch.setattr(help_margin, "HELP", tmp_path)
    return tmp_path


@pytest.fixture
def margin(qtbot: QtBot, shelf: Path) -> HelpMargin:
    made = HelpMargin()
    qtbot.addWidget(made)
    return made


def test_a_topic_is_shown_and_closed_by_esc(qtbot: QtBot, margin: HelpMargin) -> None:
    margin.show_topic("intake")
    assert margin.isVisible()
    assert margin.words() == "Taking in"
    margin.refit()
    margin.grab()
    with qtbot.waitSignal(margin.closed):
        qtbot.keyClick(margin, Qt.Key.Key_Escape)
    assert not margin.isVisible()


def test_other_keys_do_not_close_it(qtbot: QtBot, margin: HelpMargin) -> None:
    margin.show_topic("intake")
    qtbot.keyClick(margin, Qt.Key.Key_A)
    assert margin.isVisible()


def test_it_speaks_the_windows_language_where_it_can(margin: HelpMargin) -> None:
    language.use(Wording(lambda key: key, "de", UTC))
    margin.show_topic("intake")
    assert margin.words() == "Annehmen"
    margin.show_topic("index")
    assert margin.words().startswith("The book")


def test_a_topic_without_a_page_shows_the_first_page(margin: HelpMargin) -> None:
    margin.show_topic("nothing_written")
    assert margin.words().startswith("The book")


def test_links_lead_to_other_topics_and_nowhere_else(margin: HelpMargin) -> None:
    margin.show_topic("index")
    margin._text.anchorClicked.emit(QUrl("intake.md"))
    assert margin.topic == "intake"
    margin._text.anchorClicked.emit(QUrl("https://example.org/"))
    assert margin.topic == "intake"
    assert margin._text.loadResource(2, QUrl("file:///etc/passwd")) is None


@pytest.mark.parametrize("topic", ["../../secret", "a/b", "", "a.b"])
def test_a_topic_is_a_plain_word(shelf: Path, topic: str) -> None:
    assert help_file(topic, "en") is None


def test_the_first_page_is_written() -> None:
    assert (HELP / "en" / "index.md").is_file()
