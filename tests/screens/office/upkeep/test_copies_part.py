"""Copies of the book: a failure that stays in sight, each part named, and a restore from any date."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from app.screens.desk import Came
from app.screens.kit import measure
from app.screens.kit.progress import ProgressLine
from app.work.people.staff import add_staff, staff_list
from app.work.shop_book import open_shop
from app.work.upkeep.copies import COPY_PARTS, Copy, back_up_now, copies_of
from app.work.upkeep.restore import LOOKED_INTO, Restored
from tests.screens.office.conftest import Office, lines

JOINED = ("Hanne Oxlaith", "Olm Tarrick")


@pytest.fixture
def copied(office: Office) -> list[Copy]:
    """Three copies on three days, newest first; somebody joined after the first and after the second."""
    back_up_now(office.book)
    for name in JOINED:
        office.shop.clock.advance(days=1)
        add_staff(office.book, office.shop.ine, name)
        back_up_now(office.book)
    return list(copies_of(office.shop.path))


@pytest.fixture
def steps(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Any, ...]]:
    """What the progress line was told."""
    seen: list[tuple[Any, ...]] = []
    step = ProgressLine.step

    def watched(line: ProgressLine, *told: Any) -> None:
        seen.append(told)
        step(line, *told)

    monkeypatch.setattr(ProgressLine, "step", watched)
    return seen


def failing(page: Any) -> list[str]:
    """The words of the flags on how the copies stand."""
    return [line.flag.word for line in page.copies.flags.lines()]


def test_what_no_sidecar_describes_is_not_promised(office: Office, copied: list[Copy]) -> None:
    copied[0].path.with_name(f"{copied[0].path.name}.json").unlink()
    row = lines(office.open("upkeep").copies.table)[0]
    assert (row[2], row[5]) == ("", "not known")


def test_a_change_after_the_copy_is_told(office: Office, copied: list[Copy]) -> None:
    assert "Nothing has changed since." in office.sees(office.open("upkeep"))
    office.desk.announce(add_staff(office.book, office.shop.ine, "Vell Ondry").changes)
    office.settle()
    assert "The book has changed since." in office.sees()


def test_ctrl_b_makes_a_checked_copy_from_any_page(office: Office) -> None:
    office.open("office")
    office.press("Ctrl+B")
    (copy,) = copies_of(office.shop.path)
    assert copy.checked
    assert office.page.choice.value() == "copies"


def test_a_failure_stays_in_sight_over_pages_and_days_until_a_copy_succeeds(
    office: Office, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("in the way")
    page = office.open("upkeep")
    page.copies.back_up(tmp_path / "file")
    office.settle()
    assert "No copy could be made in" in page.trouble.words
    assert "What you typed" not in page.trouble.words
    assert failing(page) == ["Copy failed"]
    for _ in range(2):
        office.shop.clock.advance(days=1)
        office.open("office")
        page = office.open("upkeep")
        assert failing(page) == ["Copy failed"]
        assert page.copies.flags.isVisible()
    office.push(page.copies.now)
    assert failing(page) == []
    assert page.trouble.words == ""
    assert failing(office.open("upkeep")) == []


def test_trying_again_uses_the_same_folder(office: Office, tmp_path: Path) -> None:
    from app.screens.kit.buttons import Button

    stick = tmp_path / "not plugged in" / "copies"
    page = office.open("upkeep")
    page.copies.back_up(stick)
    office.settle()
    stick.parent.mkdir()
    (again,) = [b for b in page.trouble.findChildren(Button) if b.words() == "Try again"]
    office.push(again)
    assert len(copies_of(office.shop.path, stick)) == 1
    assert page.trouble.words == ""


def test_the_bar_names_every_part_of_a_copy(office: Office, steps: list[tuple[Any, ...]]) -> None:
    page = office.open("upkeep")
    office.push(page.copies.now)
    parts = [(at, of, part.key) for at, of, part in (told for told in steps if len(told) == 3)]
    assert parts == [(at, len(COPY_PARTS), key) for at, key in enumerate(COPY_PARTS)]
    steps.clear()
    page.copies.look_into(next(iter(copies_of(office.shop.path))).path)
    office.settle()
    parts = [(at, of, part.key) for at, of, part in (told for told in steps if len(told) == 3)]
    assert parts == [(at, len(LOOKED_INTO), key) for at, key in enumerate(LOOKED_INTO)]


def test_a_copy_that_is_stopped_leaves_nothing_behind_and_is_no_failure(office: Office) -> None:
    page = office.open("upkeep")
    page.copies.back_up()
    page.copies.progress._stop.click()
    office.settle()
    assert copies_of(office.shop.path) == ()
    assert office.focus is page.copies.now
    page = office.open("upkeep")
    assert failing(page) == []
    assert "The book has never been copied." in office.sees(page)
    office.push(page.copies.now)
    assert len(copies_of(office.shop.path)) == 1


def test_a_copy_goes_on_when_the_page_is_left(office: Office) -> None:
    page = office.open("upkeep")
    page.copies.back_up()
    page.put_away()
    office.settle()
    assert len(copies_of(office.shop.path)) == 1


# restoring


@pytest.mark.parametrize("at", [0, 1, 2])
def test_a_copy_of_any_day_can_take_the_books_place(office: Office, copied: list[Copy], at: int) -> None:
    page = office.open("upkeep")
    page.copies.table.setFocus()
    page.copies.table.mark_first()
    for _ in range(at):
        office.press("Down")
    office.press("Return")
    assert page.copies.strip.copy.path == copied[at].path
    office.push(page.copies.strip.restore)
    (errand,) = office.errands
    office.book.close()
    restored: Restored = errand.work()
    assert (restored.copy.path, restored.not_saved) == (copied[at].path, None)
    assert restored.aside is not None
    assert restored.aside.exists()
    opened = open_shop(office.shop.path, clock=office.shop.clock)
    names = {card.name for card in staff_list(opened)}
    opened.close()
    assert names & set(JOINED) == set(JOINED[: 2 - at])


def test_a_copy_with_one_changed_bit_is_told_and_not_offered(office: Office, copied: list[Copy]) -> None:
    data = bytearray(copied[0].path.read_bytes())
    data[-50] ^= 1
    copied[0].path.write_bytes(data)
    page = office.open("upkeep")
    page.copies.look_into(copied[0].path)
    office.settle()
    assert "is not sound" in page.trouble.words
    assert "The book was not touched." in page.trouble.words
    assert not page.copies.strip.isVisible()
    assert office.errands == []


def test_looking_through_a_copy_is_stopped_by_its_button(office: Office, copied: list[Copy]) -> None:
    page = office.open("upkeep")
    page.copies.look_into(copied[0].path)
    page.copies.progress._stop.click()
    office.settle()
    assert not page.copies.strip.isVisible()
    assert office.focus is page.copies.table


def test_the_copy_asked_for_last_counts(office: Office, copied: list[Copy]) -> None:
    page = office.open("upkeep")
    page.copies.look_into(copied[0].path)
    page.copies.look_into(copied[1].path)
    office.settle()
    assert page.copies.strip.copy.path == copied[1].path


@pytest.mark.logs_errors("a mistake of the program, made on purpose")
def test_a_restore_that_went_wrong_by_our_doing_is_told_with_details(office: Office) -> None:
    page = office.open("upkeep", Came(error=ValueError("broken")))
    assert "not your doing" in page.trouble.words
    assert page.copies.came.lines() == ()


def test_at_twice_the_text_no_button_is_out_of_sight(office: Office, qapp: Any) -> None:
    measure.set_text_size(qapp, 200)
    office.window.resize(1100, 768)
    try:
        page = office.open("upkeep", "copies")
        for button in (page.copies.now, page.copies.elsewhere, page.copies.file):
            right = button.mapTo(page, button.rect().topRight()).x()
            assert right < page.width(), button.words()
    finally:
        measure.set_text_size(qapp, 100)
