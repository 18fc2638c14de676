"""What every answer carries: the sentence over its picture, what else is to be said, and why its numbers are so."""

from __future__ import annotations

from dataclasses import dataclass

from app.trade.sentence import Sentence
from app.work.statistics.question import Question

WILSON = "E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209"
NEWCOMBE = "R. G. Newcombe, Statist. Med. 17 (1998) 873, method 10"
HOLM = "S. Holm, Scand. J. Statist. 6 (1979) 65"
KAPLAN_MEIER = "E. L. Kaplan, P. Meier, J. Am. Stat. Assoc. 53 (1958) 457; M. Greenwood (1926)"
LOG_RANK = "N. Mantel, Cancer Chemother. Rep. 50 (1966) 163"
NELSON = "W. Nelson, J. Qual. Technol. 20 (1988) 24; J. F. Lawless, C. Nadeau, Technometrics 37 (1995) 158"
NOTHING = Sentence("No job fits what is asked. Take a filter away or choose a longer period.")
EMPTY = Sentence("No repair has been handed back yet.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """What a number rests on: ``n`` of what is ``counted``, the ``events`` among them and what they are, the method,
    and where it is written."""

    n: int
    counted: Sentence
    events: int
    events_are: Sentence
    method: tuple[Sentence, ...]
    source: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """An answer without its rows. ``said`` is what has to stand beside it: warnings, what was set aside."""

    question: Question
    headline: Sentence
    said: tuple[Sentence, ...]
    why: Why


def nothing_found(anything_in_the_book: bool) -> Sentence:
    """What is said where nothing is left to count."""
    return NOTHING if anything_in_the_book else EMPTY


def set_aside(count: int) -> tuple[Sentence, ...]:
    """What is said of jobs whose days cannot be right."""
    if not count:
        return ()
    if count == 1:
        return (Sentence("1 job was set aside: its days cannot be right."),)
    return (Sentence("{count} jobs were set aside: their days cannot be right.", {"count": count}),)
