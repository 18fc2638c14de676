"""Comebacks proposed when a player is taken in, and guarantees that still run."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.trade.bench.comeback import FormerJob, comeback_proposal, found_again, guarantees_running
from app.trade.bench.kinds import FaultGroup, HowOften
from app.trade.bench.stages import Outcome
from app.trade.counter.fault_words import FaultWord, ReportedFault
from app.trade.sentence import Sentence
from app.trade.wording import Wording

# Job 1 of the demo story, handed back 27 November 2026, back 47 days later.
LARCH = FormerJob(
    2131,
    date(2026, 11, 27),
    FaultGroup.RADIAL,
    Outcome.MENDED_MODIFIED,
    "R314 5.6 for 6.8 ohm",
    Sentence("R314 left inside"),
    date(2027, 5, 26),
)
BACK = date(2027, 1, 13)
SKIPS = (ReportedFault(FaultWord.SKIPS, HowOften.SOMETIMES),)


def test_the_same_fault_group_inside_the_window_is_proposed(english: Wording) -> None:
    proposal = comeback_proposal([LARCH], SKIPS, 180, BACK)
    assert proposal is not None
    assert (proposal.job, proposal.days, proposal.group) == (2131, 47, FaultGroup.RADIAL)
    assert english(proposal.sentence) == (
        "Comeback of job 2131? Handed back 47 days ago, fault group radial: "
        "R314 5.6 for 6.8 ohm, R314 left inside."
    )


def test_without_a_modification_the_sentence_says_so(english: Wording) -> None:
    proposal = comeback_proposal([replace(LARCH, modified=None)], SKIPS, 180, BACK)
    assert proposal is not None
    assert english(proposal.sentence).endswith("no modification left inside.")


def test_the_window_closes_after_its_last_day() -> None:
    assert comeback_proposal([LARCH], SKIPS, 47, BACK) is not None
    assert comeback_proposal([LARCH], SKIPS, 46, BACK) is None


def test_another_fault_is_no_comeback() -> None:
    assert comeback_proposal([LARCH], (ReportedFault(FaultWord.NO_POWER),), 180, BACK) is None
    assert comeback_proposal([LARCH], (), 180, BACK) is None
    assert comeback_proposal([replace(LARCH, group=None)], SKIPS, 180, BACK) is None


@pytest.mark.parametrize(
    "outcome", [Outcome.DECLINED, Outcome.REFUSED, Outcome.BEYOND_REPAIR, Outcome.UNCOLLECTED]
)
def test_a_job_that_mended_nothing_cannot_come_back(outcome: Outcome) -> None:
    assert comeback_proposal([replace(LARCH, outcome=outcome)], SKIPS, 180, BACK) is None


def test_the_latest_matching_job_is_named() -> None:
    earlier = replace(LARCH, job=1900, handed_back=date(2026, 10, 1))
    latest_other = replace(LARCH, job=2140, handed_back=date(2026, 12, 20), group=FaultGroup.SOUND)
    proposal = comeback_proposal([earlier, LARCH, latest_other], SKIPS, 365, BACK)
    assert proposal is not None
    assert proposal.job == 2131


def test_a_running_guarantee_is_named_up_to_its_last_day(english: Wording) -> None:
    (sentence,) = guarantees_running([LARCH, replace(LARCH, guarantee_until=None)], date(2027, 5, 26))
    assert english(sentence).replace("\u00a0", " ") == "The guarantee on job 2131 runs until 26 May 2027."
    assert guarantees_running([LARCH], date(2027, 5, 27)) == ()


def test_the_fault_found_at_the_bench_is_looked_for_among_earlier_jobs() -> None:
    older = replace(LARCH, job=1800, handed_back=date(2026, 10, 1))
    assert found_again([older, LARCH], FaultGroup.RADIAL, 180, BACK) is LARCH
    assert found_again([LARCH], FaultGroup.RADIAL, 47, BACK) is LARCH
    assert found_again([LARCH], FaultGroup.RADIAL, 46, BACK) is None
    assert found_again([LARCH], FaultGroup.SOUND, 180, BACK) is None
    assert found_again([replace(LARCH, outcome=Outcome.DECLINED)], FaultGroup.RADIAL, 180, BACK) is None
    assert (
        found_again([LARCH], FaultGroup.RADIAL, 180, date(2026, 11, 26)) is None
    )  # while it still stood here
