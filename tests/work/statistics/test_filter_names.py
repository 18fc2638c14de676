"""Names of filters: found whatever their capital letters, and said where the book has none such."""

from __future__ import annotations

from datetime import UTC

import pytest

from app.trade.sentence import Sentence
from app.trade.wording import plain
from app.work.statistics import filter_names as module
from app.work.statistics.choices import Choices
from app.work.statistics.filter_names import filter_names

HAS = Choices(
    transport_types=("Velk A1",),
    players=(("Quellmar", "Larch 2"), ("QUELLMAR", "Larch 3"), ("Ostrind", ""), ("", "Osier 7")),
    changes=(("clean_lens", Sentence("clean the lens")),),
)


@pytest.fixture
def asked(monkeypatch):
    """What is found, and said, of names in a book that has those above."""

    def asked(**names):
        monkeypatch.setattr(module, "choices", lambda book: HAS)
        found, notes = filter_names(None, names)
        return found, [plain(UTC)(sentence) for sentence in notes]

    return asked


def test_a_name_is_found_as_the_book_writes_it(asked):
    found, notes = asked(transport_type=" velk  a1", maker="OSTRIND", model="larch 2", change="")
    assert found == {"transport_type": "Velk A1", "maker": "Ostrind", "model": "Larch 2", "change": ""}
    assert notes == []


def test_two_that_differ_in_capitals_only_are_told_apart(asked):
    assert asked(maker="Quellmar")[0] == {"maker": "Quellmar"}
    assert asked(maker="QUELLMAR")[0] == {"maker": "QUELLMAR"}


def test_what_there_is_is_said_where_a_name_is_not(asked, monkeypatch):
    found, notes = asked(model="Moon", change="wash")
    assert found == {"model": "Moon", "change": "wash"}
    assert notes == [
        "No player of the book has the model Moon.",
        "These are: Larch 2, Larch 3, Osier 7",
        "No kind of change that was tried has the id wash.",
        "These are: clean_lens",
    ]
    monkeypatch.setattr(module, "MOST", 2)
    assert asked(model="Moon")[1][1] == "3 are, among them: Larch 2, Larch 3"


def test_of_a_book_without_names_nothing_is_said(shop):
    assert filter_names(shop.book, {"change": "moon"}) == ({"change": "moon"}, ())
