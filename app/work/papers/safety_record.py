"""The electrical safety test as papers print it: by whom and by what, each value beside its limit."""

from __future__ import annotations

from app.book.bench.job_rows import JobRows
from app.trade.bench.facts import JobFacts
from app.trade.sentence import Sentence
from app.work.bench.sheet_lines import SafetyStepLine
from app.work.bench.sheet_safety import safety_tests_of


def safety_record(rows: JobRows, facts: JobFacts) -> tuple[Sentence, ...]:
    """The latest test of this job with standard, edition, instrument, values and limits; nothing where none was
    done. "Passed" is said only where it is kept so."""
    own = [t for t in safety_tests_of(rows, facts.safety_tests) if t.job_id == rows.job.id]
    if not own:
        return ()
    test = own[-1]
    said = [
        Sentence(
            "Electrical safety by {standard}: {result} {at}, {by}.",
            {
                "standard": test.edition or Sentence("no standard entered"),
                "result": Sentence(test.result),
                "at": test.at,
                "by": test.by,
            },
        ),
        Sentence("{steps}.", {"steps": tuple(_step(step) for step in test.steps)}),
    ]
    if test.tested_with:
        said.append(Sentence("Measured with {instrument}.", {"instrument": test.tested_with}))
    if test.note:
        said.append(Sentence("Cord and remarks: {note}.", {"note": test.note}))
    return tuple(said)


def _step(step: SafetyStepLine) -> Sentence:
    if step.value is not None and step.limit is not None:
        return Sentence(
            "{step} {value} (limit {limit})", {"step": step.name, "value": step.value, "limit": step.limit}
        )
    if step.value is not None:
        return Sentence("{step} {value}", {"step": step.name, "value": step.value})
    if step.meets is None:
        return Sentence("{step}: not done", {"step": step.name})
    if step.meets:
        return Sentence("{step}: in order", {"step": step.name})
    return Sentence("{step}: not in order", {"step": step.name})
