"""A past of two transport types for the pages of figures."""

from __future__ import annotations

import pytest

from app.screens.kit.life_plot import fetch_parts
from app.trade.bench.kinds import FaultGroup
from tests.work.past import Past


@pytest.fixture(autouse=True, scope="session")
def parts():
    """What draws is imported before, so that no page waits for it."""
    fetch_parts()


@pytest.fixture
def past(shop):
    """Velk A1: 8 of 12 came back; Grellin S1: 1 of 12; one with nothing known of the mechanism, too young."""
    book = Past(shop)
    with book.at_once():
        for name, back in (("Velk A1", 8), ("Grellin S1", 1)):
            for at in range(12):
                unit = book.unit(transport=name)
                book.job(unit, 900 + at, 890 + at)
                if at < back:
                    book.job(unit, 850 + at, group=FaultGroup.RADIAL)
        book.job(book.unit(transport=None), 30, 20)
    return book


@pytest.fixture
def figure(office, past):
    """Opens the page of a question on that past."""

    def opened(name="comeback-rate"):
        return office.open("figure", name)

    return opened
