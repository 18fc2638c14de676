"""What people may type at its longest runs into nothing, on any paper and either sheet."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from app.papers.facts import PaperSize
from app.papers.press import printed
from tests.papers.conftest import PAPERS, SHEETS
from tests.papers.family import at_its_longest, write_family
from tests.papers.reading import collisions, letters, sizes
from tests.papers.story import ENGLISH


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


def test_the_family_is_written_to_be_looked_at(tmp_path: Path) -> None:
    write_family(tmp_path, ["reminder"], german=True, letter=True)
    names = {path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*.p*")}
    assert {"ordinary/reminder.pdf", "ordinary/reminder-1.png", "awkward/reminder-2.png"} <= names
