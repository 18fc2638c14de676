"""Jobs: one visit of one unit, from taking in to handing back."""

from __future__ import annotations

from datetime import date, datetime

from sqlalchemy import ForeignKey, Index, UniqueConstraint, text
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import PERSONAL, Base, Row, Versioned, minor, strict
from app.book.columns import Word
from app.trade.bench.kinds import ComebackStanding, FaultGroup, HowOften, TransitLock
from app.trade.bench.stages import CauseFound, Outcome, Stage, Waiting


class Job(Versioned, Base):
    """One visit. ``number`` is the one that people say aloud: gapless, rising, taken inside the door."""

    __tablename__ = "jobs"

    number: Mapped[int]
    unit_id: Mapped[int] = mapped_column(ForeignKey("units.id"), index=True)
    customer_id: Mapped[int] = mapped_column(ForeignKey("customers.id"), index=True)
    stage: Mapped[Stage] = mapped_column(Word(Stage))
    waiting: Mapped[Waiting] = mapped_column(Word(Waiting))
    outcome: Mapped[Outcome | None] = mapped_column(Word(Outcome))
    taken_in_at: Mapped[datetime]
    taken_in_by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    promised_on: Mapped[date | None]
    promised_time: Mapped[str] = mapped_column(default="")  # "17:00", empty: any time that day
    ready_at: Mapped[datetime | None]
    handed_back_at: Mapped[datetime | None]
    # what the customer said and how it came in
    fault: Mapped[str]
    fault_short: Mapped[str] = mapped_column(default="")
    error_shown: Mapped[str] = mapped_column(default="")
    marks: Mapped[str] = mapped_column(default="")
    opened_before: Mapped[bool | None]
    screws_missing: Mapped[bool | None]
    goes_by_post: Mapped[bool] = mapped_column(default=False)
    transit_lock: Mapped[TransitLock] = mapped_column(Word(TransitLock))
    smell: Mapped[str] = mapped_column(default="")
    rust: Mapped[str] = mapped_column(default="")
    shelf: Mapped[str] = mapped_column(default="")
    ring_when: Mapped[str] = mapped_column(default="", info=PERSONAL)
    parts_returned: Mapped[bool] = mapped_column(default=False)  # the customer wants old parts back
    # money told at the counter, minor units with VAT
    go_ahead_limit: Mapped[int | None] = minor()
    diagnosis_fee: Mapped[int | None] = minor()
    diagnosis_fee_told: Mapped[bool] = mapped_column(default=False)
    # what it turned out to be
    fault_group: Mapped[FaultGroup | None] = mapped_column(Word(FaultGroup))
    cause: Mapped[CauseFound | None] = mapped_column(Word(CauseFound))
    cause_note: Mapped[str] = mapped_column(default="")
    comeback_of_id: Mapped[int | None] = mapped_column(ForeignKey("jobs.id"), index=True)
    comeback: Mapped[ComebackStanding | None] = mapped_column(Word(ComebackStanding))
    comeback_reason: Mapped[str] = mapped_column(default="")
    finals_waived_reason: Mapped[str] = mapped_column(default="")
    guarantee_until: Mapped[date | None]
    # how long it is kept once it is ready, as the ticket says; empty: as the settings have it
    storage_days: Mapped[int | None]

    __table_args__ = strict(
        UniqueConstraint("number"),
        Index("ix_jobs_stage_promised_on", "stage", "promised_on"),
        Index("ix_jobs_handed_back_at", "handed_back_at"),
        # The list of every job walks along it: its order, and the stage that parts late from to be collected.
        Index(
            "ix_jobs_promised_on",
            "promised_on",
            text("(promised_time = '')"),
            "promised_time",
            "number",
            "stage",
        ),
    )


class ReportedFault(Row, Base):
    """A fault word picked at the counter, and how often it happens."""

    __tablename__ = "reported_faults"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    word: Mapped[str]
    how: Mapped[HowOften] = mapped_column(Word(HowOften))


class ThingLeft(Versioned, Base):
    """Something that came with the player, a disc left inside, or an old part to go back."""

    __tablename__ = "things_left"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    kind: Mapped[str]  # thing, disc, old part
    words: Mapped[str]
    returned_at: Mapped[datetime | None]
    returned_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))


class JobNote(Row, Base):
    """A line that somebody of the shop wrote on the job. Struck out, never deleted."""

    __tablename__ = "job_notes"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    text: Mapped[str]
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    struck_at: Mapped[datetime | None]
    struck_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    struck_reason: Mapped[str] = mapped_column(default="")
