"""All rules together: order, answers, the pile, and what is never forgotten."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench import flags_coil, flags_job, flags_laser, flags_safety
from app.trade.bench.facts import Answer, ComebackFact, DiscFact, OtherTypeFact
from app.trade.bench.flag import FlagRaised, Level
from app.trade.bench.flags import ASKED, covers, evaluate
from app.trade.bench.kinds import TransitLock
from app.trade.bench.modifications import Circuit, Kind, Origin
from app.trade.bench.rules import RULES
from app.trade.bench.stages import Mark, Stage
from app.trade.bench.thresholds import DEFAULTS
from app.trade.bench.verdict import VerdictWord
from app.trade.money import Money
from app.trade.sentence import Sentence
from app.trade.wording import Wording


@pytest.fixture
def troubled(job: Any, modification: Any, unlawful: Any, final: Any) -> Any:
    """A job with two stops, several cautions and a note."""
    return job(
        modifications=(
            unlawful(Kind.FUSE, Circuit.FUSE, was="T 1 A", now="foil", origin=Origin.FOUND),
            modification(number=2, kind=Kind.PARALLEL, new_value=Decimal(10)),
        ),
        readings=(final("dropout_passed", "0.2", "mm", verdict=VerdictWord.LOW, must=True),),
        discs=(DiscFact(1, "tray"),),
        balance=Money(5000, "EUR"),
    )


@pytest.fixture
def answered(at: Any) -> Any:
    """The same job with an answer to one of its flags."""

    def answer(facts: Any, flag: FlagRaised, mark: Mark | None = Mark.OWNER) -> Any:
        given = Answer(flag.rule, flag.detail, flag.sentence, mark, "Ine", at(6), "seen, the arm is worn")
        return replace(facts, answers=(*facts.answers, given))

    return answer


def rules(facts: Any) -> list[str]:
    return [flag.rule for flag in evaluate(facts)]


def the(facts: Any, rule: str) -> FlagRaised:
    (flag,) = [f for f in evaluate(facts) if f.rule == rule]
    return flag


def test_an_ordinary_job_has_no_flag(job: Any) -> None:
    assert evaluate(job()) == ()


def test_stops_stand_first_then_cautions_then_notes(troubled: Any) -> None:
    levels = [flag.level for flag in evaluate(troubled)]
    assert levels == sorted(levels, key=[Level.STOP, Level.CAUTION, Level.NOTE].index)
    assert rules(troubled) == [
        "fuse",
        "final_outside",
        "coil_up_big",
        "unknown_mod",
        "disc_inside",
        "pile",
        "unpaid",
    ]


def test_every_rule_is_asked_and_every_rule_has_its_words(english: Wording) -> None:
    of_modules = {
        rule
        for module in (flags_coil, flags_job, flags_laser, flags_safety)
        for rule in vars(module).values()
        if callable(rule) and getattr(rule, "__annotations__", {}).get("return") == "Iterator[FlagRaised]"
    }
    assert of_modules == set(ASKED)
    for rule in RULES.values():
        assert english(rule.word)
        assert english(rule.clears).endswith(".")
        assert rule.version >= 1


def test_two_flags_never_share_an_identity(troubled: Any, unlawful: Any) -> None:
    more = replace(
        troubled,
        modifications=(
            *troubled.modifications,
            unlawful(Kind.WIRING, Circuit.EARTH, number=3, origin=Origin.FOUND),
            unlawful(Kind.FUSE, Circuit.FUSE, number=4, origin=Origin.FOUND),
        ),
        discs=(DiscFact(1, "tray"), DiscFact(2, "manual")),
    )
    identities = [flag.identity for flag in evaluate(more)]
    assert len(identities) == len(set(identities))


def test_an_acknowledged_caution_stays_and_is_marked(troubled: Any, answered: Any) -> None:
    big = the(troubled, "coil_up_big")
    assert not big.acknowledged
    assert the(answered(troubled, big), "coil_up_big").acknowledged


def test_another_mark_does_not_acknowledge(troubled: Any, answered: Any) -> None:
    big = the(troubled, "coil_up_big")
    for mark in (None, Mark.COMPETENT):
        assert not the(answered(troubled, big, mark), "coil_up_big").acknowledged


def test_an_acknowledgement_does_not_cover_new_numbers(
    troubled: Any, answered: Any, modification: Any
) -> None:
    seen = answered(troubled, the(troubled, "coil_up_big"))
    worse = replace(
        seen,
        modifications=(
            *seen.modifications[:1],
            modification(number=2, kind=Kind.PARALLEL, new_value=Decimal(8)),
        ),
    )
    assert not the(worse, "coil_up_big").acknowledged


def test_a_reason_closes_what_may_be_closed_by_one(job: Any, answered: Any, modification: Any) -> None:
    two = (modification(number=1), modification(number=2, where="R315"))
    facts = job(modifications=two)
    assert "stacked" in rules(facts)
    assert "stacked" not in rules(answered(facts, the(facts, "stacked"), None))


def test_no_reason_closes_a_stop_or_what_only_facts_can_clear(troubled: Any, answered: Any) -> None:
    for rule in ("fuse", "final_outside", "disc_inside", "unpaid"):
        assert rule in rules(answered(troubled, the(troubled, rule)))


def test_an_answer_belongs_to_one_flag(troubled: Any, at: Any) -> None:
    big = the(troubled, "coil_up_big")
    right = Answer("coil_up_big", big.detail, big.sentence, Mark.OWNER, "Ine", at(6), "seen")
    assert covers(right, big)
    assert not covers(replace(right, rule="coil_up"), big)
    assert not covers(replace(right, detail="focus coil drive"), big)
    assert not covers(replace(right, sentence=Sentence("something else")), big)


def test_an_answer_read_back_from_the_book_still_covers(troubled: Any, at: Any) -> None:
    big = the(troubled, "coil_up_big")
    kept = Sentence.from_json(big.sentence.key, big.sentence.values_as_json())
    assert covers(Answer("coil_up_big", big.detail, kept, Mark.OWNER, "Ine", at(6), "seen"), big)


def test_three_cautions_together_are_the_owners(job: Any, answered: Any, english: Wording) -> None:
    three = job(
        discs=(DiscFact(1, "tray"),),
        comeback=ComebackFact(2131, 47, "R314 changed"),
        agreed=Money(10000, "EUR"),
        work_so_far=Money(9000, "EUR"),
    )
    pile = the(three, "pile")
    assert english(pile.sentence) == "3 cautions together."
    assert pile.owner_sees
    assert pile.detail == "beyond_agreed, comeback, disc_inside"
    assert "pile" not in rules(answered(three, pile))
    assert "pile" not in rules(replace(three, discs=()))


def test_another_caution_more_makes_a_new_pile(job: Any, answered: Any) -> None:
    three = job(
        discs=(DiscFact(1, "tray"), DiscFact(2, "manual")), comeback=ComebackFact(2131, 47, "R314 changed")
    )
    seen = answered(three, the(three, "pile"))
    assert "pile" not in rules(seen)
    assert "pile" in rules(replace(seen, agreed=Money(100, "EUR"), work_so_far=Money(90, "EUR")))


def test_a_caution_cleared_by_a_reason_does_not_count_into_the_pile(job: Any, answered: Any) -> None:
    three = job(
        discs=(DiscFact(1, "tray"), DiscFact(2, "manual")), comeback=ComebackFact(2131, 47, "R314 changed")
    )
    assert "pile" not in rules(answered(three, the(three, "comeback")))


def test_a_stricter_shop_piles_earlier(job: Any) -> None:
    two = job(discs=(DiscFact(1, "tray"), DiscFact(2, "manual")))
    assert "pile" not in rules(two)
    assert "pile" in [f.rule for f in evaluate(two, replace(DEFAULTS, pile=2))]


def test_the_owners_word_and_chosen_limits_settle_another_type(job: Any, answered: Any) -> None:
    found = job(other_types=(OtherTypeFact("transport", "Drevvo S8", "Ponnik S5"),))
    seen = answered(found, the(found, "other_type"))
    assert the(seen, "other_type").acknowledged
    chosen = replace(
        seen, other_types=(OtherTypeFact("transport", "Drevvo S8", "Ponnik S5", limits_chosen=True),)
    )
    assert rules(chosen) == []


def test_the_same_facts_always_give_the_same_flags(troubled: Any) -> None:
    assert evaluate(troubled) == evaluate(troubled)


def test_a_note_stays_a_note_beside_cautions(job: Any) -> None:
    facts = job(transit_lock=TransitLock.NOT_LOOKED, stage=Stage.TAKEN_IN)
    assert [f.level for f in evaluate(facts)] == [Level.NOTE]
