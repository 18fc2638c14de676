"""Text on paper: broken into lines that fit, nothing lost, nothing obeyed."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.papers.fonts import cleaned
from app.papers.line_breaks import Run
from app.papers.text import BODY, TABLE, Style, TextBlock, cut, fitted, natural, one_line, set_text


def shown(block: TextBlock) -> list[str]:
    """The letters of every line."""
    return ["".join(piece.text for _, pieces, _ in line.parts for piece in pieces) for line in block.lines]


def test_words_go_to_the_next_line_when_the_column_is_full() -> None:
    block = set_text("one two three four", BODY, natural("one two", BODY) + 0.1)
    assert shown(block)[0] == "one two"
    assert "".join(shown(block)).replace(" ", "") == "onetwothreefour"


def test_no_line_is_wider_than_its_column() -> None:
    block = set_text("a word_" + "without_any_space" * 12 + " end", BODY, 40)
    assert block.widest <= 40.001
    assert "".join(shown(block)).replace(" ", "") == "aword_" + "without_any_space" * 12 + "end"


@given(st.text(max_size=300), st.floats(min_value=8, max_value=160))
def test_whatever_is_typed_nothing_is_lost_and_nothing_runs_over(text: str, width: float) -> None:
    block = set_text(text, TABLE, width)
    kept = "".join(char for char in cleaned(text) if not char.isspace() and char != "\u200b")
    printed = "".join(shown(block))
    assert sorted(char for char in printed if not char.isspace()) == sorted(_mirrored(kept, printed))
    assert all(line.width <= width + 0.01 or len("".join(shown(block))) == 1 for line in block.lines)


def _mirrored(kept: str, printed: str) -> str:
    """Brackets among right-to-left letters are drawn turned: they count as either."""
    import unicodedata

    if not any(unicodedata.bidirectional(char) in ("R", "AL") for char in kept):
        return kept
    turned = "()[]{}<>«»‹›"
    rest = [char for char in kept if char not in turned]
    return "".join(rest) + "".join(char for char in printed if char in turned)


def test_a_line_end_that_was_typed_stays() -> None:
    assert shown(set_text("first\n\nthird", BODY, 80)) == ["first", "", "third"]


def test_a_number_does_not_part_from_its_unit() -> None:
    text = "Fit 6.8 Ω at R314"
    for width in range(9, 40):
        lines = shown(set_text(text, BODY, width))
        assert not any(line.endswith("6.8") for line in lines)


def test_a_hyphenated_word_may_part_at_its_hyphen_but_a_number_may_not() -> None:
    assert shown(set_text("hand-back", BODY, natural("hand-b", BODY))) == ["hand-", "back"]
    assert shown(set_text("2026-0412", BODY, natural("2026-0412", BODY) + 0.1)) == ["2026-0412"]


def test_bold_and_plain_that_touch_stay_together() -> None:
    block = set_text([Run("in the tray", bold=True), Run(".")], BODY, natural("in the tray", BODY) + 0.3)
    assert not any(line == "." for line in shown(block))


def test_markup_is_text() -> None:
    assert shown(set_text('<b>x</b> <img src="a"/>', BODY, 90)) == ['<b>x</b> <img src="a"/>']


def test_a_cut_text_ends_with_an_ellipsis_inside_its_column() -> None:
    block = one_line("Hangs, then stops, on a jump to the last songs", TABLE, 50)
    assert shown(block)[0].endswith("…")
    assert block.widest <= 50


def test_a_text_that_fits_is_not_cut() -> None:
    assert shown(cut("short", TABLE, 50, 2)) == ["short"]


def test_a_cut_of_two_lines_keeps_the_first_whole() -> None:
    whole = set_text("one two three four five six seven", TABLE, 22)
    two = cut("one two three four five six seven", TABLE, 22, 2)
    assert shown(two)[0] == shown(whole)[0]
    assert shown(two)[1].endswith("…")
    assert len(two.lines) == 2


def test_type_is_set_smaller_to_fit_but_never_under_nine_points() -> None:
    assert fitted("2131", Style(46, 14, bold=True), 60).style.size == 46
    assert 9 <= fitted("21312131", Style(46, 14, bold=True), 40).style.size < 46
    assert fitted("x" * 500, Style(20, 8), 30).style.size == 9


def test_a_style_under_nine_points_is_refused() -> None:
    with pytest.raises(ValueError, match="too small"):
        Style(8.9, 4)


def test_signs_without_ink_are_left_out() -> None:
    assert cleaned("a\u200db\u202ec\ufeffd\x07e\ufe0f\u034f") == "abcde"


def test_letters_typed_in_two_parts_become_one() -> None:
    assert cleaned("e\u0301") == "é"
    assert cleaned("a\r\nb\rc\td") == "a\nb\nc   d"


def test_no_markup_engine_is_near_what_people_type() -> None:
    """Text goes through `set_text` alone: no Paragraph, and no letter drawn on a canvas but by the pen."""
    folder = Path(__file__).parents[2] / "app"
    for source in sorted(folder.rglob("*.py")):
        tree = ast.parse(source.read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom):
                assert not (node.module or "").startswith("reportlab.platypus"), source
            if isinstance(node, ast.Attribute) and node.attr in {
                "drawString",
                "drawRightString",
                "textOut",
                "beginText",
            }:
                assert source.name == "pen.py", source
