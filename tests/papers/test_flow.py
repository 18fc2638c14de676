"""Blocks on pages: kept together, split where they must be, none lost."""

from __future__ import annotations

from app.papers.blocks import Beside, Gap, Quote, Rule, Shifted, Stack, section
from app.papers.flow import Flow, stack
from app.papers.text import BODY, TextBlock, set_text


def lines(count: int, word: str = "line") -> TextBlock:
    """A text of so many lines."""
    return set_text("\n".join(f"{word} {number}" for number in range(count)), BODY, 80)


def flow() -> Flow:
    """Pages that hold ten lines, the first five."""
    return Flow(10, 80, 10 + 5 * 4.7, 10, 10 + 10 * 4.7)


def counted(pages: Flow) -> list[int]:
    """Lines on each page."""
    return [sum(_lines(placed.block) for placed in page.placed) for page in pages.pages]


def _lines(block: object) -> int:
    if isinstance(block, TextBlock):
        return len(block.lines)
    if isinstance(block, Stack):
        return sum(_lines(part) for part in block.parts)
    if isinstance(block, Quote):
        return len(block.words.lines)
    if isinstance(block, Shifted):
        return _lines(block.block)
    if isinstance(block, Beside):
        return max(_lines(part) for _, part in block.columns)
    return 0


def test_what_fits_stays_on_the_page() -> None:
    pages = flow()
    pages.put(lines(2))
    pages.put(lines(3))
    assert counted(pages) == [5]


def test_a_block_that_does_not_fit_goes_whole_to_the_next_page() -> None:
    pages = flow()
    pages.put(lines(3))
    pages.put(lines(4))
    assert counted(pages) == [3, 4]


def test_running_text_fills_the_page_and_goes_on() -> None:
    pages = flow()
    pages.run(lines(23))
    assert counted(pages) == [5, 10, 8]


def test_running_text_leaves_no_single_line_behind() -> None:
    pages = flow()
    pages.put(lines(4))
    pages.run(lines(4), 0)
    assert counted(pages) == [4, 4]


def test_a_block_higher_than_a_page_is_split_and_nothing_is_lost() -> None:
    pages = flow()
    pages.put(lines(1))
    pages.put(stack([lines(6, "a"), lines(20, "b"), Quote(lines(7, "c"))], 0.0))
    assert sum(counted(pages)) == 34
    assert max(counted(pages)) <= 10


def test_a_heading_never_stands_alone_at_the_foot() -> None:
    pages = flow()
    pages.put(lines(2))
    pages.run(section("Title", 80, lines(30)), 1.0)
    first = [type(placed.block).__name__ for placed in pages.pages[0].placed]
    assert first in (["TextBlock"], ["TextBlock", "Stack"])
    assert (counted(pages)[0] > 2) is (len(first) > 1)


def test_no_page_overflows_whatever_is_split() -> None:
    for height in range(1, 12):
        pages = flow()
        pages.put(lines(height % 4 + 1))
        beside = Beside(
            ((0.0, lines(height)), (40.0, Stack((lines(height * 2), Gap(3), Rule(30), lines(3)))))
        )
        pages.run(Stack((beside, Shifted(lines(9), 5))), 2.0)
        for page in pages.pages:
            ends = [placed.top + placed.block.height for placed in page.placed]
            assert max(ends) <= pages.bottom + 0.02


def test_a_gap_at_the_head_of_a_page_is_dropped() -> None:
    parts = Gap(5.0).split(2.0)
    assert parts is not None
    assert parts[1].height == 0


def test_what_cannot_be_split_stands_where_it_is() -> None:
    pages = Flow(10, 80, 10, 10, 12)
    pages.put(lines(1))
    assert counted(pages) == [1]
