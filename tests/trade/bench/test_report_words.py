"""What a service report says was known, was done and is not known names no culprit that nobody found."""

from __future__ import annotations

from dataclasses import replace
from zoneinfo import ZoneInfo

import pytest

from app.book.shipped import shipped
from app.trade.bench.kinds import Arrangement
from app.trade.bench.ladder import Ladder, read_ladder
from app.trade.bench.report_words import TrialTold, done, effect_of, known, not_known, tries_of
from app.trade.bench.stages import CauseFound, Left, TrialOutcome
from app.trade.bench.start_up import StartUpResult
from app.trade.sentence import Sentence
from app.trade.wording import plain

SAY = plain(ZoneInfo("UTC"))
STALLS = StartUpResult(rung=10, tries=3, stopped_in=3)
PLAYS = StartUpResult(rung=12, tries=5, stopped_in=0)
RAISED = TrialTold("coil current raised.", TrialOutcome.BETTER, Left.LEFT_INSIDE)


def said(text: Sentence | str) -> str:
    return SAY(text) if isinstance(text, Sentence) else text


@pytest.fixture(scope="module")
def ladder() -> Ladder:
    return read_ladder(shipped("bench/ladder"))


def test_known_is_how_far_it_climbed_on_arrival_and_at_the_end(ladder: Ladder) -> None:
    text = said(known(STALLS, PLAYS, ladder, Arrangement.SWING_ARM).text)
    assert text.startswith("On arrival: It plays, but stalls on a long seek. Reached rung 10 of 12")
    assert text.endswith("At the end: It plays to the end.")


def test_where_nothing_was_recorded_nothing_is_said_to_be_known(ladder: Ladder) -> None:
    assert said(known(None, None, ladder, None).text) == "No start-up was recorded on arrival."


def test_what_was_done_is_told_by_what_it_did() -> None:
    trials = (
        TrialTold("flex led anew", TrialOutcome.NO_DIFFERENCE),
        TrialTold("joints resoldered", TrialOutcome.NO_DIFFERENCE),
        TrialTold("offset set", TrialOutcome.WORSE),
        RAISED,
        TrialTold("arm cleaned", TrialOutcome.CURED),
        TrialTold("lens cleaned", None),
    )
    assert said(done(trials, 1).text) == (
        "6 changes were tried, one at a time. No difference: flex led anew, joints resoldered. Worse with: offset "
        "set. Better with: coil current raised. The fault was gone with: arm cleaned. Not judged: lens cleaned. "
        "One modification stays inside."
    )
    assert said(done((), 2).text) == "No change was tried. 2 modifications stay inside."
    assert said(done(trials[:1], 0).text) == "One change was tried. No difference: flex led anew."


def test_a_modification_that_helps_establishes_no_cause() -> None:
    lead, text, end = not_known(None, "", (RAISED,))
    assert (said(lead), said(end)) == ("Not known.", "Cause not established.")
    assert said(text).startswith("That a change beyond the maker's design helps does not show")


def test_without_a_finding_the_report_says_so_and_names_nobody() -> None:
    assert said(not_known(CauseFound.NOT_ESTABLISHED, "perhaps the arm", ()).text) == "Cause not established."
    assert said(not_known(CauseFound.NO_FAULT, "", ()).text) == "The fault did not show itself here."


def test_a_cause_that_was_found_is_told_with_its_note() -> None:
    assert said(not_known(CauseFound.DIRT, "", ()).text) == "dirt or film."
    assert said(not_known(CauseFound.DIRT, "film on the lens", ()).text) == "dirt or film: film on the lens."


@pytest.mark.parametrize(
    ("trial", "words"),
    [
        (RAISED, "better; left inside"),
        (TrialTold("x", TrialOutcome.CURED, Left.LEFT_SO), "cured; left so"),
        (TrialTold("x", TrialOutcome.NO_DIFFERENCE, Left.PUT_BACK), "no difference; put back"),
        (TrialTold("x", TrialOutcome.BETTER, Left.RAISED_PUT_BACK), "better; put back"),
        (TrialTold("x", None), "not judged"),
        (replace(RAISED, came_back=True), "better; undone, the fault came back"),
    ],
)
def test_an_effect_says_what_became_of_the_change(trial: TrialTold, words: str) -> None:
    assert "".join(map(SAY, effect_of(trial))) == words


def test_tries_say_how_often_it_stopped_or_played_to_the_end() -> None:
    assert SAY(tries_of(STALLS)) == "stopped in 3 of 3"
    assert SAY(tries_of(replace(PLAYS, stopped_in=1))) == "to the end in 4 of 5"
