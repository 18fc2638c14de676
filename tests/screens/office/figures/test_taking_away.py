"""Taking an answer away: clipboard, files, paper."""

from __future__ import annotations

from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtWidgets import QFileDialog

from tests.papers.reading import whole


def test_tables_and_picture_go_to_the_clipboard_together(office, figure):
    page = figure()
    office.press("Ctrl+C")
    held = QGuiApplication.clipboard().mimeData()
    rows = [row.split("\t") for row in held.text().splitlines()]
    assert rows[1][:4] == ["Transport type", "Came back", "Of", "Share"]
    assert rows[2][:4] == ["Velk A1", "8", "12", "66.7 %"]
    assert held.hasImage()
    assert "on the clipboard" in office.sees(page.head)
    QGuiApplication.clipboard().clear()  # nothing made by Python is left in Qt's hands at the end


def test_the_ending_of_the_name_says_what_is_written(office, figure, tmp_path):
    page = figure()
    for ending in ("png", "svg", "pdf", "csv"):
        page.taking.save_to(tmp_path / f"rates.{ending}")
        office.settle()
    assert not QImage(str(tmp_path / "rates.png")).isNull()
    assert "<svg" in (tmp_path / "rates.svg").read_text("utf-8")
    assert (tmp_path / "rates.pdf").read_bytes().startswith(b"%PDF")
    text = (tmp_path / "rates.csv").read_text("utf-8-sig")
    assert text.splitlines()[1].startswith("Velk A1,8,12,0.66")
    assert "Saved as" in office.sees(page.head)


def test_it_is_asked_where_to_and_the_kind_chosen_gives_the_ending(office, figure, tmp_path, monkeypatch):
    page = figure()
    asked = []

    def chosen(_, __, proposed, kinds):
        asked.append((proposed, kinds))
        return str(tmp_path / "rates 2026"), "Tables (*.csv)"

    monkeypatch.setattr(QFileDialog, "getSaveFileName", chosen)
    office.press("Ctrl+Shift+E")
    assert asked[0][0] == "Which repairs come back 2026-03-12"
    assert (tmp_path / "rates 2026.csv").exists()
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: ("", ""))
    page.taking.save()
    office.settle()
    assert len(list(tmp_path.glob("rates*"))) == 1


def test_a_folder_that_is_not_there_is_told(office, figure, tmp_path):
    page = figure()
    page.taking.save_to(tmp_path / "none" / "rates.csv")
    office.settle()
    assert "could not be written." in office.sees()


def test_the_answer_is_printed_with_what_was_asked(office, figure):
    page = figure()
    page.bar.window_days.set_value(90)
    office.settle()
    office.press("Ctrl+P")
    said = whole(office.papers[-1].pdf)
    for words in ("Which repairs come back", "Came back within 90 days", "Velk A1"):
        assert words in said


def test_before_there_is_an_answer_nothing_is_taken(office):
    page = office.open("figure", "shop")
    page.found = None
    assert set(page.commands()) == {"leave"}
    page.taking.copy()
    page.taking.save()
    page.taking.save_to(None)
    page.taking.print_paper()
    assert office.papers == []
