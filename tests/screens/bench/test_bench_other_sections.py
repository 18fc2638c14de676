"""Findings, notes, what was said, papers, visits, history and how it came in."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt

from app.trade.bench.kinds import FaultGroup, TransitLock
from app.trade.bench.stages import CauseFound, Outcome
from app.work.bench.findings import Findings, findings_of, record_findings


def test_the_ladder_proposes_a_group_and_the_technician_decides(workbench: Any) -> None:
    workbench.bench.climb(10)
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_D, shift=True)
    form = page.body.findings.open
    assert form.meaning.text() == "by the first start-up test: radial"
    form.group.set_value(FaultGroup.RADIAL)
    assert form.meaning.text().startswith("radial drive")
    form.cause.set_value(CauseFound.NOT_ESTABLISHED)
    form.outcome.set_value(Outcome.MENDED_MODIFIED)
    assert form.hint.text() == "a mend by a modification establishes no cause"
    workbench.save()
    assert (workbench.sheet.fault_group, workbench.sheet.outcome) == (
        FaultGroup.RADIAL,
        Outcome.MENDED_MODIFIED,
    )
    assert page.body.findings.line.isVisible()


def test_the_second_saver_sees_both_and_overwrites_nothing_unseen(workbench: Any) -> None:
    bench = workbench.bench
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_D, shift=True)
    form = page.body.findings.open
    seen = findings_of(bench.book, bench.job).version
    theirs = Findings(fault_group=FaultGroup.LIGHT, cause_note="lens hazy")
    record_findings(bench.book, bench.shop.sanna, bench.job, theirs, version=seen)
    form.group.set_value(FaultGroup.RADIAL)
    workbench.save()
    assert "Somebody else saved this in between" in page.trouble.words
    assert workbench.sheet.fault_group is FaultGroup.LIGHT
    assert form._theirs.text() == "Saved meanwhile: light, lens hazy"
    assert form.group.value() is FaultGroup.RADIAL
    form.setFocus()
    form.group.setFocus()
    workbench.save()
    assert workbench.sheet.fault_group is FaultGroup.RADIAL


def test_notes_are_written_struck_out_and_taken_back(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_N, shift=True)
    workbench.save()
    assert page.body.notes.open.wrong.text() == "Write something, or leave."
    workbench.type("arm swings freely by hand")
    workbench.save()
    (note,) = workbench.sheet.notes
    assert note.text == "arm swings freely by hand"
    lines = page.body.notes.lines
    lines._buttons[0][1].setFocus()
    workbench.ctrl(Qt.Key.Key_Delete)
    workbench.type("another player")
    workbench.save()
    assert workbench.sheet.notes[0].struck is not None
    workbench.click(page.body.notes.lines._buttons[0][1])
    assert workbench.sheet.notes[0].struck is None


def test_what_was_said_is_written_down_at_the_bench_too(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_C, shift=True)
    workbench.type("rings back on Friday")
    workbench.save()
    assert [message.text for message in workbench.sheet.messages] == ["rings back on Friday"]
    assert page.body.said.lines.isVisible()


def test_papers_are_looked_at_and_printed_again_as_a_copy(workbench: Any) -> None:
    page = workbench.job()
    papers = page.body.papers
    papers.table.setFocus()
    papers.table.mark_first()
    workbench.press(Qt.Key.Key_Return)
    papers.table.link_opened.emit((workbench.sheet.papers[0].id, True))
    workbench.settle()
    first, copy = workbench.papers
    assert first.title == copy.title
    assert first.pdf != copy.pdf  # the stamp lies over it
    page.commands()["ticket"]()
    workbench.settle()
    assert workbench.papers[-1].pdf == first.pdf


def test_a_paper_whose_file_was_emptied_is_made_again_the_very_same(workbench: Any) -> None:
    page = workbench.job()
    page.body.papers.look_at(workbench.sheet.papers[0].id)
    workbench.settle()
    for stored in workbench.bench.book.files.rglob("*"):
        if stored.is_file():
            stored.write_bytes(b"")
    page.body.papers.look_at(workbench.sheet.papers[0].id)
    workbench.settle()
    before, after = workbench.papers
    assert after.pdf == before.pdf
    assert page.trouble.words == ""


def test_how_it_came_in_stands_in_full_and_the_transit_lock_is_noted(workbench: Any) -> None:
    page = workbench.job()
    intake = page.body.intake
    intake.set_opened(True)
    assert intake.said.text() == "“Hangs when I jump to the last songs.”"
    intake.lock.set_value(TransitLock.RELEASED)
    workbench.settle()
    assert workbench.sheet.transit_lock is TransitLock.RELEASED


def test_nobody_at_work_notes_no_transit_lock(workbench: Any) -> None:
    page = workbench.job()
    workbench.desk.set_staff(None)
    page.body.intake.lock.set_value(TransitLock.SET)
    workbench.settle()
    assert page.trouble.words == "Say first who works here now, with Ctrl+U."
    assert workbench.sheet.transit_lock is TransitLock.NOT_LOOKED


def test_earlier_visits_open_and_the_whole_player_too(workbench: Any) -> None:
    bench = workbench.bench
    former = bench.job
    bench.close()
    bench.come_again(20)
    page = workbench.job()
    visits = page.body.visits
    assert "1 visit" in visits.head.accessibleName()
    visits.set_opened(True)
    visits.table.setFocus()
    visits.table.mark_first()
    workbench.press(Qt.Key.Key_Return)
    assert workbench.page.job_id == former
    workbench.window.trail.back()
    workbench.click(page.body.visits.unit_link)
    assert workbench.page.unit_id == bench.unit


def test_history_is_asked_for_when_it_is_opened_and_grows_on_demand(workbench: Any) -> None:
    for i in range(35):
        workbench.bench.read("laser_current", f"{50 + i / 10:.1f}")
    page = workbench.job()
    history = page.body.history
    assert history._entries == ()
    workbench.click(history.head)
    assert len(history._entries) > 2
    assert "actions" in history.head.accessibleName()
    shown = len(history.lines._rows)
    bench = workbench.bench
    for i in range(35):
        bench.later(minutes=1)
        bench.read("laser_current", f"{50 + i / 10:.1f}")
    page.reload(None)
    workbench.settle()
    assert history.more.isVisible()
    workbench.click(history.more)
    assert len(history.lines._rows) > shown


def test_a_section_stays_folded_on_the_next_sheet(workbench: Any) -> None:
    bench = workbench.bench
    page = workbench.job()
    workbench.click(page.body.notes.head)
    bench.close()
    bench.come_again(20)
    assert not workbench.job().body.notes.is_open


def test_nobody_at_work_can_change_anything(workbench: Any) -> None:
    page = workbench.job()
    workbench.desk.set_staff(None)
    for call in (
        page.print_tag,
        page.put_on_bench,
        page.make_ready,
        page.body.safety.turn_case,
        lambda: page.print_label(1),
        lambda: page.undo_strike("note", 1),
        lambda: page.body.files.add([]),
        lambda: page.body.safety._refuse(1),
    ):
        page.trouble.clear()
        call()
        workbench.settle()
        assert page.trouble.words == "Say first who works here now, with Ctrl+U."
