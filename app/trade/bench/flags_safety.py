"""Rules about what can hurt people: fuse, mains, earth, interlock, protecting parts, the failed safety test."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from app.trade.bench.case import MAINS_INSIDE
from app.trade.bench.facts import FailedStep, JobFacts, SafetyTestFact
from app.trade.bench.flag import Closing, FlagRaised, Level, Subject
from app.trade.bench.flags_coil import detail_of
from app.trade.bench.modification_words import what_it_is
from app.trade.bench.modifications import RESISTOR_KINDS, Circuit, Kind, Modification
from app.trade.bench.rules import flag, subject_of
from app.trade.bench.safety_test import Step
from app.trade.bench.stages import Mark
from app.trade.bench.thresholds import Thresholds
from app.trade.sentence import Measure, Sentence, Value

_PART_KINDS = RESISTOR_KINDS | {Kind.OTHER_TYPE}


def passed_since(facts: JobFacts, at: datetime) -> bool:
    """A safety test that counts was passed after ``at``; a player without mains inside needs none."""
    if facts.mains_class not in MAINS_INSIDE:
        return True
    return any(test.counts and test.at >= at for test in facts.safety_tests)


def _is_fuse(m: Modification) -> bool:
    return m.kind is Kind.FUSE or m.circuit is Circuit.FUSE


def _is_interlock(m: Modification) -> bool:
    return m.kind is Kind.INTERLOCK or m.circuit is Circuit.INTERLOCK


def _is_part(m: Modification) -> bool:
    """A protecting part replaced: by its own mark anywhere, else on the mains side."""
    if _is_fuse(m) or _is_interlock(m) or m.circuit is Circuit.EARTH:
        return False
    return m.safety_part or (m.circuit is Circuit.MAINS and m.kind in _PART_KINDS)


def _is_mains(m: Modification) -> bool:
    return m.circuit is Circuit.MAINS and not _is_fuse(m) and not _is_interlock(m) and not _is_part(m)


def safety_part(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """A safety-critical part replaced by another type, until the right one is in, tested, and the owner agrees."""
    for m in facts.modifications:
        if not _is_part(m):
            continue
        restored = m.reversal is not None and passed_since(facts, m.reversal.at)
        yield flag(
            "safety_part",
            Level.STOP,
            Sentence(
                "The part at {part} protects people; {new} is not the maker's type.",
                {"part": m.where, "new": m.now or what_it_is(m)},
            ),
            subject=subject_of([m]),
            detail=detail_of(m),
            closing=Closing.REASON if restored else Closing.FACTS,
            needs=Mark.OWNER if restored else None,
        )


def fuse(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """A fuse of another rating, speed or type, or bridged, until the right one is in and the cause noted."""
    for m in facts.modifications:
        if not _is_fuse(m) or (m.reversal is not None and m.reversal.note.strip()):
            continue
        yield flag(
            "fuse",
            Level.STOP,
            Sentence(
                "Fuse {ref}: maker {old}, found {new}.",
                {"ref": m.where, "old": m.was or Sentence("not known"), "new": m.now or what_it_is(m)},
            ),
            subject=subject_of([m]),
            detail=detail_of(m),
        )


def mains_wiring(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """Mains wiring, cord class, switch or selector changed, until restored and tested."""
    for m in facts.modifications:
        if not _is_mains(m) or (m.reversal is not None and passed_since(facts, m.reversal.at)):
            continue
        yield flag(
            "mains_wiring",
            Level.STOP,
            Sentence("Mains wiring differs from the maker's: {what}.", {"what": m.now or what_it_is(m)}),
            subject=subject_of([m]),
            detail=detail_of(m),
        )


def earth(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """Protective conductor removed, lifted or over its limit, until restored, measured and tested."""
    over = _earth_over_limit(facts)
    for m in facts.modifications:
        if m.circuit is not Circuit.EARTH or (m.reversal is not None and passed_since(facts, m.reversal.at)):
            continue
        yield flag(
            "earth",
            Level.STOP,
            Sentence("Protective earth: {what}.", {"what": m.now or what_it_is(m)}),
            subject=subject_of([m]),
            detail=detail_of(m),
        )
    if over is not None:
        yield flag(
            "earth",
            Level.STOP,
            Sentence("Protective earth: over its limit, {y} (limit {limit}).", over),
            subject=Subject.UNIT,
            detail="over limit",
        )


def _earth_over_limit(facts: JobFacts) -> dict[str, Value] | None:
    """The latest protective-conductor value above its limit that no test has answered since."""
    found: list[tuple[datetime, Measure, Measure]] = [
        (test.at, step.value, step.limit)
        for test in facts.safety_tests
        for step in test.failed
        if step.step == Step.PE_RESISTANCE and step.value is not None and step.limit is not None
    ]
    found += [
        (r.at, r.value, Measure(r.high, r.value.unit))
        for r in facts.readings
        if r.quantity == Step.PE_RESISTANCE and r.high is not None and r.value.value > r.high
    ]
    open_ones = [item for item in found if not any(t.counts and t.at >= item[0] for t in facts.safety_tests)]
    if not open_ones:
        return None
    _, value, limit = max(open_ones, key=lambda item: item[0])
    return {"y": value, "limit": limit}


def interlock(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """Laser interlock or cover switch bypassed, or asked for, until removed and tried, or refused."""
    for m in facts.modifications:
        if not _is_interlock(m) or (m.reversal is not None and m.reversal.tried):
            continue
        yield flag(
            "interlock",
            Level.STOP,
            _open_beam(m.now or what_it_is(m)),
            subject=subject_of([m]),
            detail=detail_of(m),
        )
    for asked in facts.asked:
        if not asked.refused:
            yield flag("interlock", Level.STOP, _open_beam(asked.what), detail=f"asked {asked.number}")


def _open_beam(what: Value) -> Sentence:
    return Sentence("The beam could be reached with the cover open: {what}.", {"what": what})


def safety_failed(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """A step of the safety test failed, until the player is repaired and a full new test passed."""
    failed = _failed_last(facts.safety_tests)
    if failed is None:
        return
    for step in failed.failed:
        yield flag(
            "safety_failed",
            Level.STOP,
            _step_words(step, failed.edition),
            subject=Subject.UNIT,
            detail=step.step,
        )


def _failed_last(tests: tuple[SafetyTestFact, ...]) -> SafetyTestFact | None:
    for test in reversed(tests):
        if test.failed:
            return test
        if test.counts:
            return None
    return None


def _step_words(step: FailedStep, edition: str) -> Sentence:
    values: dict[str, Value] = {"step": step.name, "edition": edition}
    if step.value is None or step.limit is None:
        return Sentence("Safety test: {step}, not in order ({edition}).", values)
    return Sentence(
        "Safety test: {step} {y}, limit {limit} ({edition}).",
        {**values, "y": step.value, "limit": step.limit},
    )
