"""One job taken in, and short ways to bring it where a test begins."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from app.book.tables import Job
from app.trade.bench.stages import MainsClass
from app.trade.counter.taking_in import Intake
from app.trade.sentence import Sentence
from app.work.counter.taking_in import Received, receive_unit

LARCH = Intake(
    name="Benedikt Arnsvik",
    phone="01632 960 142",
    serial="0420 158",
    maker="Quellmar",
    model="Larch 2",
    mains_class=MainsClass.II,
    fault="Plays nicely from the start. Then it hangs for ages.",
    promised_on=date(2026, 3, 20),
)


@pytest.fixture
def take_in(shop: Any) -> Callable[..., Received]:
    """Take in the Larch 2, or one that differs from it: ``take_in(serial="9", promised_on=None)``."""
    return lambda **differs: receive_unit(shop.book, shop.mirr, replace(LARCH, **differs)).value


@pytest.fixture
def job(take_in: Callable[..., Received]) -> int:
    """The id of the Larch's job."""
    return take_in().job_id


@pytest.fixture
def waive(shop: Any) -> Callable[[int], None]:
    """Give the technician's reason why the final readings of a job are left out."""

    def given(job_id: int) -> None:
        with shop.book.change(shop.tobbe, Sentence("finals left out")) as change:
            change.get(Job, job_id).finals_waived_reason = "only the lid was bent"

    return given
