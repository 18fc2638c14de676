"""The names of the rungs as the Office lists them, where both arrangements are meant."""

from __future__ import annotations

from app.screens.language import say
from app.trade.bench.kinds import Arrangement
from app.trade.bench.ladder import Ladder
from app.trade.bench.quantities import HIGHEST_RUNG


def ladder_names(ladder: Ladder | None) -> list[str]:
    """The rungs from 1, both names where the two arrangements differ; empty ones while the ladder is being read."""
    if ladder is None:
        return [""] * HIGHEST_RUNG
    return [" / ".join(dict.fromkeys(say(rung.name(kind)) for kind in Arrangement)) for rung in ladder.rungs]


def ladder_offers(ladder: Ladder | None, none: str) -> list[tuple[int, str]]:
    """The rungs to choose from by their number, with ``none`` first."""
    names = ladder_names(ladder) if ladder is not None else []
    return [(0, none), *((number, f"{number} {name}") for number, name in enumerate(names, start=1))]
