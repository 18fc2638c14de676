"""Which tables leave the flags alone is a promise about the rules: they must not look at what those tables fill."""

from __future__ import annotations

from dataclasses import fields
from datetime import UTC, date, datetime
from typing import Any

from app.trade.bench.facts import JobFacts
from app.trade.bench.flags import evaluate
from app.trade.bench.stages import Stage

# Fields of the facts that the silent tables fill (case events, the owner's decision that it goes back unsafe), and
# those that are left out where only the rules are asked.
UNSEEN = {"case_events", "unsafe_return", "rung_arrival", "rung_final"}


class Watched:
    """Facts of a job that remember which of their fields were looked at."""

    def __init__(self, facts: JobFacts) -> None:
        self._facts = facts
        self.seen: set[str] = set()

    def __getattr__(self, name: str) -> Any:
        self.seen.add(name)
        return getattr(self._facts, name)


def test_no_rule_looks_at_what_silent_tables_fill() -> None:
    now = datetime(2026, 3, 12, 9, 30, tzinfo=UTC)
    facts = Watched(JobFacts(number=2131, today=date(2026, 3, 12), stage=Stage.ON_THE_BENCH, taken_in=now))
    evaluate(facts)  # type: ignore[arg-type]
    known = {field.name for field in fields(JobFacts)}
    assert known > UNSEEN
    assert facts.seen & known
    assert not facts.seen & UNSEEN
