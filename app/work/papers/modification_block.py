"""The block that tells one modification on paper: what, why, agreed, the way back, and its numbers."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from app.book.bench.job_rows import JobRows
from app.papers.facts import Clause, Said
from app.papers.modification_facts import Measured, ModificationFacts, WorkedOut
from app.trade.bench.circuit_ratio import CircuitRatio, circuit_ratios, heat, shown_db, shown_k
from app.trade.bench.facts import JobFacts, ReadingFact
from app.trade.bench.flags import evaluate
from app.trade.bench.modification_words import ohms, volts, way_back, what_it_is
from app.trade.bench.modifications import COIL_CIRCUITS, Kind, Modification, live
from app.trade.bench.stages import CauseFound, Way
from app.trade.joining import closed
from app.trade.sentence import Measure, Sentence
from app.trade.settings.papers_and_days import TIME_ZONE
from app.trade.settings.thresholds import thresholds_of
from app.work.papers.sheet_facts import flag_on_paper

# Readings that a raised coil current asks for, in the order in which they are told.
_MEASURED = ("driver_temp", "radial_coil_r", "focus_coil_r", "dropout_passed")
_WAYS = {
    Way.IN_PERSON: Sentence("in person"),
    Way.TELEPHONE: Sentence("by telephone"),
    Way.MESSAGE: Sentence("by message"),
    Way.LETTER: Sentence("by letter"),
}


def modification_blocks(rows: JobRows, facts: JobFacts) -> tuple[ModificationFacts, ...]:
    """One block for every modification that stays inside, whoever made it, oldest first."""
    by_id = {row.id: row for row in rows.modifications}
    ratios = {ratio.circuit: ratio for ratio in circuit_ratios(facts.modifications)}
    return tuple(
        _block(rows, facts, m, by_id[m.number], ratios[m.circuit]) for m in live(facts.modifications)
    )


def modification_ids(facts: JobFacts) -> tuple[int, ...]:
    """The ids of the modifications that such blocks name."""
    return tuple(m.number for m in live(facts.modifications))


def _block(
    rows: JobRows, facts: JobFacts, m: Modification, row: Any, ratio: CircuitRatio
) -> ModificationFacts:
    alone = (
        ratio.modifications[-1].number == m.number
    )  # the circuit's figures stand once, with its last change
    raised = evaluate(facts, thresholds_of(rows.settings))
    return ModificationFacts(
        paragraphs=tuple(_paragraphs(rows, m, row)),
        worked_out=tuple(_worked_out(m, ratio if alone else None)),
        measured=tuple(_measured(facts)) if alone and m.circuit in COIL_CIRCUITS else (),
        measured_when=Sentence("Measured, case closed"),
        fine_print=_tolerances(row),
        flags=tuple(
            flag_on_paper(flag)
            for flag in raised
            if alone and flag.rule in ("coil_up", "coil_up_big") and flag.detail == m.circuit.value
        ),
    )


def _paragraphs(rows: JobRows, m: Modification, row: Any) -> Iterator[Clause]:
    yield Clause(Sentence("What."), Sentence("{what}.", {"what": what_it_is(m)}))
    if not m.ours:
        yield Clause(
            Sentence("Found."),
            Sentence(
                "This was in the player when it came; this shop did not make it. {kept}",
                {"kept": closed(row.assessed_words)},
            ),
        )
    elif row.why:
        yield Clause(Sentence("Why."), closed(row.why), _cause(rows))
    agreed = rows.agreements_by_modification.get(m.number)
    if agreed is not None and agreed.yes:
        day = agreed.said_at.astimezone(ZoneInfo(rows.settings[TIME_ZONE])).date()
        yield Clause(
            Sentence("Agreed."),
            Sentence(
                "You agreed to this on {day} {way} ({who}).",
                {"day": day, "way": _WAYS[agreed.way], "who": rows.staff[agreed.by]},
            ),
        )
    yield Clause(Sentence("To undo it."), way_back(m))


def _cause(rows: JobRows) -> Said:
    """A cure by a modification establishes no cause, and the paper says so."""
    if rows.job.cause in (None, CauseFound.NOT_ESTABLISHED):
        return Sentence("Cause not established.")
    return ""


def _worked_out(m: Modification, ratio: CircuitRatio | None) -> Iterator[WorkedOut]:
    shown = volts if m.kind is Kind.SUPPLY else ohms
    if m.maker_value is not None and m.new_value is not None:
        name = Sentence("Part at {where}", {"where": m.where})
        if m.kind is Kind.PARALLEL:
            name = Sentence("Added across {where}", {"where": m.where})
        elif m.kind is Kind.SERIES:
            name = Sentence("Added in series at {where}", {"where": m.where})
        yield WorkedOut(name, shown(m.maker_value), shown(m.new_value))
    if ratio is None or ratio.k is None:
        return
    if ratio.of_current:
        yield WorkedOut(Sentence("Coil current"), Sentence("× 1"), Sentence("× {k}", {"k": shown_k(ratio.k)}))
        yield WorkedOut(
            Sentence("Heat in the coil"), Sentence("× 1"), Sentence("× {k}", {"k": shown_k(heat(ratio.k))})
        )
    else:
        yield WorkedOut(Sentence("Gain"), Sentence("× 1"), Sentence("× {k}", {"k": shown_k(ratio.k)}))
    yield WorkedOut(Sentence("Loop gain"), Measure(Decimal(0), "dB"), shown_db(ratio.k))


def _measured(facts: JobFacts) -> Iterator[Measured]:
    # The newest of each place and state stands for it; two drivers, or cold and warm, are told side by side.
    last = {(r.quantity, r.place, r.warm_minutes): r for r in facts.finals if r.quantity in _MEASURED}
    for reading in sorted(last.values(), key=lambda reading: _MEASURED.index(reading.quantity)):
        name = reading.name
        if reading.place:
            name = Sentence("{quantity}, {detail}", {"quantity": name, "detail": reading.place})
        if reading.warm_minutes is not None:
            minutes = str(reading.warm_minutes)
            name = Sentence("{name}, {minutes} min warm", {"name": name, "minutes": minutes})
        yield Measured(name, reading.value, _limit(reading), _rounded(reading.u))


def _limit(reading: ReadingFact) -> Said:
    """The limit with its unit once; nothing where there is none."""
    low, high = reading.low, reading.high
    if low is None and high is None:
        return ""
    if low is None or high is None:
        return reading.limit
    return Sentence("{low} to {high}", {"low": Measure(low), "high": Measure(high, reading.value.unit)})


def _rounded(u: Decimal) -> Decimal | None:
    """Two figures, as uncertainties are told; nothing for none."""
    if not u:
        return None
    return round(u, 1 - u.adjusted())


def _tolerances(row: Any) -> Said:
    if row.tolerance_before is None or row.tolerance_after is None:
        return ""
    return Sentence(
        "Parts: maker's ±{before} %, fitted ±{after} %.",
        {"before": row.tolerance_before, "after": row.tolerance_after},
    )
