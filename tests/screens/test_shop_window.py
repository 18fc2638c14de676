"""The window on one open book: what it opens on, its counts, find box, scanner, midnight, and closing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.clipboard import copy_both
from app.screens.desk import Errand
from app.screens.shop_window import LONGEST_WAIT_S, ShopWindow, drafts_file
from app.trade.bench.stages import MainsClass
from app.trade.counter.taking_in import Intake
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings import LANGUAGE, SHOP_NAME
from app.work.counter.taking_in import receive_unit
from app.work.office.settings import change_settings
from app.work.people.staff import add_staff, leave_staff, rename_staff, staff_card
from app.work.shop_book import open_shop
from app.work.upkeep.copies import copies_of
from tests.screens.conftest import Bench, Whole, let_go


def count(whole: Whole, place: str) -> str:
    return str(whole.window.dividers.dividers[place].count)


@pytest.fixture
def empty(qapp: QApplication, tmp_path: Path, clock: Any) -> Iterator[ShopWindow]:
    """The window on a book that nobody has begun."""
    book = open_shop(tmp_path / "new.sqlite", clock=clock, make=True)
    shop = ShopWindow(qapp, book, tmp_path / "own")
    yield shop
    let_go(shop)


# --- opening -----------------------------------------------------------------------------------------------


def test_it_opens_on_the_counter_and_says_which_book_it_is(whole: Whole) -> None:
    change_settings(whole.bench.book, whole.bench.shop.ine, {SHOP_NAME: "Lanternfield Workshop"})
    assert whole.window.trail.place == "counter"
    assert whole.shop.desk.staff is None  # four people work here: somebody has to say who
    assert "not copied yet" in whole.window.dividers._book.text()


def test_a_new_book_opens_on_its_first_page(qtbot: QtBot, empty: ShopWindow) -> None:
    empty.show()
    assert empty.window.page is not None
    assert empty.window.page.help_topic == "first_run"


def test_who_works_alone_works_at_once(qtbot: QtBot, empty: ShopWindow) -> None:
    add_staff(empty.book, None, "Ine Varloes")
    empty.show()
    assert empty.desk.staff is not None
    assert empty.desk.staff.name == "Ine Varloes"


def test_the_window_speaks_the_language_of_the_book(qapp: QApplication, bench: Any, tmp_path: Path) -> None:
    change_settings(bench.book, bench.shop.ine, {LANGUAGE: "de"})
    shop = ShopWindow(qapp, bench.book, tmp_path / "own")
    hint = shop.window.strip.change._hint
    let_go(shop)
    assert hint == "Strg+U"


def test_books_of_the_same_name_keep_their_drafts_apart(tmp_path: Path) -> None:
    here, there = tmp_path / "a" / "book.sqlite", tmp_path / "b" / "book.sqlite"
    assert drafts_file(tmp_path, here) != drafts_file(tmp_path, there)
    assert drafts_file(tmp_path, here) == drafts_file(tmp_path, here)


# --- counts, staff and facts after a change ----------------------------------------------------------------


def test_the_counts_follow_a_change(whole: Whole) -> None:
    assert (count(whole, "counter"), count(whole, "bench")) == ("1 in the shop", "1 to work on")
    bench = whole.bench
    intake = Intake(
        name="Jun Okeland",
        phone="01632 960155",
        maker="Kestovar",
        model="Kelp 1",
        serial="77 1204",
        mains_class=MainsClass.BATTERY,
        fault="No sound.",
    )
    whole.shop.desk.change(whole.window, lambda: receive_unit(bench.book, bench.shop.mirr, intake))
    whole.settle()
    assert (count(whole, "counter"), count(whole, "bench")) == ("2 in the shop", "2 to work on")


def test_another_shop_name_is_shown_at_once(whole: Whole) -> None:
    bench = whole.bench
    whole.shop.desk.change(
        whole.window, lambda: change_settings(bench.book, bench.shop.ine, {SHOP_NAME: "Tapper Lane Repairs"})
    )
    whole.settle()
    assert whole.shop.desk.shop.name == "Tapper Lane Repairs"
    assert "Tapper Lane Repairs" in whole.window.dividers._book.text()


def test_who_works_now_follows_the_book(whole: Whole) -> None:
    bench, desk = whole.bench, whole.shop.desk
    people = {staff.name: staff for staff in whole.window.strip._staff()}
    desk.set_staff(people["Mirr Quistan"])
    card = staff_card(bench.book, bench.shop.mirr)
    desk.change(
        whole.window,
        lambda: rename_staff(bench.book, bench.shop.ine, card.id, card.version, "Mirr Quistan-Ott"),
    )
    whole.settle()
    assert desk.staff is not None
    assert desk.staff.name == "Mirr Quistan-Ott"
    desk.change(whole.window, lambda: leave_staff(bench.book, bench.shop.ine, card.id, card.version + 1))
    whole.settle()
    assert desk.staff is None


# --- find and scan -----------------------------------------------------------------------------------------


def test_the_find_box_finds_by_kind_and_opens(whole: Whole) -> None:
    bench = whole.bench
    hits = whole.shop.desk.find("arnsvik")
    assert {(hit.kind, hit.target[0]) for hit in hits} >= {("Jobs", "job"), ("Customers", "customer")}
    kinds = {hit.kind for text in ("0420", "55 871", "velk") for hit in whole.shop.desk.find(text)}
    assert {"Players", "Transports"} <= kinds
    transport = next(hit for hit in whole.shop.desk.find("velk") if hit.kind == "Transports")
    assert transport.target == ("transport", bench.transport)
    assert "Larch" in transport.second
    assert whole.shop.desk.find("zzzz") == ()


def test_a_transport_on_a_shelf_says_which(whole: Whole, monkeypatch: pytest.MonkeyPatch) -> None:
    from app.screens import find_hits
    from app.work.find.find import Found, FoundTransport

    def found(book: Any, text: str) -> Found:
        one = FoundTransport(id=1, type="Velk A1", marking="55 871", unit="", shelf="C3")
        return Found((), (), (), (one, replace(one, shelf="")))

    monkeypatch.setattr(find_hits, "find", found)
    assert [hit.second for hit in whole.shop.desk.find("velk")] == ["shelf C3", "in no player"]


def test_a_know_how_card_is_found_and_opens(whole: Whole) -> None:
    from app.trade.bench.cards import CardEntry, CardSection
    from app.work.bench.cards import save_card

    entry = CardEntry(
        title="Arm out",
        unit_maker="Quellmar",
        unit_model="Larch 2",
        sections={CardSection.DOCUMENT: "page 7"},
    )
    key = save_card(whole.bench.book, whole.bench.tobbe, entry).value
    (hit,) = [hit for hit in whole.shop.desk.find("arm out") if hit.kind == "Know-how cards"]
    assert (hit.target, hit.second) == (("card", key), "Quellmar Larch 2")
    assert whole.open(*hit.target).named_title(whole.page.line) == "Arm out"


def test_a_scanned_ticket_opens_its_job(whole: Whole) -> None:
    whole.shop.scanner.scanned.emit(whole.bench.sheet.number)
    whole.settle()
    assert whole.page.job_id == whole.bench.job


def test_a_ticket_of_another_shop_is_told_and_nothing_opens(whole: Whole) -> None:
    before = whole.page
    whole.shop.scanner.scanned.emit(98765)
    whole.settle()
    assert whole.page is before
    assert "98765" in whole.page.trouble.words


# --- the day -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("now", "seconds"),
    [
        (datetime(2026, 3, 12, 23, 50, tzinfo=UTC), 605),
        (datetime(2026, 3, 12, 23, 59, 58, tzinfo=UTC), 60),  # never shorter than a minute
        (datetime(2026, 3, 12, 9, 0, tzinfo=UTC), LONGEST_WAIT_S),
    ],
)
def test_it_wakes_a_little_after_midnight_and_never_waits_too_long(
    whole: Whole, now: datetime, seconds: int
) -> None:
    whole.bench.shop.clock.instant = now
    whole.bench.book.use_zone(UTC)
    whole.shop._wait_for_midnight()
    assert whole.shop._midnight.interval() == seconds * 1000


def test_a_new_day_refreshes_the_page_in_sight_and_the_flags(
    whole: Whole, monkeypatch: pytest.MonkeyPatch
) -> None:
    reloads: list[Any] = []
    monkeypatch.setattr(whole.page, "reload", reloads.append)
    whole.shop._look_at_the_day()
    whole.settle()
    assert reloads == []  # it is still the same day
    whole.bench.later(days=1)
    whole.shop._midnight.timeout.emit()
    whole.settle()
    assert None in reloads


def test_a_computer_that_slept_over_midnight_notices_when_it_is_used(
    qapp: QApplication, whole: Whole, monkeypatch: pytest.MonkeyPatch
) -> None:
    reloads: list[Any] = []
    monkeypatch.setattr(whole.page, "reload", reloads.append)
    whole.bench.later(days=1)
    qapp.applicationStateChanged.emit(Qt.ApplicationState.ApplicationInactive)
    whole.settle()
    assert reloads == []
    qapp.applicationStateChanged.emit(Qt.ApplicationState.ApplicationActive)
    whole.settle()
    assert None in reloads


# --- copies and closing ------------------------------------------------------------------------------------


def test_closing_makes_a_copy_when_one_is_due(qapp: QApplication, bench: Any, tmp_path: Path) -> None:
    shop = ShopWindow(qapp, bench.book, tmp_path / "own")
    shop.show()
    let_go(shop)
    assert len(copies_of(bench.shop.path)) == 1


def test_a_copy_that_was_made_is_told_with_its_time_and_later_with_its_day(whole: Whole) -> None:
    whole.shop._copies.timeout.emit()
    whole.settle()
    told = whole.window.dividers._book.text()
    assert "copied " in told
    assert ":" in told
    whole.bench.later(days=2)
    whole.shop._copies.timeout.emit()
    whole.settle()
    assert "Mar" in whole.window.dividers._book.text()


def test_a_copy_that_failed_stays_in_sight_until_one_succeeds_by_whichever_way(whole: Whole) -> None:
    copies = whole.bench.shop.path.with_name("book.copies")
    copies.write_text("in the way")
    whole.shop._copies.timeout.emit()
    whole.settle()
    assert "copy failed" in whole.window.dividers._book.text()
    copies.unlink()
    whole.window.open("upkeep")
    whole.settle()
    page: Any = whole.window.page
    assert page.copies.flags.isVisible()
    page.copies.back_up()
    whole.settle()
    assert "copied " in whole.window.dividers._book.text()
    assert not page.copies.flags.isVisible()


def test_what_is_typed_is_on_the_disk_before_the_window_closes(whole: Whole) -> None:
    whole.shop.drafts.keep("a form", {"fault": "hangs"})
    assert whole.window.close()
    assert "hangs" in drafts_file(whole.shop.drafts._path.parent, whole.bench.shop.path).read_text("utf-8")


def test_of_what_was_copied_the_text_outlives_the_window(
    qapp: QApplication, bench: Bench, tmp_path: Path
) -> None:
    shop = ShopWindow(qapp, bench.book, tmp_path / "own")
    copy_both("Velk A1\t8", QImage(2, 2, QImage.Format.Format_RGB32))
    let_go(shop)
    assert qapp.clipboard().text() == "Velk A1\t8"
    assert not qapp.clipboard().mimeData().hasImage()


# --- another book ------------------------------------------------------------------------------------------


def test_another_book_is_looked_at_before_this_one_is_left(
    whole: Whole, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    errands: list[Errand] = []
    whole.shop.desk.serve_errands(errands.append)
    whole.shop.open_other(whole.bench.shop.path)
    whole.settle()
    assert errands == []  # it is open already
    other = tmp_path / "other.sqlite"
    monkeypatch.setattr("app.screens.shop_window.QFileDialog.getOpenFileName", lambda *_: (str(other), ""))
    whole.window.menus.run("open_book")
    whole.settle()
    assert errands == []
    assert "There is no book at" in whole.page.trouble.words
    open_shop(other, make=True).close()
    whole.window.menus.run("open_book")
    whole.settle()
    assert [errand.path for errand in errands] == [other]


def test_leaving_the_question_for_another_book_changes_nothing(
    whole: Whole, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("app.screens.shop_window.QFileDialog.getOpenFileName", lambda *_: ("", ""))
    whole.window.menus.run("open_book")
    whole.settle()
    assert whole.page.trouble.words == ""


def test_what_nobody_expected_of_another_book_goes_to_the_last_resort(whole: Whole) -> None:
    heard: list[Any] = []
    whole.shop.doors.unhandled.connect(heard.append)
    error = ValueError()
    whole.shop._not_opened(error)
    assert heard == [error]
    whole.shop._not_opened(Refusal(Sentence("No.")))
    assert whole.page.trouble.words == "No."
