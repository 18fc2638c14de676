"""The shop's own definition of a comeback, as it is set and as it is written on the page."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.trade.bench.stages import NOT_MENDED, STAYS_HERE, Outcome
from app.trade.sentence import Sentence, words


class Followed(StrEnum):
    """What is followed from its repair to its return."""

    UNIT = words("the player")
    TRANSPORT = words("the transport")


@dataclass(frozen=True, slots=True, kw_only=True)
class Definition:
    """What counts as a comeback. ``window`` in days, both ends counted. ``not_repaired`` and ``declined``: jobs that
    ended so count as repairs, too. Players that stay here never count."""

    window: int = 180
    same_group: bool = True
    followed: Followed = Followed.UNIT
    not_repaired: bool = False
    declined: bool = False

    @property
    def counted(self) -> frozenset[Outcome]:
        """The outcomes whose jobs can come back."""
        return frozenset(outcome for outcome in Outcome if self._counts(outcome))

    def _counts(self, outcome: Outcome) -> bool:
        if outcome in STAYS_HERE:
            return False
        if outcome is Outcome.DECLINED:
            return self.declined
        return self.not_repaired or outcome not in NOT_MENDED | {Outcome.NO_FAULT_SHOWN}

    def sentences(self) -> tuple[Sentence, ...]:
        """The definition in words: what comes back, with what, within which time, and what is left out."""
        same = Sentence("with the same fault group") if self.same_group else Sentence("with any fault")
        said = [
            Sentence(
                "A comeback: {what} comes in again {same} within {days} days after it was handed back.",
                {"what": Sentence(self.followed.value), "same": same, "days": self.window},
            )
        ]
        said.append(_LEFT_OUT[self.not_repaired, self.declined])
        said.append(
            Sentence("What a person of the shop denied is no comeback; confirmed and undecided ones count.")
        )
        return tuple(said)


_LEFT_OUT = {
    (False, False): Sentence("Jobs that ended not repaired, and jobs declined, are left out."),
    (True, False): Sentence("Jobs that ended not repaired count as well; jobs declined are left out."),
    (False, True): Sentence("Jobs declined count as well; jobs that ended not repaired are left out."),
    (True, True): Sentence("Jobs that ended not repaired, and jobs declined, count as well."),
}
