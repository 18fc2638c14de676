"""What the next technician must know first."""

from __future__ import annotations

from zoneinfo import ZoneInfo

import pytest

from app.trade.bench.flag import Level
from app.trade.bench.know_first import StandsNow, know_first
from app.trade.bench.stages import Outcome
from app.trade.sentence import Sentence
from app.trade.wording import plain

say = plain(ZoneInfo("UTC"))
INSIDE = "Velk A1 55 871"


def told(now: StandsNow) -> list[tuple[Level, str]]:
    return [(one.level, say(one.sentence)) for one in know_first(now)]


def test_of_a_mended_player_with_its_own_transport_there_is_nothing_to_warn_of() -> None:
    assert told(StandsNow(INSIDE, True, last_job=2131, last_outcome=Outcome.MENDED)) == []
    assert told(StandsNow(INSIDE)) == []


def test_a_change_inside_is_told_first_and_several_are_counted() -> None:
    ((level, words), _) = told(StandsNow(INSIDE, live=1, last_job=5, last_outcome=Outcome.DECLINED))
    assert level is Level.CAUTION
    assert words.startswith("It departs from the maker's design in one place:")
    assert "in 2 places" in told(StandsNow(INSIDE, live=2))[0][1]


@pytest.mark.parametrize("outcome", [one for one in Outcome if one is not Outcome.MENDED])
def test_every_end_but_a_mended_one_is_told_with_its_job(outcome: Outcome) -> None:
    ((_, words),) = told(StandsNow(INSIDE, last_job=2131, last_outcome=outcome))
    assert "2131" in words


def test_a_transport_that_is_gone_differs_from_one_never_noted() -> None:
    assert told(StandsNow(had_one=True)) == [(Level.NOTE, "No transport is inside: it was taken out.")]
    assert told(StandsNow()) == [(Level.NOTE, "Its transport was never noted.")]


def test_wear_past_a_limit_weighs_more_than_wear_towards_it() -> None:
    laser, light = Sentence("laser current"), Sentence("light after the lens")
    assert told(StandsNow(INSIDE, worn=(light,), beyond=(laser,))) == [
        (
            Level.CAUTION,
            "By its readings over the years the transport is past its limit: laser current.",
        ),
        (Level.NOTE, "The transport wears towards its limit: light after the lens. Its life says when."),
    ]
