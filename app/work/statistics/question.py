"""What is asked of the shop's own jobs: which of them, parted by what, and what counts as a comeback."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from app.book.door import Book
from app.trade.bench.kinds import Arrangement, FaultGroup
from app.trade.settings.comebacks import (
    COMEBACK_DECLINED,
    COMEBACK_FOLLOWS,
    COMEBACK_NOT_REPAIRED,
    COMEBACK_SAME_GROUP,
)
from app.trade.settings.terms import COMEBACK_WINDOW
from app.trade.statistics.comebacks import By
from app.trade.statistics.definition import Definition, Followed
from app.work.office.settings import shop_settings


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is asked. ``since`` and ``until`` bound the day of handing back; empty filters let every job through.

    ``change`` is the id of a kind of change that was tried in the job, ``technician`` the key of who tried or worked.
    The last five and ``window`` and ``same_group`` are the definition.
    """

    by: By = By.TRANSPORT_TYPE
    window: int = 180
    since: date | None = None
    until: date | None = None
    group: FaultGroup | None = None
    same_group: bool = True
    transport_type: str = ""
    arrangement: Arrangement | None = None
    maker: str = ""
    model: str = ""
    change: str = ""
    technician: int | None = None
    modified: bool | None = None
    followed: Followed = Followed.UNIT
    not_repaired: bool = False
    declined: bool = False

    @property
    def definition(self) -> Definition:
        """What counts as a comeback here."""
        return Definition(
            window=self.window,
            same_group=self.same_group,
            followed=self.followed,
            not_repaired=self.not_repaired,
            declined=self.declined,
        )

    def but(self, **changed: Any) -> Question:
        """The same question with some of it changed."""
        return replace(self, **changed)


def shop_question(book: Book, **asked: Any) -> Question:
    """A question with the shop's own definition, as far as ``asked`` says nothing else."""
    settings = shop_settings(book)
    own = {
        "window": settings[COMEBACK_WINDOW],
        "same_group": settings[COMEBACK_SAME_GROUP],
        "followed": Followed(settings[COMEBACK_FOLLOWS]),
        "not_repaired": settings[COMEBACK_NOT_REPAIRED],
        "declined": settings[COMEBACK_DECLINED],
    }
    return Question(**{**own, **asked})
