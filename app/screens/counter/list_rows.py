"""The columns and rows of the list of jobs at the counter."""

from __future__ import annotations

from datetime import date

from app.screens.bench.job_words import due_words, promise_words, stage_index, stage_word, waiting_words
from app.screens.kit.cells import Column, Flags, Group, Leave, Row, Stage, Words
from app.screens.language import day, near_day, say
from app.trade.bench.flag import Level
from app.trade.bench.stages import Stage as JobStage
from app.trade.bench.stages import Waiting
from app.work.counter.job_rows import JobRow
from app.work.counter.jobs_list import Promise, Sort

SORTS = {
    "job": Sort.NUMBER,
    "promised": Sort.PROMISED,
    "player": Sort.PLAYER,
    "customer": Sort.CUSTOMER,
    "fault": Sort.FAULT,
    "stage": Sort.STAGE,
    "flags": Sort.FLAGS,
}
# What leaves when it gets narrow, in this order; flags never do.
LEAVING = (
    Leave("fault"),
    Leave("stage", "second", 120),
    Leave("stage", "word", 90),
    Leave("player", "second", 80),
)


def columns() -> tuple[Column, ...]:
    """The columns, worded."""
    return (
        Column("job", say("Job"), 58, sorts=True),
        Column("promised", say("Promised"), 156, sorts=True),
        Column("player", say("Player"), 234, sorts=True),
        Column("customer", say("Customer"), 146, sorts=True),
        Column("fault", say("Fault, in short"), sorts=True, least=120),
        Column("stage", say("Stage, and waiting for"), 268, sorts=True),
        Column("flags", say("Flags"), 164, sorts=True),
    )


def row_of(row: JobRow, today: date) -> Row:
    """One line of the list."""
    fault = row.fault or (say(row.fault_word) if row.fault_word is not None else "")
    return Row(
        row.id,
        (
            Words(str(row.number), strong=True),
            _when(row, today),
            Words(f"{row.maker} {row.model}".strip(), row.serial),
            Words(row.customer, tip=row.customer),
            Words(fault, tip=fault),
            Stage(stage_index(row.stage), stage_word(row.stage, row.outcome), waiting_words(row.waiting)),
            _flags(row, today),
        ),
    )


def _when(row: JobRow, today: date) -> Words:
    if row.stage is JobStage.HANDED_BACK and row.handed_back_on is not None:
        return Words(near_day(row.handed_back_on, today), say("handed back"))
    words = promise_words(row.promised_on, row.promised_time, today)
    if row.days_late:
        late = say("1 day late") if row.days_late == 1 else say("{n} days late", n=row.days_late)
        return Words(late, words, strong=True)
    if row.promised_on == today:
        return Words(row.promised_time or say("any time today"))
    return Words(words, soft=row.promised_on is None)


def _flags(row: JobRow, today: date) -> Flags:
    flags = [(flag.level.value, say(flag.word)) for flag in row.flags]
    if row.unanswered is not None:
        flags.append((Level.CAUTION.value, no_answer_words(row.unanswered)))
    elif row.waiting is Waiting.ANSWER and row.waiting_since is not None:
        flags.append((Level.NOTE.value, say("asked {day}", day=day(row.waiting_since, "d MMM"))))
    if row.part_due is not None:
        level = Level.CAUTION if row.part_due < today else Level.NOTE
        flags.append((level.value, due_words(row.part_due, today)))
    return Flags(tuple(flags))


def no_answer_words(days: int) -> str:
    """For how long a customer who was asked has not answered."""
    return say("no answer, 1 day") if days == 1 else say("no answer, {n} days", n=days)


def group_of(promise: Promise, count: int, today: date) -> Group:
    """The row above a run of rows."""
    counted = say("1 job") if count == 1 else say("{count} jobs", count=count)
    match promise:
        case Promise.LATE:
            tell = (
                say("1 job, tell the customer today")
                if count == 1
                else say("{count} jobs, tell the customers today", count=count)
            )
            return Group(say("Late"), tell, "caution")
        case Promise.TODAY:
            return Group(say("Today, {day}", day=near_day(today, today)), counted)
        case Promise.COLLECT:
            return Group(say("Ready since an earlier day"), counted)
        case _:
            return Group(say("Later"), counted)
