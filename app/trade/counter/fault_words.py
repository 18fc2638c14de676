"""The words by which a fault is picked at the counter, and the fault groups that each may turn out to be."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from app.trade.bench.kinds import FaultGroup, HowOften
from app.trade.sentence import Sentence, words


class FaultWord(StrEnum):
    """The fixed list: what a customer notices, not what is broken."""

    READS_NO_DISC = words("reads no disc")
    SHOWS_ERROR = words("shows an error")
    SKIPS = words("skips")
    STOPS_WARM = words("stops when warm")
    TRAY = words("tray")
    SPINS_WRONGLY = words("spins wrongly")
    NOISE = words("noise")
    NO_SOUND = words("no sound")
    ONE_CHANNEL = words("one channel")
    NO_POWER = words("no power")
    DISPLAY = words("display")
    OTHER = words("other")


_READING = frozenset(
    {
        FaultGroup.LIGHT,
        FaultGroup.FOCUS,
        FaultGroup.RADIAL,
        FaultGroup.SPINDLE,
        FaultGroup.GEOMETRY,
        FaultGroup.SIGNAL,
        FaultGroup.BOARD,
        FaultGroup.DISC,
    }
)
_SOUND = frozenset({FaultGroup.SOUND, FaultGroup.SIGNAL, FaultGroup.BOARD})
_DEAD = frozenset({FaultGroup.POWER, FaultGroup.CONTROL, FaultGroup.BOARD})

# Common practice, no source: where such a fault was found to sit.
GROUPS: dict[FaultWord, frozenset[FaultGroup]] = {
    FaultWord.READS_NO_DISC: _READING,
    FaultWord.SHOWS_ERROR: _READING,
    FaultWord.SKIPS: _READING,
    FaultWord.STOPS_WARM: _READING | {FaultGroup.POWER, FaultGroup.CONTROL},
    FaultWord.TRAY: frozenset({FaultGroup.LOADING, FaultGroup.CONTROL, FaultGroup.BOARD}),
    FaultWord.SPINS_WRONGLY: frozenset({FaultGroup.SPINDLE, FaultGroup.SIGNAL, FaultGroup.BOARD}),
    FaultWord.NOISE: frozenset({FaultGroup.LOADING, FaultGroup.RADIAL, FaultGroup.SPINDLE, FaultGroup.SOUND}),
    FaultWord.NO_SOUND: _SOUND,
    FaultWord.ONE_CHANNEL: _SOUND,
    FaultWord.NO_POWER: _DEAD,
    FaultWord.DISPLAY: _DEAD,
    FaultWord.OTHER: frozenset(FaultGroup),
}


@dataclass(frozen=True)
class ReportedFault:
    """One word picked, and how often it happens."""

    word: FaultWord
    how: HowOften = HowOften.ALWAYS

    @property
    def sentence(self) -> Sentence:
        """The word as people say it: alone when always, else with how often behind."""
        word = Sentence(self.word.value)
        if self.how is HowOften.ALWAYS:
            return word
        return Sentence("{word}, {how}", {"word": word, "how": Sentence(self.how.value)})


def possible_groups(faults: Iterable[ReportedFault]) -> frozenset[FaultGroup]:
    """Every group that one of the words may turn out to be; none without a word."""
    return frozenset(group for fault in faults for group in GROUPS[fault.word])


def may_be_comeback(
    former: FaultGroup | None, faults: Iterable[ReportedFault], days: int, window: int
) -> bool:
    """Whether a comeback is proposed: the former job's group is possible, ``days`` after handing back."""
    return former is not None and 0 <= days <= window and former in possible_groups(faults)
