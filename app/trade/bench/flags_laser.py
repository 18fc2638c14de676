"""Rules about the laser, blind trimmers and parts of another type."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal

from app.trade.bench.facts import JobFacts, ReadingFact
from app.trade.bench.figures import rounded
from app.trade.bench.flag import Closing, FlagRaised, Level, Subject
from app.trade.bench.flags_coil import detail_of
from app.trade.bench.modifications import RESISTOR_KINDS, Circuit, Kind, Modification, live
from app.trade.bench.rules import flag, subject_of
from app.trade.bench.stages import Mark
from app.trade.bench.thresholds import Thresholds
from app.trade.bench.verdict import VerdictWord
from app.trade.sentence import Measure, Sentence

LASER_SET = "laser_set"
LASER_CHANGES = frozenset({LASER_SET, "laser_supply_fix"})
# As found, where the type has no limit of its own (bench practice, no source): per cent of label.
_USUAL_MOST = Decimal(115)
_POWER_BIG = Decimal("1.2")


def laser_changed_at(facts: JobFacts) -> datetime | None:
    """When this shop last changed the drive of the laser that is in there; None: never."""
    times = [m.at for m in live(facts.modifications) if m.ours and m.circuit is Circuit.LASER_SUPPLY] + [
        t.at for t in facts.trials if t.change in LASER_CHANGES
    ]
    return max(times, default=None)


def laser_up(facts: JobFacts, thresholds: Thresholds) -> Iterator[FlagRaised]:
    """Laser driven above its label or limit; far enough, the owner acknowledges it.

    After a change of ours a plain share of the label speaks; as found only a reading outside its limit.
    """
    power = _latest(facts, "optical_power")
    current, share = _latest(facts, "laser_current"), _latest(facts, "laser_rel")
    if current is not None and share is not None and share.at != current.at:
        # Only the later one speaks; taken together they are one finding.
        current, share = (current, None) if share.at < current.at else (None, share)
    driven = current or share
    percent = _percent(facts, current, share)
    changed = laser_changed_at(facts)
    ours = changed is not None and driven is not None and driven.at >= changed
    current_big = percent is not None and percent > thresholds.laser_up_big
    current_up = (
        current_big
        or (ours and percent is not None and percent > thresholds.laser_up)
        or _outside(facts, current, share)
    )
    power_big = power is not None and power.high is not None and power.value.value > power.high * _POWER_BIG
    power_up = power_big or (power is not None and power.verdict is VerdictWord.HIGH)
    if current_up and driven is not None:
        sentence = _current_words(facts, driven, percent)
    elif power_up and power is not None:
        sentence = Sentence(
            "Light after the lens {y}, limit {limit}.", {"y": power.value, "limit": power.limit}
        )
    else:
        return
    if current_big or power_big:
        yield flag(
            "laser_up_big",
            Level.CAUTION,
            Sentence(
                "{above} A worn diode asks for more; more wears it faster. The owner acknowledges.",
                {"above": sentence},
            ),
            subject=Subject.TRANSPORT,
            closing=Closing.REASON,
            needs=Mark.OWNER,
            owner_sees=True,
        )
    else:
        yield flag("laser_up", Level.CAUTION, sentence, subject=Subject.TRANSPORT)


def _latest(facts: JobFacts, quantity: str) -> ReadingFact | None:
    return next((r for r in reversed(facts.readings) if r.quantity == quantity), None)


def _percent(facts: JobFacts, current: ReadingFact | None, share: ReadingFact | None) -> Decimal | None:
    """Per cent of the label: worked out from the current, else as it was entered."""
    worked_out = None if current is None else _of_label(facts, current.value)
    return share.value.value if worked_out is None and share is not None else worked_out


def _of_label(facts: JobFacts, current: Measure) -> Decimal | None:
    """A current in per cent of the label; None where there is no label to compare with."""
    label = facts.laser_label
    if label is None or label.unit != current.unit or label.value <= 0:
        return None
    return current.value * 100 / label.value


def _outside(facts: JobFacts, current: ReadingFact | None, share: ReadingFact | None) -> bool:
    """Above its limit beyond its uncertainty: the type's own limit, else the usual share of the label."""
    verdicts = [r.verdict for r in (current, share) if r is not None and r.verdict is not None]
    if verdicts or current is None:
        return VerdictWord.HIGH in verdicts
    surely = _of_label(facts, Measure(current.value.value - 2 * current.u, current.value.unit))
    return surely is not None and surely > _USUAL_MOST


def _current_words(facts: JobFacts, driven: ReadingFact, percent: Decimal | None) -> Sentence:
    if percent is None:
        return Sentence("Laser at {y}, limit {limit}.", {"y": driven.value, "limit": driven.limit})
    share = Measure(rounded(percent, 1), "%")
    if driven.quantity == "laser_rel" or facts.laser_label is None:
        return Sentence("Laser at {percent} of its label.", {"percent": share})
    return Sentence(
        "Laser at {y}, label {label}: {percent}.",
        {"y": driven.value, "label": facts.laser_label, "percent": share},
    )


def trimmer_blind(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """A trimmer was turned without a reading before, so that nobody knows the way back."""
    verdicts = [r.verdict for r in facts.finals if r.verdict is not None]
    level = Level.NOTE if verdicts and all(v is VerdictWord.WITHIN for v in verdicts) else Level.CAUTION
    for m in live(facts.modifications):
        if m.kind is Kind.TRIMMER and not m.reading_before:
            yield flag("trimmer_blind", level, _blind(m.where), subject=subject_of([m]), detail=detail_of(m))
    for trial in facts.trials:
        if trial.trimmer and not trial.reading_before:
            yield flag("trimmer_blind", level, _blind(trial.trimmer), detail=f"trial {trial.number}")


def _blind(trimmer: str) -> Sentence:
    return Sentence(
        "{trimmer} was turned without a reading before: the way back is not known.", {"trimmer": trimmer}
    )


def other_type(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """A transport, pick-up or part of another type: what was known of the old one no longer applies."""
    for other in facts.other_types:
        yield _other_type(
            other.fitted,
            other.belongs,
            Subject.TRANSPORT if other.in_transport else Subject.UNIT,
            other.place,
            limits_chosen=other.limits_chosen,
        )
    for m in live(facts.modifications):
        # A part that protects people is a stop of its own.
        if m.kind is Kind.OTHER_TYPE and not m.protects_people:
            yield _other_type(m.now, m.was, subject_of([m]), detail_of(m), limits_chosen=True)


def _other_type(new: str, old: str, subject: Subject, detail: str, *, limits_chosen: bool) -> FlagRaised:
    return flag(
        "other_type",
        Level.CAUTION,
        Sentence(
            "{new} fitted in place of {old}: limits and label of {old} no longer apply.",
            {"new": new, "old": old or Sentence("the maker's part")},
        ),
        subject=subject,
        detail=detail,
        closing=Closing.REASON if limits_chosen else Closing.SEEN,
        needs=Mark.OWNER,
        owner_sees=True,
    )


def laser_drive_changed(facts: JobFacts) -> tuple[Modification, ...]:
    """Live changes of this job to the trimmer or a resistor of the laser's drive, ours or found."""
    return tuple(
        m
        for m in live(facts.modifications)
        if m.job == facts.number
        and m.circuit is Circuit.LASER_SUPPLY
        and (m.kind is Kind.TRIMMER or m.kind in RESISTOR_KINDS)
    )
