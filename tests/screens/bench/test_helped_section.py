"""What helped before on the job sheet: asked when unfolded, the surest first, each row opens its jobs."""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtCore import Qt

from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import Outcome, TrialOutcome
from app.work.bench.findings import Findings, findings_of, record_findings
from app.work.bench.trials import TrialEntry, record_trial
from tests.papers.reading import plain, whole
from tests.work.bench.past_jobs import Past

CURED, BETTER, NONE = TrialOutcome.CURED, TrialOutcome.BETTER, TrialOutcome.NO_DIFFERENCE


@pytest.fixture
def past(workbench: Any) -> Past:
    """Six players whose arm was cleaned, one with more coil current, one with own words."""
    past = Past(workbench.bench)
    for days in range(300, 305):
        past.job(past.player(), days, ("arm_clean", CURED))
    past.job(
        past.player(), 299, ("arm_clean", NONE), ("coil_current", BETTER), outcome=Outcome.MENDED_MODIFIED
    )
    past.job(past.player(), 298, ("spring bent", NONE), group=FaultGroup.LIGHT)
    workbench.bench.climb(10)
    return past


def cells(section: Any) -> list[list[str]]:
    model = section.table.rows_model()
    rows = [model.row_at(at) for at in range(model.rowCount())]
    return [
        [cell.plain.replace("\u00a0", " ") if cell is not None else "" for cell in row.cells] for row in rows
    ]


def unfolded(workbench: Any) -> Any:
    section = workbench.job().body.helped
    workbench.click(workbench.page.body.trials.helped_link)
    return section


def test_it_is_folded_and_asks_nothing_until_it_is_wanted(workbench: Any, past: Past) -> None:
    section = workbench.job().body.helped
    assert not section.is_open
    assert section.found is None
    section.head.setFocus()
    workbench.press(Qt.Key.Key_Right)
    assert len(cells(section)) == 3


def test_changes_stand_with_cure_rate_interval_and_comebacks(workbench: Any, past: Past) -> None:
    section = unfolded(workbench)
    arm, coil, own = cells(section)
    # Wilson, 5 of 6: 43.6 to 97.0 % (statsmodels, see tests/trade/statistics/test_what_helped.py).
    assert arm == [
        "arm bearing cleaned",
        "nothing",
        "5 of 6",
        "0",
        "83",
        "5 of 6, 44 to 97 %",
        "44 to 97 %",
        "0 of 5 0 %",
    ]
    assert coil[:5] == ["coil current raised (resistor)", "modification", "0 of 1 few", "1", "0"]
    assert own[:3] == ["spring bent", "nothing", "0 of 1 few"]
    assert own[-1] == "none watched"
    assert "8 trials in 7 jobs" in section.said.text()
    assert "stopped before: long seek" in section.head.accessibleName()
    assert section.table.rows_model().row_at(1).cells[1].before == "caution"


def test_a_change_that_sometimes_left_a_modification_says_how_often(workbench: Any, past: Past) -> None:
    past.job(past.player(), 297, ("arm_clean", CURED), modified=True)
    assert cells(unfolded(workbench))[0][1] == "modification 1 of 7"


def test_what_was_tried_in_this_job_is_marked_and_the_table_follows_the_job(
    workbench: Any, past: Past
) -> None:
    section = unfolded(workbench)
    bench = workbench.bench
    record_trial(bench.book, bench.tobbe, bench.job, TrialEntry(change="arm_clean", words="Arm cleaned"))
    workbench.page.reload(None)
    workbench.settle()
    assert cells(section)[0][0] == "arm bearing cleaned tried here"


def test_only_the_fault_group_of_the_job_on_wish(workbench: Any, past: Past) -> None:
    bench = workbench.bench
    findings = Findings(fault_group=FaultGroup.LIGHT)
    version = findings_of(bench.book, bench.job).version
    record_findings(bench.book, bench.tobbe, bench.job, findings, version=version)
    section = unfolded(workbench)
    assert section.group_link.text() == "Only the fault group light"
    workbench.click(section.group_link)
    assert [row[0] for row in cells(section)] == ["spring bent"]
    assert section.group_link.text() == "All fault groups"
    workbench.page.reload(None)
    workbench.settle()
    bench.climb(10)
    workbench.page.reload(None)
    workbench.settle()
    assert len(cells(section)) == 1  # still of that group after the job changed
    workbench.click(section.group_link)
    assert len(cells(section)) == 3


def test_before_the_first_climb_it_says_what_is_missing(workbench: Any) -> None:
    section = unfolded(workbench)
    assert section.said.text().startswith("Record how far it starts up")
    assert section.table.isHidden()
    assert section.jobs_link.isHidden()
    section._open_marked()
    section._open_jobs("arm_clean")
    assert workbench.page.body.helped is section  # nothing to open


def test_a_row_opens_its_jobs_and_a_job_its_sheet(workbench: Any, past: Past) -> None:
    back = past.player()
    first = past.job(back, 400, ("arm_clean", CURED))
    past.job(back, 300, left=None)
    section = unfolded(workbench)
    workbench.click(section.jobs_link)
    page = workbench.page
    rows = [[cell.plain for cell in page.model.row_at(at).cells] for at in range(page.model.rowCount())]
    assert len(rows) == 7
    assert rows[0][-1] == "came back"
    assert {row[5] for row in rows} == {"cured", "no difference"}
    assert "7 jobs, 6 cured, 1 came back." in page.head.below()
    page.reload(type("Changes", (), {"kinds": {"settings"}})())
    page.reload(type("Changes", (), {"kinds": {"trials"}})())
    workbench.settle()
    assert page.table.marked_key() == first
    workbench.press(Qt.Key.Key_Return)
    assert workbench.page.job_id == first


def test_enter_on_a_row_opens_its_jobs_and_the_page_goes_back(workbench: Any, past: Past) -> None:
    section = unfolded(workbench)
    section.table.mark("words spring bent")
    section.table.setFocus()
    workbench.press(Qt.Key.Key_Return)
    page = workbench.page
    assert page.model.rowCount() == 1
    assert "1 job, 0 cured, 0 came back." in page.head.below()
    page.commands()["leave"]()
    workbench.settle()
    assert workbench.page.body.helped is section


def test_the_jobs_behind_a_row_are_printed_as_a_list(
    workbench: Any, past: Past, monkeypatch: pytest.MonkeyPatch
) -> None:
    papers: list[Any] = []
    monkeypatch.setattr(workbench.desk, "show_paper", papers.append)
    section = unfolded(workbench)
    workbench.click(section.jobs_link)
    workbench.page.commands()["print_list"]()
    workbench.settle()
    text = plain(whole(papers[0].pdf))
    assert "6 jobs, 5 cured, 0 came back." in text
    assert "What it did" in text
