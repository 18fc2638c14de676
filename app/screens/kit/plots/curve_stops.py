"""The marks of curves: each as a whole, and its value at a place, in words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF

from app.screens.kit.measure import px
from app.screens.kit.plots.frame import Frame
from app.screens.kit.plots.marks import Mark, Spot, worded
from app.screens.kit.plots.scales import place_words, value_words
from app.screens.kit.plots.steps import end_of, step_at
from app.screens.language import number, say
from app.trade.statistics.picture import Curve, Curves

if TYPE_CHECKING:
    from app.screens.kit.plots.curves import CurvesView


def marks_of(view: CurvesView, i: int) -> tuple[Mark, tuple[tuple[float, Mark], ...]]:
    """A curve as a whole, and its value at every mark of the level axis that lies on it."""
    curve = view.drawn[i]
    whole = Mark(
        panel=view.place, key=curve.key, name=view.names[i], told=worded(curve.told), jobs=curve.jobs
    )
    return whole, tuple((x, mark_at(view, i, x)) for x in view.panel.marks if step_at(curve, x) >= 0)


def mark_at(view: CurvesView, i: int, x: float) -> Mark:
    """The value of a curve at a place of the level axis where it is known."""
    curve = view.drawn[i]
    told = told_at(view.panel, curve, view.names[i], x)
    return Mark(panel=view.place, key=curve.key, name=view.names[i], told=told, jobs=curve.jobs)


def whole_spot(view: CurvesView, frame: Frame, i: int, mark: Mark) -> Spot:
    """A curve as a whole stands at its end, and first among its marks."""
    at = frame.at(*end_of(view.drawn[i], frame.x.most))
    return Spot(mark=mark, line=i, along=-math.inf, at=at, rect=_round(at))


def spot_at(view: CurvesView, frame: Frame, i: int, x: float, mark: Mark) -> Spot:
    """Where the value of a curve at ``x`` stands."""
    curve = view.drawn[i]
    at = frame.at(x, curve.y[step_at(curve, x)])
    return Spot(mark=mark, line=i, along=x, at=at, rect=_round(at))


def _round(at: QPointF) -> QRectF:
    return QRectF(at.x() - px(8), at.y() - px(8), 2 * px(8), 2 * px(8))


def told_at(panel: Curves, curve: Curve, name: str, x: float) -> str:
    """The value of a curve at ``x``, with its band and the number at risk where they are known."""
    step = step_at(curve, x)
    where, value = place_words(x, panel.x.scale), value_words(curve.y[step], panel.y.scale)
    ends = [row[step] for row in (curve.low, curve.high) if len(row) == len(curve.x)]
    if len(ends) == 2 and all(math.isfinite(end) for end in ends):
        low, high = (value_words(end, panel.y.scale) for end in ends)
        told = say(
            "{name}, {where}: {value} ({low} to {high})",
            name=name,
            where=where,
            value=value,
            low=low,
            high=high,
        )
    else:
        told = say("{name}, {where}: {value}", name=name, where=where, value=value)
    if x in panel.marks and len(curve.at_risk) == len(panel.marks) and panel.risk_name is not None:
        count = number(curve.at_risk[panel.marks.index(x)], grouped=True)
        told = f"{told}; {worded(panel.risk_name)}: {count}"
    return told
