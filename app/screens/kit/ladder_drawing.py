"""How the ladder is drawn: upright beside the readings, or lying across a narrow page."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.shapes import pen
from app.screens.kit.strokes import LEFT, RIGHT, box, path_of, words
from app.screens.language import say

RAILS, RUNG_WIDE, RUNG_TALL, PITCH, LEAST_PITCH = 60, 50, 10, 28, 22
NAMES_AT, LEAST_WIDTH = 106, 344


@dataclass(frozen=True)
class LadderFacts:
    """``rungs`` are their names from the bottom up; ``reached`` the highest one reached (0 none).

    ``stopped`` is the rung before which it stops, 0 when it plays to the end. ``unseen`` are the rungs that cannot
    be tested on the type. ``sentence`` is the text alternative: how far it came, in words.
    """

    rungs: tuple[str, ...]
    reached: int
    stopped: int = 0
    sentence: str = ""
    unseen: frozenset[int] = frozenset()

    @property
    def to_the_end(self) -> bool:
        """Whether every rung was reached."""
        return self.reached >= len(self.rungs)


def pitch_of(count: int, height: float) -> float:
    return max((height - px(24)) / count, px(LEAST_PITCH))


def _rung(p: QPainter, rect: QRectF, state: str, *, lying: bool, unseen: bool = False) -> None:
    """One rung: ``reached``, ``stopped`` or ``open``; one that cannot be tested is only a broken outline."""
    if unseen:
        ink_of = "text" if state == "reached" else "stop" if state == "stopped" else "edge"
        box(p, rect, border=ink_of, width=1.2, radius=0, dashed=True)
    elif state == "reached":
        p.fillRect(rect, ink("text"))
    elif state == "stopped":
        box(p, rect, fill="base", border="stop", width=1.4, radius=0)
        half = QRectF(rect)
        if lying:
            half.setTop(rect.center().y())
        else:
            half.setRight(rect.center().x())
        p.fillRect(half, ink("stop"))
    else:
        box(p, rect, border="edge", width=1.2, radius=0)


def state_of(facts: LadderFacts, rung: int) -> str:
    if rung <= facts.reached:
        return "reached"
    return "stopped" if rung == facts.stopped else "open"


def _stop_word(facts: LadderFacts) -> str:
    return say("here or above") if facts.stopped in facts.unseen else say("stopped here")


def draw_standing(p: QPainter, facts: LadderFacts, width: float, height: float) -> None:
    count = len(facts.rungs)
    pitch = pitch_of(count, height)
    left, right = px(4), px(4) + px(RAILS)

    def middle(rung: int) -> float:
        return px(12) + (count - rung) * pitch + pitch / 2

    top_reached = middle(facts.stopped) if facts.stopped else middle(facts.reached) - pitch
    if facts.to_the_end:
        top_reached = 0.0
    elif facts.reached == 0 and not facts.stopped:
        top_reached = height
    for x in (left, right):
        p.fillRect(QRectF(x, top_reached, px(3), height - top_reached), ink("text"))
        for dx in (0.0, px(3) - 1.0):
            p.fillRect(QRectF(x + dx, 0, 1, top_reached), ink("edge"))
    inner = left + px(3) + (px(RAILS) - px(3) - px(RUNG_WIDE)) / 2
    name_at, bracket_at = px(NAMES_AT), _bracket_at(facts, width)
    for rung, name in enumerate(facts.rungs, start=1):
        y, state = middle(rung), state_of(facts, rung)
        place = QRectF(inner, y - px(RUNG_TALL) / 2, px(RUNG_WIDE), px(RUNG_TALL))
        _rung(p, place, state, lying=False, unseen=rung in facts.unseen)
        role = {"reached": "text", "stopped": "stop", "open": "soft"}[state]
        number = QRectF(right + px(8), y - pitch / 2, name_at - right - px(16), pitch)
        words(
            p,
            number,
            str(rung),
            font=measure.body(),
            of="stop" if state == "stopped" else "soft",
            align=RIGHT,
        )
        font = measure.strong() if state == "stopped" else measure.body()
        words(
            p, QRectF(name_at, y - pitch / 2, bracket_at - name_at - px(8), pitch), name, font=font, of=role
        )
    _brackets(p, facts, middle, pitch, bracket_at, width)


def _bracket_at(facts: LadderFacts, width: float) -> float:
    longest = max(measure.width(name, measure.strong()) for name in facts.rungs)
    return max(px(NAMES_AT) + longest + px(16), min(px(251), width - px(86)))


def _brackets(p: QPainter, facts: LadderFacts, middle: object, pitch: float, x: float, width: float) -> None:
    assert callable(middle)
    count, inset = len(facts.rungs), px(6)
    runs: list[tuple[int, int, str]] = []
    if facts.to_the_end:
        runs.append((1, count, say("plays to the end")))
    else:
        if facts.reached:
            runs.append((1, facts.reached, say("reached")))
        first_open = (facts.stopped or facts.reached) + 1
        if first_open <= count:
            runs.append((first_open, count, say("not reached")))
    for low, high, word in runs:
        top, bottom = middle(high) - inset, middle(low) + inset
        reached = low <= facts.reached
        p.setPen(pen("text" if reached else "soft", 1.3))
        p.setBrush(Qt.BrushStyle.NoBrush)
        arm = px(5)
        p.drawPath(path_of((x, top), (x + arm, top), (x + arm, bottom), (x, bottom), closed=False))
        room = QRectF(x + arm + px(8), (top + bottom) / 2 - pitch / 2, width - x - arm - px(8), pitch)
        if measure.width(word) > room.width():
            room.adjust(
                0, -pitch / 2, 0, pitch / 2
            )  # in two lines; one rung has room for them above or below
            p.setPen(ink("text" if reached else "soft"))
            p.drawText(room, int(LEFT | Qt.TextFlag.TextWordWrap), word)
            continue
        words(p, room, word, font=measure.body(), of="text" if reached else "soft", align=LEFT)
    if facts.stopped:
        y = middle(facts.stopped)
        words(
            p,
            QRectF(x, y - pitch / 2, width - x, pitch),
            _stop_word(facts),
            font=measure.strong(),
            of="stop",
        )


def draw_lying(p: QPainter, facts: LadderFacts, width: float) -> None:
    count = len(facts.rungs)
    pitch = (width - px(70)) / max(count - 1, 1)
    top, bottom = 0.0, float(px(38))
    tall, wide = px(28), px(10)

    def at(rung: int) -> float:
        return px(35) + (rung - 1) * pitch

    end = width if facts.to_the_end else at(facts.stopped) if facts.stopped else at(facts.reached) + pitch / 2
    for y in (top, bottom):
        p.fillRect(QRectF(0, y, end, px(3)), ink("text"))
        for dy in (0.0, px(3) - 1.0):
            p.fillRect(QRectF(end, y + dy, width - end, 1), ink("edge"))
    middle = (top + bottom + px(3)) / 2
    below = QRectF(0, bottom + px(10), width, measure.line() + px(4))
    stop_from, stop_to = width, width
    if facts.stopped:
        # Near the end of the line the words end at their rung; elsewhere they begin there.
        text = f"{facts.stopped} {facts.rungs[facts.stopped - 1]}: {_stop_word(facts)}"
        wide_text = measure.width(text, measure.strong())
        x = at(facts.stopped)
        near_end = facts.stopped > count - 3
        left = min(x + px(18) - wide_text, width - wide_text) if near_end else x - wide / 2
        stop_from, stop_to = left, left + wide_text
        words(
            p,
            QRectF(left, below.top(), wide_text + 2, below.height()),
            text,
            font=measure.strong(),
            of="stop",
            elide=False,
        )
    last_named = not (facts.stopped and facts.stopped > count - 3)
    first_to = at(1) - px(5) + measure.width(f"1 {facts.rungs[0]}")
    last_wide = measure.width(f"{count} {facts.rungs[-1]}")
    last_from = min(at(count) - last_wide / 2, width - last_wide) if last_named else width
    for rung in range(1, count + 1):
        x, state = at(rung), state_of(facts, rung)
        place = QRectF(x - wide / 2, middle - tall / 2, wide, tall)
        _rung(p, place, state, lying=True, unseen=rung in facts.unseen)
        if state == "stopped":
            continue
        role = "text" if state == "reached" else "soft"
        with_word = rung == 1 or (rung == count and last_named)
        text = f"{rung} {facts.rungs[rung - 1]}" if with_word else str(rung)
        taken = measure.width(text)
        left = x - px(5) if rung == 1 else min(x - taken / 2, width - taken)
        if facts.stopped and left < stop_to + px(6) and left + taken > stop_from - px(6):
            continue  # under the words of the rung where it stopped
        if 1 < rung < count and (left < first_to + px(6) or left + taken > last_from - px(6)):
            continue  # under the words of the first or the last
        words(
            p,
            QRectF(left, below.top(), taken + 2, below.height()),
            text,
            font=measure.body(),
            of=role,
            elide=False,
        )
