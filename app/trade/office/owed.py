"""Money that is owed: how late it is, in classes of age, and who is asked for it in a friendly way."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from app.trade.sentence import Sentence, words


class AgeClass(StrEnum):
    """How long ago an invoice had to be paid, in the words of the list."""

    NOT_DUE = words("not due yet")
    TO_14 = words("up to 14 days late")
    TO_30 = words("15 to 30 days late")
    TO_60 = words("31 to 60 days late")
    OLDER = words("more than 60 days late")


_TO = ((0, AgeClass.NOT_DUE), (14, AgeClass.TO_14), (30, AgeClass.TO_30), (60, AgeClass.TO_60))
# In the order of the list: what is oldest asks first.
BY_AGE = tuple(reversed(AgeClass))


def age_class(pay_by: date, today: date) -> AgeClass:
    """The class of an open invoice. On the day itself it is not late."""
    late = (today - pay_by).days
    return next((age for most, age in _TO if late <= most), AgeClass.OLDER)


@dataclass(frozen=True, slots=True)
class Owed:
    """An open invoice as a reminder needs to know it; amounts in minor units, above zero where money is owed."""

    open: int
    pay_by: date
    reminded_on: date | None = None


def reminder_refused(owed: Owed, today: date) -> Sentence | None:
    """Why nobody is reminded of this invoice today, or None."""
    if owed.open <= 0:
        return Sentence("Nothing is open on this invoice.")
    if today <= owed.pay_by:
        return Sentence("This invoice need not be paid before {day}.", {"day": owed.pay_by})
    if owed.reminded_on == today:
        return Sentence("A reminder of this invoice was printed today already.")
    return None


def pay_anew_by(today: date, days: int) -> date:
    """The day that a reminder asks to pay by."""
    return today + timedelta(days=days)
