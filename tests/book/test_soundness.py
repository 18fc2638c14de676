"""Damage is noticed before use, and looking never changes a byte."""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path

import pytest

from app.book.backup import Why, back_up
from app.book.copies import Copy, copies_folder
from app.book.restore import look_into
from app.book.soundness import examine
from app.trade.refusal import Refusal
from tests.book.test_restore import THEN


@pytest.fixture
def copy(closed: Path) -> Copy:
    return back_up(closed, copies_folder(closed), THEN, Why.BY_HAND)


def test_a_sound_book_is_told_in_full(closed: Path) -> None:
    sound = examine(closed)
    assert sound.found == ()
    assert sound.jobs == 2
    assert sound.rows["history"] == sound.chain_rows > 70
    assert sound.last_at is not None
    assert len(sound.first) == len(sound.head) == 64
    assert len(sound.files) == 4


def test_the_logo_is_a_file_of_the_book_too(book: object, closed: Path) -> None:
    from app.book.attachments import store
    from app.book.door import Book
    from app.book.tables import SettingKept
    from app.trade.sentence import Sentence

    assert isinstance(book, Book)
    logo = store(book.files, b"logo").sha256
    with book.change(None, Sentence("chose a logo")) as change:
        change.add(SettingKept(key="logo", value=logo))
    assert logo in examine(closed).files


@pytest.mark.timeout(900)
def test_random_damage_to_a_copy_is_always_noticed_and_never_crashes(
    copy: Copy, often: Callable[[int, int], int]
) -> None:
    # Flipped bytes, torn pages, cut and stretched ends. What hits a text or free space passes every check of
    # the file by itself; the copy's SHA-256 misses none.
    whole = copy.path.read_bytes()
    unnoticed_inside = 0
    rounds = often(60, 2000)
    for seed in range(rounds):
        chance = random.Random(seed)
        broken = bytearray(whole)
        match chance.choice(("flip", "page", "cut", "stretch", "swap")):
            case "flip":
                at = chance.randrange(len(broken))
                broken[at] ^= 1 << chance.randrange(8)
            case "page":
                at = chance.randrange(len(broken) // 4096) * 4096
                broken[at : at + 4096] = chance.randbytes(4096)
            case "cut":
                del broken[chance.randrange(len(broken)) :]
            case "stretch":
                broken += chance.randbytes(chance.randrange(1, 9000))
            case "swap":
                one, two = (chance.randrange(len(broken) // 4096) * 4096 for _ in range(2))
                broken[one : one + 4096], broken[two : two + 4096] = (
                    broken[two : two + 4096],
                    broken[one : one + 4096],
                )
        if bytes(broken) == whole:
            continue
        copy.path.write_bytes(broken)
        with pytest.raises(Refusal, match="not sound"):
            look_into(copy.path)
        assert copy.path.read_bytes() == broken
        unnoticed_inside += not examine(copy.path).found
    assert 0 < unnoticed_inside < rounds
