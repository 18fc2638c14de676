"""Modifications: entered with their numbers, the effect worked out and kept, reversed by a later job."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from app.book.door import Book, Change
from app.book.tables import Modification, Trial
from app.trade.bench import modifications as trade
from app.trade.bench.circuit_ratio import circuit_ratios
from app.trade.bench.effects import Change as ResistorChange
from app.trade.bench.effects import Part, ResistorEffect, resistor_effect
from app.trade.bench.modification_entry import fields_refused
from app.trade.bench.modifications import RESISTOR_KINDS, Circuit, Kind, Law
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.bench.open_job import open_job, take_as_opened, transport_in
from app.work.bench.trial_proposals import work_out
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True, kw_only=True)
class ModificationEntry:
    """A modification as entered: resistors in ohm, supplies in volt, power in watt, tolerances in per cent."""

    kind: Kind
    circuit: Circuit
    where: str
    law: Law = Law.NEITHER
    ours: bool = True
    in_transport: bool = False
    maker_value: Decimal | None = None
    new_value: Decimal | None = None
    maker_tolerance: Decimal | None = None
    new_tolerance: Decimal | None = None
    was: str = ""
    now: str = ""
    rating: Decimal | None = None
    power: Decimal | None = None
    current_before: Decimal | None = None
    coil_resistance: Decimal | None = None
    reading_before: bool = False
    safety_part: bool = False
    why: str = ""
    way_back: str = ""
    trial_id: int | None = None

    def fact(self, at: datetime, job: int = 0) -> trade.Modification:
        """The same as the rules see it."""
        return trade.Modification(
            number=0,
            job=job,
            kind=self.kind,
            circuit=self.circuit,
            where=self.where,
            law=self.law,
            maker_value=self.maker_value,
            new_value=self.new_value,
            was=self.was,
            now=self.now,
            way_back=self.way_back,
            power=self.power,
            rating=self.rating,
            origin=trade.Origin.OURS if self.ours else trade.Origin.FOUND,
            in_transport=self.in_transport,
            at=at,
            reading_before=self.reading_before,
            safety_part=self.safety_part,
        )


def effect_of(entry: ModificationEntry) -> ResistorEffect | None:
    """The effect worked out from the numbers while typing; None where the numbers are not there yet."""
    if entry.kind not in RESISTOR_KINDS or entry.maker_value is None or entry.new_value is None:
        return None
    if entry.maker_value <= 0 or entry.new_value <= 0:
        return None
    return resistor_effect(
        entry.law,
        Part(entry.maker_value, entry.maker_tolerance),
        [ResistorChange(entry.kind, Part(entry.new_value, entry.new_tolerance))],
    )


@dataclass(frozen=True, slots=True)
class Modified:
    """The new modification, and what the book took for granted when it was entered."""

    id: int
    assumed: Sentence | None


def record_modification(book: Book, who: int, job_id: int, entry: ModificationEntry) -> Done[Modified]:
    """Record a modification made now, or one found that is not ours. Raises FieldRefusal, Refusal."""
    with book.change(who, _deed(entry)) as change:
        job = open_job(change, job_id)
        fact = entry.fact(change.now, job.number)
        wrong = fields_refused(fact)
        if wrong:
            raise FieldRefusal(wrong)
        transport = transport_in(change, job) if entry.in_transport else None
        if entry.in_transport and transport is None:
            raise FieldRefusal(
                {
                    "in_transport": Sentence(
                        "No transport is noted in this player. Note it first, or say the unit."
                    )
                }
            )
        assumed = take_as_opened(change, job, change.now, Sentence("a modification"))
        ratios = circuit_ratios([fact])
        row = Modification(
            job_id=job.id,
            unit_id=None if transport else job.unit_id,
            transport_id=transport.id if transport else None,
            trial_id=entry.trial_id,
            ours=entry.ours,
            kind=entry.kind,
            circuit=entry.circuit,
            law=entry.law,
            reference=entry.where.strip(),
            part_before=entry.was.strip(),
            part_after=entry.now.strip(),
            value_before=entry.maker_value,
            value_after=entry.new_value,
            unit="V" if entry.kind is Kind.SUPPLY else "ohm",
            tolerance_before=entry.maker_tolerance,
            tolerance_after=entry.new_tolerance,
            rating=entry.rating,
            power=entry.power,
            reading_before=entry.reading_before,
            current_before=entry.current_before,
            coil_resistance=entry.coil_resistance,
            ratio=ratios[0].k if ratios else None,
            safety_critical=entry.safety_part,
            why=entry.why.strip(),
            way_back=entry.way_back.strip(),
            at=change.now,
            by=change.by,
        )
        change.add(row)
        _judge_anew(change, entry.trial_id)
    return Done(Modified(row.id, assumed), change.changes)


def _judge_anew(change: Change, trial_id: int | None) -> None:
    """What a trial left bears on what the book makes of it: a drive falls by the change alone."""
    if trial_id is None:
        return
    change.session.flush()
    trial = change.get(Trial, trial_id)
    if trial.outcome is not None:
        trial.proposed = work_out(change.session, trial).outcome


def _deed(entry: ModificationEntry) -> Sentence:
    if entry.ours:
        return Sentence("recorded a modification")
    return Sentence("recorded a modification found, not ours")


def reverse_modification(
    book: Book,
    who: int,
    modification_id: int,
    job_id: int,
    *,
    note: str = "",
    tried: bool = False,
    trial_id: int | None = None,
) -> Done[int]:
    """Record that the maker's design is restored, in this job. ``tried``: the switch was tried after it;
    ``trial_id``: the trial that did it, where it was one."""
    with book.change(who, Sentence("reversed a modification")) as change:
        job = open_job(change, job_id)
        row = change.get(Modification, modification_id)
        if row.reversed_at is not None:
            raise Refusal(Sentence("This is reversed already."))
        if row.kind is Kind.FUSE and not note.strip():
            raise FieldRefusal({"note": Sentence("Note the cause: why was the fuse wrong or blown?")})
        transport = transport_in(change, job)
        if row.unit_id != job.unit_id and (transport is None or row.transport_id != transport.id):
            raise Refusal(Sentence("This modification is not in the player of this job."))
        if trial_id is not None and change.get(Trial, trial_id).job_id != job.id:
            raise Refusal(Sentence("This trial is not one of this job."))
        take_as_opened(change, job, change.now, Sentence("a reversal"))
        row.reversed_at, row.reversed_job_id, row.reversed_by = change.now, job.id, change.by
        row.reversed_note, row.reversal_tried, row.reversed_trial_id = note.strip(), tried, trial_id
    return Done(modification_id, change.changes)


def assess_modification(book: Book, who: int, modification_id: int, words: str) -> Done[int]:
    """Record that a found modification was assessed: its effect worked out, kept or reversed on purpose."""
    if not words.strip():
        raise FieldRefusal({"words": Sentence("Say what it does and why it stays, or reverse it.")})
    with book.change(who, Sentence("assessed a modification")) as change:
        row = change.get(Modification, modification_id)
        if row.ours:
            raise Refusal(Sentence("This change is ours; only found ones are assessed."))
        row.assessed_at, row.assessed_by, row.assessed_words = change.now, change.by, words.strip()
    return Done(modification_id, change.changes)
