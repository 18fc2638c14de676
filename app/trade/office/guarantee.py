"""The guarantee on a repair: until when, what it covers, how many days are left, what follows from it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from app.trade.sentence import Sentence, Value, words


class Covers(StrEnum):
    """What the guarantee of an invoice covers, as it was promised on that day."""

    WORK = words("work and parts fitted")
    MODIFIED_TOO = words("work and parts fitted, the modified player too")
    NOT_MODIFIED = words("work and parts fitted, not the modified player")


class Answer(StrEnum):
    """What a person decided about a comeback within the guarantee."""

    NO_CHARGE = words("no-charge invoice")
    NO_INVOICE = words("no invoice")
    CHARGED = words("charged as usual")


def covers(*, modified: bool, modified_covered: bool) -> Covers:
    """What is covered; ``modified``: a departure from the maker's design of ours stays inside."""
    if not modified:
        return Covers.WORK
    return Covers.MODIFIED_TOO if modified_covered else Covers.NOT_MODIFIED


_CLAUSES = {
    Covers.MODIFIED_TOO: Sentence(
        "The guarantee covers this player with the change outside the maker’s design that is named here, as long "
        "as nobody alters it."
    ),
    Covers.NOT_MODIFIED: Sentence(
        "Faults of the part of the player that the change outside the maker’s design acts on are not covered: "
        "that was agreed with the change."
    ),
}


def modified_clause(covered: Covers) -> Sentence | None:
    """What the invoice says of a modified player, in the program's words; None where nothing is modified."""
    return _CLAUSES.get(covered)


@dataclass(frozen=True, slots=True)
class Promised:
    """The guarantee of an earlier job as it was given: its number, its last day, what it covers."""

    job: int
    until: date
    covers: Covers


@dataclass(frozen=True, slots=True)
class GuaranteeProposal:
    """What the book proposes for a comeback, and why. A person decides."""

    job: int
    answer: Answer
    reason: Sentence


def guarantee_proposal(
    promised: Promised | None, taken_in: date, *, mended: bool, confirmed: bool = True
) -> GuaranteeProposal | None:
    """What to do with the invoice of a comeback; None where no guarantee ran when it came in.

    ``mended``: something is charged on the job, so that an invoice at no charge tells what was done.
    ``confirmed``: a person said that it is a comeback; else it is the book's own guess.
    """
    if promised is None or taken_in > promised.until:
        return None
    values: dict[str, Value] = {"job": str(promised.job), "until": promised.until}
    if promised.covers is Covers.NOT_MODIFIED:
        return GuaranteeProposal(
            promised.job,
            Answer.CHARGED,
            Sentence(
                "The guarantee of job {job} runs to {until}, but leaves out what its modification acts on: look "
                "whether this fault has to do with it.",
                values,
            ),
        )
    if not confirmed:
        return GuaranteeProposal(
            promised.job,
            Answer.NO_CHARGE if mended else Answer.NO_INVOICE,
            Sentence(
                "The guarantee of job {job} runs to {until}, and this may be the same fault again: nobody has "
                "confirmed it yet.",
                values,
            ),
        )
    if mended:
        return GuaranteeProposal(
            promised.job,
            Answer.NO_CHARGE,
            Sentence(
                "The same fault came back within the guarantee of job {job}, to {until}. An invoice at no charge "
                "tells the customer what was done.",
                values,
            ),
        )
    return GuaranteeProposal(
        promised.job,
        Answer.NO_INVOICE,
        Sentence(
            "The same fault came back within the guarantee of job {job}, to {until}, and nothing is charged on "
            "this one.",
            values,
        ),
    )


def denied_proposal(promised: Promised) -> GuaranteeProposal:
    """What to do where a guarantee was decided about and the comeback was denied since."""
    return GuaranteeProposal(
        promised.job,
        Answer.CHARGED,
        Sentence(
            "It was said since that this is no comeback of job {job}: its guarantee does not reach this fault.",
            {"job": str(promised.job)},
        ),
    )


def guarantee_until(handed_back: date, days: int) -> date | None:
    """The last day of the guarantee, which counts in full; None where the shop gives none."""
    return handed_back + timedelta(days=days) if days > 0 else None


def days_left(until: date | None, today: date) -> int | None:
    """Days from today to the last day: 0 on that day; None when no guarantee runs any more."""
    if until is None or today > until:
        return None
    return (until - today).days


def running(job: int, until: date | None, today: date) -> Sentence | None:
    """The sentence for the counter while a guarantee runs, or None."""
    left = days_left(until, today)
    if until is None or left is None:
        return None
    if left == 0:
        return Sentence("Job {job}, labour and parts: today is the last day.", {"job": str(job)})
    if left == 1:
        return Sentence(
            "Job {job}, labour and parts, to {until}: one day left.", {"job": str(job), "until": until}
        )
    return Sentence(
        "Job {job}, labour and parts, to {until}: {days} days left.",
        {"job": str(job), "until": until, "days": left},
    )
