"""The care of the book by keys alone: copies and a restore, the check, everything written out, one person's data."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from PySide6.QtWidgets import QFileDialog
from sqlalchemy import text

from app.screens.desk import Came
from app.screens.office.upkeep import check_part, export_part
from app.screens.office.upkeep.check_part import PARTS, report_rows
from app.screens.office.upkeep.copies_part import standing_flags
from app.screens.office.upkeep.copy_rows import copy_row
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.work.counter.taking_in import receive_unit
from app.work.upkeep.check import CheckReport, Looked, check_book
from app.work.upkeep.copies import back_up_now, copies_of, copy_standing
from app.work.upkeep.restore import Restored
from tests.screens.office.conftest import lines
from tests.work.asked import unfiled_papers
from tests.work.counter.test_taking_in import LARCH

MADE = "12\u00a0Mar\u00a02026,\u00a010:30"


def chooses(monkeypatch, *names):
    """The next answers of the dialogs that ask for a folder or a file."""
    answers = iter(names)
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(next(answers)))
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(next(answers)), ""))


def refusing(*_, **__):
    raise Refusal(Sentence("This cannot be done."))


def take_in(office):
    receive_unit(office.book, office.shop.mirr, LARCH)


def test_the_parts_are_turned_over_with_the_arrows(office):
    page = office.open("upkeep")
    page.choice.setFocus()
    office.press("Right")
    assert page.check.isVisible()
    assert not page.copies.isVisible()
    office.press("Right")
    assert page.export.isVisible()  # the arrows stay with the words


def test_a_key_that_names_no_part_shows_the_copies(office):
    assert office.open("upkeep", "unheard of").copies.isVisible()


def test_esc_goes_back(office):
    before = office.open("office")
    office.open("upkeep", "export")
    office.press("Esc")
    assert office.page is before


# copies


def test_a_book_that_was_never_copied_says_so(office):
    page = office.open("upkeep")
    assert "The book has never been copied." in office.sees()
    assert "No copy has been made yet." in office.sees()
    assert office.focus is page.copies.now


def test_a_copy_is_made_at_a_key_from_every_part(office):
    take_in(office)
    page = office.open("upkeep")
    office.press("Return")
    (copy,) = copies_of(office.shop.path)
    (row,) = lines(page.copies.table)
    assert (row[0], row[2], row[3], row[5], row[6]) == (MADE, "1", MADE, "sound", copy.path.name)
    assert "Nothing has changed since." in office.sees()
    receive_unit(office.book, office.shop.mirr, replace(LARCH, serial="0420 159"))
    office.shop.clock.advance(minutes=5)
    page = office.open("upkeep", "check")
    office.press("Ctrl+B")
    assert page.copies.isVisible()
    assert [row[2] for row in lines(page.copies.table)] == ["2", "1"]


def test_a_copy_goes_into_another_folder(office, tmp_path, monkeypatch):
    page = office.open("upkeep")
    chooses(monkeypatch, "", tmp_path / "stick")
    office.push(page.copies.elsewhere)
    office.push(page.copies.elsewhere)
    assert len(copies_of(office.shop.path, tmp_path / "stick")) == 1


def test_a_copy_that_fails_is_told_and_stays_shown_until_one_succeeds(office, tmp_path):
    page = office.open("upkeep")
    page.copies.back_up(tmp_path / "gone" / "stick")
    office.settle()
    assert page.trouble.isVisible()
    assert page.copies.flags.isVisible()
    office.push(page.copies.now)
    assert not page.trouble.isVisible()
    assert not page.copies.flags.isVisible()


def test_a_copy_is_looked_through_and_then_the_book_is_left_for_it(office):
    take_in(office)
    copy = back_up_now(office.book)
    page = office.open("upkeep")
    page.copies.table.setFocus()
    page.copies.table.mark_first()
    office.press("Return")
    strip = page.copies.strip
    assert "It was looked through from end to end and is sound. It holds 1 job." in office.sees()
    assert "kept aside with its files" in office.sees()
    assert office.focus is strip.not_now
    assert not page.copies.now.isVisible()  # one main button at a time
    office.press("Esc")
    assert not strip.isVisible()
    assert office.errands == []
    office.press("Return")
    office.push(strip.restore)
    (errand,) = office.errands
    assert (errand.path, errand.then) == (office.shop.path, "upkeep")
    assert "in the book's place" in errand.saying
    office.book.close()
    done = errand.work()
    assert done.copy.path == copy.path


def test_esc_folds_the_question_first(office):
    before = office.open("office")
    back_up_now(office.book)
    page = office.open("upkeep")
    page.copies.table.opened.emit(next(iter(page.copies.copies)))
    office.settle()
    page.commands()["leave"]()
    assert not page.copies.strip.isVisible()
    page.commands()["leave"]()
    office.settle()
    assert office.page is before


def test_a_file_that_is_no_copy_is_refused(office, tmp_path, monkeypatch):
    page = office.open("upkeep")
    bad = tmp_path / "other.sqlite"
    bad.write_bytes(b"not a book")
    chooses(monkeypatch, "", bad)
    office.push(page.copies.file)
    office.push(page.copies.file)
    assert page.trouble.isVisible()
    assert not page.copies.strip.isVisible()


def test_looking_through_can_be_stopped(office):
    back_up_now(office.book)
    page = office.open("upkeep")
    path = Path(next(iter(page.copies.copies)))
    page.copies.look_into(path)
    page.copies.look_into(path)  # the first one is no longer waited for
    page.copies._stop_looking()
    office.settle()
    assert not page.copies.strip.isVisible()
    page.copies.look_into(path)
    page.put_away()
    office.settle()
    assert not page.copies.strip.isVisible()


def test_what_came_of_a_restore_is_told_in_the_window_after(office, tmp_path):
    copy = back_up_now(office.book)
    restored = Restored(copy, 1, None, tmp_path / "aside", None, Sentence("It could not be read."), 2)
    page = office.open("upkeep", Came(restored))
    assert page.trouble.words == ""  # it went well
    assert [(line.flag.level, line.flag.whole) for line in page.copies.came.lines()] == [
        ("note", f"The copy of {MADE} is the book now. The book before it lies in {tmp_path / 'aside'}.")
    ]
    assert [(line.flag.level, line.flag.whole) for line in page.copies.short.lines()] == [
        ("caution", "No copy of the former book could be made: It could not be read."),
        ("caution", "2 files are missing from it. The check names them."),
    ]
    plain = replace(restored, aside=None, not_saved=None, files_lacking=1)
    page = office.open("upkeep", Came(plain))
    assert [line.flag.whole for line in page.copies.came.lines()] == [f"The copy of {MADE} is the book now."]
    assert [line.flag.sentence for line in page.copies.short.lines()] == ["1 file is missing from it."]
    failed = Came(None, Refusal(Sentence("The disc is full."), Sentence("Make room.")))
    assert office.open("upkeep", failed).trouble.words.startswith("The disc is full.")


def test_how_the_copies_stand_is_flagged(office):
    standing = replace(copy_standing(office.book), files_lacking=2)
    (flag,) = standing_flags(standing)
    assert flag.sentence == "2 files of the book could not be copied."
    (flag,) = standing_flags(replace(standing, files_lacking=1))
    assert flag.sentence == "1 file of the book could not be copied."
    (flag,) = standing_flags(replace(standing, files_lacking=0, failure=Sentence("The disc is full.")))
    assert (flag.sentence, flag.clears) == ("The disc is full.", "")


@pytest.mark.parametrize(
    ("checked", "lacking", "said"),
    [(False, 0, "not known"), (True, 3, "3 files missing"), (True, 0, "sound")],
)
def test_what_is_known_of_a_copy(office, checked, lacking, said):
    copy = replace(
        back_up_now(office.book),
        checked=checked,
        files_lacking=lacking,
        size=25 * 1024 * 1024,
        last_at=datetime(2026, 3, 1, tzinfo=UTC) if checked else None,
    )
    cells = [cell.plain for cell in copy_row(copy).cells]
    assert cells[4:6] == ["25\u00a0MB", said]


# the check


def test_a_good_book_is_said_to_be_good(office):
    page = office.open("upkeep", "check")
    assert office.focus is page.check.begin
    office.press("Return")
    assert f"The book is good: {PARTS} parts were looked at, nothing is wrong." in office.sees()
    shown = lines(page.check.table)
    assert len(shown) == PARTS == len(check_book(office.book).parts)
    assert {row[2] for row in shown} == {"good"}
    assert not page.check.mend.isVisible()


def test_what_is_found_is_told_and_put_right(office):
    page = office.open("upkeep", "check")
    take_in(office)
    check_book(office.book, mend=False)
    with office.book.engine.begin() as connection:
        connection.execute(text("UPDATE find_words SET words = 'wrong'"))
    office.press("Return")
    assert "2 things were found." in office.sees()
    assert len([row for row in lines(page.check.table) if row[2] != "good"]) == 2
    office.push(page.check.mend)
    assert unfiled_papers(office.book) == ()
    assert "The book is good" in office.sees()


def test_several_findings_of_one_part_stand_below_each_other(office):
    found = (Sentence("one is bad"), Sentence("two is bad"))
    first, second = report_rows(CheckReport((Looked(Sentence("papers"), 3, found),)))
    assert [cell.plain for cell in first.cells] == ["papers", "3", "one is bad"]
    assert second.cells[2].plain == "two is bad"
    page = office.open("upkeep", "check")
    page.check._show(CheckReport((Looked(Sentence("papers"), 1, found[:1]),)))
    assert "1 thing was found." in office.sees()


def test_a_check_that_cannot_be_done_is_told_and_one_that_is_left_is_stopped(office, monkeypatch):
    page = office.open("upkeep", "check")
    page.check.start()
    page.put_away()
    office.settle()
    assert page.check.report is None
    monkeypatch.setattr(check_part, "check_book", refusing)
    office.press("Return")
    assert page.trouble.words.startswith("This cannot be done.")


# everything, and one person


def test_everything_is_written_as_lists_and_as_one_file(office, tmp_path, monkeypatch):
    page = office.open("upkeep", "export")
    folder = tmp_path / "out"
    chooses(monkeypatch, "", folder)
    office.press("Return")
    assert page.export.words == ""
    office.press("Return")
    files = sorted(path.name for path in folder.rglob("*") if path.is_file())
    assert page.export.words == f"{len(files)} files were written into {folder}."
    assert "staff.csv" in files
    assert any(name.endswith(".json") for name in files)


def test_an_export_that_cannot_be_done_is_told_and_one_that_is_left_is_stopped(office, tmp_path, monkeypatch):
    page = office.open("upkeep", "export")
    page.export.start(tmp_path / "out")
    page.put_away()
    office.settle()
    assert page.export.words == ""
    monkeypatch.setattr(export_part, "export_everything", refusing)
    page.export.start(tmp_path)
    office.settle()
    assert page.trouble.words.startswith("This cannot be done.")


def person(office, typed="Arns"):
    """The page with Benedikt Arnsvik taken from the matches."""
    page = office.open("upkeep", "person")
    assert office.focus is page.person.name.edit
    office.type(typed)
    office.press("Down")
    office.press("Return")
    return page


@pytest.mark.parametrize("typed", ["Arns", "960 142"])
def test_a_person_is_found_and_written_out_to_read(office, tmp_path, monkeypatch, typed):
    take_in(office)
    page = person(office, typed)
    assert "Benedikt Arnsvik, known since 12\u00a0Mar\u00a02026, 1 job" in office.sees()
    assert office.focus is page.person.hand_out
    chooses(monkeypatch, "", tmp_path)
    office.press("Return")
    assert page.person.words == ""
    office.press("Return")
    assert page.person.words.startswith("Written: ")
    assert any("Arnsvik" in path.read_text("utf-8") for path in tmp_path.glob("*.txt"))
