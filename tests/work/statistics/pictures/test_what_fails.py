"""What fails on what, drawn: bars with what they reach together, and the grid of cures by name of rung."""

from __future__ import annotations

from dataclasses import replace

from app.trade.bench.stages import CauseFound
from app.trade.sentence import Sentence
from app.trade.statistics.picture import Bars, Grid, Ink
from app.work.statistics.pictures.what_fails import panels_of_what_fails
from app.work.statistics.question import Question
from app.work.statistics.what_fails import TO_THE_END, CureCell, what_fails
from tests.work.past import SOUND


def cell(rung, name, change, jobs):
    return CureCell(rung, Sentence(name), change, Sentence(change), len(jobs), jobs)


def test_bars_add_up_over_all_groups_and_stand_for_each_group_below(past, sound):
    with past.at_once():
        for _ in range(3):
            past.job(past.unit(), 410, 400, cause=CauseFound.DIRT)
        past.job(past.unit(), 410, 400, group=SOUND)
        past.job(past.unit(transport="Grellin S1"), 410, 400)
    answer = what_fails(past.shop.book, Question())
    groups, causes, first, second = sound(panels_of_what_fails(answer))
    assert [(bar.key, bar.value, bar.reached) for bar in groups.bars] == [
        ("radial", 4.0, 0.8),
        ("sound", 1.0, 1.0),
    ]
    assert len(groups.bars[0].jobs) == 4
    assert [(bar.key, bar.value, bar.ink) for bar in causes.bars] == [
        ("dirt or film", 3.0, Ink.PLAIN),
        ("not known", 2.0, Ink.FAINT),
    ]
    assert (first.title.values["name"], first.title.values["all"]) == ("Velk A1", 2)
    assert [(bar.key, bar.value) for bar in second.bars] == [("Grellin S1 fault group radial", 1.0)]


def test_one_group_is_not_said_twice(past, sound):
    past.job(past.unit(), 410, 400)
    assert len(sound(panels_of_what_fails(what_fails(past.shop.book, Question())))) == 2


def test_the_grid_has_the_lowest_rung_at_its_foot_and_the_most_frequent_cures(past, sound):
    past.job(past.unit(), 410, 400)
    answer = what_fails(past.shop.book, Question())
    cells = (
        cell(1, "power", "fuse", (1, 2)),
        cell(6, "focus lock", "lens", (3,)),
        CureCell(13, TO_THE_END, "lens", Sentence("lens"), 3, (4, 5, 6)),
        *(cell(2, "tray and clamp", f"rare {at}", (7,)) for at in range(9)),
    )
    grid = sound(panels_of_what_fails(replace(answer, grid=cells)))[-1]
    assert isinstance(grid, Grid)
    assert grid.columns[:2] == (Sentence("lens"), Sentence("fuse"))
    assert len(grid.columns) == 10
    assert grid.title.values["all"] == 11
    assert grid.rows[0] == TO_THE_END
    assert [row.values["rung"] for row in grid.rows[1:]] == [6, 2, 1]
    assert [(one.row, one.column, one.count) for one in grid.cells[:3]] == [(3, 1, 2), (1, 0, 1), (0, 0, 3)]
    assert grid.cells[0].told.values["rung"].values["name"] == Sentence("power")
    assert grid.cells[2].told.key == "{cure}: {jobs} cured that had played to the end."


def test_only_the_first_groups_have_bars_of_their_own(past, sound):
    past.job(past.unit(), 410, 400)
    answer = what_fails(past.shop.book, Question())
    rows = tuple(replace(row, label=f"type {at}") for at in range(7) for row in answer.rows)
    panels = sound(panels_of_what_fails(replace(answer, rows=rows)))
    assert len(panels) == 6
    assert all(isinstance(panel, Bars) for panel in panels)
    assert panels[-1].title.values["at"] == 4
