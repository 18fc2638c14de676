"""The service report from the papers of the job sheet: photos ticked, the draft looked at, issued and shown."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import Any

from app.trade.money import MICRO
from app.trade.settings import HOURLY_RATE
from app.work.bench.files import attach_file
from app.work.bench.work_done import record_labour
from app.work.office.invoices import issue_invoice
from app.work.office.settings import change_settings
from tests.papers.reading import whole
from tests.work.papers.test_modification_block_on_invoice import OURS, agree, modify
from tests.work.papers.test_service_report import picture


def test_the_draft_is_looked_at_then_the_report_is_issued_with_the_photos_ticked(
    workbench: Any, tmp_path: Path
) -> None:
    bench = workbench.bench
    board, label = (
        attach_file(
            bench.book, bench.tobbe, bench.job, picture(tmp_path / f"{name}.jpg", (60, 40)), note=name
        ).value
        for name in ("the board", "the label")
    )
    page = workbench.job()
    page.commands()["service_report"]()
    workbench.settle()
    form = page.body.papers.open
    assert list(form.photos) == [board, label]
    form.photos[label].setChecked(True)
    workbench.click(form.look_button)
    (draft,) = workbench.papers
    assert "the label" in whole(draft.pdf)
    assert "draft" in whole(draft.pdf)
    assert not [paper for paper in workbench.sheet.papers if paper.kind == "service report"]
    workbench.click(form.save_button)
    shown = workbench.papers[-1]
    assert shown.title == "Service report 1001"
    assert "the label" in whole(shown.pdf)
    assert "the board" not in whole(shown.pdf)
    assert "draft" not in whole(shown.pdf)
    assert [paper.filed for paper in workbench.sheet.papers if paper.kind == "service report"] == [True]
    assert page.body.papers.open is None


def test_trouble_with_the_draft_is_told_at_the_top(workbench: Any, monkeypatch: Any) -> None:
    page = workbench.job()
    page.body.papers.make_report()
    workbench.settle()
    form = page.body.papers.open
    assert form.first_field() is form.look_button
    monkeypatch.setattr(form, "chosen", lambda: (999,))
    workbench.click(form.look_button)
    assert "One of the photos is not with this job any more." in page.trouble.words


def test_the_invoice_comes_first_to_tell_what_stays_inside(workbench: Any) -> None:
    page = workbench.job()
    page.follow(("gate", "told"))
    workbench.settle()
    assert workbench.page is not page


def test_what_stays_inside_is_told_by_a_report_once_the_invoice_is_out(workbench: Any) -> None:
    bench = workbench.bench
    change_settings(bench.book, bench.shop.ine, {HOURLY_RATE: 60 * MICRO})
    record_labour(bench.book, bench.tobbe, bench.job, "Start-up", Decimal(1))
    issue_invoice(bench.book, bench.shop.ine, bench.job)
    agree(bench, modify(bench, OURS))
    page = workbench.job()
    page.follow(("gate", "told"))
    workbench.settle()
    workbench.click(page.body.papers.open.save_button)
    assert bench.gate("told").done
