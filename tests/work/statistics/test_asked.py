"""What was asked, in words."""

from __future__ import annotations

from datetime import UTC, date

import pytest

from app.trade.bench.kinds import Arrangement, FaultGroup
from app.trade.wording import plain
from app.work.statistics.asked import asked_words
from app.work.statistics.comeback_rate import comeback_rates
from app.work.statistics.over_time import over_time
from app.work.statistics.question import Question

SAY = plain(UTC)


def words(past, question, ask=comeback_rates):
    answer = ask(past.shop.book, question)
    return [SAY(sentence).replace("\u00a0", " ") for sentence in asked_words(past.shop.book, answer)]


def test_without_a_filter_only_the_period_and_the_grouping_are_said(past):
    assert words(past, Question()) == ["handed back at any time", "Parted by: transport type"]
    assert words(past, Question(), over_time) == ["handed back at any time"]


def test_every_filter_is_said_by_name(past):
    question = Question(
        since=date(2025, 1, 1),
        until=date(2025, 12, 31),
        transport_type="Velk A1",
        arrangement=Arrangement.SLED,
        maker="Quellmar",
        model="Larch 2",
        group=FaultGroup.RADIAL,
        change="clean_lens",
        technician=past.shop.tobbe,
        modified=True,
    )
    assert words(past, question, over_time) == [
        "handed back from 1 Jan 2025 to 31 Dec 2025",
        "Transport type: Velk A1",
        "Arrangement: sled three-beam",
        "Player: Quellmar Larch 2",
        "Fault group: radial",
        "Kind of change: lens cleaned",
        "Technician: Tobbe Ruskamp",
        "Modification inside: with",
    ]


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"since": date(2025, 1, 1)}, "handed back from 1 Jan 2025 on"),
        ({"until": date(2025, 1, 1)}, "handed back until 1 Jan 2025"),
    ],
)
def test_a_period_may_be_open_at_one_end(past, asked, said):
    assert words(past, Question(**asked), over_time) == [said]


def test_what_the_book_does_not_know_is_said_as_it_was_asked(past):
    said = words(past, Question(change="gone", technician=999, modified=False, model="Larch 2"), over_time)
    assert said[1:] == [
        "Player: Larch 2",
        "Kind of change: gone",
        "Technician: 999",
        "Modification inside: without",
    ]
