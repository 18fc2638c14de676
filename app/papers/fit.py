"""Sections made to fit a height that is fixed: set smaller first, then cut with a pointer to the page that has all.

What was cut is named, so that the paper prints it in full on a further page: nothing is lost.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from app.papers.blocks import Block, Gap, Quote, SectionHead, Stack
from app.papers.text import FINE_GREY, Style, TextBlock, set_text

STEPS = 4  # sizes tried: as wanted, at most 10.5, 10 and 9.5 points
HEADS = (7.0, 6.7, 6.4, 6.2)  # from the rule of a section to its text, at each step


@dataclass(frozen=True)
class Part:
    """A section: its head and its bodies. Text and lists can be cut, a ``fixed`` section cannot.

    ``between`` is the gap between two bodies; ``clipped`` says that its maker has left something out already.
    """

    head: SectionHead | None
    bodies: tuple[Block, ...]
    fixed: bool = False
    between: float = 0.0
    clipped: bool = False
    cut_at: int | None = None  # the body behind which the pointer stands; None: behind all


Maker = Callable[[int], Part]


@dataclass(frozen=True)
class Fitted:
    """What fits, and the places (in the order given) of the sections that were cut."""

    block: Stack
    cut: tuple[int, ...]


def step_style(style: Style, step: int) -> Style:
    """A style at one of the steps."""
    most = (style.size, 10.5, 10.0, 9.5)[step]
    return style.but(size=most) if style.size > most else style


def fit(makers: Sequence[Maker], room: float, width: float, pointer: str, between: float = 3.0) -> Fitted:
    """Sections one below the other within ``room`` mm. ``pointer`` says where the rest of a cut section stands."""
    parts: list[Part] = []
    gap = between
    for step in range(STEPS):
        parts = [make(step) for make in makers]
        gap = between * (1.0, 0.8, 0.7, 0.6)[step]
        block = _stacked(parts, gap)
        if block.height <= room + 0.01 and not any(part.clipped for part in parts):
            return Fitted(block, ())
    cut = {at for at, part in enumerate(parts) if part.clipped}
    mark = set_text(pointer, FINE_GREY, width)
    while _stacked(_marked(parts, cut, mark), gap).height > room + 0.01:
        at = _longest(parts, cut)
        if at is None:
            break
        parts[at] = _shorter(parts[at])
        cut.add(at)
    return Fitted(_stacked(_marked(parts, cut, mark), gap), tuple(sorted(cut)))


def _stacked(parts: Sequence[Part], between: float) -> Stack:
    blocks: list[Block] = []
    for part in parts:
        if blocks:
            blocks.append(Gap(between))
        if part.head:
            blocks.append(part.head)
        for at, body in enumerate(part.bodies):
            if at and part.between:
                blocks.append(Gap(part.between))
            blocks.append(body)
    return Stack(tuple(blocks))


def _marked(parts: Sequence[Part], cut: set[int], mark: Block) -> list[Part]:
    return [_pointed(part, mark) if at in cut else part for at, part in enumerate(parts)]


def _pointed(part: Part, mark: Block) -> Part:
    behind = len(part.bodies) if part.cut_at is None else part.cut_at + 1
    return replace(part, bodies=(*part.bodies[:behind], mark, *part.bodies[behind:]))


def _lines(block: Block) -> int:
    text = block.words if isinstance(block, Quote) else block
    return len(text.lines) if isinstance(text, TextBlock) else 1


def _longest(parts: Sequence[Part], cut: set[int]) -> int | None:
    """The section that can best give a line: the one with most. The pointer takes a line too, so two must go."""
    able = []
    for at, part in enumerate(parts):
        count = sum(_lines(body) for body in part.bodies)
        if not part.fixed and count > (0 if at in cut else 1):
            able.append((count, -at))
    return -max(able)[1] if able else None


def _shorter(part: Part) -> Part:
    """One line less of the longest text, else one body less at the end."""
    longest = max(range(len(part.bodies)), key=lambda at: _lines(part.bodies[at]))
    body = part.bodies[longest]
    if _lines(body) > 1:
        bodies = (*part.bodies[:longest], _line_less(body), *part.bodies[longest + 1 :])
        return replace(part, bodies=bodies, cut_at=longest)
    return replace(part, bodies=part.bodies[:-1], cut_at=None)


def _line_less(body: Block) -> Block:
    if isinstance(body, Quote):
        return replace(body, words=body.words.shorter())
    assert isinstance(body, TextBlock)
    return body.shorter()
