"""The tour drives the real window through one player's whole way; what it leaves behind is what it promises."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from app.book.check import check
from app.screens.kit import palette
from app.screens.tour import story
from app.screens.tour.hands import Missed
from app.screens.tour.run import run_tour
from app.trade.bench.stages import Left, Outcome, Stage, TrialOutcome
from app.work.bench.sheet_of_job import job_sheet
from app.work.find.find import job_by_number
from app.work.office.invoice_lists import invoices
from app.work.shop_book import close_book, open_shop
from tests.days.conftest import DAY
from tests.papers.reading import plain, whole


@pytest.fixture
def toured(qapp: Any, day_book: Path, tmp_path: Path) -> tuple[Path, list[str], int]:
    """The folder, what was told, and the exit code."""
    told: list[str] = []
    code = run_tour(day_book, DAY, tmp_path / "tour", told.append)
    palette.apply(qapp, "light")
    return tmp_path / "tour", told, code


def test_every_step_is_done_and_listed(toured: tuple[Path, list[str], int], day_book: Path) -> None:
    folder, told, code = toured
    assert code == 0, told[-1]
    made = [Path(line) for line in told[:-1]]
    assert all(path.is_file() for path in made)
    pictures = {path.name for path in made if path.suffix == ".png"}
    assert {"01-counter-light.png", "07-flagged-dark.png", "17-known-again-light.png"} <= pictures
    assert {"33-how-long-light.png", "36-what-fails-dark.png", "39-shop-light.png"} <= pictures
    assert {"invoice-1.png", "invoice-2.png", "service-report-1.png", "bench-tag-1.png"} <= pictures
    assert {path.name for path in made if path.suffix == ".pdf"} == {
        "intake-ticket.pdf",
        "invoice.pdf",
        "hand-back-receipt.pdf",
        "estimate.pdf",
        "payment-receipt.pdf",
        "credit-note.pdf",
        "reminder.pdf",
        "bench-tag.pdf",
        "service-report.pdf",
        "Invoice 0002 e-invoice.pdf",
        "which-repairs-come-back.pdf",
    }
    assert str(len(made)) in told[-1]

    # what stands in the book afterwards
    book = open_shop(day_book, clock=lambda: DAY)
    try:
        job = job_by_number(book, 1001)
        assert job is not None
        sheet = job_sheet(book, job)
        assert (sheet.stage, sheet.outcome) == (Stage.HANDED_BACK, Outcome.MENDED_MODIFIED)
        assert [trial.outcome for trial in sheet.trials] == [
            *[TrialOutcome.NO_DIFFERENCE] * 3,
            TrialOutcome.BETTER,
        ]
        assert [trial.left for trial in sheet.trials] == [
            Left.PUT_BACK,
            Left.LEFT_SO,
            Left.LEFT_SO,
            Left.LEFT_INSIDE,
        ]
        assert all(trial.proposed is trial.outcome for trial in sheet.trials)  # the book works out the same
        assert sheet.trials[-1].order_reason.startswith("promised for Friday")
        assert sheet.modifications[0].agreed
        assert sheet.modifications[0].named_on
        assert sheet.safety_tests[0].counts
        owed = {line.customer: line.open.minor for line in invoices(book)}
        assert (owed["Hanne Oxlaith"], owed["Aldo Brackwell"]) == (0, 10_33)  # 60.33 - 20.00 - 25.00 - 5.00
        # the true cause, found on the next visit; the change of the first one went back
        again = job_by_number(book, 1002)
        assert again is not None
        second = job_sheet(book, again)
        assert [(trial.suspect.key, trial.outcome) for trial in second.trials] == [
            ("arm bearing or stop: dust, dried oil, dropped adhesive", TrialOutcome.CURED)
        ]
        assert sheet.modifications[0].reversed_in == 1002
        assert not [flag for flag in second.flags if flag.rule == "coil_up"]
        report = check(book)
        assert [part.found for part in report.parts if part.found] == []
    finally:
        close_book(book)

    # what stands on the papers
    ticket = plain(whole((folder / "intake-ticket.pdf").read_bytes()))
    assert "1001" in ticket
    assert "a jump to the last songs" in ticket
    invoice = plain(whole((folder / "invoice.pdf").read_bytes()))
    assert "1.214" in invoice
    assert "Fit 6.8" in invoice
    report = plain(whole((folder / "service-report.pdf").read_bytes()))
    assert "What was tried, one change at a time" in report
    assert "Cause not established." in report
    assert "BR-CO-15" in (verdict := (folder / "e-invoice-check.txt").read_text(encoding="utf-8"))
    assert "wrong" not in verdict
    assert verdict.endswith("The sums are right.\n")
    estimate = plain(whole((folder / "estimate.pdf").read_bytes()))
    assert "Option A, 60.33 EUR" in estimate
    assert "Option B, 64.02 EUR" in estimate
    credit = plain(whole((folder / "credit-note.pdf").read_bytes()))
    assert "The belt is on us" in credit
    assert "10.33" in credit
    assert "25.00" in plain(whole((folder / "payment-receipt.pdf").read_bytes()))
    assert "10.33 EUR is still open" in plain(whole((folder / "reminder.pdf").read_bytes()))
    assert "mended with a modification" in plain(whole((folder / "hand-back-receipt.pdf").read_bytes()))


def test_a_step_that_fails_is_told_and_gives_a_failing_code(
    qapp: Any, day_book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(self: story.Story) -> story.Steps:
        raise Missed("no player in sight")
        yield

    monkeypatch.setattr(story.Story, "measured", broken)
    told: list[str] = []
    assert run_tour(day_book, DAY, tmp_path / "tour", told.append) == 1
    assert "no player in sight" in told[-1]
    palette.apply(qapp, "light")
