"""The eight questions by the names that they are asked with on the command line, in words, and what bears on each."""

from __future__ import annotations

from types import MappingProxyType

from app.trade.sentence import words

QUESTIONS = MappingProxyType(
    {
        "comeback-rate": words("Which repairs come back, by any grouping"),
        "how-long": words("How long repairs last"),
        "keep-coming": words("Which players keep coming"),
        "over-time": words("Whether it gets better or worse"),
        "what-fails": words("What fails on what, and what cured it"),
        "after-modification": words("How jobs fare after a modification"),
        "cost": words("What guarantee work and unrepaired jobs cost"),
        "shop": words("How the shop goes: in and out, promises, work in hand"),
    }
)

# The filters of which jobs bear on each; these only where they can change a number.
PARTED = frozenset({"comeback-rate", "how-long", "keep-coming", "what-fails", "cost"})
OF_COMEBACKS = frozenset(
    {"comeback-rate", "how-long", "over-time", "after-modification"}
)  # window, same fault
FOLLOWING = OF_COMEBACKS | {"keep-coming"}  # the player or the transport
