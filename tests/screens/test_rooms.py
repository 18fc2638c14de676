"""Every page of every room: it opens, has its help, names its fields, and its words are in the catalogue."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from app.screens.actions import ACTS
from app.screens.desk import Paper
from app.screens.frame.help_margin import help_file
from app.screens.page import Page
from app.screens.shop_window import ShopWindow
from app.trade.statistics.comebacks import By
from app.work.bench.what_helped import HelpedQuestion
from app.work.office.repeat_faults import Question
from app.work.office.shop_lists import limits
from app.work.papers.issuing import paper_pdf, papers_of_job
from tests.house.test_check import load
from tests.screens.conftest import Bench, Whole, let_go

# What is opened by a key; every other kind of page is opened without one.
KEYS: dict[str, Callable[[Bench], Any]] = {
    "job": lambda bench: bench.job,
    "unit": lambda bench: bench.unit,
    "transport": lambda bench: bench.transport,
    "customer": lambda bench: bench.customer,
    "hand_back": lambda bench: bench.job,
    "invoice": lambda bench: bench.job,
    "jobs_behind": lambda bench: (Question(by=By.TRANSPORT_TYPE), "Velk A1", False),
    "helped_jobs": lambda bench: (
        HelpedQuestion(bench.type, 10, None, bench.job),
        "arm_clean",
        "arm bearing cleaned",
    ),
    "ladder_row": lambda bench: "11 S",
    "rung": lambda bench: "11",
    "weighing": lambda bench: "weighing",
    "paper": lambda bench: paper_of(bench),
}


def paper_of(bench: Bench) -> Paper:
    """The intake ticket of the job."""
    line = papers_of_job(bench.book, bench.job)[0]
    return Paper("Intake ticket", paper_pdf(bench.book, line.id).pdf, "intake ticket")


def pages(whole: Whole) -> Iterator[tuple[str, Page]]:
    """Each kind of page, opened and loaded."""
    for kind in list(whole.window.trail._kinds):
        key = KEYS.get(kind, lambda bench: None)(whole.bench)
        yield kind, whole.open(kind, key)


def work_on(bench: Bench) -> None:
    """Something of everything on the job, so that pages have something to show."""
    bench.climb(9)
    bench.read("laser_current", "46.2")
    bench.read("seek_time", "4.2")


def test_every_page_opens_without_trouble_and_can_be_painted(whole: Whole) -> None:
    work_on(whole.bench)
    for kind, page in pages(whole):
        assert page is not None, kind
        assert page.title, kind
        assert page.trouble.words == "", kind
        assert not page.grab().isNull(), kind


def test_every_page_has_its_own_help(whole: Whole) -> None:
    for kind, page in pages(whole):
        path = help_file(page.help_topic, "en")
        assert path is not None, f"{kind}: {page.help_topic}"


def test_every_action_of_the_menus_is_served_somewhere(whole: Whole) -> None:
    """Without a job handed back there is no receipt, and so on: the pages are seen in more than one state."""
    served = set(whole.window.menus._own)
    work_on(whole.bench)
    for _, page in pages(whole):
        served |= set(page.commands())
    whole.bench.make_safe()
    for _, page in pages(whole):
        served |= set(page.commands())
    assert sorted({act.id for act in ACTS} - served) == []


def test_nothing_is_served_that_stands_in_no_menu(whole: Whole) -> None:
    known = {act.id for act in ACTS}
    for kind, page in pages(whole):
        assert set(page.commands()) - known == set(), kind


def test_whatever_can_be_typed_into_or_pressed_has_a_name(whole: Whole) -> None:
    work_on(whole.bench)
    nameless = []
    for kind, page in pages(whole):
        for widget in page.findChildren(QWidget):
            if (
                widget.focusPolicy() & Qt.FocusPolicy.TabFocus
                and widget.isVisible()
                and not widget.focusProxy()
            ):
                if not widget.accessibleName():
                    nameless.append(f"{kind}: {type(widget).__name__} {widget.objectName()}")
    assert nameless == []


def test_every_word_that_a_page_asks_for_is_in_the_catalogue(
    qapp: QApplication, bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is said through a variable is seen by no reader of the source: here the window itself is asked."""
    asked: set[str] = set()

    def listen(key: str) -> str:
        asked.add(key)
        return key

    monkeypatch.setattr("app.work.language._translate", lambda code: listen)
    work_on(bench)
    whole = Whole(ShopWindow(qapp, bench.book, tmp_path / "own"), bench)
    whole.shop.show()
    whole.settle()
    for _ in pages(whole):
        pass
    let_go(whole.shop)
    known = {message.id for message in load("catalogue").collected()}
    typed = {line.source for line in limits(bench.book)}  # said too, as a shipped source is translated
    assert sorted(asked - known - typed) == []
