"""What people may type at its longest runs into nothing, on any paper and either sheet."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any

import pytest

from app.papers.facts import PaperSize, Shop
from app.papers.press import printed
from tests.papers.conftest import PAPERS, SHEETS
from tests.papers.reading import collisions, letters, sizes
from tests.papers.story import ENGLISH

LONG = "Grundstücksverkehrsgenehmigungszuständigkeit " * 4 + "W" * 30
# Fields that hold no words of a person, and those that the forms keep short: letters at most.
NEVER = {
    "language", "zone", "iban", "bic", "reference", "logo", "picture", "id", "transport_type", "now", "number",
    "invoice", "letter",
}  # fmt: skip
AT_MOST = {
    "serial": 40,
    "phone": 24,
    "transport": 60,
    "taken_by": 80,
    "taken_by_short": 20,
    "writer": 80,
    "unit": 12,
}


def at_its_longest(facts: Any) -> Any:
    """The facts with long words behind everything that a person types; the shop's own head is set up once."""
    if isinstance(facts, tuple):
        return tuple(at_its_longest(item) for item in facts)
    ours = (
        is_dataclass(facts)
        and not isinstance(facts, type)
        and type(facts).__module__.startswith("app.papers")
    )
    if not ours or isinstance(facts, Shop):
        return facts
    changes = {}
    for field in fields(facts):
        value = getattr(facts, field.name)
        if type(value) is str and value and field.name not in NEVER:
            most = max(AT_MOST.get(field.name, 300), len(value))
            changes[field.name] = f"{value} {LONG}"[:most]
        elif field.name not in NEVER:
            changes[field.name] = at_its_longest(value)
    return replace(facts, **changes)


@pytest.mark.parametrize(
    ("name", "size"),
    [(name, PaperSize.A4) for name in sorted(PAPERS)] + [(name, PaperSize.LETTER) for name in SHEETS],
)
def test_no_letter_lies_on_another_or_off_the_sheet(name: str, size: PaperSize) -> None:
    facts = at_its_longest(PAPERS[name])
    pdf = printed(replace(facts, sheet=replace(facts.sheet, size=size)), ENGLISH)
    for number, (width, height) in enumerate(sizes(pdf)):
        assert collisions(pdf, number) == []
        for one in letters(pdf, number):
            assert one.turned or (
                one.left > 1 and one.right < width - 1 and one.top > 0 and one.bottom < height
            )
