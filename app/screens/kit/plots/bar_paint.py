"""One lying bar with its interval and diamond, and the samples of the key."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter

from app.screens.kit.measure import fx
from app.screens.kit.palette import ink
from app.screens.kit.plots.key_line import KeyEntry
from app.screens.kit.shapes import marker, pen
from app.screens.kit.strokes import box, hline, vline
from app.screens.language import say
from app.trade.statistics.picture import Bar, Bars, Ink

HATCH = 6  # px from one slanted line of a fill to the next


def paint_block(p: QPainter, rect: QRectF, kind: Ink) -> None:
    """A bar by what it is: more is full of accent, less is hatched, few is open, the rest is light."""
    p.save()
    p.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    if kind is Ink.MORE:
        box(p, rect, fill=ink("accent", 0.41), border="accent", width=1.5, radius=0)
    elif kind is Ink.LESS:
        box(p, rect, fill="base", border="accent", width=1.5, radius=0)
        _hatch(p, rect)
    elif kind is Ink.FAINT:
        box(p, rect, fill="base", border="edge", radius=0)
    else:
        box(p, rect, fill=ink("edge", 0.27), border="edge", radius=0)
    p.restore()


def _hatch(p: QPainter, rect: QRectF) -> None:
    p.save()
    p.setClipRect(rect.adjusted(1, 1, -1, -1))
    p.setRenderHint(QPainter.RenderHint.Antialiasing)
    p.setPen(pen("accent", fx(1)))
    x = rect.left() - rect.height()
    while x < rect.right():
        p.drawLine(QPointF(x, rect.bottom()), QPointF(x + rect.height(), rect.top()))
        x += fx(HATCH)
    p.restore()


def paint_interval(p: QPainter, low: float, high: float, y: float, reach: float = 6) -> None:
    """A line from one end to the other with end ticks."""
    hline(p, low, high, y - 0.85, "text", 1.7)
    for x in (low, high):
        vline(p, x - 0.85, y - fx(reach), y + fx(reach), "text", 1.7)


def key_of(panel: Bars) -> list[KeyEntry]:
    """What has to be explained: only what is drawn, and nothing where there are bare bars."""
    bars = panel.bars
    made: list[KeyEntry] = []

    def block(kind: Ink, text: str) -> None:
        def paint(p: QPainter, room: QRectF) -> None:
            paint_block(p, QRectF(room.left(), room.center().y() - fx(6), fx(23), fx(12)), kind)

        made.append(KeyEntry(text, paint))

    kinds = {bar.ink for bar in bars if bar.value is not None}
    for kind, text in (
        (Ink.MORE, say("more than the others")),
        (Ink.LESS, say("less than the others")),
        (Ink.FAINT, say("rests on few")),
    ):
        if kind in kinds:
            block(kind, text)
    if any(bar.low is not None and bar.high is not None for bar in bars):
        made.append(KeyEntry(say("95 % interval"), _interval_sample))
    if any(bar.other is not None for bar in bars):
        made.append(KeyEntry(say("all the others together"), _diamond_sample))
    return made


def _interval_sample(p: QPainter, room: QRectF) -> None:
    paint_interval(p, room.left() + 1, room.left() + fx(23), room.center().y(), 5)


def _diamond_sample(p: QPainter, room: QRectF) -> None:
    marker(p, QPointF(room.left() + fx(12), room.center().y()), "diamond", "text", fx(10))


def told_apart(bar: Bar) -> bool:
    """Whether a bar stands out from the others after correction."""
    return bar.ink in (Ink.MORE, Ink.LESS)
