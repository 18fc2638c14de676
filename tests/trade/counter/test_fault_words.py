"""Fault words at the counter, and the groups they may turn out to be."""

from __future__ import annotations

import pytest

from app.trade.bench.kinds import FaultGroup, HowOften
from app.trade.counter.fault_words import GROUPS, FaultWord, ReportedFault, may_be_comeback, possible_groups
from app.trade.sentence import Sentence


def test_every_word_has_its_groups_and_every_group_a_word() -> None:
    assert set(GROUPS) == set(FaultWord)
    assert frozenset().union(*(GROUPS[word] for word in FaultWord if word is not FaultWord.OTHER)) == (
        frozenset(FaultGroup) - {FaultGroup.OTHER}
    )


@pytest.mark.parametrize(
    ("word", "groups"),
    # The bench's own table (common practice, no source).
    [
        (FaultWord.READS_NO_DISC, "light focus radial spindle geometry signal board disc"),
        (FaultWord.SHOWS_ERROR, "light focus radial spindle geometry signal board disc"),
        (FaultWord.SKIPS, "light focus radial spindle geometry signal board disc"),
        (FaultWord.STOPS_WARM, "light focus radial spindle geometry signal board disc power control"),
        (FaultWord.TRAY, "loading control board"),
        (FaultWord.SPINS_WRONGLY, "spindle signal board"),
        (FaultWord.NOISE, "loading radial spindle sound"),
        (FaultWord.NO_SOUND, "sound signal board"),
        (FaultWord.ONE_CHANNEL, "sound signal board"),
        (FaultWord.NO_POWER, "power control board"),
        (FaultWord.DISPLAY, "control power board"),
    ],
)
def test_a_word_may_turn_out_to_be_these_groups(word: FaultWord, groups: str) -> None:
    assert {group.value for group in GROUPS[word]} == set(groups.split())


def test_a_comeback_is_proposed_within_the_window_when_the_group_fits() -> None:
    warm = (ReportedFault(FaultWord.STOPS_WARM),)
    assert may_be_comeback(FaultGroup.RADIAL, warm, 47, 180)
    assert may_be_comeback(FaultGroup.RADIAL, warm, 180, 180)
    assert may_be_comeback(FaultGroup.RADIAL, warm, 0, 180)
    assert not may_be_comeback(FaultGroup.RADIAL, warm, 181, 180)
    assert not may_be_comeback(FaultGroup.RADIAL, warm, -1, 180)
    assert not may_be_comeback(FaultGroup.SOUND, warm, 47, 180)
    assert not may_be_comeback(None, warm, 47, 180)
    assert not may_be_comeback(FaultGroup.RADIAL, (), 47, 180)
    assert may_be_comeback(FaultGroup.OTHER, (ReportedFault(FaultWord.OTHER),), 47, 180)


def test_several_words_widen_what_it_may_be() -> None:
    both = (ReportedFault(FaultWord.TRAY), ReportedFault(FaultWord.NO_SOUND))
    assert possible_groups(both) == GROUPS[FaultWord.TRAY] | GROUPS[FaultWord.NO_SOUND]
    assert possible_groups(()) == frozenset()


def test_a_word_is_said_with_how_often_unless_always() -> None:
    assert ReportedFault(FaultWord.SKIPS).sentence == Sentence("skips")
    sometimes = ReportedFault(FaultWord.SKIPS, HowOften.WHEN_WARM).sentence
    assert sometimes.values == {"word": Sentence("skips"), "how": Sentence("when warm")}
