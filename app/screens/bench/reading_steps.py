"""Which reading comes next: the order of the sheet for this transport, of the trial, or of what is still asked for."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.trade.bench.final_readings import asked_by_coil
from app.trade.bench.quantities import Quantity
from app.trade.bench.stages import Moment
from app.work.bench.bench_lists import BenchLists
from app.work.bench.job_sheet import JobSheet
from app.work.bench.sheet_lines import ReadingLine


@dataclass(frozen=True)
class ReadingStep:
    """One reading to be taken. ``warm``: after 30 minutes of play, cold (False), or as it comes (None)."""

    quantity: Quantity
    detail: str = ""
    warm: bool | None = None

    @property
    def identity(self) -> tuple[str, str, bool | None]:
        """What makes it one and the same reading."""
        return self.quantity.id, self.detail, self.warm


def steps_for(
    sheet: JobSheet, lists: BenchLists, moment: Moment, trial: int | None
) -> tuple[ReadingStep, ...]:
    """The readings in their order. ``trial`` is the number of the trial they are read after, else None."""
    known = {quantity.id: quantity for quantity in lists.quantities}
    if trial is not None:
        return _of_trial(sheet.readings, known, trial)
    own = [ReadingStep(step.quantity, step.detail) for step in lists.sheet if step.when.holds(moment)]
    if moment is Moment.FINAL:
        own = [*_asked_at_the_end(sheet, known), *own]
    reached = reached_rung(sheet)
    offered = [step for step in own if reached is None or step.quantity.readable(reached)]
    first: dict[tuple[str, str, bool | None], ReadingStep] = {}
    for step in offered:
        first.setdefault(step.identity, step)
    return tuple(first.values())


def reached_rung(sheet: JobSheet) -> int | None:
    """The highest rung of the last climb that counts; None before the first."""
    standing = [line for line in sheet.start_ups if line.struck is None]
    return standing[-1].rung if standing else None


def still_to_read(
    steps: Sequence[ReadingStep],
    sheet: JobSheet,
    moment: Moment,
    trial: int | None,
    pending: Iterable[tuple[str, str]],
) -> list[ReadingStep]:
    """The steps that nobody has read yet, neither in the book nor in what is on its way there."""
    taken = [
        reading
        for reading in sheet.readings
        if reading.struck is None
        and (
            reading.moment is moment
            if trial is None
            else reading.trial_number == trial and reading.trial_side == "after"
        )
    ]
    on_its_way = Counter(pending)
    left = []
    for step in steps:
        key = (step.quantity.id, step.detail)
        if any(_is(step, reading) for reading in taken):
            continue
        if on_its_way[key]:  # cold and warm are two readings of one quantity: each stands for one step
            on_its_way[key] -= 1
            continue
        left.append(step)
    return left


def _is(step: ReadingStep, reading: ReadingLine) -> bool:
    same = (reading.quantity, reading.detail) == (step.quantity.id, step.detail)
    return same and (step.warm is None or bool(reading.warm_minutes) == step.warm)


def _of_trial(
    readings: Sequence[ReadingLine], known: dict[str, Quantity], trial: int
) -> tuple[ReadingStep, ...]:
    before = dict.fromkeys(
        (reading.quantity, reading.detail)
        for reading in readings
        if reading.trial_number == trial and reading.trial_side == "before" and reading.struck is None
    )
    return tuple(ReadingStep(known[code], detail) for code, detail in before if code in known)


def _asked_at_the_end(sheet: JobSheet, known: dict[str, Quantity]) -> list[ReadingStep]:
    """What was outside on arrival, and what a coil current raised here asks for."""
    outside = dict.fromkeys(
        (reading.quantity, reading.detail)
        for reading in sheet.readings
        if reading.moment is Moment.ARRIVAL
        and reading.struck is None
        and reading.verdict is not None
        and reading.verdict.outside
    )
    steps = [ReadingStep(known[code], detail) for code, detail in outside if code in known]
    circuits = dict.fromkeys(
        m.circuit
        for m in sheet.modifications
        if m.job_number == sheet.number and m.reversed_at is None and m.struck is None and m.ratio is not None
    )
    return steps + [
        ReadingStep(known[asked.quantity], "", asked.warm)
        for asked in asked_by_coil(circuits)
        if asked.quantity in known
    ]
