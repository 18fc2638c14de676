"""After a modification, drawn: changed players beside standard repairs, and readings over time."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from app.trade.sentence import Sentence
from app.trade.statistics.log_rank import LogRank
from app.trade.statistics.picture import Ink
from app.work.statistics.after_modification import Changed, ReadingPoint, after_modification
from app.work.statistics.pictures.after_modification import panels_after_modification
from app.work.statistics.question import Question


def reading(transport, day, shown, quantity="coil", name="", unit="mA"):
    return ReadingPoint(
        transport, name, quantity, Sentence(quantity), day, float(shown) / 1000, Decimal(shown), unit, 7
    )


def answered(past, changed_test=None, **changed):
    past.job(past.unit(), 410, 400)
    answer = after_modification(past.shop.book, Question())
    (standard,) = answer.rows
    row = replace(standard, kind=Changed.COIL, name=Sentence(Changed.COIL.value), like=1, **changed)
    return replace(answer, rows=(replace(row, test=changed_test), standard))


def test_kinds_of_change_are_drawn_beside_standard_repairs(past, sound):
    answer = answered(past, LogRank(3.2, 1, 0.0736, (1.0, 0.0), (0.5, 0.5)))
    curves, bars = sound(panels_after_modification(answer))
    coil, standard = curves.curves
    assert (coil.key, coil.x, coil.ink) == ("coil", (0.0,), Ink.FAINT)
    assert coil.told.values["second"].values["n"] == 1
    assert "standard" not in standard.told.values["second"].key
    assert [bar.value for bar in bars.bars] == [0.0, 0.0]
    assert (curves.guide, curves.guide_name.values["n"]) == (180.0, 180)


def test_standard_repairs_like_the_changed_ones_are_drawn_in_place_of_all(past, sound):
    answer = answered(past)
    coil, standard = answer.rows
    like = replace(standard, kind=Changed.LIKE, name=Sentence(Changed.LIKE.value))
    curves, bars = sound(panels_after_modification(replace(answer, rows=(coil, like, standard))))
    assert [curve.key for curve in curves.curves] == ["coil", "like"]
    assert [bar.key for bar in bars.bars] == ["coil", "like", "standard"]
    assert curves.curves[1].told.values["second"].key.startswith("They had the transport type")


def test_a_change_without_its_like_or_too_young_says_so(past, sound):
    young = after_modification(past.shop.book, Question(window=900)).rows
    assert young == ()
    answer = answered(past, None, share=None)
    curves, bars = sound(panels_after_modification(answer))
    assert curves.curves[0].told.values["second"].key.startswith("No standard repair is like these")
    assert (bars.bars[0].value, bars.bars[0].ink) == (None, Ink.FAINT)
    wide = replace(answer, question=Question(window=900))
    curves, _ = sound(panels_after_modification(wide))
    assert (curves.guide, curves.guide_name) == (None, None)
    assert curves.curves[0].told.values["first"].values["second"].key.startswith("None was watched")


def test_readings_stand_by_quantity_and_transport_in_the_unit_shown(past, sound):
    days = [date(2025, 3, day) for day in (1, 2, 3)]
    points = (
        *(reading(1, day, "51.5", name="Velk A1 12") for day in days),
        *(reading(number, days[0], "40") for number in range(2, 8)),
        reading(1, days[0], "0.4", "tilt", unit=""),
        *(reading(1, day, "3", "rare 1") for day in (days[0], days[0], days[0])),
        *(reading(1, day, "3", "rare 0") for day in days[:2]),
    )
    coil, rare, _ = sound(panels_after_modification(replace(answered(past), readings=points)))[2:]
    assert (coil.title.values["shown"], coil.title.values["all"]) == (4, 7)
    assert coil.y.name.values["unit"] == "mA"
    first, second = coil.series[:2]
    assert (first.name, [point.y for point in first.points]) == ("Velk A1 12", [51.5, 51.5, 51.5])
    assert first.points[1].x == float(days[1].toordinal())
    assert second.name == Sentence("transport {id}", {"id": 2})
    assert (rare.title.values["quantity"], first.points[0].jobs) == (Sentence("rare 0"), (7,))
    bare = replace(answered(past), readings=(reading(1, days[0], "0.4", "tilt", unit=""),))
    assert panels_after_modification(bare)[-1].y.name == Sentence("tilt")
