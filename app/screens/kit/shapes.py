"""The shapes that carry meaning beside a word: flags, gates, stages, arrows of a trial, fold marks."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from app.screens.kit.measure import fx, px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import box, colour, path_of, snap_x, snap_y

LEVELS = ("stop", "caution", "note")  # the gravest first


def pen(role: str, width: float, *, round_ends: bool = False) -> QPen:
    """A drawing pen in a role's ink; round joins and ends where asked, else mitred and flat."""
    made = QPen(ink(role), width)
    made.setJoinStyle(Qt.PenJoinStyle.RoundJoin if round_ends else Qt.PenJoinStyle.MiterJoin)
    made.setCapStyle(Qt.PenCapStyle.RoundCap if round_ends else Qt.PenCapStyle.FlatCap)
    return made


def flag_shape(p: QPainter, rect: QRectF, level: str) -> None:
    """The shape of a flag in its own ink: open circle, triangle or octagon, filling a square ``rect``."""
    side = min(rect.width(), rect.height())
    c = rect.center()
    k = side / 14
    p.save()
    p.setRenderHint(QPainter.RenderHint.Antialiasing)
    p.setBrush(Qt.BrushStyle.NoBrush)
    if level == "note":
        p.setPen(pen("note", 1.7 * k))
        r = 11 * k / 2
        p.drawEllipse(c, r, r)
    elif level == "caution":
        _triangle(p, c, k)
    else:
        _octagon(p, c, side)
    p.restore()


def _triangle(p: QPainter, c: QPointF, k: float) -> None:
    p.setPen(pen("caution", 1.8 * k, round_ends=True))
    p.drawPath(
        path_of(
            (c.x(), c.y() - 6 * k), (c.x() + 6.2 * k, c.y() + 5.8 * k), (c.x() - 6.2 * k, c.y() + 5.8 * k)
        )
    )
    p.setPen(pen("caution", 1.6 * k))
    p.drawLine(QPointF(c.x(), c.y() - 1.8 * k), QPointF(c.x(), c.y() + 2.0 * k))
    p.setPen(Qt.PenStyle.NoPen)
    p.setBrush(ink("caution"))
    p.drawRect(QRectF(c.x() - 0.8 * k, c.y() + 2.9 * k, 1.6 * k, 1.6 * k))


def octagon(c: QPointF, side: float) -> QPainterPath:
    """An octagon whose corners take 29 % of the side."""
    h, cut = side / 2, side * (0.5 - 0.29)
    x, y = c.x(), c.y()
    return path_of(
        (x - cut, y - h), (x + cut, y - h), (x + h, y - cut), (x + h, y + cut),
        (x + cut, y + h), (x - cut, y + h), (x - h, y + cut), (x - h, y - cut),
    )  # fmt: skip


def _octagon(p: QPainter, c: QPointF, side: float) -> None:
    p.fillPath(octagon(c, side), ink("stop"))
    bar = QRectF(c.x() - side * 0.28, c.y() - side * 0.09, side * 0.56, side * 0.18)
    p.fillRect(bar, ink("base"))


def open_box(p: QPainter, rect: QRectF, *, of: str = "soft", width: float = 1.4) -> None:
    """The open box of a gate that is still to do."""
    box(p, rect, border=of, width=width, radius=0)


def ticked_box(p: QPainter, rect: QRectF, *, of: str = "soft") -> None:
    """The box of a gate that is done: a tick of 2 inside."""
    open_box(p, rect, of=of)
    tick(p, rect)


def tick(p: QPainter, rect: QRectF, role: str = "text") -> None:
    """A tick of 2 px inside ``rect``."""
    w, h = rect.width(), rect.height()
    p.save()
    p.setRenderHint(QPainter.RenderHint.Antialiasing)
    p.setPen(pen(role, fx(2)))
    p.setBrush(Qt.BrushStyle.NoBrush)
    p.drawPath(
        path_of(
            (rect.left() + w * 0.2, rect.top() + h * 0.5),
            (rect.left() + w * 0.42, rect.top() + h * 0.73),
            (rect.left() + w * 0.82, rect.top() + h * 0.25),
            closed=False,
        )
    )
    p.restore()


STAGES = 5


def stage_width() -> int:
    """Px that the five boxes take."""
    return px(8) * (STAGES - 1) + px(5) + 1


def stage_boxes(p: QPainter, x: float, middle: float, stage: int) -> None:
    """Five boxes: those passed filled with edge, the present one (0 to 4) with text, those to come open."""
    w, h, pitch = px(5) + 1, px(9), px(8)
    top = snap_y(p, middle - h / 2)
    for i in range(STAGES):
        left = snap_x(p, x + i * pitch)
        rect = QRectF(left, top, w, h)
        if i < stage:
            p.fillRect(rect, ink("edge"))
        elif i == stage:
            p.fillRect(rect, ink("text"))
        else:
            box(p, rect, border="edge", radius=0)


def outcome_arrow(p: QPainter, rect: QRectF, outcome: str, role: str) -> None:
    """What a trial did: ``cured``, ``better``, ``none`` or ``worse`` as arrow or level lines."""
    c, k = rect.center(), min(rect.width(), rect.height()) / 20
    p.save()
    p.setRenderHint(QPainter.RenderHint.Antialiasing)
    p.setPen(pen(role, 2 * k))
    p.setBrush(Qt.BrushStyle.NoBrush)
    x, y = c.x(), c.y()
    if outcome == "none":
        for dy in (-3 * k, 3 * k):
            p.drawLine(QPointF(x - 9 * k, y + dy), QPointF(x + 9 * k, y + dy))
    else:
        s = -1 if outcome != "worse" else 1
        tip, tail = y + s * 8 * k, y - s * 9 * k
        if outcome == "cured":
            p.drawLine(QPointF(x - 7 * k, tip - 1 * k), QPointF(x + 7 * k, tip - 1 * k))
            tip += 2 * k
        p.drawLine(QPointF(x, tail), QPointF(x, tip))
        p.drawPath(
            path_of((x - 6 * k, tip - s * 6 * k), (x, tip), (x + 6 * k, tip - s * 6 * k), closed=False)
        )
    p.restore()


def marker(p: QPainter, at: QPointF, shape: str, of: str | QColor, size: float) -> None:
    """A marker of a picture in a role's ink or a colour of the picture cycle: ``dot``, ``square``, ``triangle`` or
    ``down`` (filled), ``open dot``, ``open square`` or ``diamond`` (open)."""
    half = size / 2
    p.save()
    p.setRenderHint(QPainter.RenderHint.Antialiasing)
    if shape in ("open dot", "open square", "diamond"):
        p.setBrush(ink("base"))
        p.setPen(QPen(colour(of), 1.5))
    else:
        p.setBrush(colour(of))
        p.setPen(Qt.PenStyle.NoPen)
    if shape in ("dot", "open dot"):
        p.drawEllipse(at, half, half)
    elif shape in ("square", "open square"):
        p.drawRect(QRectF(at.x() - half, at.y() - half, size, size))
    elif shape in ("triangle", "down"):
        rise = size * math.sqrt(3) / 2 * (-1 if shape == "down" else 1)
        p.drawPath(
            path_of(
                (at.x(), at.y() - rise * 0.6),
                (at.x() + half, at.y() + rise * 0.4),
                (at.x() - half, at.y() + rise * 0.4),
            )
        )
    else:
        p.drawPath(
            path_of(
                (at.x(), at.y() - half),
                (at.x() + half, at.y()),
                (at.x(), at.y() + half),
                (at.x() - half, at.y()),
            )
        )
    p.restore()
