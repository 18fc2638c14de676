"""Find: everything that somebody remembers of a job leads to it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.book.find import lookup
from app.book.tables import Transport, TransportType
from app.trade.bench.cards import CardEntry, CardSection
from app.trade.bench.kinds import Arrangement
from app.trade.sentence import Sentence
from app.work.bench.cards import save_card
from app.work.counter.taking_in import receive_unit
from app.work.find.find import find, job_by_number
from tests.work.counter.test_taking_in import LARCH, STOPS_WARM


@pytest.fixture
def jobs(shop) -> list[int]:
    """Two jobs: Arnsvik's Larch 2 with a Velk A1 inside, and another."""
    with shop.book.change(shop.ine, Sentence("types")) as change:
        kind = change.add(TransportType(name="Velk A1", arrangement=Arrangement.SWING_ARM))
        change.add(Transport(type_id=kind.id, marking="S 8812", shelf="T 3", created_at=change.now))
    first = receive_unit(
        shop.book,
        shop.mirr,
        replace(LARCH, transport_type_id=kind.id, transport_serial="55 871", faults=(STOPS_WARM,)),
    )
    second = receive_unit(
        shop.book,
        shop.mirr,
        replace(
            LARCH,
            name="Søren Łukaszewicz",
            phone="01632 960 777",
            serial="TM 88012",
            maker="Tavossa",
            model="Tamarack",
        ),
    )
    return [first.value.job_id, second.value.job_id]


@pytest.mark.parametrize(
    "question",
    [
        "1001",
        "J1001",
        "j 1001",
        "arnsvik",
        "larch benedikt",
        "0420",
        "0420 158",
        "0158",
        "55 871",
        "hangs ages",
        "stops warm",
        "LÁRCH",
    ],
)
def test_a_job_is_found_by_anything_remembered_of_it(shop, jobs, question):
    assert jobs[0] in [job.id for job in find(shop.book, question).jobs]


def test_accents_and_foreign_letters_are_typed_without_them(shop, jobs):
    for question in ("soren lukas", "Søren", "łukaszewicz soren"):
        found = find(shop.book, question)
        assert [c.name for c in found.customers] == ["Søren Łukaszewicz"], question
        assert [j.number for j in found.jobs] == [1002]


def test_results_come_by_kind_with_what_tells_them_apart(shop, jobs):
    found = find(shop.book, "0777")
    assert [(c.name, c.jobs) for c in found.customers] == [("Søren Łukaszewicz", 1)]
    found = find(shop.book, "velk")
    assert {(t.type, t.marking, t.unit, t.shelf) for t in found.transports} == {
        ("Velk A1", "55 871", "Quellmar Larch 2", ""),
        ("Velk A1", "S 8812", "", "T 3"),
    }
    found = find(shop.book, "88012")
    assert [(u.maker, u.customer, u.jobs) for u in found.units] == [("Tavossa", "Søren Łukaszewicz", 1)]


def test_the_job_with_the_very_number_stands_first(shop, jobs):
    receive_unit(shop.book, shop.mirr, replace(LARCH, serial="1002", phone=""))
    assert [job.number for job in find(shop.book, "1002").jobs] == [1002, 1003]


@pytest.mark.parametrize(
    "question", ["", "  ", "%", "_", '"', 'a"b', "AND", "-5", "na:me", "(", "*", "x" * 5000]
)
def test_no_question_hurts(shop, jobs, question):
    assert not find(shop.book, question).transports


def test_nothing_found_is_falsy(shop, jobs):
    assert not find(shop.book, "zzzz")
    assert find(shop.book, "larch")


def test_at_most_as_many_of_a_kind_as_asked_for(shop, jobs):
    assert len(find(shop.book, "01632", limit=1).customers) == 1


def test_without_a_full_text_index_the_portable_table_answers_the_same(shop, jobs, monkeypatch):
    monkeypatch.setattr(lookup, "has_fts", lambda connection: False)
    for question in ("arnsvik", "larch benedikt", "0158", "soren", "hangs ages", "", "("):
        asked = find(shop.book, question)
        monkeypatch.undo()
        assert find(shop.book, question) == asked, question
        monkeypatch.setattr(lookup, "has_fts", lambda connection: False)


def test_a_word_that_many_rows_hold_still_leads_to_its_oldest(shop, jobs, monkeypatch):
    monkeypatch.setattr(lookup, "LOOKED_AT", 1)
    assert {u.model for u in find(shop.book, "quellmar").units} | {
        j.model for j in find(shop.book, "quellmar").jobs
    } == {"Larch 2"}


def test_a_know_how_card_is_found_by_the_words_in_it_unless_it_is_put_away(shop) -> None:
    entry = CardEntry(
        title="Arm out and in",
        unit_maker="Quellmar",
        unit_model="Larch 2",
        sections={CardSection.CAUTIONS: "The magnet pulls steel tools."},
    )
    key = save_card(shop.book, shop.mirr, entry).value
    assert [(card.id, card.title, card.concerns) for card in find(shop.book, "steel magn").cards] == [
        (key, "Arm out and in", "Quellmar Larch 2")
    ]
    assert not find(shop.book, "s").cards
    save_card(shop.book, shop.mirr, replace(entry, retired=True), card_id=key, version=1)
    assert not find(shop.book, "steel magn").cards


def test_a_number_names_its_job(shop, jobs):
    assert job_by_number(shop.book, 1002) == jobs[1]
    assert job_by_number(shop.book, 9999) is None
