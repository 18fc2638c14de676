"""Which dates the next number of a series may carry."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.trade.sentence import Sentence


@dataclass(frozen=True, slots=True)
class IssueDays:
    """``previous`` is the date of the last number of the series, ``begun`` that of what the paper is about: when the
    player was taken in, or of a credit note the date of its invoice. What lies ahead of today was written while a
    clock was wrong; then that day is the only one until the days have caught up."""

    today: date
    previous: date | None
    begun: date
    of_credit: bool = False

    @property
    def proposed(self) -> date:
        """Today, or the one day that is allowed where an earlier one lies ahead."""
        return max(self.today, self.begun, self.previous or self.begun)

    def check(self, day: date) -> Sentence | None:
        """Why nothing can be issued under this date, or None: never before the number before it, never ahead."""
        if self.previous is not None and day < self.previous:
            return Sentence(
                "The number before this one was issued on {previous}: the date cannot be earlier.",
                {"previous": self.previous},
            )
        if day < self.begun:
            if self.of_credit:
                return Sentence(
                    "The invoice was issued on {day}: the date cannot be earlier.", {"day": self.begun}
                )
            return Sentence(
                "The player was taken in on {day}: the date cannot be earlier.", {"day": self.begun}
            )
        if day > self.proposed:
            return Sentence("{day} has not come yet.", {"day": day})
        return None
