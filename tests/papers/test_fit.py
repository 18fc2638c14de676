"""Sections in a fixed height: smaller first, then cut, with a pointer to the whole."""

from __future__ import annotations

from app.papers.blocks import Quote, Stack
from app.papers.fit import HEADS, STEPS, Part, fit, step_style
from app.papers.text import BODY, Style, TextBlock, set_text


def text(count: int, step: int = 0) -> TextBlock:
    return set_text("\n".join(f"word {number}" for number in range(count)), step_style(BODY, step), 80)


def part(count: int, *, fixed: bool = False):  # type: ignore[no-untyped-def]
    return lambda step: Part(None, (text(count, step),), fixed=fixed)


def pointers(block: Stack) -> int:
    return sum(
        isinstance(one, TextBlock)
        and "".join(p.text for _, ps, _ in one.lines[0].parts for p in ps) == "see page 2"
        for one in block.parts
        if isinstance(one, TextBlock) and one.lines
    )


def test_what_fits_is_set_as_wanted() -> None:
    fitted = fit([part(3), part(4)], 60, 80, "see page 2")
    assert fitted.cut == ()
    assert pointers(fitted.block) == 0


def test_type_is_made_smaller_before_anything_is_cut() -> None:
    natural = fit([part(3), part(4)], 1000, 80, "see page 2").block.height
    fitted = fit([part(3), part(4)], natural - 0.5, 80, "see page 2")
    assert fitted.cut == ()
    assert fitted.block.height <= natural - 0.5


def test_the_longest_text_is_cut_and_says_where_it_stands_in_full() -> None:
    fitted = fit([part(3), part(30)], 60, 80, "see page 2")
    assert fitted.cut == (1,)
    assert pointers(fitted.block) == 1
    assert fitted.block.height <= 60


def test_every_height_is_kept_however_long_the_texts_are() -> None:
    for count in range(1, 40):
        quote = lambda step, count=count: Part(None, (Quote(text(count, step)), text(2, step)))  # noqa: E731
        fitted = fit([part(2, fixed=True), quote, part(count * 3)], 55, 80, "see page 2")
        assert fitted.block.height <= 55


def test_a_fixed_section_is_never_cut() -> None:
    fitted = fit([part(12, fixed=True), part(20)], 70, 80, "see page 2")
    assert fitted.cut == (1,)


def test_a_list_loses_whole_entries_from_its_end() -> None:
    rows = tuple(set_text(f"row {number}", BODY, 80) for number in range(20))
    fitted = fit([lambda step: Part(None, rows)], 40, 80, "see page 2")
    assert fitted.cut == (0,)
    assert fitted.block.height <= 40


def test_what_its_maker_left_out_already_is_pointed_to() -> None:
    def tall(step: int) -> Part:
        return Part(None, (text(9 if step < STEPS - 1 else 3, step),), fixed=True, clipped=step == STEPS - 1)

    fitted = fit([tall], 20, 80, "see page 2")
    assert fitted.cut == (0,)
    assert pointers(fitted.block) == 1


def test_no_step_goes_under_nine_points() -> None:
    assert [step_style(Style(12, 5), step).size for step in range(STEPS)] == [12, 10.5, 10, 9.5]
    assert [step_style(Style(9.5, 4), step).size for step in range(STEPS)] == [9.5] * STEPS
    assert len(HEADS) == STEPS
