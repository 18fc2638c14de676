"""A past of the shop's own jobs, written out in each test."""

from __future__ import annotations

import pytest

from app.trade.sentence import Sentence
from tests.work.past import Past


@pytest.fixture
def past(shop):
    return Past(shop)


@pytest.fixture
def add(past):
    """Writes rows of any kind as they are handed in; gives their keys."""

    def write(*rows):
        with past.shop.book.change(past.shop.ine, Sentence("wrote the past")) as change:
            return [change.add(row).id for row in rows]

    return write
