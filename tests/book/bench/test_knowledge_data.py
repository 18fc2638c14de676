"""The shop's own bench knowledge lies over what ships, record by record."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from app.book.bench.knowledge_data import code_of, knowledge_of, shipped_knowledge
from app.book.door import Book
from app.book.opening import open_book
from app.book.shipped import shipped
from app.book.tables import KnowledgeKept, QuantityKept
from app.trade.bench.kinds import Arrangement, KnowledgeKind
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

EDITED = Sentence("changed the bench knowledge")


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    """A new book."""
    book = open_book(
        tmp_path / "book.sqlite", clock=lambda: datetime(2026, 3, 12, 9, 30, tzinfo=UTC), make=True
    )
    yield book
    book.close()


def record(kind: KnowledgeKind, data: list[dict[str, Any]], code: str) -> dict[str, Any]:
    return next(one for one in data if code_of(kind, one) == code)


def keep(book: Book, kind: KnowledgeKind, code: str, content: dict[str, Any], retired: bool = False) -> None:
    with book.change(None, EDITED) as change:
        change.add(KnowledgeKept(kind=kind, code=code, content=content, retired=retired))


def test_a_shop_that_changed_nothing_has_what_ships(book: Book) -> None:
    with book.ask() as session:
        assert knowledge_of(session) is shipped_knowledge()


def test_an_own_weight_of_the_ladder_counts_from_the_next_question_on(book: Book) -> None:
    with book.ask() as session:
        knowledge_of(session)  # kept from here on
    row = record(KnowledgeKind.LADDER_ROW, shipped("bench/ladder")["rows"], "11 S")
    priors = {**row["priors"], "arm_drag": "0.30", "radial_magnet": "0.10"}
    keep(book, KnowledgeKind.LADDER_ROW, "11 S", {**row, "priors": priors})
    with book.ask() as session:
        weights = knowledge_of(session).ladder.weights(11, Arrangement.SWING_ARM)
    assert (Fraction(weights["arm_drag"]), Fraction(weights["radial_magnet"])) == (
        Fraction(3, 10),
        Fraction(1, 10),
    )
    shipped_weights = shipped_knowledge().ladder.weights(11, Arrangement.SWING_ARM)
    assert Fraction(shipped_weights["arm_drag"]) == Fraction(24, 100)


def test_a_word_of_the_shops_own_comes_last_and_a_retired_one_goes(book: Book) -> None:
    words = shipped("bench/likelihoods")["symptoms"]
    own = {**record(KnowledgeKind.SYMPTOM, words, "tap"), "id": "hum", "words": "hums at the mains frequency"}
    keep(book, KnowledgeKind.SYMPTOM, "hum", own)
    keep(book, KnowledgeKind.SYMPTOM, "random", {}, retired=True)
    keep(book, KnowledgeKind.SYMPTOM, "never there", {}, retired=True)
    with book.ask() as session:
        known = list(knowledge_of(session).knowledge.likelihoods.symptoms)
    assert known[-1] == "hum"
    assert "random" not in known
    assert len(known) == len(words)


def test_what_cannot_be_right_is_refused_as_data(book: Book) -> None:
    change = record(KnowledgeKind.CHANGE, shipped("bench/changes"), "reseat")
    keep(book, KnowledgeKind.CHANGE, "reseat", {**change, "addresses": {"nobody": "A"}})
    with book.ask() as session, pytest.raises(Refusal, match="is no suspect"):
        knowledge_of(session)


def test_a_record_without_content_stands_as_it_ships(book: Book) -> None:
    keep(book, KnowledgeKind.CHANGE, "reseat", {})
    with book.ask() as session:
        assert knowledge_of(session) == shipped_knowledge()


def test_a_retired_suspect_leaves_ratios_and_changes_but_not_a_row_that_names_him(book: Book) -> None:
    keep(book, KnowledgeKind.SUSPECT, "audio_out", {}, retired=True)
    with book.ask() as session, pytest.raises(Refusal, match="is no suspect here"):
        knowledge_of(session)
    for code in ("10 S", "10 T"):
        row = record(KnowledgeKind.LADDER_ROW, shipped("bench/ladder")["rows"], code)
        priors = {**row["priors"], "decoder": "0.20" if code == "10 S" else "0.19"}
        del priors["audio_out"]
        keep(book, KnowledgeKind.LADDER_ROW, code, {**row, "priors": priors})
    with book.ask() as session:
        known = knowledge_of(session).knowledge
    assert known.likelihoods.readings["audio_level"].suspects == {"decoder"}
    assert known.changes["audio_fix"].addresses == {}


def test_a_quantity_that_the_shop_added_may_have_likelihoods_even_when_no_longer_used(book: Book) -> None:
    with book.change(None, EDITED) as change:
        change.add(QuantityKept(code="own_hum", content={}, retired=True))
    level = record(KnowledgeKind.EVIDENCE, shipped("bench/likelihoods")["readings"], "audio_level")
    keep(book, KnowledgeKind.EVIDENCE, "own_hum", {**level, "id": "own_hum", "quantities": ["own_hum"]})
    with book.ask() as session:
        assert "own_hum" in knowledge_of(session).knowledge.likelihoods.readings
