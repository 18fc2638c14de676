"""Flags on paper: stops first, each level with its own word."""

from __future__ import annotations

from app.papers.facts import Flag, FlagLevel
from app.papers.flags import flag_block, flag_blocks, flag_list, worst
from app.trade.sentence import Sentence
from tests.papers.story import ENGLISH

NOTE, CAUTION, STOP = (Flag(level, Sentence(f"of {level}")) for level in FlagLevel)


def test_stops_stand_first_then_cautions_then_notes_else_as_given() -> None:
    second = Flag(FlagLevel.CAUTION, "second")
    blocks = flag_list([NOTE, CAUTION, second, STOP], 100, ENGLISH)
    assert [block.level for block in blocks] == ["stop", "caution", "caution", "note"]
    assert flag_blocks([NOTE, STOP], 100, ENGLISH).height > blocks[0].height


def test_the_worst_is_the_first_of_the_highest_level() -> None:
    other = Flag(FlagLevel.STOP, "other")
    assert worst([NOTE, CAUTION, other, STOP]) is other
    assert worst([]) is None


def test_a_sentence_longer_than_a_page_is_split_and_keeps_its_frame() -> None:
    block = flag_block(Flag(FlagLevel.STOP, "word " * 900), 80, ENGLISH)
    parts = block.split(60)
    assert parts is not None
    assert parts[0].height <= 60.01
    first, rest = (len(part.text.lines) for part in parts)  # type: ignore[attr-defined]
    assert first + rest == len(block.text.lines)
    assert flag_block(NOTE, 80, ENGLISH).split(60) is None
