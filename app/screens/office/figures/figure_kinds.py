"""The eight questions as the Office asks them: their words, and which filters say something in each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from app.trade.sentence import Sentence
from app.trade.statistics.questions import FOLLOWING, OF_COMEBACKS, PARTED


@dataclass(frozen=True, slots=True)
class FigureKind:
    """``name`` is the question's on the command line; ``title`` asks it, ``short`` is its word in the row of questions,
    ``about`` the sentence that tells of it. ``modified``: with or without a change of ours can be asked for; ``defined``: it counts comebacks."""

    name: str
    title: Sentence
    short: Sentence
    about: Sentence
    topic: str
    modified: bool = True
    defined: bool = False
    aloud: int | None = (
        None  # which of the sentences beside the answer is no small print: a warning, another answer
    )

    @property
    def parted(self) -> bool:
        """Whether its jobs are parted by something."""
        return self.name in PARTED

    @property
    def within(self) -> bool:
        """Whether the window matters."""
        return self.name in OF_COMEBACKS

    @property
    def followed(self) -> bool:
        """Whether it matters if the player or the transport is followed."""
        return self.name in FOLLOWING


KINDS: Mapping[str, FigureKind] = MappingProxyType(
    {
        kind.name: kind
        for kind in (
            FigureKind(
                "comeback-rate",
                Sentence("Which repairs come back"),
                Sentence("Comebacks"),
                Sentence("How many come back within the window, and which type, fault or change stands out."),
                "comeback_rate",
                defined=True,
            ),
            FigureKind(
                "how-long",
                Sentence("How long repairs last"),
                Sentence("How long"),
                Sentence("The share of repairs that still hold, day by day, and whether groups differ."),
                "how_long",
                defined=True,
            ),
            FigureKind(
                "keep-coming",
                Sentence("Which players keep coming"),
                Sentence("Who keeps coming"),
                Sentence(
                    "How often players come again after their first repair, and the ten with most visits."
                ),
                "keep_coming",
            ),
            FigureKind(
                "over-time",
                Sentence("Better or worse over time"),
                Sentence("Over time"),
                Sentence("The comebacks quarter by quarter, and whether a trend is shown."),
                "over_time",
                defined=True,
            ),
            FigureKind(
                "what-fails",
                Sentence("What fails on what"),
                Sentence("What fails"),
                Sentence("Which faults and causes are most frequent on which type, and what cured them."),
                "what_fails",
            ),
            FigureKind(
                "after-modification",
                Sentence("After a modification"),
                Sentence("Modified"),
                Sentence("How jobs with a change of ours fare against like standard repairs."),
                "after_modification",
                modified=False,
                defined=True,
                aloud=0,
            ),
            FigureKind(
                "cost",
                Sentence("What comebacks cost"),
                Sentence("Cost"),
                Sentence(
                    "Guarantee work in hours, parts and lost charges, and the time of jobs not repaired."
                ),
                "cost",
            ),
            FigureKind(
                "shop",
                Sentence("How the shop goes"),
                Sentence("The shop itself"),
                Sentence(
                    "Jobs in and out, how long they stay, promises kept, work in hand, hours and turnover."
                ),
                "shop_figures",
                aloud=-1,
            ),
        )
    }
)
