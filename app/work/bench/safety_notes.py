"""The safety notes for one job, as its sheet and its papers tell them."""

from __future__ import annotations

from functools import cache

from app.book.bench.job_rows import JobRows
from app.book.shipped import shipped
from app.trade.bench.facts import JobFacts
from app.trade.bench.kinds import Arrangement
from app.trade.bench.safety_notes import NoteTold, Reader, SafetyNote, notes_for, read_safety_notes
from app.trade.settings.bench import SAFETY_STANDARD


@cache
def safety_notes() -> tuple[SafetyNote, ...]:
    """The one list of them."""
    return read_safety_notes(shipped("bench/safety_notes"))


def safety_notes_of(rows: JobRows, facts: JobFacts, reader: Reader) -> tuple[NoteTold, ...]:
    """The notes that this reader is told of this job now."""
    limits = rows.settings[SAFETY_STANDARD]
    swing_arm = rows.fitted is not None and rows.fitted.arrangement is Arrangement.SWING_ARM
    standard = limits.title if limits.named else ""
    return notes_for(reader, safety_notes(), facts, swing_arm=swing_arm, standard=standard)
