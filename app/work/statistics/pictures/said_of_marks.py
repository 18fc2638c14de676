"""What is said of marks in any picture: counts in words, sentences after each other, how many of all are shown."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import TypeVar

from app.trade.bench.figures import rounded, significant
from app.trade.sentence import Measure, Sentence
from app.trade.statistics.picture import Ink

MOST_BARS = 20  # in one panel; the table has the others
MOST_CURVES = 6
FEW_CURVES = 3  # where all rest on few

T = TypeVar("T")


def together(first: Sentence, *more: Sentence) -> Sentence:
    """Sentences one after the other."""
    for second in more:
        first = Sentence("{first} {second}", {"first": first, "second": second})
    return first


def first_of(title: Sentence, shown: int, there: int) -> Sentence:
    """A title that says how many of all are drawn, where not all are."""
    if shown == there:
        return title
    return Sentence(
        "{title}: {shown} of {all} shown, the others are in the table",
        {"title": title, "shown": shown, "all": there},
    )


def jobs_counted(count: int) -> Sentence:
    """How many jobs, in words."""
    return Sentence("1 job") if count == 1 else Sentence("{n} jobs", {"n": count})


def days_of(days: float) -> Sentence:
    """Days to a tenth, in words."""
    shown = plainly(rounded(Decimal(repr(days)), 1))
    return Sentence("1 day") if shown == 1 else Sentence("{n} days", {"n": shown})


def hours_of(hours: Decimal) -> Measure:
    """Hours to a hundredth."""
    return Measure(plainly(rounded(hours, 2)), "h")


def figures_of(value: float) -> Decimal:
    """A worked-out number to three figures that matter."""
    return plainly(significant(Decimal(repr(value)), 3))


def plainly(value: Decimal) -> Decimal:
    """Without zeros behind the mark, and never with an exponent."""
    short = value.normalize()
    return short if short == 0 or short.as_tuple().exponent < 0 else value.quantize(Decimal(1))  # type: ignore[operator]


def faint(few: bool) -> Ink:
    """The ink of what is compared with nothing."""
    return Ink.FAINT if few else Ink.PLAIN


def worth_drawing(rows: Sequence[T], few: Sequence[bool]) -> tuple[T, ...]:
    """The first rows that rest on enough; where none does, the first few as they are."""
    enough = tuple(row for row, is_few in zip(rows, few, strict=True) if not is_few)
    return enough[:MOST_CURVES] or tuple(rows[:FEW_CURVES])
