"""What the ranking says, and never says."""

from datetime import UTC
from fractions import Fraction

import pytest

from app.trade.bench.evidence import Asked
from app.trade.bench.ranking import Ranking
from app.trade.bench.ranking_words import (
    explanation,
    factor_sentence,
    first_look,
    no_clear_leader,
    prior_sentence,
    ranking_sentence,
    share_words,
    strongest,
)
from app.trade.bench.weighing import Factor, Source
from app.trade.sentence import Sentence
from app.trade.wording import plain
from tests.trade.bench.ranked import (
    BETTER,
    CASE_A,
    CASE_B,
    CASE_C,
    COUNTS_A,
    COUNTS_B,
    COUNTS_C,
    CURED,
    HIGH,
    LADDER,
    LOW,
    READ_FULL,
    WEIGHTS_A,
    WEIGHTS_B,
    WEIGHTS_C,
    WEIGHTS_FULL,
    WORDS_FULL,
    S,
    evidence,
    ranked,
    seen,
    tried,
    within,
)

SAY = plain(UTC)
UNSEEN = " It counts past jobs and rules of thumb; it has not seen the player."


def said(ranking: Ranking) -> str:
    return SAY(ranking_sentence(ranking))


def test_example_a_names_who_fits_best_and_who_comes_next() -> None:
    assert said(ranked(WEIGHTS_A, CASE_A, COUNTS_A)) == (
        "Of what this book knows, arm bearing or stop: dust, dried oil, dropped adhesive fits best (48 in 100), "
        "then wobble signal, radial offset or gain control (18)." + UNSEEN
    )


def test_where_the_second_has_more_than_half_nobody_leads() -> None:
    trials = (tried(1, "flex_dress"), tried(2, "resolder"), tried(3, "radial_set"))
    full = ranked(WEIGHTS_FULL, evidence(S, 11, READ_FULL, trials, **WORDS_FULL))
    assert said(full) == (
        "Of what this book knows, no clear leader: arm bearing or stop: dust, dried oil, dropped adhesive "
        "(36 in 100), then radial motor weak (magnet aged) or its current too low (19)." + UNSEEN
    )
    assert no_clear_leader(ranked(WEIGHTS_C, CASE_C, COUNTS_C))
    assert no_clear_leader(ranked(WEIGHTS_B, CASE_B, COUNTS_B))
    assert not no_clear_leader(ranked(WEIGHTS_A, CASE_A, COUNTS_A))


def test_half_exactly_is_still_a_leader() -> None:
    half = {"belt": Fraction(6, 10), "clamp": Fraction(3, 10), "other": Fraction(1, 10)}
    assert not no_clear_leader(ranked(half, evidence(S, 2)))


def test_above_ninety_no_figure_is_said() -> None:
    read = (*within("rail_dc", "rail_ripple"), seen("arm_start_current", HIGH))
    sure = ranked(WEIGHTS_FULL, evidence(S, 11, read, (tried(1, "arm_clean", CURED), tried(2, "flex_dress"))))
    assert Fraction(9, 10) < sure.lines[0].share < 1
    assert "fits best (over 90 in 100), then" in said(sure)
    surest = {"belt": Fraction(993, 1000), "clamp": Fraction(4, 1000), "other": Fraction(3, 1000)}
    assert said(ranked(surest, evidence(S, 2))) == (
        "Of what this book knows, loading belt, gear or dried grease of the tray fits best (over 90 in 100), "
        "then clamp, puck or its foam (under 1)." + UNSEEN
    )


def test_where_other_leads_nothing_here_explains_it() -> None:
    lost = {"belt": Fraction(3, 10), "clamp": Fraction(2, 10), "other": Fraction(5, 10)}
    assert said(ranked(lost, evidence(S, 2))) == (
        "Of what this book knows, nothing here explains it: none of these (50 in 100), "
        "then loading belt, gear or dried grease of the tray (30)." + UNSEEN
    )


@pytest.mark.parametrize(
    ("share", "words"),
    [
        ("0.478242", "48 in 100"),
        ("0.004", "under 1 in 100"),
        ("0.9", "90 in 100"),
        ("0.9001", "over 90 in 100"),
        ("0.999", "over 90 in 100"),
    ],
)
def test_a_share_is_said_in_whole_numbers(share: str, words: str) -> None:
    assert SAY(share_words(Fraction(share))) == words


def test_the_ranking_never_speaks_a_verdict() -> None:
    rankings = [
        ranked(WEIGHTS_A, CASE_A, COUNTS_A),
        ranked(WEIGHTS_B, CASE_B, COUNTS_B),
        ranked(WEIGHTS_C, CASE_C, COUNTS_C),
    ]
    for ranking in rankings:
        text = " ".join([said(ranking), *(SAY(one) for line in ranking.lines for one in explanation(line))])
        assert "defective" not in text
        assert "broken" not in text


def test_a_suspect_explains_itself_from_where_it_starts_to_where_it_ends() -> None:
    line = ranked(WEIGHTS_A, CASE_A, COUNTS_A).lines[0]
    assert [SAY(one) for one in explanation(line)] == [
        (
            "The ladder gives it 40 in 100; it was the cause in 3 of 5 closed jobs of this type that stopped here: "
            "together 44 in 100."
        ),
        (
            "radial_drive, within its limit: more mean drive is needed against friction, pull or a weak motor. "
            "2.3 times against it."
        ),
        "c1_inner, within its limit: errors at high turns. 1.1 times against it.",
        "Set against all others: 48 in 100.",
    ]


def test_where_a_suspect_starts_is_said_for_each_case() -> None:
    bare = ranked(WEIGHTS_FULL, evidence(S, 11, (seen("rail_dc", LOW),)))
    lines = {line.suspect.id: line for line in bare.lines}
    assert SAY(prior_sentence(lines["arm_drag"])) == (
        "The ladder gives it 24 in 100; no closed job here names a cause."
    )
    assert SAY(prior_sentence(lines["regulator"])) == (
        "Not in this row of the ladder; it comes in with 1 in 100."
    )
    counted = ranked(WEIGHTS_FULL, evidence(S, 11), {"regulator": 2, "arm_drag": 1})
    lines = {line.suspect.id: line for line in counted.lines}
    assert SAY(prior_sentence(lines["regulator"])) == (
        "Not in this row of the ladder; it comes in with 1 in 100, and was the cause in 2 of 3 closed jobs of "
        "this type that stopped here: together 10 in 100."
    )


def test_a_factor_says_for_or_against_and_that_a_family_is_one() -> None:
    one = Factor(Source.READING, (Sentence("rail low"),), {})
    two = Factor(Source.READING, (Sentence("rail low"), Sentence("ripple high")), {})
    cases = [
        (one, "5", "rail low. 5 times for it."),
        (one, "2.25", "rail low. 2.3 times for it."),
        (one, "0.1", "rail low. 10 times against it."),
        (two, "2.5", "rail low; ripple high. Counted as one: 2.5 times for it."),
        (two, "0.5", "rail low; ripple high. Counted as one: 2 times against it."),
        (one, "1.01", "rail low. It says hardly anything about it."),
        (one, "0.99", "rail low. It says hardly anything about it."),
    ]
    for factor, ratio, words in cases:
        assert SAY(factor_sentence(factor, Fraction(ratio))) == words


def test_the_lock_and_the_disc_are_looked_at_before_any_suspect() -> None:
    assert SAY(first_look()) == "Look first: transit lock, a disc left inside, lens cover, voltage selector."


def test_a_trial_explains_itself() -> None:
    ranking = ranked(LADDER.weights(11, S), evidence(S, 11, (), (tried(1, "flex_dress", BETTER),)))
    line = next(line for line in ranking.lines if line.suspect.id == "flex_drag")
    assert SAY(explanation(line)[1]) == "flex_dress: better. 2.2 times for it."


def test_what_moves_a_suspect_most_is_told_in_a_few_words() -> None:
    ranking = ranked(
        WEIGHTS_FULL, evidence(S, 11, within("radial_drive"), warm=Asked.DENIED, cold=Asked.SAID)
    )
    lines = {line.suspect.id: [SAY(one) for one in strongest(line)] for line in ranking.lines}
    assert lines["arm_drag"] == ["“only when cold, better later” said", "radial_drive within its limit"]
    assert lines["other"] == []
    flex = ranked(WEIGHTS_FULL, evidence(S, 11, trials=(tried(1, "flex_dress", CURED),)))
    told = next(line for line in flex.lines if line.suspect.id == "flex_drag")
    assert [SAY(one) for one in strongest(told)] == ["flex_dress: cured"]
