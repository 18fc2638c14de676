"""Settings of what is agreed at the counter: terms on the ticket, guarantee, storage, waiting times."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from app.trade.sentence import Sentence, words
from app.trade.settings.setting import (
    PARAGRAPH,
    WHOLE,
    WHOLE_CHOICE,
    Group,
    Kind,
    Setting,
    Shape,
    Who,
    at_most,
    between,
    paragraph,
)

DAYS = Sentence("days")


@dataclass(frozen=True)
class Term:
    """One short paragraph of the terms: ``lead`` in bold, then ``text``. Both are translated while unedited."""

    lead: str
    text: str


def fill(text: str, values: Mapping[str, str]) -> str:
    """A text of the shop with its places filled. Unknown braces stay: the text is data, not a template."""
    for name, value in values.items():
        text = text.replace("{" + name + "}", value)
    return text


def needing(terms: Iterable[Term], unknown: Iterable[str]) -> tuple[Term, ...]:
    """The terms that name none of the places in ``unknown``: a fee that is not charged is not printed."""
    braces = tuple("{" + name + "}" for name in unknown)
    return tuple(term for term in terms if not any(b in term.lead or b in term.text for b in braces))


def _pack(terms: tuple[Term, ...]) -> list[list[str]]:
    return [[term.lead, term.text] for term in terms]


def _unpack(plain: Any) -> tuple[Term, ...]:
    return tuple(Term(str(lead), str(text)) for lead, text in plain)


def _terms(terms: tuple[Term, ...]) -> Sentence | None:
    if len(terms) > 8:
        return Sentence("At most {most} terms have room on the ticket.", {"most": 8})
    if any(not term.text.strip() for term in terms):
        return Sentence("A term needs its text.")
    lead, text = at_most(60), at_most(240)
    checks = (wrong for term in terms for wrong in (lead(term.lead), text(term.text)))
    return next((wrong for wrong in checks if wrong), None)


TERMS_SHAPE: Shape[tuple[Term, ...]] = Shape(Kind.TERMS, _pack, _unpack)

DEFAULT_TERMS = (
    Term(
        words("Looking costs {diagnosis_fee}"),
        words("with VAT if you then decline. It is not charged if you go ahead."),
    ),
    Term(
        words("Nothing above the limit"),
        words("is done without your word, which we write down with day and time."),
    ),
    Term(
        words("An estimate"),
        words("is open for {estimate_days} days. Parts taken out are kept for you until you collect."),
    ),
    Term(
        words("Please collect within {storage_days} days"),
        words("of our message. After that we write to you before any charge or step the law allows."),
    ),
    Term(
        words("Your data"),
        words("are kept for this repair and for as long as the law asks. Ask at the counter to see them."),
    ),
    Term(
        words("Modified?"),
        words("A change outside the maker's design is made only with your recorded yes."),
    ),
)

TERMS = Setting(
    "terms",
    TERMS_SHAPE,
    DEFAULT_TERMS,
    Sentence("Terms on the intake ticket"),
    Group.COUNTER,
    rule=_terms,
    hint=Sentence("{diagnosis_fee}, {storage_days} and {estimate_days} are filled in on the paper."),
)
GUARANTEE_DAYS = Setting(
    "guarantee_days",
    WHOLE,
    180,
    Sentence("Guarantee on a repair"),
    Group.COUNTER,
    rule=between(0, 3660),
    unit=DAYS,
)
GUARANTEE_WORDS = Setting(
    "guarantee_words",
    PARAGRAPH,
    words(
        "Until {until} on the work and parts listed above: if the same fault returns, bring the player with "
        "this invoice and we put it right without charge. Laser and arm are covered only where they are "
        "listed as new. Your rights under the law stay as they are."
    ),
    Sentence("What the guarantee says"),
    Group.COUNTER,
    rule=paragraph(900),
    hint=Sentence("{until}, {handed_back} and {guarantee_days} are filled in on the paper."),
)
COMEBACK_WINDOW = Setting(
    "comeback_window",
    WHOLE_CHOICE,
    180,
    Sentence("A comeback is the same fault within"),
    Group.COUNTER,
    choices=tuple((days, Sentence("{days} days", {"days": days})) for days in (30, 90, 180, 365)),
)
STORAGE_DAYS = Setting(
    "storage_days",
    WHOLE,
    30,
    Sentence("To be collected within"),
    Group.COUNTER,
    rule=between(1, 3660),
    unit=DAYS,
)
STORAGE_WORDS = Setting(
    "storage_words",
    PARAGRAPH,
    words(
        "Please collect your player within {storage_days} days of our message that it is ready. After that "
        "we write to you with a date before any charge or step that the law allows. Nothing happens by itself."
    ),
    Sentence("Terms of storage"),
    Group.COUNTER,
    rule=paragraph(900),
    hint=Sentence("{storage_days} is filled in on the paper."),
)
ESTIMATE_DAYS = Setting(
    "estimate_days",
    WHOLE,
    30,
    Sentence("An estimate is open for"),
    Group.COUNTER,
    rule=between(1, 365),
    unit=DAYS,
)
NO_ANSWER_DAYS = Setting(
    "no_answer_days",
    WHOLE,
    5,
    Sentence("Remind when a customer has not answered for"),
    Group.COUNTER,
    Who.ANYONE,
    rule=between(1, 365),
    unit=DAYS,
)

FIRST_JOB = Setting(
    "first_job",
    WHOLE,
    1001,
    Sentence("Number of the first job"),
    Group.COUNTER,
    rule=between(1, 9_999_999),
    hint=Sentence(
        "To go on from a paper book. Once a job is taken in, numbers rise by one and nothing changes them."
    ),
)

COUNTER_SETTINGS = (
    FIRST_JOB,
    TERMS,
    GUARANTEE_DAYS,
    GUARANTEE_WORDS,
    COMEBACK_WINDOW,
    STORAGE_DAYS,
    STORAGE_WORDS,
    ESTIMATE_DAYS,
    NO_ANSWER_DAYS,
)
