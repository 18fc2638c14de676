"""What fields for the values of parts and circuits read; ranges refuse slips of the hand and are no verdict."""

from __future__ import annotations

from decimal import Decimal

from app.trade.bench.typed_value import Entry
from app.trade.bench.units import UNITS

RESISTANCE = Entry(UNITS["Ω"], Decimal("0.001"), Decimal("1E+8"), Decimal("4.7"))
COIL_RESISTANCE = Entry(UNITS["Ω"], Decimal("0.1"), Decimal(1000), Decimal("14.0"))
CAPACITANCE = Entry(UNITS["µF"], Decimal("0.000001"), Decimal("1E+6"), Decimal(220))
TOLERANCE = Entry(UNITS["%"], Decimal(0), Decimal(50), Decimal(5))
RATING = Entry(UNITS["W"], Decimal("0.001"), Decimal(100), Decimal("0.6"))
VOLTAGE = Entry(UNITS["V"], Decimal(-60), Decimal(60), Decimal("8.0"))
VOLTAGE_RATING = Entry(UNITS["V"], Decimal(1), Decimal(1000), Decimal(16))
CURRENT = Entry(UNITS["mA"], Decimal(0), Decimal(5000), Decimal(80))
LENGTH = Entry(UNITS["mm"], Decimal(0), Decimal(500), Decimal("0.10"))
CORD = Entry(UNITS["m"], Decimal(0), Decimal(100), Decimal("1.5"))
TEMPERATURE = Entry(UNITS["°C"], Decimal(-20), Decimal(60), Decimal(21))
TURNS = Entry(UNITS["1/min"], Decimal(0), Decimal(10_000), Decimal(500))
LASER_LABEL = Entry(UNITS["mA"], Decimal(10), Decimal(200), Decimal("48.0"))
