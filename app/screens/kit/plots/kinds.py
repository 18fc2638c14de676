"""Which view paints which kind of panel."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from app.screens.kit.plots.bars import BarsView
from app.screens.kit.plots.course import CourseView
from app.screens.kit.plots.curves import CurvesView
from app.screens.kit.plots.grid import GridView
from app.screens.kit.plots.panel import PanelView
from app.trade.statistics.picture import Bars, Course, Curves, Panel


def view_of(panel: Panel, place: int, parent: QWidget | None = None) -> PanelView:
    """The view of one panel, the ``place``-th of its picture from 0."""
    if isinstance(panel, Bars):
        return BarsView(panel, place, parent)
    if isinstance(panel, Curves):
        return CurvesView(panel, place, parent)
    if isinstance(panel, Course):
        return CourseView(panel, place, parent)
    return GridView(panel, place, parent)
