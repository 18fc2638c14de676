"""Estimates: options that the customer chooses between, what each comes to, how long it stands, what was answered.

Each option is worked out as an invoice of its lines would be (EN 16931-1), before any deposit and without rounding
of the sum to pay, so that the same lines come to the same amount on both papers.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from app.trade.money import Money
from app.trade.office.invoice import Draft, Line, LineKind, Totals, work_out
from app.trade.office.invoice_check import HIGHEST_AMOUNT, MOST_LINES, check_draft
from app.trade.sentence import Sentence, words
from app.trade.typed_words import check_typed

LETTERS = "ABC"
MOST_OPTIONS = len(LETTERS)  # more columns than that cannot be read on a sheet
MOST_LINES_OF_OPTION = MOST_LINES // 10
TITLE_ROOM, TEXT_ROOM, INTRO_ROOM, WORDS_ROOM, NAME_ROOM = 40, 300, 900, 2000, 300


class Taken(StrEnum):
    """What the invoice of the job takes over once the estimate is answered."""

    AS_WORKED = words("as worked")  # working time and parts of the bench, with the estimate's fixed charges
    AS_ESTIMATED = words("as estimated")  # the lines of the estimate in place of what the bench noted
    FEES_ONLY = words("fees only")  # neither option: what was told beforehand for looking


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionEntry:
    """The words of one option as typed. ``design``: what departs from the maker's design and how it is undone;
    empty where the design is kept. ``never_above`` with VAT, in minor units; None: the sum itself."""

    title: str
    what: str = ""
    design: str = ""
    risk: str = ""
    guarantee: str = ""
    ready: str = ""
    never_above: int | None = None


@dataclass(frozen=True, slots=True)
class Option:
    """One way to mend it: its letter, its words and its lines."""

    letter: str
    entry: OptionEntry
    lines: tuple[Line, ...] = ()


def option_totals(lines: Sequence[Line], currency: str) -> Totals:
    """What the lines of an option come to. ``due`` is the sum with VAT."""
    return work_out(Draft(currency, tuple(lines)))


def ceiling_of(option: Option, currency: str) -> Money:
    """What the customer agrees to by choosing it: the amount named as the highest, else the sum with VAT."""
    if option.entry.never_above is not None:
        return Money(option.entry.never_above, currency)
    return option_totals(option.lines, currency).due


def against_limit(ceiling: Money, limit: Money | None) -> Sentence | None:
    """How an option stands to the limit named at taking in; None where none was named."""
    if limit is None:
        return None
    if limit < ceiling:
        return Sentence(
            "{more} above the limit of {limit} named at taking in: it needs the customer's yes.",
            {"more": ceiling - limit, "limit": limit},
        )
    return Sentence("Within the limit of {limit} named at taking in.", {"limit": limit})


def taken_lines(lines: Sequence[Line], taken: Taken) -> tuple[Line, ...]:
    """The lines of the chosen option that go onto the invoice of the job."""
    if taken is Taken.FEES_ONLY:
        return ()
    if taken is Taken.AS_ESTIMATED:
        return tuple(lines)
    return tuple(line for line in lines if line.kind not in (LineKind.LABOUR, LineKind.PART))


def check_option(entry: OptionEntry) -> dict[str, Sentence]:
    """What keeps the words of an option from being kept, by field."""
    wrong: dict[str, Sentence] = {}
    if not entry.title.strip():
        wrong["title"] = Sentence("Name this way in a few words: the customer chooses by them.")
    elif why := check_typed(entry.title, TITLE_ROOM):
        wrong["title"] = why
    for field in ("what", "design", "risk", "guarantee", "ready"):
        if why := check_typed(getattr(entry, field), TEXT_ROOM, lines=True):
            wrong[field] = why
    if entry.never_above is not None and not 0 < entry.never_above <= HIGHEST_AMOUNT:
        wrong["never_above"] = Sentence("That amount cannot be meant.")
    return wrong


def check_head(intro: str, valid_until: date, today: date) -> dict[str, Sentence]:
    """What keeps the words above the options and the day from being kept, by field."""
    wrong: dict[str, Sentence] = {}
    if why := check_typed(intro, INTRO_ROOM, lines=True):
        wrong["intro"] = why
    if valid_until < today:
        wrong["valid_until"] = Sentence(
            "{day} is past: an estimate stands until a day to come.", {"day": valid_until}
        )
    elif (valid_until - today).days > 365:
        wrong["valid_until"] = Sentence("An estimate stands for a year at most.")
    return wrong


def check_to_issue(
    options: Sequence[Option], valid_until: date, today: date, currency: str
) -> tuple[Sentence, ...]:
    """Why an estimate cannot go to the customer yet, each reason as a sentence; empty when it can."""
    if not options:
        return (Sentence("An estimate needs at least one way to mend it."),)
    found: list[Sentence] = [*check_head("", valid_until, today).values()]
    for option in options:
        found += _wrong_in(option, currency)
    return tuple(found)


def _wrong_in(option: Option, currency: str) -> list[Sentence]:
    if not any(line.kind is not LineKind.TEXT for line in option.lines):
        return [Sentence("Option {letter} has no line that costs anything.", {"letter": option.letter})]
    found: list[Sentence] = []
    if any(line.kind is LineKind.LABOUR and not line.price for line in option.lines):
        found.append(
            Sentence("Option {letter}: an hour of work has no price yet.", {"letter": option.letter})
        )
    wrong: Mapping[str, Sentence] = check_draft(Draft(currency, option.lines))
    found += [
        Sentence("Option {letter}: {why}", {"letter": option.letter, "why": why}) for why in wrong.values()
    ]
    total = option_totals(option.lines, currency).due
    if not wrong and option.entry.never_above is not None and ceiling_of(option, currency) < total:
        found.append(
            Sentence(
                "Option {letter} comes to {total}, more than its highest amount {highest}.",
                {"letter": option.letter, "total": total, "highest": ceiling_of(option, currency)},
            )
        )
    return found


def days_unanswered(asked: date | None, today: date, after: int) -> int | None:
    """Days without an answer, from the day on at which the shop wants to be reminded; None before."""
    if asked is None:
        return None
    days = (today - asked).days
    return days if days >= after else None


@dataclass(frozen=True, slots=True)
class DeclinedFacts:
    """A declined job: the fee told for looking (None: none was told), how many parts of the stock are still in the
    player, how many of our changes, whether it has an open safety stop, and whether the case is open."""

    fee: Money | None
    fee_charged: bool
    parts_inside: int
    changes_inside: int
    unsafe: bool
    case_open: bool


@dataclass(frozen=True, slots=True)
class WayStep:
    """One step of the way back to the customer: done or not, and where it is done."""

    words: Sentence
    done: bool
    where: str  # invoice, work, modifications, safety, hand back


def declined_way(facts: DeclinedFacts) -> tuple[WayStep, ...]:
    """What a declined player still needs before it goes back as it came."""
    steps = []
    if facts.fee is None:
        steps.append(
            WayStep(Sentence("No fee was told for looking: nothing is charged for it."), True, "invoice")
        )
    else:
        said = Sentence("The fee told for looking, {fee} with VAT, is on the invoice.", {"fee": facts.fee})
        steps.append(WayStep(said, facts.fee_charged, "invoice"))
    steps.append(
        WayStep(
            Sentence("No part of the shop's stock is left in the player."), not facts.parts_inside, "work"
        )
    )
    steps.append(
        WayStep(
            Sentence("No change of ours is left in the player."), not facts.changes_inside, "modifications"
        )
    )
    steps.append(WayStep(Sentence("The case is closed."), not facts.case_open, "safety"))
    if facts.unsafe:
        steps.append(
            WayStep(
                Sentence(
                    "It is unsafe: only the owner lets it go back, with the warning signed and the plug tagged."
                ),
                False,
                "hand back",
            )
        )
    return tuple(steps)


def check_answer(
    said_by: str, own_words: str, said_at: datetime | None, now: datetime
) -> dict[str, Sentence]:
    """What keeps an answer from being kept, by field. ``said_at`` None: now."""
    wrong: dict[str, Sentence] = {}
    if not said_by.strip():
        wrong["said_by"] = Sentence("Who said it?")
    elif why := check_typed(said_by, NAME_ROOM):
        wrong["said_by"] = why
    if why := check_typed(own_words, WORDS_ROOM, lines=True):
        wrong["words"] = why
    if said_at is not None and said_at > now:
        wrong["said_at"] = Sentence("{when} has not come yet.", {"when": said_at})
    return wrong
