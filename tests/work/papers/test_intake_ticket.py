"""What the intake ticket is told by the book."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from app.book.tables import Paper
from app.trade.bench.kinds import HowOften
from app.trade.counter.fault_words import FaultWord, ReportedFault
from app.work.counter.taking_in import receive_unit
from tests.work.counter.test_taking_in import LARCH


@pytest.mark.parametrize(
    ("fault", "picked", "printed"),
    [
        ("It hangs.", (FaultWord.OTHER,), []),
        ("It hangs.", (FaultWord.SKIPS, FaultWord.OTHER), ["skips"]),
        ("", (FaultWord.OTHER,), ["other"]),
    ],
)
def test_other_is_not_printed_beside_words_that_say_what(
    shop: Any, fault: str, picked: tuple[FaultWord, ...], printed: list[str]
) -> None:
    faults = tuple(ReportedFault(word, HowOften.ALWAYS) for word in picked)
    intake = replace(LARCH, fault=fault, faults=faults)
    received = receive_unit(shop.book, shop.mirr, intake).value
    with shop.book.ask() as session:
        facts = session.get_one(Paper, received.ticket_id).facts
    assert [word["sentence"][0] if "sentence" in word else word for word in facts["fault_words"]] == printed
