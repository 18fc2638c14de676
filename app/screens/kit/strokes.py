"""Crisp lines, boxes and words for everything that paints itself; colours are names of roles."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPen, QPolygonF

from app.screens.kit.measure import px
from app.screens.kit.palette import ink

LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
CENTRE = Qt.AlignmentFlag.AlignCenter
_ON_ONE_LINE = (Qt.TextFlag.TextSingleLine | Qt.TextFlag.TextDontClip).value


def colour(of: str | QColor) -> QColor:
    """A role's colour, or the colour given."""
    return of if isinstance(of, QColor) else ink(of)


def snap_x(p: QPainter, x: float) -> float:
    """``x`` moved to the nearest edge between device pixels."""
    t = p.deviceTransform()
    return (round(t.m11() * x + t.dx()) - t.dx()) / t.m11()


def snap_y(p: QPainter, y: float) -> float:
    """``y`` moved to the nearest edge between device pixels."""
    t = p.deviceTransform()
    return (round(t.m22() * y + t.dy()) - t.dy()) / t.m22()


def snap_width(p: QPainter, width: float) -> float:
    """A stroke width of whole device pixels, at least one."""
    scale = p.deviceTransform().m11()
    return max(1, round(width * scale)) / scale


def hline(p: QPainter, x1: float, x2: float, y: float, of: str | QColor, width: float = 1) -> None:
    """A level line whose upper edge is at ``y``."""
    top = snap_y(p, y)
    p.fillRect(QRectF(x1, top, x2 - x1, snap_width(p, width)), colour(of))


def vline(p: QPainter, x: float, y1: float, y2: float, of: str | QColor, width: float = 1) -> None:
    """An upright line whose left edge is at ``x``."""
    left = snap_x(p, x)
    p.fillRect(QRectF(left, y1, snap_width(p, width), y2 - y1), colour(of))


def dotted(p: QPainter, a: QPointF, b: QPointF, of: str | QColor, width: float = 1) -> None:
    """A dotted line between two points."""
    p.save()
    pen = QPen(colour(of), width)
    pen.setDashPattern([1.5 / width, 2.5 / width])
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    p.setPen(pen)
    p.drawLine(a, b)
    p.restore()


def box(
    p: QPainter,
    rect: QRect | QRectF,
    *,
    fill: str | QColor | None = None,
    border: str | QColor | None = "edge",
    width: float = 1,
    radius: float = 2,
    dashed: bool = False,
) -> None:
    """A box whose border lies inside ``rect``, its outer edges on device pixels."""
    r = QRectF(rect)
    stroke = snap_width(p, width) if border is not None else 0.0
    outer = QRectF(
        QPointF(snap_x(p, r.left()), snap_y(p, r.top())),
        QPointF(snap_x(p, r.right()), snap_y(p, r.bottom())),
    )
    inner = outer.adjusted(stroke / 2, stroke / 2, -stroke / 2, -stroke / 2)
    p.save()
    p.setRenderHint(QPainter.RenderHint.Antialiasing, radius > 0)
    p.setBrush(colour(fill) if fill is not None else Qt.BrushStyle.NoBrush)
    if border is None:
        p.setPen(Qt.PenStyle.NoPen)
    else:
        pen = QPen(colour(border), stroke)
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        if dashed:
            pen.setDashPattern([4 / width, 3 / width])
            pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        p.setPen(pen)
    if radius > 0:
        p.drawRoundedRect(inner, radius, radius)
    else:
        p.drawRect(inner)
    p.restore()


def path_of(*points: tuple[float, float], closed: bool = True) -> QPainterPath:
    """A path through points."""
    path = QPainterPath()
    path.addPolygon(QPolygonF([QPointF(x, y) for x, y in points]))
    if closed:
        path.closeSubpath()
    return path


def words(
    p: QPainter,
    rect: QRect | QRectF,
    text: str,
    *,
    font: QFont | None = None,
    of: str | QColor = "text",
    align: Qt.AlignmentFlag = LEFT,
    elide: bool = True,
) -> float:
    """Draw one line of words in ``rect``, elided at the right where they do not fit; px they took."""
    if font is not None:
        p.setFont(font)
    metrics = QFontMetricsF(p.font())
    room = QRectF(rect)
    taken = metrics.horizontalAdvance(text)
    if elide and taken > room.width() + 0.5:
        text = metrics.elidedText(text, Qt.TextElideMode.ElideRight, max(room.width(), 0))
        taken = metrics.horizontalAdvance(text)
    p.setPen(colour(of))
    p.drawText(room, align.value | _ON_ONE_LINE, text)  # of enumerations | takes longer than the drawing
    return taken


def underline(p: QPainter, x: float, width: float, baseline: float, of: str = "accent") -> None:
    """The thin line under a link."""
    hline(p, x, x + width, baseline + px(3), colour_with(of, 0.55), 1)


def colour_with(of: str, alpha: float) -> QColor:
    """A role's colour, see-through by ``alpha``."""
    return ink(of, alpha)


def fold_mark(p: QPainter, rect: QRectF, opened: bool, of: str = "soft") -> None:
    """The fold triangle: down when open, right when folded."""
    c, half = rect.center(), px(10) / 2
    if opened:
        shape = path_of(
            (c.x() - half, c.y() - half * 0.5),
            (c.x() + half, c.y() - half * 0.5),
            (c.x(), c.y() + half * 0.6),
        )
    else:
        shape = path_of(
            (c.x() - half * 0.5, c.y() - half),
            (c.x() + half * 0.6, c.y()),
            (c.x() - half * 0.5, c.y() + half),
        )
    p.save()
    p.setRenderHint(QPainter.RenderHint.Antialiasing)
    p.fillPath(shape, colour(of))
    p.restore()


def chevron(p: QPainter, centre: QPointF, *, up: bool = False, size: float = 9, of: str = "text") -> None:
    """An open angle of 1.5 px: combo boxes, sorted columns."""
    half = px(size) / 2
    sign = -1 if up else 1
    p.save()
    p.setRenderHint(QPainter.RenderHint.Antialiasing)
    pen = QPen(colour(of), 1.5)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    p.setPen(pen)
    p.setBrush(Qt.BrushStyle.NoBrush)
    shape = path_of(
        (centre.x() - half, centre.y() - sign * half / 2),
        (centre.x(), centre.y() + sign * half / 2),
        (centre.x() + half, centre.y() - sign * half / 2),
        closed=False,
    )
    p.drawPath(shape)
    p.restore()
