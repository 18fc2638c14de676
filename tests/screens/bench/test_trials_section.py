"""Trials and modifications on the sheet: one change at a time, judged, and what it leaves inside is flagged."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from PySide6.QtCore import Qt

from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Left, Moment, TrialOutcome
from app.work.bench.modifications import reverse_modification
from app.work.bench.trials import TrialEntry, judge_trial, record_trial
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
    assert not form.order.isVisible()  # nothing chosen that wants a reason
    workbench.type("coil current raised (resistor)")
    assert form.order.isVisible()
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
    assert (entry.kind.value(), entry.circuit.value()) == (Kind.REPLACED, Circuit.RADIAL_COIL)
    workbench.type_into(entry.maker, "6R8")
    assert entry.maker.echo() == "read as 6.8\u00a0Ω"
    workbench.type_into(entry.new, "5R6")
    workbench.save()
    assert entry.law.error() == "Say first which law the circuit obeys."
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
    assert judgement.outcome.error() == "Say what it did."
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


def test_a_trial_judged_anew_begins_with_its_former_judgement(workbench: Any) -> None:
    form = judged(workbench, TrialOutcome.CURED, Left.PUT_BACK)
    form.came_back.setChecked(True)
    form.note.set_text("three discs")
    workbench.save()
    section = workbench.page.body.trials
    section.judge_marked()
    workbench.settle()
    again = section.open
    assert (again.outcome.value(), again.left_field.value()) == (TrialOutcome.CURED, Left.PUT_BACK)
    assert (again.came_back.isChecked(), again.note.text()) == (True, "three discs")
    workbench.save()
    (trial,) = workbench.sheet.trials
    assert (trial.came_back, trial.note) == (True, "three discs")  # a second look loses nothing


def test_a_draft_of_a_judgement_is_not_written_over(workbench: Any) -> None:
    judged(workbench, TrialOutcome.BETTER, Left.PUT_BACK).leave()
    section = workbench.page.body.trials
    section.judge_marked()
    assert section.open.outcome.value() is TrialOutcome.BETTER


def test_what_the_book_works_out_stays_beside_a_judged_trial_with_its_numbers(workbench: Any) -> None:
    bench = workbench.bench
    bench.climb(10)
    bench.read("radial_drive", "228")
    entry = TrialEntry(change="coil_current", words="Coil current raised", order_reason="promised for Friday")
    key = record_trial(bench.book, bench.tobbe, bench.job, entry).value
    bench.later(minutes=5)
    record(workbench, trial_id=key)
    bench.read("radial_drive", "188", Moment.DURING, trial_id=key, trial_side="after")
    judge_trial(bench.book, bench.tobbe, key, TrialOutcome.NO_DIFFERENCE, left=Left.LEFT_INSIDE)
    section = workbench.job().body.trials
    assert section.worked_out.text() == ""
    section.mark(key)
    workbench.settle()
    # bench.md section 8: by the change alone 187.76 mV is foretold; against 228 z -6.17, against 187.76 z 0.04
    said = section.worked_out.text()
    assert "228\u00a0mV foretells 187.8\u00a0mV, 188\u00a0mV was read" in said
    assert "\nz " in said  # a symbol keeps its letter
    assert "against 187.8\u00a0mV: no difference shown" in said
    section.strike_marked()
    section.open.reason.set_text("other player")
    workbench.save()
    assert section.worked_out.text() == ""


def test_a_turned_trimmer_that_stays_takes_the_reading_before_it_along(workbench: Any) -> None:
    bench = workbench.bench
    bench.read("radial_drive", "228")
    entry = TrialEntry(change="laser_set", words="Laser power set", reference="VR2")
    key = record_trial(bench.book, bench.tobbe, bench.job, entry).value
    bench.later(minutes=5)
    bench.read("radial_drive", "188", Moment.DURING, trial_id=key, trial_side="after")
    page = workbench.job()
    page.body.trials.mark(key)
    page.body.trials._modify()
    form = page.body.modifications.open
    assert (form.kind.value(), form.circuit.value()) == (Kind.TRIMMER, Circuit.LASER_SUPPLY)
    assert (form.where.text(), form.read_before.isChecked()) == ("VR2", True)
    form.where.set_text("VR3")
    form.keep_draft()
    form.leave()
    page.body.trials._modify()
    assert page.body.modifications.open.where.text() == "VR3"  # a draft is not written over


def test_a_part_of_another_type_is_named_as_the_trial_named_it(workbench: Any) -> None:
    bench = workbench.bench
    entry = TrialEntry(change="foam", words="Clamp felt of 1.5 mm")
    key = record_trial(bench.book, bench.tobbe, bench.job, entry).value
    page = workbench.job()
    page.body.trials.mark(key)
    page.body.trials._modify()
    form = page.body.modifications.open
    assert (form.kind.value(), form.now_field.text()) == (Kind.OTHER_TYPE, "Clamp felt of 1.5 mm")


def test_a_reason_that_was_typed_stays_in_sight_when_another_change_wants_none(workbench: Any) -> None:
    workbench.bench.climb(10)
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_T, shift=True)
    form = page.body.trials.open
    form.change.set_text("coil current raised (resistor)")
    workbench.settle()
    workbench.type_into(form.order, "promised for Friday")
    workbench.type_into(form.change, "lens cleaned")
    workbench.settle()
    assert not form.first.isVisible()
    assert form.order.isVisible()
    form.leave()
    workbench.ctrl(Qt.Key.Key_T, shift=True)
    again = page.body.trials.open
    assert (again.order.isVisible(), again.order.text()) == (True, "promised for Friday")
