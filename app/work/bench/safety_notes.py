"""The safety notes of the bench for one job, as its sheet and its papers tell them."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from app.book.bench.job_rows import JobRows
from app.book.shipped import shipped
from app.trade.bench.bench_notes import BenchNote, bench_notes
from app.trade.bench.facts import JobFacts
from app.trade.bench.kinds import Arrangement
from app.trade.bench.safety_notes import SafetyNote, read_safety_notes
from app.trade.settings.bench import SAFETY_STANDARD


@cache
def _shipped_notes() -> Mapping[str, SafetyNote]:
    return read_safety_notes(shipped("bench/safety_notes"))


def safety_notes_of(rows: JobRows, facts: JobFacts) -> tuple[BenchNote, ...]:
    """The notes that apply to this job now."""
    limits = rows.settings[SAFETY_STANDARD]
    swing_arm = rows.fitted is not None and rows.fitted.arrangement is Arrangement.SWING_ARM
    return bench_notes(
        _shipped_notes(), facts, swing_arm=swing_arm, standard=limits.title if limits.named else ""
    )
