"""Who is under suspicion, on the sheet: ranked, explained, with the next step one press away."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt

from app.trade.bench.evidence import Asked
from app.trade.bench.kinds import Warmth
from app.work.bench.ranking import ranking_of
from app.work.bench.symptoms import symptom_answers


def names(section: Any) -> list[str]:
    model = section.table.rows_model()
    return [model.row_at(at).cells[1].tip for at in range(model.rowCount())]


def ranked(workbench: Any, rung: int = 10) -> Any:
    workbench.bench.climb(rung)
    section = workbench.job().body.suspects
    workbench.settle()
    return section


def test_before_the_first_test_nobody_is_suspected(workbench: Any) -> None:
    section = workbench.job().body.suspects
    workbench.settle()
    assert section.said.text().startswith("Nothing to rank yet")
    assert section.table.isHidden()
    assert section._next_line.isHidden()


def test_three_suspects_stand_on_the_sheet_and_all_of_them_on_wish(workbench: Any) -> None:
    section = ranked(workbench)
    card = ranking_of(workbench.bench.book, workbench.bench.job)
    assert names(section) == [line.name.key for line in card.lines[:3]]
    assert "has not seen the player" in section.said.text()
    section.all_link.click()
    assert names(section) == [line.name.key for line in card.lines]
    section.all_link.click()
    assert len(names(section)) == 3


def test_a_reading_ranks_them_anew(workbench: Any) -> None:
    section = ranked(workbench)
    before = section.card
    workbench.bench.read("radial_drive", "228")
    workbench.page.reload(None)
    workbench.settle()
    assert section.card != before


def test_the_whole_path_to_the_marked_suspect_is_told_on_wish(workbench: Any) -> None:
    section = ranked(workbench)
    assert section._why_line.isHidden()
    section.why_link.click()
    first = section.why.text()
    assert "The ladder gives it" in first
    section.table.mark(section.card.lines[1].id)
    assert section.why.text().startswith(section.card.lines[1].name.key)
    section.why_link.click()
    assert section._why_line.isHidden()


def test_the_next_step_is_begun_by_its_link(workbench: Any) -> None:
    section = ranked(workbench)
    offer = section.card.steps.offers[0]
    section.next_link.click()
    workbench.settle()
    if offer.trial:
        form = workbench.page.body.trials.open
        assert form.chosen().id == offer.id
    else:
        form = workbench.page.body.readings.open
        assert form.chosen().id in offer.quantities
    other = next(one for one in section.card.steps.offers if one.trial is not offer.trial)
    if other.trial:
        workbench.page.try_change(other.id)
        assert workbench.page.body.trials.open.chosen().id == other.id
    else:
        workbench.page.read_quantity(other.quantities[0])
        assert workbench.page.body.readings.open.chosen().id == other.quantities[0]


def test_symptom_words_are_asked_by_keys_and_move_the_suspects(workbench: Any) -> None:
    section = ranked(workbench)
    before = {line.id: line.share for line in section.card.lines}
    section.ask_link.click()
    workbench.settle()
    form = section.open
    form.named["cold"].setFocus()
    workbench.press(Qt.Key.Key_Left)
    workbench.press(Qt.Key.Key_Left)
    assert form.named["cold"].value() is Asked.SAID
    workbench.save()
    assert symptom_answers(workbench.bench.book, workbench.bench.job) == {"cold": Asked.SAID}
    assert {line.id: line.share for line in section.card.lines} != before
    section.ask_link.click()
    workbench.settle()
    assert section.open.named["cold"].value() is Asked.SAID
    assert section.open.named["warm"].value() is Asked.NOT_ASKED


def test_a_player_that_plays_to_the_end_has_no_suspects(workbench: Any) -> None:
    section = ranked(workbench, 12)
    assert section.table.isHidden()
    assert section.said.text() == "No fault shown: warm run, tap, other discs, on its edge."
    warm, *_, edge = section.no_fault.buttons
    workbench.click(edge)
    form = workbench.page.body.ladder.open
    assert form.note.text() == "on its edge"
    assert form.warmth.value() is Warmth.BETWEEN
    workbench.click(warm)
    assert form.note.text() == "on its edge"  # nothing typed is lost
    assert form.warmth.value() is Warmth.WARM
    form.rung.set_value(8)
    workbench.save()
    assert workbench.sheet.start_ups[-1].note == "on its edge"
    assert not section.no_fault.isVisible()


def test_the_sentence_below_the_standing_names_them_as_ranked_while_it_stops_there(workbench: Any) -> None:
    section = ranked(workbench)
    standing = workbench.page.body.standing
    assert section.card.lines[0].id == "arm_drag"
    assert "still suspect: arm bearing, " in standing.more.text()
    workbench.bench.climb(12)
    workbench.page.reload(None)
    workbench.settle()
    assert standing.sentence.text() == "It plays to the end."
    assert "suspect" not in standing.more.text()
    assert section.card.rung == 11  # what it was is still to be found
