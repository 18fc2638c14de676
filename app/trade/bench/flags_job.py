"""Rules about the job itself: earlier changes, final readings, instruments, money, disc, lock, comeback."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from decimal import Decimal

from app.trade.bench.facts import JobFacts, ReadingFact
from app.trade.bench.figures import rounded
from app.trade.bench.flag import Closing, FlagRaised, Level
from app.trade.bench.flags_coil import detail_of
from app.trade.bench.kinds import TransitLock
from app.trade.bench.modification_words import what_it_is
from app.trade.bench.modifications import live
from app.trade.bench.rules import flag, subject_of
from app.trade.bench.stages import Mark, Stage, said
from app.trade.bench.thresholds import Thresholds
from app.trade.bench.verdict import VerdictWord
from app.trade.sentence import Sentence, Value


def unknown_mod(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """A change found that is not ours and that nobody has assessed yet."""
    for m in live(facts.modifications):
        if m.ours or m.assessed:
            continue
        yield flag(
            "unknown_mod",
            Level.CAUTION,
            Sentence("Earlier change, maker unknown: {what}.", {"what": what_it_is(m)}),
            subject=subject_of([m]),
            detail=detail_of(m),
        )


def cal_overdue(facts: JobFacts, thresholds: Thresholds) -> Iterator[FlagRaised]:
    """An instrument used in this job is past its calibration date."""
    grace = timedelta(days=thresholds.calibration_grace_days)
    for instrument in facts.instruments:
        if facts.today > instrument.due + grace:
            yield flag(
                "cal_overdue",
                Level.NOTE,
                Sentence(
                    "{instrument} was due {date}: {n} verdicts rest on it.",
                    {
                        "instrument": instrument.name,
                        "date": instrument.due,
                        "n": instrument.verdicts,
                    },
                ),
                detail=instrument.name,
            )


def latest_finals(facts: JobFacts) -> tuple[ReadingFact, ...]:
    """The final readings that count: the latest of each quantity, place, and cold or warm."""
    latest: dict[tuple[str, str, bool], ReadingFact] = {}
    for reading in facts.finals:
        key = (reading.quantity, reading.place, bool(reading.warm_minutes))
        latest.pop(key, None)
        latest[key] = reading
    return tuple(latest.values())


def finals(facts: JobFacts, thresholds: Thresholds) -> Iterator[FlagRaised]:
    """A final reading outside its limit, or too close to call."""
    for reading in latest_finals(facts):
        values: dict[str, Value] = {"quantity": reading.name, "y": reading.value}
        # Two readings of one quantity can stand beside each other: places, cold and warm.
        warm = f"{reading.warm_minutes} min" if reading.warm_minutes else ""
        detail = " ".join(filter(None, (reading.quantity, reading.place, warm)))
        if reading.verdict in (VerdictWord.HIGH, VerdictWord.LOW):
            sentence = Sentence("Final {quantity} {y}, limit {limit}.", {**values, "limit": reading.limit})
            if reading.must:
                yield flag("final_outside", Level.STOP, sentence, detail=detail)
            else:
                yield flag(
                    "final_outside",
                    Level.CAUTION,
                    sentence,
                    detail=detail,
                    closing=Closing.REASON,
                    needs=Mark.OWNER,
                )
        elif reading.verdict is VerdictWord.CLOSE:
            p = Decimal(0) if reading.within is None else reading.within
            if p < thresholds.close_below:
                yield flag(
                    "final_close",
                    Level.NOTE,
                    Sentence(
                        "Final {quantity} {y}: probability of conforming {p}.",
                        {**values, "p": rounded(p, 3)},
                    ),
                    detail=detail,
                    closing=Closing.REASON,
                )


def comeback(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """The player came back with the same fault group inside the window."""
    if facts.comeback is None:
        return
    former = facts.comeback
    yield flag(
        "comeback",
        Level.CAUTION,
        Sentence(
            "Came back after {days} days: job {job}, {change}, {modified}.",
            {
                "days": former.days,
                "job": former.job,
                "change": former.change,
                "modified": former.modified or Sentence("no modification left inside"),
            },
        ),
        detail=f"job {former.job}",
        closing=Closing.REASON,
        needs=Mark.OWNER,
    )


def beyond_agreed(facts: JobFacts, thresholds: Thresholds) -> Iterator[FlagRaised]:
    """Work and parts come near the agreed amount, or pass it."""
    agreed, now = facts.agreed, facts.work_so_far
    if agreed is None or now is None or now.minor <= 0:
        return
    sentence = Sentence("Agreed {agreed}, now {now}.", {"agreed": agreed, "now": now})
    if agreed < now:
        yield flag("beyond_agreed", Level.STOP, sentence)
    elif Decimal(now.minor * 100) >= thresholds.beyond_agreed_from * agreed.minor:
        yield flag("beyond_agreed", Level.CAUTION, sentence)


def disc_inside(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """A disc of the customer's is still here."""
    for disc in facts.discs:
        if not disc.returned:
            yield flag(
                "disc_inside",
                Level.CAUTION,
                Sentence("A disc of the customer's is in the {place}.", {"place": disc.place}),
                detail=f"disc {disc.number}",
            )


def transit_lock(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """The type has a transit lock: its state is not noted, or it is not set before the player is posted."""
    state = facts.transit_lock
    posting = facts.by_post and facts.stage is Stage.READY and state is not TransitLock.SET
    if state is TransitLock.NONE or not (state is TransitLock.NOT_LOOKED or posting):
        return
    before_power = facts.stage is Stage.ON_THE_BENCH and not facts.powered
    yield flag(
        "transit_lock",
        Level.CAUTION if before_power or posting else Level.NOTE,
        Sentence("Transit lock {state}: release before power, set before transport.", {"state": said(state)}),
        clears=Sentence("The lock set and noted.") if posting else None,
    )


def unpaid(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """An invoice is not paid in full. It never holds a player by itself."""
    if facts.balance is not None and facts.balance.minor > 0:
        yield flag("unpaid", Level.NOTE, Sentence("Not paid yet: {amount}.", {"amount": facts.balance}))
