"""The mains voltage as it stands on the plate: 230 V, 110/220 V ~ 50 Hz, 100-240 V."""

from __future__ import annotations

import re
from decimal import Decimal

from app.trade.bench.stages import MainsClass
from app.trade.sentence import Sentence

_FREQUENCY = re.compile(r"(?:[0-9]+\s*[/-]\s*)?[0-9]+\s*hz", re.IGNORECASE)
_POWER = re.compile(r"[0-9]+(?:[.,][0-9]+)?\s*(?:w|va|ma|a)\b", re.IGNORECASE)
_VOLTS = re.compile(r"[0-9]+(?:[.,][0-9]+)?")
LOWEST_MAINS, HIGHEST_MAINS = 80, 280  # volts; the range in which a mains reading is believed
HIGHEST_BATTERY = 60  # volts
LONGEST = 40


def volts(text: str) -> tuple[Decimal, ...]:
    """The voltages named on a plate, without its frequency, power and current; empty when there is none."""
    without = _POWER.sub(" ", _FREQUENCY.sub(" ", text))
    return tuple(Decimal(number.replace(",", ".")) for number in _VOLTS.findall(without))


def check_voltage(text: str, mains_class: MainsClass) -> Sentence | None:
    """Why this cannot be the voltage of a player of this class, or None. Empty is no mistake here."""
    if not text.strip():
        return None
    named = volts(text)
    if len(text) > LONGEST or not named:
        return Sentence("Write the voltage as on the plate, such as 230 V or 110/220 V.")
    if mains_class in (MainsClass.I, MainsClass.II):
        if any(not LOWEST_MAINS <= one <= HIGHEST_MAINS for one in named):
            return Sentence(
                "A player of class I or II takes {low} to {high} V. Is it a battery or an external supply?",
                {"low": LOWEST_MAINS, "high": HIGHEST_MAINS},
            )
    elif mains_class is MainsClass.BATTERY and any(one > HIGHEST_BATTERY for one in named):
        return Sentence("A battery of that voltage is not in a disc player. Is it a mains player?")
    return None
