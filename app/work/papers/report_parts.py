"""Ladder, trials, parts, ratios and the safety test for the service report."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import tzinfo
from decimal import Decimal
from typing import Any

from app.book.bench.job_rows import JobRows
from app.papers.facts import Said
from app.papers.service_report_facts import (
    Climb,
    LadderFacts,
    PartRow,
    RatioRow,
    SafetyRecord,
    SafetyStep,
    TrialReading,
    TrialRow,
)
from app.trade.bench.case import last_step, safety_standing
from app.trade.bench.circuit_ratio import circuit_ratios, heat, shown_k
from app.trade.bench.facts import JobFacts
from app.trade.bench.figures import alike
from app.trade.bench.kinds import Arrangement, HowSeen, Warmth
from app.trade.bench.ladder import Ladder
from app.trade.bench.modifications import in_words
from app.trade.bench.report_words import TrialTold, effect_of, tries_of
from app.trade.bench.safety_test import Meets
from app.trade.bench.stages import CaseStep, Moment, said
from app.trade.bench.start_up import StartUpResult
from app.trade.counter.hand_back import LeftKind
from app.trade.money import MICRO
from app.trade.office.invoice import unit_words
from app.trade.sentence import Measure, Sentence
from app.trade.settings.shop_settings import ShopSettings
from app.trade.settings.thresholds import thresholds_of
from app.work.bench.sheet_lines import SafetyStepLine, StartUpLine, TrialTile
from app.work.bench.sheet_lines import TrialReading as TrialPair
from app.work.bench.sheet_safety import safety_tests_of

_PIECES = ("C62", "H87")  # "one" and "piece" of UN/ECE Recommendation 20


def first_and_last(start_ups: Sequence[StartUpLine]) -> tuple[StartUpLine | None, StartUpLine | None]:
    """The climb of arrival and the last final one, in normal use, of those that stand."""
    standing = [line for line in start_ups if line.struck is None and line.seen is HowSeen.NORMAL_USE]
    arrival = [line for line in standing if line.moment is Moment.ARRIVAL]
    final = [line for line in standing if line.moment is Moment.FINAL]
    return arrival[-1] if arrival else None, final[-1] if final else None


def climb_facts(
    ladder: Ladder,
    arrangement: Arrangement | None,
    zone: tzinfo,
    first: StartUpLine | None,
    last: StartUpLine | None,
) -> LadderFacts | None:
    """The ladder before and after; None where nobody recorded a climb."""
    shown = last or first
    if shown is None:
        return None
    return LadderFacts(
        tuple(rung.name(arrangement) for rung in ladder.rungs),
        _climb(first, zone),
        _climb(last, zone),
        _conditions(shown.result),
    )


def _conditions(result: StartUpResult) -> Sentence:
    """How it was seen; "between cold and warm" tells a customer nothing."""
    if result.warmth is not Warmth.BETWEEN or result.warm_minutes is not None:
        return result.conditions
    seen = Sentence(result.seen.value)
    return Sentence("{seen}, {disc}", {"seen": seen, "disc": result.disc}) if result.disc else seen


def _climb(line: StartUpLine | None, zone: tzinfo) -> Climb | None:
    if line is None:
        return None
    return Climb(line.rung, line.at.astimezone(zone).date(), tries_of(line.result))


def trial_rows(trials: Sequence[TrialTile], told: Sequence[TrialTold]) -> tuple[TrialRow, ...]:
    """One row a trial, with what was read before and after."""
    rows = []
    for trial, words in zip(trials, told, strict=True):
        effect, rest = effect_of(words)
        rows.append(
            TrialRow(
                trial.number,
                trial.words,
                tuple(map(_reading, trial.readings)),
                trial.rung_before,
                trial.rung_after,
                effect,
                rest,
            )
        )
    return tuple(rows)


def _reading(pair: TrialPair) -> TrialReading:
    known: list[Measure] = [one for one in (pair.before, pair.after) if one is not None]
    unit = known[0].unit if known else ""
    values = [
        one.value if one is not None and one.unit == unit else None for one in (pair.before, pair.after)
    ]
    return TrialReading(pair.name, unit, values[0], values[1])


def part_rows(rows: JobRows) -> tuple[PartRow, ...]:
    """Parts used, and old ones that go back to the customer."""
    used: dict[int, Decimal] = {}
    for row in rows.part_moves:
        used[row.part_id] = used.get(row.part_id, Decimal(0)) - Decimal(row.quantity) / MICRO
    named = {row.part_id: row for row in rows.part_moves}
    parts = [
        PartRow(_what(named[part], alike([count])[0]), Sentence("fitted"))
        for part, count in used.items()
        if count > 0  # what was put back on the shelf is not in the player
    ]
    for thing in rows.things:
        if thing.kind == LeftKind.OLD_PART:
            became = Sentence("given back") if thing.returned_at is not None else Sentence("kept for you")
            parts.append(PartRow(Sentence("old part: {part}", {"part": thing.words}), became))
    return tuple(parts)


def _what(row: Any, count: Decimal) -> Sentence:
    if row.unit in _PIECES:
        return Sentence("{count} × {part}", {"count": count, "part": row.words})
    unit = unit_words(row.unit, count)
    return Sentence("{count} {unit} {part}", {"count": count, "unit": unit, "part": row.words})


def ratio_rows(facts: JobFacts, settings: ShopSettings) -> tuple[RatioRow, ...]:
    """How far each changed circuit is from the maker's value, with the shop's lines for coil current."""
    lines = thresholds_of(settings)
    rows = []
    for ratio in circuit_ratios(facts.modifications):
        if ratio.k is None:
            continue
        circuit = {"circuit": in_words(ratio.circuit)}
        if ratio.of_current:
            name, warm = Sentence("current in {circuit}", circuit), Sentence("heat in {circuit}", circuit)
            rows.append(RatioRow(name, shown_k(ratio.k), lines.coil_up, lines.coil_up_big))
            rows.append(RatioRow(warm, shown_k(heat(ratio.k))))
        else:
            rows.append(RatioRow(Sentence("loop gain in {circuit}", circuit), shown_k(ratio.k)))
    return tuple(rows)


def safety_of(rows: JobRows, facts: JobFacts) -> tuple[SafetyRecord | None, Said]:
    """The latest test of this job step by step; else why there is none, where one could be expected."""
    own = [t for t in safety_tests_of(rows, facts.safety_tests) if t.job_id == rows.job.id]
    if not own:
        standing = safety_standing(facts.mains_class, facts.case_events, facts.safety_tests)
        if not standing.owed:
            return None, ""
        return None, Sentence("Not done. {why}", {"why": standing.words})
    test = own[-1]
    before = tuple(event for event in facts.case_events if event.at <= test.at)
    closing = last_step(before, CaseStep.CLOSED)
    about = Sentence("{at}, by {by}.", {"at": test.at, "by": test.by})
    if closing is not None:
        about = Sentence(
            "{at}, by {by}. Case closed {closed}.", {"at": test.at, "by": test.by, "closed": closing.at}
        )
    fine = Sentence(
        "‘>’ is a lower bound: nothing was read below it. Edition and limits are the shop's entries; the rules in "
        "force where the player is used decide."
    )
    said_more = [
        Sentence("Measured with {instrument}.", {"instrument": test.tested_with})
        if test.tested_with
        else None,
        Sentence("Cord and remarks: {note}.", {"note": test.note}) if test.note else None,
    ]
    for more in said_more:
        if more is not None:
            fine = Sentence("{first} {second}", {"first": fine, "second": more})
    return (
        SafetyRecord(
            edition=Sentence(
                "{standard} · {mains}",
                {
                    "standard": test.edition or Sentence("no standard entered"),
                    "mains": said(facts.mains_class),
                },
            ),
            steps=tuple(map(_step, test.steps)),
            result=Sentence("Verdict: {result},", {"result": Sentence(test.result)}),
            about=about,
            fine_print=fine,
        ),
        "",
    )


def _step(step: SafetyStepLine) -> SafetyStep:
    """A step that was not done says so; a dash could be read as passed."""
    if step.meets is None:
        meets: Sentence = Sentence(Meets.NOT_DONE.value)
    else:
        meets = Sentence(Meets.YES.value) if step.meets else Sentence(Meets.NO.value)
    if step.value is not None:
        measured: Sentence | Measure = step.value
    elif step.meets is None:
        measured = Sentence("not done")
    else:
        measured = Sentence("in order") if step.meets else Sentence("not in order")
    verdict = Sentence(step.shop_verdict) if step.shop_verdict else ""
    return SafetyStep(step.name, measured, step.limit or "", meets, verdict)
