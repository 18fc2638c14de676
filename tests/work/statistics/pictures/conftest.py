"""What has to be true of every picture."""

from __future__ import annotations

import math
from datetime import UTC

import pytest

from app.trade.sentence import Sentence
from app.trade.statistics.picture import Bars, Course, Curves, Grid
from app.trade.wording import plain


def _numbers(mark):
    for name in ("value", "low", "high", "other", "reached", "x", "y", "until", "count"):
        found = getattr(mark, name, None)
        yield from found if isinstance(found, tuple) else () if found is None else (found,)


@pytest.fixture
def sound():
    """Every mark says itself in plain words, no number is none, keys differ, bands and steps fit together."""
    wording = plain(UTC)

    def check(panels):
        for panel in panels:
            assert wording(panel.title)
            match panel:
                case Bars():
                    marks = panel.bars
                case Curves():
                    marks = panel.curves
                    for curve in marks:
                        assert len(curve.x) == len(curve.y)
                        assert list(curve.x) == sorted(curve.x)
                        assert len(curve.low) == len(curve.high)
                        assert len(curve.low) in (0, len(curve.x))
                        assert len(curve.at_risk) in (0, len(panel.marks))
                        assert curve.until >= curve.x[-1]
                    assert (panel.guide is None) is (panel.guide_name is None)
                case Course():
                    marks = [point for series in panel.series for point in series.points]
                    for series in panel.series:
                        assert [p.x for p in series.points] == sorted(p.x for p in series.points)
                case Grid():
                    marks = panel.cells
                    assert all(c.row < len(panel.rows) and c.column < len(panel.columns) for c in marks)
            assert marks
            for mark in marks:
                said = wording(mark.told)
                assert isinstance(mark.told, Sentence)
                assert said.endswith(".")
                assert ".." not in said
                assert not any(word in said.lower() for word in ("nan", "none)", "{", "inf "))
                assert all(math.isfinite(number) for number in _numbers(mark))
            keys = [
                (mark.row, mark.column) if isinstance(panel, Grid) else (mark.key, mark.told)
                for mark in marks
            ]
            assert len(set(keys)) == len(keys)
        return panels

    return check
