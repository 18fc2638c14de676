"""The check of the whole book: which part is at hand, what it found in words, and what a stopped one says."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from typing import Any

import pytest

from app.screens.kit.progress import ProgressLine
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.work.counter.taking_in import receive_unit
from app.work.upkeep.check import check_book
from tests.screens.office.conftest import LARCH, Office, lines


def found_wrong(page: Any) -> dict[str, str]:
    """What the table says is wrong, by the part that was looked at."""
    return {row[0]: row[2] for row in lines(page.check.table) if row[2] != "good"}


def alter(office: Office, *statements: str) -> None:
    """Change the file behind the program's back."""
    with closing(sqlite3.connect(office.shop.path)) as raw, raw:
        for statement in statements:
            raw.execute(statement)


def test_a_good_book_is_told_part_by_part_with_counts(office: Office) -> None:
    receive_unit(office.book, office.shop.mirr, LARCH)
    check_book(office.book)  # files the ticket
    page = office.open("upkeep", "check")
    office.push(page.check.begin)
    assert found_wrong(page) == {}
    counts = {row[0]: row[1] for row in lines(page.check.table)}
    assert int(counts["rows of history"]) > 0
    assert int(counts["pages of the file"]) > 10
    assert int(counts["issued papers"]) > 0


def test_the_bar_names_every_part_before_it_is_looked_at(
    office: Office, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[tuple[Any, ...]] = []
    step = ProgressLine.step

    def watched(line: ProgressLine, *told: Any) -> None:
        seen.append(told)
        step(line, *told)

    monkeypatch.setattr(ProgressLine, "step", watched)
    page = office.open("upkeep", "check")
    office.push(page.check.begin)
    parts = page.check.report.parts
    assert seen[-len(parts) :] == [(at, len(parts), part.at) for at, part in enumerate(parts)]
    assert page.check.progress.accessibleDescription() == "13 of 14 copies"


def test_a_player_that_the_search_index_forgot_is_found_and_put_right(office: Office) -> None:
    receive_unit(office.book, office.shop.mirr, LARCH)
    check_book(office.book)
    alter(office, "DELETE FROM find_words")
    page = office.open("upkeep", "check")
    office.push(page.check.begin)
    assert list(found_wrong(page)) == ["entries of the search index"]
    assert "1 thing was found." in office.sees(page)
    office.push(page.check.mend)
    assert found_wrong(page) == {}
    assert "The book is good" in office.sees(page)
    assert not page.check.mend.isVisible()


def test_a_row_of_history_that_somebody_changed_is_named(office: Office) -> None:
    alter(office, "DROP TRIGGER tr_history_stand", "UPDATE history SET action = 'nothing' WHERE seq = 2")
    page = office.open("upkeep", "check")
    office.push(page.check.begin)
    wrong = found_wrong(page)
    assert wrong["rows of history"].startswith("History is broken at row 2")
    assert wrong["tables, indexes and triggers"] == "The trigger tr_history_stand is missing."


def test_a_stopped_check_says_that_it_was_stopped_and_shows_nothing_older(office: Office) -> None:
    page = office.open("upkeep", "check")
    office.push(page.check.begin)
    assert page.check.table.isVisible()
    page.check.start()
    page.check.progress._stop.click()
    office.settle()
    assert "The check was stopped. Nothing was changed" in office.sees(page)
    assert "Looking through the book" not in office.sees(page)
    assert not page.check.table.isVisible()
    assert page.check.report is None
    assert office.focus is page.check.begin


def test_a_check_that_failed_does_not_go_on_saying_that_it_looks(
    office: Office, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(*_: Any, **__: Any) -> Any:
        raise Refusal(Sentence("The disk was pulled out."), Sentence("Put it back."))

    monkeypatch.setattr("app.screens.office.upkeep.check_part.check_book", refused)
    page = office.open("upkeep", "check")
    office.push(page.check.begin)
    assert page.trouble.words == "The disk was pulled out. Put it back."
    assert "The check could not be finished." in office.sees(page)
    assert "Looking through the book" not in office.sees(page)
