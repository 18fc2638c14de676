"""What a modification would do and raise, before it is recorded: for the form to show while it is typed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.trade.bench import modifications as trade
from app.trade.bench.circuit_ratio import CircuitRatio, circuit_ratios
from app.trade.bench.effects import Change as ResistorChange
from app.trade.bench.effects import Part, ResistorEffect, resistor_effect
from app.trade.bench.facts import JobFacts
from app.trade.bench.flag import FlagRaised
from app.trade.bench.flags import evaluate
from app.trade.bench.thresholds import Thresholds
from app.work.bench.job_sheet import JobSheet
from app.work.bench.modifications import ModificationEntry
from app.work.bench.sheet_lines import ModificationLine


@dataclass(frozen=True, slots=True)
class Preview:
    """``circuit``: all live changes of its circuit together with this one. ``flags``: those that it would raise."""

    circuit: CircuitRatio | None
    flags: tuple[FlagRaised, ...]


def preview(sheet: JobSheet, entry: ModificationEntry, thresholds: Thresholds, now: datetime) -> Preview:
    """What the rules would say with this modification that they do not say without it."""
    before = tuple(
        fact_of_line(line) for line in sheet.modifications if line.reversed_at is None and line.struck is None
    )
    new = entry.fact(now, sheet.number)
    with_new = (*before, new)
    ratio = next((r for r in circuit_ratios(with_new) if r.circuit is entry.circuit), None)
    known = {(f.rule, f.detail, f.sentence) for f in evaluate(_facts(sheet, before, now), thresholds)}
    raised = [
        f
        for f in evaluate(_facts(sheet, with_new, now), thresholds)
        if (f.rule, f.detail, f.sentence) not in known
    ]
    return Preview(ratio, tuple(raised))


def fact_of_line(line: ModificationLine) -> trade.Modification:
    """A modification of the sheet as the rules see it."""
    return trade.Modification(
        number=line.id,
        job=line.job_number,
        kind=line.kind,
        circuit=line.circuit,
        where=line.reference,
        law=line.law,
        maker_value=line.value_before,
        new_value=line.value_after,
        was=line.was,
        now=line.now,
        origin=trade.Origin.OURS if line.ours else trade.Origin.FOUND,
        in_transport=line.in_transport,
        at=line.at,
        agreed=line.agreed,
        assessed=bool(line.assessed),
    )


def _facts(sheet: JobSheet, modifications: tuple[trade.Modification, ...], now: datetime) -> JobFacts:
    return JobFacts(
        number=sheet.number,
        today=now.date(),
        stage=sheet.stage,
        taken_in=sheet.taken_in_at,
        mains_class=sheet.mains_class,
        modifications=modifications,
    )


def effect_of_line(line: ModificationLine) -> ResistorEffect | None:
    """The effect of a recorded modification of a resistor, worked out anew from its numbers."""
    if line.kind not in trade.RESISTOR_KINDS or line.value_before is None or line.value_after is None:
        return None
    return resistor_effect(
        line.law,
        Part(line.value_before, line.tolerance_before),
        [ResistorChange(line.kind, Part(line.value_after, line.tolerance_after))],
    )
