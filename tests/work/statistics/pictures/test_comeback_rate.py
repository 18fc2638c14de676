"""Comeback rates drawn: bars with interval and diamond, the verdict in ink and in words."""

from __future__ import annotations

from dataclasses import replace

from app.trade.statistics.comeback_rates import Verdict
from app.trade.statistics.picture import Ink
from app.trade.statistics.proportions import wilson
from app.work.statistics.comeback_rate import comeback_rates
from app.work.statistics.pictures.comeback_rate import panels_of_comeback_rate
from app.work.statistics.question import Question


def test_a_group_that_stands_out_is_told_by_ink_and_words(past, sound):
    with past.at_once():
        for at in range(60):
            for transport, back in (("Velk A1", 30), ("Grellin S1", 2)):
                unit = past.unit(transport=transport)
                past.job(unit, 410, 400)
                if at < back:
                    past.job(unit, 350)
        past.job(past.unit(transport=None), 20, 10)
    answer = comeback_rates(past.shop.book, Question())
    (panel,) = sound(panels_of_comeback_rate(answer))
    arm, sled, young = panel.bars
    assert (arm.value, arm.other, (arm.low, arm.high)) == (0.5, 2 / 60, wilson(30, 60))
    assert (arm.ink, sled.ink, young.ink) == (Ink.MORE, Ink.LESS, Ink.FAINT)
    assert arm.beside.key.endswith("more often")
    assert sled.beside.key.endswith("less often")
    assert (young.value, young.beside.key) == (None, "none can be counted yet")
    assert young.told.values["n"] == 1
    assert set(arm.jobs) == set(answer.rows[0].jobs)
    assert len(arm.jobs) == 60
    assert arm.told.values["second"].key.startswith("It comes back more often")


def test_one_group_alone_and_few_repairs_say_so(past, sound):
    past.job(past.unit(), 410, 400)
    answer = comeback_rates(past.shop.book, Question())
    (panel,) = sound(panels_of_comeback_rate(answer))
    (bar,) = panel.bars
    assert (bar.ink, bar.other) == (Ink.FAINT, None)
    assert bar.told.values["second"].key == "That is too few to say more."
    alone = replace(answer, rows=(replace(answer.rows[0], verdict=Verdict.NO_REST),))
    (bar,) = panels_of_comeback_rate(alone)[0].bars
    assert bar.told.values["second"].key == "There is no other group to compare it with."


def test_of_hundreds_of_groups_those_that_stand_out_are_drawn_and_the_title_says_how_many(past, sound):
    past.job(past.unit(), 410, 400)
    answer = comeback_rates(past.shop.book, Question())
    rows = tuple(
        replace(
            answer.rows[0],
            label=f"type {at}",
            few=False,
            verdict=Verdict.LESS_OFTEN if at == 299 else Verdict.CANNOT_TELL,
        )
        for at in range(300)
    )
    (panel,) = sound(panels_of_comeback_rate(replace(answer, rows=rows)))
    assert [bar.key for bar in panel.bars] == [*(f"type {at}" for at in range(19)), "type 299"]
    assert (panel.title.values["shown"], panel.title.values["all"]) == (20, 300)
    assert panel.bars[0].told.values["second"].key == "It cannot be told from the rest (adjusted p {p})."
    assert panel.bars[-1].told.values["second"].key.startswith("It comes back less often")
