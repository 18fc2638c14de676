"""The service report of the story: job 2131, the radial drive that was raised by one resistor."""

from __future__ import annotations

import base64
import io
from datetime import date
from decimal import Decimal

from app.papers.facts import Clause
from app.papers.service_report_facts import (
    Climb,
    LadderFacts,
    PartRow,
    Photo,
    RatioRow,
    ReadingRow,
    SafetyRecord,
    SafetyStep,
    ServiceReportFacts,
    StruckReading,
    TrialReading,
    TrialRow,
    Value,
)
from app.trade.sentence import Measure, Sentence
from tests.papers.story import MODIFICATION
from tests.papers.story_shop import FAULT, PLAYER, SHEET, TECHNICIAN_NOTES, USER_NOTES

RUNGS = (
    "power", "tray and clamp", "arm home", "laser on", "focus search", "focus lock", "spindle up to speed",
    "radial lock", "lead-in read", "plays first track", "long seek", "plays outer tracks",
)  # fmt: skip
WITHIN, CLOSE = Sentence("within"), Sentence("too close to call")


def _value(text: str, u: str) -> Value:
    return Value(Decimal(text), Decimal(u))


def _row(name: str, unit: str, before: str, u: str, after: str, u_after: str, *limits: str) -> ReadingRow:
    low, high = (Decimal(limit) if limit else None for limit in limits)
    arrival = _value(before, u) if before else None
    return ReadingRow(
        name, unit, arrival, _value(after, u_after), low, high, WITHIN, not_readable=arrival is None
    )


def photo(across: int = 120, down: int = 80) -> str:
    """A small picture as base64."""
    from PIL import Image

    out = io.BytesIO()
    Image.linear_gradient("L").resize((across, down)).save(out, "JPEG")
    return base64.b64encode(out.getvalue()).decode("ascii")


REPORT = ServiceReportFacts(
    SHEET,
    job=2131,
    day=date(2026, 11, 26),
    customer_name="Benedikt Arnsvik",
    player=PLAYER,
    complaint=FAULT,
    bench="Tobbe Ruskamp",
    ladder=LadderFacts(
        tuple(map(Sentence, RUNGS)),
        Climb(10, date(2026, 11, 24), Sentence("stopped in {n} of {tries} tries", {"n": 3, "tries": 3})),
        Climb(12, date(2026, 11, 26), Sentence("stopped in {n} of {tries} tries", {"n": 0, "tries": 5})),
        "warm, normal use, reference disc R2",
    ),
    finding=(
        Clause(
            Sentence("Known."),
            "On arrival it played the first track and stopped at the long seek (rung 11), 3 of 3 tries; the seek "
            "took 4.8 s. What rungs 1 to 10 use works to that extent.",
        ),
        Clause(
            Sentence("Done."),
            "Four changes, one at a time. Three made no difference. With the fourth, R314, it seeks and plays "
            "the outer tracks; it is a modification and stays inside.",
        ),
        Clause(
            Sentence("Not known."),
            "That more coil current helps does not show which part is weak or worn, or whether one is.",
            Sentence("Cause not established."),
        ),
    ),
    readings=(
        _row("laser current", "mA", "51.2", "0.3", "51.3", "0.3", "", "57.6"),
        _row("HF eye height", "Vpp", "1.08", "0.02", "1.09", "0.02", "0.80", "1.40"),
        _row("radial offset", "mV", "-38", "1.3", "-4", "1.2", "-50", "50"),
        _row("radial drive", "mV", "228", "2.0", "188", "1.8", "", "300"),
        ReadingRow(
            "seek, first to last", "s", _value("4.8", "0.2"), _value("1.3", "0.2"), None, Decimal("1.5"),
            CLOSE, strong=True, was=Sentence("outside"),
        ),
        _row("C1 errors, outer", "/s", "", "", "19", "0.8", "", "50"),
        ReadingRow("insulation", "MΩ", None, Value(Decimal(100), None, ">"), Decimal(2), None, WITHIN),
        ReadingRow("play time", "min", None, Value(Decimal(74))),
        ReadingRow("focus coil resistance", "Ω", Value(None), _value("14.0", "0.1"), Decimal(5), None, WITHIN),
    ),
    struck=(
        StruckReading("seek 0.48 s", "“decimal mark in the wrong place”, Tobbe Ruskamp, 24 Nov, 10:51."),
    ),
    reading_notes=(Clause(Sentence("Chance of being within, final:"), "seek 84 in 100."),),
    reading_sources="Limits: service data Velk A1.",
    instruments="Oscilloscope 1 (due Feb 2027), multimeter 3 (Jan 2027), bench supply 2.",
    captures="HF eye on arrival (rung 10 reached) and final. Copies on request.",
    trials=(
        TrialRow(1, "Flex led anew", (TrialReading("seek", "s", Decimal("4.8"), Decimal("4.7")),), 10, 10,
                 Sentence("no difference")),
        TrialRow(2, "Joints at the radial driver resoldered", (), 10, 10, Sentence("no difference")),
        TrialRow(
            3, "R314: 6.8 Ω replaced by 5.6 Ω (coil current × 1.214)",
            (TrialReading("seek", "s", Decimal("4.7"), Decimal("1.3")),
             TrialReading("radial drive", "mV", Decimal(228), Decimal(188))),
            10, 12, Sentence("better"), "; left inside",
        ),
    ),
    trials_fine_print=("Trial 3 was done out of order; reason: “arm swings freely by hand” (Tobbe Ruskamp).",),
    parts=(
        PartRow("1 × resistor 5.6 Ω 0.6 W, 5 %, R314", Sentence("fitted")),
        PartRow("1 × resistor 6.8 Ω, out of R314", Sentence("given back")),
    ),
    modifications=(MODIFICATION,),
    ratios=(
        RatioRow(Sentence("coil current"), Decimal("1.214"), Decimal("1.10"), Decimal("1.50")),
        RatioRow(Sentence("heat in the coil"), Decimal("1.474")),
    ),
    photos=(Photo(photo(), "R314 after the change"), Photo(photo(80, 120)), Photo(photo(), "the label")),
    safety=SafetyRecord(
        "edition entered by the shop: EN 50678:2020 · class II",
        (
            SafetyStep("visual: case, cord, plug, openings", "no defect", "no defect", "yes", "passed"),
            SafetyStep("insulation, 500 V DC", "> 100 MΩ", "≥ 2 MΩ", "yes", "passed"),
            SafetyStep(
                "touch current", Measure(Decimal("0.02"), "mA"), Measure(Decimal("0.5"), "mA"), "yes", "passed"
            ),
        ),
        Sentence("Shop’s verdict: passed,"),
        "26 November 2026, 09:40, by Sanna Wickerel.",
        "Tester no. 2, due March 2027.",
    ),
    cautions_user=USER_NOTES,
    cautions_technician=TECHNICIAN_NOTES,
    guarantee="Six months from 27 November 2026 on the work and parts listed above.",
)  # fmt: skip
