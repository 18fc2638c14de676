"""The block of a modification: words, numbers, caution, the same on every paper."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from app.papers.facts import Clause
from app.papers.modification import clause_runs, measured_text, modification_block
from app.papers.modification_facts import Measured, WorkedOut
from app.trade.sentence import Measure, Sentence
from tests.papers.reading import whole
from tests.papers.story import ENGLISH, INVOICE, LONG_WORDS, MODIFICATION

Press = Callable[..., bytes]


@pytest.mark.parametrize(
    ("value", "unit", "signed", "plus_minus", "shown"),
    [
        ("48", "°C", False, "1.5", "48 ±1.5 °C"),
        ("0.8", "mm", False, None, "0.8 mm"),
        ("1.69", "dB", True, "0.1", "+1.69 ±0.1 dB"),
        ("-4", "", False, "1", "−4 ±1"),
    ],
)
def test_a_measured_figure_keeps_number_uncertainty_and_unit_together(
    value: str, unit: str, signed: bool, plus_minus: str | None, shown: str
) -> None:
    row = Measured(
        "x", Measure(Decimal(value), unit, signed), "", Decimal(plus_minus) if plus_minus else None
    )
    text = measured_text(row, ENGLISH)
    assert text.replace("\u00a0", " ") == shown
    assert " " not in text


def test_numbers_follow_the_language_of_the_paper() -> None:
    row = Measured("x", Measure(Decimal("48.5"), "°C"), "", Decimal("1.5"))
    assert measured_text(row, LONG_WORDS).replace("\u00a0", " ") == "48,5 ±1,5 °C"


def test_a_change_without_numbers_takes_the_whole_width() -> None:
    bare = replace(MODIFICATION, worked_out=(), measured=(), fine_print="", flags=())
    assert (
        modification_block(bare, 165, ENGLISH).height < modification_block(MODIFICATION, 165, ENGLISH).height
    )


def test_only_measured_or_only_worked_out_figures_print_under_their_own_head(press: Press) -> None:
    worked = whole(press(replace(INVOICE, modifications=(replace(MODIFICATION, measured=()),))))
    assert "Worked out" in worked
    assert "Measured, 30 min warm" not in worked
    measured = replace(MODIFICATION, worked_out=(), measured_when="")
    text = whole(press(replace(INVOICE, modifications=(measured,))))
    assert "Worked out" not in text
    assert "Measured limit now" in text


def test_a_block_higher_than_a_page_is_split_and_complete(press: Press) -> None:
    many = replace(
        MODIFICATION,
        paragraphs=tuple(Clause(f"Part {number}.", "and so it was done, " * 20) for number in range(30)),
        worked_out=tuple(WorkedOut(f"Figure {number}", "1", str(number)) for number in range(90)),
    )
    text = whole(press(replace(INVOICE, modifications=(many,))))
    assert all(f"Part {number}." in text for number in range(30))
    assert all(f"Figure {number} " in text for number in range(90))
    assert "Stays on every paper until it is put back." in text


@pytest.mark.parametrize(
    ("lead", "text", "said"),
    [
        ("Your data", "are kept for this repair.", "Your data are kept for this repair."),
        ("Why.", "it read no disc", "Why. It read no disc"),
        (
            "Modified?",
            "a change is made only with your yes.",
            "Modified? A change is made only with your yes.",
        ),
    ],
)
def test_a_clause_goes_on_behind_its_lead_unless_the_lead_is_a_sentence(
    lead: str, text: str, said: str
) -> None:
    runs = clause_runs(Clause(Sentence(lead), Sentence(text)), ENGLISH)
    assert "".join(run.text for run in runs) == said
