"""Right-to-left letters in a left-to-right line, in the order in which they are drawn.

The plain part of the Unicode bidirectional algorithm (UAX 9): strong letters, numbers, neutrals between them;
no explicit embeddings, which are dropped before, and no joining of Arabic letters.
"""

from __future__ import annotations

import unicodedata

MIRRORED = str.maketrans("()[]{}<>«»‹›", ")(][}{><»«›‹")


def is_mixed(text: str) -> bool:
    """Whether ``text`` holds letters that run from right to left."""
    return not text.isascii() and any(unicodedata.bidirectional(char) in ("R", "AL") for char in text)


def drawing_order(text: str) -> list[tuple[int, str]]:
    """Places in ``text`` from left to right as drawn, each with the letter to draw (brackets turned)."""
    levels = _levels(text)
    order = list(range(len(text)))
    for level in (2, 1):
        start = 0
        while start < len(order):
            end = start
            while end < len(order) and levels[order[end]] >= level:
                end += 1
            order[start:end] = reversed(order[start:end])
            start = max(end, start + 1)
    return [(at, text[at].translate(MIRRORED) if levels[at] == 1 else text[at]) for at in order]


def _levels(text: str) -> list[int]:
    """0 for left to right, 1 for right to left, 2 for numbers inside right to left."""
    levels: list[int | None] = []
    right = False
    for char in text:
        kind = unicodedata.bidirectional(char)
        if kind in ("R", "AL"):
            right = True
            levels.append(1)
        elif kind == "L":
            right = False
            levels.append(0)
        elif kind in ("EN", "AN"):
            levels.append(2 if right else 0)
        elif kind == "NSM" and levels:
            levels.append(levels[-1])
        else:
            levels.append(None)
    return [_settled(levels, at) for at in range(len(levels))]


def _settled(levels: list[int | None], at: int) -> int:
    """A neutral takes the direction of its neighbours when both agree, else the line's."""
    own = levels[at]
    if own is not None:
        return own
    before = next((level for level in reversed(levels[:at]) if level is not None), 0)
    after = next((level for level in levels[at:] if level is not None), 0)
    return 1 if before and after else 0
