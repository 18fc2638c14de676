"""The job sheet shows its readings first and makes what is below them afterwards, or when it is asked for."""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtWidgets import QApplication


def loaded(workbench: Any) -> Any:
    """The page as it is when the sheet has come and nothing is painted yet."""
    workbench.window.open("job", workbench.bench.job)
    page = workbench.window.page
    page.show_loaded(page_facts(workbench))
    return page


def page_facts(workbench: Any) -> Any:
    from app.screens.bench.job_sheet_page import _load

    return _load(workbench.desk.book, workbench.bench.job, True)


def test_what_is_below_is_made_once_the_readings_are_painted(workbench: Any) -> None:
    page = loaded(workbench)
    assert "sections" not in vars(page.body)
    workbench.settle()
    QApplication.processEvents()
    assert page.body.painted
    assert [section.key for section in page.body.sections][:3] == ["ladder", "suspects", "readings"]
    assert page.body.history.isVisible()
    assert page.body.updatesEnabled()


def test_what_is_asked_for_earlier_is_made_at_once_and_only_once(workbench: Any) -> None:
    page = loaded(workbench)
    trials = page.body.trials
    assert trials._facts is not None
    workbench.settle()
    assert page.body.trials is trials
    assert page.body.updatesEnabled()


def test_what_a_sheet_has_not_is_no_section(workbench: Any) -> None:
    page = loaded(workbench)
    with pytest.raises(AttributeError):
        _ = page.body.nothing_of_this_name
    assert "sections" not in vars(page.body)


def test_a_window_that_goes_in_the_moment_of_painting_asks_nothing_more(
    workbench: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = loaded(workbench)
    monkeypatch.setattr(type(workbench.desk.doors), "closed", property(lambda doors: True))
    page.body._after_painting()
    assert "sections" not in vars(page.body)
