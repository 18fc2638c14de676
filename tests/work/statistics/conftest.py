"""A past of the shop's own jobs, written out in each test."""

from __future__ import annotations

import pytest

from tests.work.past import Past


@pytest.fixture
def past(shop):
    return Past(shop)
