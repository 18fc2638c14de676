"""Trials and modifications on the sheet: one change at a time, judged, and what it leaves inside is flagged."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from PySide6.QtCore import Qt

from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Left, Moment, TrialOutcome
from app.work.bench.modifications import reverse_modification
from app.work.bench.trials import TrialEntry, record_trial
from tests.screens.bench.test_modifications_section import record


def begin(workbench: Any, words: str) -> Any:
    workbench.job()
    workbench.ctrl(Qt.Key.Key_T, shift=True)
    workbench.type(words)
    form = workbench.page.body.trials.open
    workbench.save()
    return form


def test_from_a_trial_over_its_modification_to_the_flag_in_the_heading(workbench: Any) -> None:
    bench = workbench.bench
    bench.climb(10)
    bench.read("seek_time", "4.8")
    bench.read("radial_drive", "228")
    page = workbench.job()

    # one change, picked from the list; what was outside stands as its before
    workbench.ctrl(Qt.Key.Key_T, shift=True)
    form = page.body.trials.open
    workbench.type("coil current raised (resistor)")
    assert "leaves a modification" in form.about.text()
    assert form.first.text() == (
        "First comes what can be undone: reference disc tried; flex led differently; arm bearing cleaned; "
        "and 7 more. Say why not."
    )
    form.reference.set_text("R314")
    ticked = [tick.text() for _, tick in form.before if tick.isChecked()]
    assert ticked == ["seek time, first to last track 4.8\u00a0s"]
    workbench.save()
    assert "can be undone" in form.order.error()
    workbench.type_into(form.order, "promised for Friday")
    workbench.save()
    (trial,) = workbench.sheet.trials
    assert (trial.number, trial.outcome, trial.rung_before) == (1, None, 10)
    assert [reading.before.value for reading in trial.readings] == [Decimal("4.8")]

    # readings after it follow the ones before it
    bench.later(minutes=10)
    workbench.ctrl(Qt.Key.Key_R)
    reading = page.body.readings.open
    assert reading.quantity.text() == "seek time, first to last track"
    assert (reading.moment.value(), reading.side.value()) == (Moment.DURING, "after")
    workbench.enter("1.3")
    workbench.settle()
    assert workbench.sheet.trials[0].readings[0].after.value == Decimal("1.3")

    # judged; what stays inside is recorded next, with its numbers
    workbench.ctrl(Qt.Key.Key_J)
    judgement = page.body.trials.open
    judgement.outcome.set_value(TrialOutcome.BETTER)
    judgement.left_field.set_value(Left.LEFT_INSIDE)
    workbench.save()
    assert workbench.sheet.trials[0].outcome is TrialOutcome.BETTER
    entry = page.body.modifications.open
    assert entry.where.text() == "R314"
    entry.circuit.set_value(Circuit.RADIAL_COIL)
    workbench.type_into(entry.maker, "6R8")
    assert entry.maker.echo() == "read as 6.8\u00a0Ω"
    workbench.type_into(entry.new, "5R6")
    workbench.save()
    assert entry.wrong.text() == "Say first which law the circuit obeys."
    entry.law.set_value(Law.CURRENT)
    workbench.settle()
    assert [flag.flag.word for flag in entry.effect.flags.lines()] == ["coil current up"]
    workbench.save()

    (modification,) = workbench.sheet.modifications
    assert (modification.kind, modification.trial_id) == (Kind.REPLACED, trial.id)
    words = [line.flag.word for line in page.head.flags.lines()]
    assert words == ["coil current up"]
    assert page.head.flags.isVisible() or page.head.standing.isVisible()  # folded while the sheet is scrolled
    assert page.body.trials.strip._tiles[0].facts.stays
    assert len(page.body.modifications.cards) == 1


def test_a_trial_needs_words(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_T, shift=True)
    workbench.save()
    assert page.body.trials.open.change.error() == "Say what was changed, one thing."
    assert workbench.sheet.trials == ()


def test_own_words_make_a_trial_that_is_not_in_the_list(workbench: Any) -> None:
    form = begin(workbench, "spring bent by half a millimetre")
    (trial,) = workbench.sheet.trials
    assert trial.words == "Spring bent by half a millimetre"
    assert form is not None


def test_a_tile_is_opened_and_judged_with_the_mouse(workbench: Any) -> None:
    begin(workbench, "lens cleaned")
    page = workbench.page
    tile = page.body.trials.strip._tiles[0]
    assert tile.facts.outcome_word == "not judged yet"
    page.body.trials.strip.opened.emit(tile.facts.key)
    workbench.settle()
    judgement = page.body.trials.open
    workbench.click(judgement.save_button)
    assert judgement.wrong.text() == "Say what it did."
    judgement.outcome.set_value(TrialOutcome.NO_DIFFERENCE)
    judgement.left_field.set_value(Left.PUT_BACK)
    workbench.click(judgement.save_button)
    assert workbench.sheet.trials[0].outcome is TrialOutcome.NO_DIFFERENCE
    assert page.body.trials.strip._tiles[0].facts.fate == "put back"


def test_a_trial_is_struck_out_and_taken_back(workbench: Any) -> None:
    begin(workbench, "lens cleaned")
    trials = workbench.page.body.trials
    workbench.click(trials.strike_link)
    workbench.type("another player")
    workbench.save()
    assert workbench.sheet.trials[0].struck is not None
    assert trials.strip._tiles[0].facts.struck.endswith("another player")
    workbench.click(trials.undo_link)
    assert workbench.sheet.trials[0].struck is None


def test_readings_of_judged_trials_fold_away_and_come_back(workbench: Any) -> None:
    bench = workbench.bench
    begin(workbench, "lens cleaned")
    trial = workbench.sheet.trials[0].id
    bench.read("seek_time", "4.7", Moment.DURING, trial_id=trial, trial_side="after")
    page = workbench.page
    page.reload(None)
    workbench.settle()
    readings = page.body.readings
    assert readings.table.rows_model().rowCount() == 1  # while it waits for its judgement
    workbench.ctrl(Qt.Key.Key_J)
    page.body.trials.open.outcome.set_value(TrialOutcome.NO_DIFFERENCE)
    workbench.save()
    assert readings.table.rows_model().rowCount() == 0
    assert readings.trials_link.text() == "Show 1 of trials"
    workbench.click(readings.trials_link)
    assert readings.table.rows_model().rowCount() == 1


def test_suspects_that_the_change_addresses_are_offered_first(workbench: Any) -> None:
    workbench.job()
    workbench.ctrl(Qt.Key.Key_T, shift=True)
    form = workbench.page.body.trials.open
    every = [form.suspect.itemText(at) for at in range(form.suspect.count())]
    assert every[0] == "nothing named"
    assert not any("sled rail" in name for name in every)  # this transport has an arm
    workbench.type("joints resoldered")
    assert form.suspect.itemText(1) == "cracked joint or through-hole"
    assert form.suspect.itemText(2) == "flex cable or plug, bad contact"
    assert form.suspect.count() == len(every)
    told = []
    for suspect in ("joints", "flex", "belt"):
        form.suspect.set_value(suspect)
        form.changed()
        told.append(form.aims.text())
    assert told == [
        "the change aims at it",
        "the change touches it by the way",
        "this change does not address it",
    ]
    form.suspect.set_value("joints")
    workbench.save()
    (trial,) = workbench.sheet.trials
    assert trial.suspect.key.startswith("cracked joint")
    assert "Suspected: cracked joint or through-hole." in workbench.page.body.trials.about.text()


def test_more_coil_current_is_said_to_overcome_what_it_does_not_mend(workbench: Any) -> None:
    workbench.job()
    workbench.ctrl(Qt.Key.Key_T, shift=True)
    form = workbench.page.body.trials.open
    workbench.type("coil current raised (resistor)")
    form.suspect.set_value("arm_drag")
    form.changed()
    assert form.aims.text() == "also overcomes what it does not mend"


def judged(workbench: Any, outcome: TrialOutcome, left: Left | None = None) -> Any:
    """A trial that gets one rung further is judged; the form as it was."""
    bench = workbench.bench
    bench.climb(7)
    begin(workbench, "lens cleaned")
    bench.later(minutes=5)
    bench.climb(10, Moment.DURING)
    workbench.page.reload(None)
    workbench.settle()
    workbench.ctrl(Qt.Key.Key_J)
    form = workbench.page.body.trials.open
    form.outcome.set_value(outcome)
    form.left_field.set_value(left)
    form.changed()
    return form


def test_what_the_book_works_out_stands_in_the_judgement_and_is_taken_or_not(workbench: Any) -> None:
    form = judged(workbench, TrialOutcome.NO_DIFFERENCE)
    assert form.book_word.text() == "better"
    assert form.book_says.text().startswith("Rung 7 to 10 of 12.")
    assert form.outcome.value() is TrialOutcome.NO_DIFFERENCE  # the technician's own, until it is taken
    workbench.click(form.take_link)
    assert form.outcome.value() is TrialOutcome.BETTER
    form.outcome.set_value(TrialOutcome.NO_DIFFERENCE)
    workbench.save()
    (trial,) = workbench.sheet.trials
    assert (trial.outcome, trial.proposed) == (TrialOutcome.NO_DIFFERENCE, TrialOutcome.BETTER)
    tile = workbench.page.body.trials.strip._tiles[0]
    assert tile.facts.book == "better"
    assert "the book: better" in tile.accessibleName()
    assert "Judged no difference; the book works out: better." in workbench.page.body.trials.about.text()


def test_where_the_book_cannot_tell_it_says_why_and_offers_nothing(workbench: Any) -> None:
    begin(workbench, "lens cleaned")
    workbench.ctrl(Qt.Key.Key_J)
    form = workbench.page.body.trials.open
    assert form.book_word.text() == "nothing yet"
    assert "cannot tell" in form.book_says.text()
    assert form.take_link.isHidden()
    form._take()
    assert form.outcome.value() is None


def test_a_change_put_back_is_marked_so(workbench: Any) -> None:
    judged(workbench, TrialOutcome.BETTER, Left.PUT_BACK)
    workbench.save()
    facts = workbench.page.body.trials.strip._tiles[0].facts
    assert (facts.put_back, facts.stays, facts.fate) == (True, False, "put back")
    assert "the book works out the same" in workbench.page.body.trials.about.text()


def test_a_modification_reversed_marks_its_trial_with_job_and_day(workbench: Any) -> None:
    begin(workbench, "coil current raised")
    bench, page = workbench.bench, workbench.page
    key = record(workbench, trial_id=workbench.sheet.trials[0].id)
    workbench.ctrl(Qt.Key.Key_J)
    page.body.trials.open.outcome.set_value(TrialOutcome.BETTER)
    workbench.save()
    assert page.body.trials.strip._tiles[0].facts.stays
    reverse_modification(bench.book, bench.tobbe, key, bench.job)
    page.reload(None)
    workbench.settle()
    facts = page.body.trials.strip._tiles[0].facts
    assert (facts.put_back, facts.stays) == (True, False)
    assert facts.fate == f"put back 12\xa0Mar in job {workbench.sheet.number}"


def test_reason_for_the_order_and_note_stand_below_the_strip(workbench: Any) -> None:
    bench = workbench.bench
    entry = TrialEntry(change="", words="Arm", order_reason="promised for Friday", note="see picture")
    record_trial(bench.book, bench.tobbe, bench.job, entry)
    section = workbench.job().body.trials
    section.mark(workbench.sheet.trials[0].id)
    assert section.about.text() == "Done out of the book's order: promised for Friday. see picture"


def test_what_the_marked_trial_left_becomes_a_modification_with_one_key(workbench: Any) -> None:
    begin(workbench, "coil current raised")
    page, (trial,) = workbench.page, workbench.sheet.trials
    tile = page.body.trials.strip._tiles[0]
    tile.setFocus()
    workbench.ctrl(Qt.Key.Key_M)
    assert page.body.modifications.open.hidden_values["trial"] == trial.id
    page.body.modifications.close_form()
    page.body.readings.head.setFocus()  # anywhere else it is one of its own, such as one found
    workbench.ctrl(Qt.Key.Key_M)
    assert not page.body.modifications.open.hidden_values["trial"]
    page.body.modifications.close_form()
    record(workbench, trial_id=trial.id)
    page.reload(None)
    workbench.settle()
    page.body.trials.strip._tiles[0].setFocus()
    workbench.ctrl(Qt.Key.Key_M)
    assert not page.body.modifications.open.hidden_values["trial"]  # it has its modification
