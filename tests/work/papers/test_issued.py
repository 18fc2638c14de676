"""Issued papers are found by kind and number and written as they are filed."""

from __future__ import annotations

from datetime import UTC
from pathlib import Path
from typing import Any

import pytest

from app.papers.paper_kind import PaperKind
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings import LANGUAGE
from app.work.language import wording_for
from app.work.office.settings import change_settings
from app.work.papers.issued import KINDS, save_issued
from app.work.papers.issuing import file_paper, paper_pdf
from app.work.papers.kinds import TITLES
from app.work.papers.labels import issue_bench_tag
from app.work.papers.service_report import issue_service_report


def test_every_kind_of_paper_has_a_name() -> None:
    assert set(KINDS.values()) == set(PaperKind)


@pytest.mark.parametrize("number", ["1001", "J1001", " j 1001 "])
def test_a_paper_is_written_as_it_is_filed(bench: Any, tmp_path: Path, number: str) -> None:
    paper = issue_service_report(bench.book, bench.tobbe, bench.job).value
    file_paper(bench.book, paper)
    out = tmp_path / "report.pdf"
    assert save_issued(bench.book, "service-report", number, out).title == "Service report 1001"
    assert out.read_bytes() == paper_pdf(bench.book, paper).pdf


def test_of_several_the_newest_is_written_also_before_it_is_filed_in_any_language(
    bench: Any, tmp_path: Path
) -> None:
    file_paper(bench.book, issue_bench_tag(bench.book, bench.tobbe, bench.job).value)
    change_settings(bench.book, bench.shop.ine, {LANGUAGE: "de"})
    paper = issue_bench_tag(bench.book, bench.tobbe, bench.job).value
    out = tmp_path / "tag.pdf"
    assert save_issued(bench.book, "bench-tag", "1001", out).title == "Werkstattzettel 1001"
    written = out.read_bytes()
    assert written == paper_pdf(bench.book, paper).pdf


def test_a_paper_whose_kind_had_another_name_in_its_day_is_found(
    bench: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as then:
        then.setitem(TITLES, PaperKind.SERVICE_REPORT, "What we did, number {number}")
        file_paper(bench.book, issue_service_report(bench.book, bench.tobbe, bench.job).value)
    found = save_issued(bench.book, "service-report", "1001", tmp_path / "report.pdf")
    assert found.title == "What we did, number 1001"


@pytest.mark.parametrize("language", ["en", "de"])
def test_every_title_ends_with_its_number(language: str) -> None:
    wording = wording_for(language, UTC)
    assert [title for title in TITLES.values() if not wording(title).endswith(" {number}")] == []


def test_what_was_not_issued_or_is_no_kind_is_refused(bench: Any, tmp_path: Path) -> None:
    with pytest.raises(Refusal) as refused:
        save_issued(bench.book, "invoice", "412", tmp_path / "x.pdf")
    assert refused.value.sentence.key == "No {kind} with the number {number} was issued."
    assert refused.value.next_step is not None
    assert refused.value.next_step.key.startswith("Issue it in the window first")
    with pytest.raises(Refusal) as refused:
        save_issued(bench.book, "poster", "1", tmp_path / "x.pdf")
    for number in ("1002", "R/1001", ""):  # of another job, and no numbers
        with pytest.raises(Refusal) as refused:
            save_issued(bench.book, "intake-ticket", number, tmp_path / "x.pdf")
    assert refused.value.next_step == Sentence("Issued last: {list}.", {"list": ("Intake ticket 1001",)})
    assert not (tmp_path / "x.pdf").exists()


def test_a_place_that_cannot_be_written_is_said(bench: Any, tmp_path: Path) -> None:
    for place, why in ((tmp_path / "nowhere" / "x.pdf", "No such file"), (tmp_path, "directory")):
        with pytest.raises(Refusal, match="could not be written") as refused:
            save_issued(bench.book, "intake-ticket", "1001", place)
        assert why in str(refused.value.sentence.values["why"])


def test_a_file_named_as_a_picture_gets_the_pages_as_pictures(
    bench: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    saved = save_issued(bench.book, "intake-ticket", "1001", tmp_path / "ticket.PNG")
    assert saved.files == (tmp_path / "ticket.PNG",)
    assert saved.files[0].read_bytes().startswith(b"\x89PNG")
    monkeypatch.setattr("app.papers.page_pictures.page_pictures", lambda pdf: (b"one", b"two"))
    saved = save_issued(bench.book, "intake-ticket", "1001", tmp_path / "ticket.png")
    assert saved.files == (tmp_path / "ticket-1.png", tmp_path / "ticket-2.png")
    assert saved.files[1].read_bytes() == b"two"
