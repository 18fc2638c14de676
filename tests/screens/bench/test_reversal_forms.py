"""Putting a modification back, by a trial or beside one."""

from __future__ import annotations

from typing import Any

from tests.screens.bench.test_modifications_section import record
from tests.screens.bench.test_trials_section import begin


def test_a_trial_that_puts_an_old_modification_back_says_so_and_so_does_the_modification(
    workbench: Any,
) -> None:
    bench = workbench.bench
    record(workbench)
    page = workbench.job()
    number = workbench.sheet.number
    begin(workbench, "R314 back to 6.8 ohm")
    (trial,) = workbench.sheet.trials
    page.body.modifications._asked("reverse", workbench.sheet.modifications[0].id)
    form = page.body.modifications.open
    assert form.by_trial.text() == "it is what trial 1 changes: R314 back to 6.8 ohm"
    workbench.save()
    (line,) = workbench.sheet.modifications
    assert (line.reversed_by_trial, line.reversed_at is not None) == (trial.id, True)
    assert page.body.modifications.cards[0].head._summary.endswith(f"in job {number}, by trial 1")
    facts = page.body.trials.strip._tiles[0].facts
    assert "R314" in facts.fate
    assert facts.fate.endswith(f"from job {number}.")
    assert not facts.stays
    page.body.trials.mark(trial.id)
    assert facts.fate in page.body.trials.about.text()
    assert bench.sheet.modifications[0].reversed_by_trial == trial.id


def test_what_is_put_back_beside_a_trial_is_not_of_it(workbench: Any) -> None:
    record(workbench)
    page = workbench.job()
    begin(workbench, "lens cleaned")
    page.body.modifications._asked("reverse", workbench.sheet.modifications[0].id)
    form = page.body.modifications.open
    form.by_trial.setChecked(False)
    workbench.save()
    (line,) = workbench.sheet.modifications
    assert line.reversed_at is not None
    assert line.reversed_by_trial is None
    assert "by trial" not in page.body.modifications.cards[0].head._summary
