"""Every page of every room: it opens, has its help, names its fields, and its words are in the catalogue."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from app.book.tables import Job
from app.screens.actions import ACTS
from app.screens.desk import Paper
from app.screens.frame.help_margin import help_file
from app.screens.office.jobs_behind_page import Behind
from app.screens.page import Page
from app.screens.shop_window import ShopWindow
from app.trade.bench.kinds import ComebackStanding, Means
from app.trade.bench.stages import Stage
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.sentence import Sentence
from app.work.bench.what_helped import HelpedQuestion
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.estimates import begin_estimate
from app.work.office.invoices import issue_invoice
from app.work.office.payments import take_payment
from app.work.office.shop_lists import limits
from app.work.papers.issuing import paper_pdf
from app.work.statistics.question import Question
from tests.house.test_check import load
from tests.screens.conftest import Bench, Whole, let_go
from tests.work.asked import papers_of_job

# What is opened by a key; every other kind of page is opened without one.
KEYS: dict[str, Callable[[Bench], Any]] = {
    "job": lambda bench: bench.job,
    "unit": lambda bench: bench.unit,
    "transport": lambda bench: bench.transport,
    "customer": lambda bench: bench.customer,
    "hand_back": lambda bench: bench.job,
    "estimate": lambda bench: bench.job,
    "invoice": lambda bench: bench.job,
    "figure": lambda bench: "comeback-rate",
    "jobs_behind": lambda bench: Behind("Velk A1", "Which repairs come back", (bench.job,), Question()),
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


@dataclass(frozen=True)
class Seen:
    """What a page was when it was open: its commands, and what is wrong with it, in words."""

    kind: str
    help_topic: str
    commands: frozenset[str]
    troubles: tuple[str, ...]
    nameless: tuple[str, ...]


def look(kind: str, page: Page) -> Seen:
    """Look at an open page from every side."""
    assert page is not None, kind
    painted = page.grab()
    wrong = {
        "no title": not page.title,
        page.trouble.words: page.trouble.words != "",
        "nothing to paint": painted.isNull(),
    }
    nameless = [
        f"{kind}: {type(widget).__name__} {widget.objectName()}"
        for widget in page.findChildren(QWidget)
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget.isVisible()
        and not widget.focusProxy()
        and not widget.accessibleName()
    ]
    return Seen(
        kind,
        page.help_topic,
        frozenset(page.commands()),
        tuple(f"{kind}: {what}" for what, is_so in wrong.items() if is_so),
        tuple(nameless),
    )


@pytest.fixture(scope="module")
def looked() -> dict[str, list[Seen]]:
    """All pages, opened once for every test that asks for them."""
    return {}


@pytest.fixture
def bare(request: pytest.FixtureRequest, looked: dict[str, list[Seen]]) -> list[Seen]:
    """Every page on a job that nothing was done on."""
    if "bare" not in looked:
        whole = request.getfixturevalue("whole")
        looked["bare"] = [look(kind, page) for kind, page in pages(whole)]
    return looked["bare"]


@pytest.fixture
def worked(request: pytest.FixtureRequest, looked: dict[str, list[Seen]]) -> list[Seen]:
    """Every page on a job with something of everything."""
    if "worked" not in looked:
        whole = request.getfixturevalue("whole")
        work_on(whole.bench)
        looked["worked"] = [look(kind, page) for kind, page in pages(whole)]
    return looked["worked"]


@pytest.fixture
def safe(request: pytest.FixtureRequest, looked: dict[str, list[Seen]]) -> list[Seen]:
    """Every page on the same when it is safe to be handed back."""
    if "safe" not in looked:
        whole = request.getfixturevalue("whole")
        work_on(whole.bench)
        whole.bench.make_safe()
        looked["safe"] = [look(kind, page) for kind, page in pages(whole)]
    return looked["safe"]


@pytest.fixture
def billed(request: pytest.FixtureRequest, looked: dict[str, list[Seen]]) -> list[Seen]:
    """Estimate and invoice of a job that was paid too much, and the invoice of its comeback within the guarantee."""
    if "billed" not in looked:
        whole = request.getfixturevalue("whole")
        bench, book = whole.bench, whole.bench.book
        begin_estimate(book, bench.tobbe, bench.job)
        fee = ChargeEntry(kind=LineKind.FEE, words="Diagnosis", price=40 * MICRO, vat=VatRate(1900))
        add_charge(book, bench.tobbe, bench.job, fee)
        issue_invoice(book, bench.tobbe, bench.job)
        take_payment(book, bench.tobbe, bench.job, Money(5000, "EUR"), Means.CASH)
        seen = [look(kind, whole.open(kind, bench.job)) for kind in ("estimate", "invoice")]
        former = bench.job
        with book.change(bench.tobbe, Sentence("handed back")) as change:
            job = change.get(Job, former)
            job.stage, job.handed_back_at, job.guarantee_until = (
                Stage.HANDED_BACK,
                change.now,
                date(2099, 1, 1),
            )
        bench.come_again(days=20)
        with book.change(bench.tobbe, Sentence("a comeback")) as change:
            job = change.get(Job, bench.job)
            job.comeback_of_id, job.comeback = former, ComebackStanding.CONFIRMED
        looked["billed"] = [*seen, look("invoice", whole.open("invoice", bench.job))]
    return looked["billed"]


def test_every_page_opens_without_trouble_and_can_be_painted(bare: list[Seen], worked: list[Seen]) -> None:
    assert [trouble for page in (*bare, *worked) for trouble in page.troubles] == []


def test_every_page_has_its_own_help(bare: list[Seen]) -> None:
    for page in bare:
        path = help_file(page.help_topic, "en")
        assert path is not None, f"{page.kind}: {page.help_topic}"


def test_every_action_of_the_menus_is_served_somewhere(
    whole: Whole, worked: list[Seen], safe: list[Seen], billed: list[Seen]
) -> None:
    """Without a job handed back there is no receipt, and so on: the pages are seen in more than one state."""
    served = set(whole.window.menus._own).union(*(page.commands for page in (*worked, *safe, *billed)))
    assert sorted({act.id for act in ACTS} - served) == []


def test_nothing_is_served_that_stands_in_no_menu(bare: list[Seen]) -> None:
    known = {act.id for act in ACTS}
    for page in bare:
        assert page.commands - known == set(), page.kind


def test_whatever_can_be_typed_into_or_pressed_has_a_name(worked: list[Seen]) -> None:
    assert [name for page in worked for name in page.nameless] == []


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
