"""The start-up ladder on the sheet."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from PySide6.QtCore import Qt

from app.trade.bench.kinds import HowSeen, Warmth
from app.trade.bench.stages import Moment
from app.work.office.shop_lists import save_transport_type, transport_types


def test_a_player_not_tested_yet_says_how_to_begin(workbench: Any) -> None:
    page = workbench.job()
    assert page.body.standing.sentence.text() == "How far does it start up?"
    assert page.body.ladder.test_button.text() == "Record the first test"
    assert not page.body.ladder.all_button.isVisible()


def test_a_test_is_recorded_by_keys_and_the_sheet_says_where_it_stands(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_T)
    form = page.body.ladder.open
    workbench.type("10")  # the first letters of a rung choose it
    assert form.rung.value() == 10
    assert page.body.ladder.ladder.facts.stopped == 11  # the ladder follows while it is chosen
    workbench.press(Qt.Key.Key_Return)
    workbench.press(Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    workbench.enter("3")
    workbench.enter("3")
    form.warmth.set_value(Warmth.WARM)
    form.disc.set_text("reference disc R2")
    form.error.set_text("E 04")
    form.room.set_text("21.5")
    form.minutes.set_text("30")
    workbench.save()
    (climb,) = workbench.sheet.start_ups
    assert (climb.rung, climb.tries, climb.stopped_in, climb.moment) == (10, 3, 3, Moment.ARRIVAL)
    assert (climb.warmth, climb.disc, climb.error_shown, climb.warm_minutes) == (
        Warmth.WARM,
        "reference disc R2",
        "E 04",
        30,
    )
    assert page.body.standing.sentence.text() == "It plays, but stalls on a long seek."
    assert "arm bearing" in page.body.standing.more.text()
    assert page.body.ladder.conditions.text() == (
        "Warm after 30 min, room 21.5\N{NO-BREAK SPACE}°C, normal use, reference disc R2, "
        "stopped in 3 of 3 tries, error shown: E 04."
    )
    assert page.body.ladder.ladder.accessibleDescription() == "It plays, but stalls on a long seek."


def test_the_last_test_stands_beside_the_first_one_alike(workbench: Any) -> None:
    workbench.bench.climb(10, tries=5, stopped_in=4, warmth=Warmth.COLD)
    workbench.bench.climb(12, tries=5, stopped_in=0, warmth=Warmth.WARM)
    page = workbench.job()
    assert not page.body.ladder.since.isVisible()  # cold and warm are not alike
    workbench.bench.climb(12, tries=5, stopped_in=0, warmth=Warmth.COLD)
    page.reload()
    workbench.settle()
    assert page.body.ladder.since.isVisible()
    assert page.body.ladder.since.text() == (  # bench.md section 2: 4 of 5 to 0 of 5 is 1 in 42
        "Since test 1: Rung 10 to 12 of 12. It stopped in 4 of 5 tries before, in 0 of 5 after (p 0.0238)."
    )


def test_what_cannot_be_is_told_at_its_field(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_T)
    form = page.body.ladder.open
    workbench.save()
    assert form.wrong.text() == "Choose the highest rung that was reached."
    form.rung.set_value(10)
    form.tries.set_text("3")
    form.stopped.set_text("1")
    workbench.save()
    assert form.stopped.error().startswith("More than half of the tries went past rung 11")
    form.stopped.set_text("three")
    workbench.save()
    assert form.stopped.error() == "Type a whole number."
    form.stopped.set_text("3")
    form.room.set_text("warm")
    workbench.save()
    assert form.room.error().startswith("Type a number")
    assert workbench.sheet.start_ups == ()


def test_leaving_the_form_puts_the_ladder_back_and_keeps_what_was_typed(workbench: Any) -> None:
    workbench.bench.climb(4)
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_T)
    page.body.ladder.open.rung.set_value(9)
    page.body.ladder.open.error.set_text("E 07")
    workbench.press(Qt.Key.Key_Escape)
    assert page.body.ladder.open is None
    assert page.body.ladder.ladder.facts.reached == 4
    workbench.ctrl(Qt.Key.Key_T)
    assert page.body.ladder.open.error.text() == "E 07"
    workbench.click(page.body.ladder.open.empty_button)
    workbench.ctrl(Qt.Key.Key_T)
    assert page.body.ladder.open.error.text() == ""


def test_all_tests_stand_in_a_table_and_one_can_be_struck_out(workbench: Any) -> None:
    workbench.bench.climb(4, seen=HowSeen.TEST_MODE)
    workbench.bench.climb(10)
    page = workbench.job()
    ladder = page.body.ladder
    workbench.click(ladder.all_button)
    assert ladder.table.isVisible()
    ladder.table.setFocus()
    ladder.table.mark_first()
    assert ladder.marked_test.text() == (
        "Between, test mode, stopped in 1 of 1 tries, arrival, by Tobbe Ruskamp."
    )
    workbench.ctrl(Qt.Key.Key_Delete)
    workbench.type("wrong job")
    workbench.save()
    first, second = workbench.sheet.start_ups
    assert first.struck is not None
    assert second.struck is None
    ladder.table.setFocus()
    ladder.table.mark(first.id)
    workbench.ctrl(Qt.Key.Key_Z, shift=True)
    assert workbench.sheet.start_ups[0].struck is None
    workbench.click(ladder.all_button)
    assert not ladder.table.isVisible()


def test_a_test_after_a_trial_belongs_to_it(workbench: Any) -> None:
    from app.work.bench.trials import TrialEntry, record_trial

    workbench.bench.climb(10)
    book, who, job = workbench.bench.book, workbench.bench.tobbe, workbench.bench.job
    trial = record_trial(book, who, job, TrialEntry(change="clean_lens", words="Lens cleaned")).value
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_T)
    form = page.body.ladder.open
    assert form.side.value() == "after"
    assert form.moment.value() == Moment.DURING
    form.rung.set_value(12)
    workbench.save()
    assert workbench.sheet.start_ups[-1].moment is Moment.DURING
    assert workbench.sheet.trials[0].rung_after == 12
    assert workbench.sheet.trials[0].id == trial


def test_on_a_narrow_sheet_the_ladder_lies_down(workbench: Any) -> None:
    workbench.bench.climb(10)
    workbench.window.resize(1024, 700)
    page = workbench.job()
    ladder = page.body.ladder
    assert ladder.ladder.lying
    assert ladder.test_link.isVisible()
    assert not ladder.test_button.isVisible()
    workbench.window.resize(1366, 768)
    workbench.settle()
    assert not ladder.ladder.lying
    assert ladder.test_button.isVisible()


def test_a_marked_rung_says_what_parts_its_suspects_with_what_and_with_what_care(workbench: Any) -> None:
    workbench.bench.climb(10)
    page = workbench.job()
    ladder, rung = page.body.ladder.ladder, page.body.ladder.rung
    assert not rung.isVisible()
    ladder.setFocus()
    workbench.press(Qt.Key.Key_Up)  # begins where it stopped
    workbench.settle()
    assert ladder.mark == 11
    assert ladder.accessibleDescription().endswith("11 long seek: stopped here")
    assert "Suspect when it stops here, by the ladder alone: arm bearing" in rung.words
    assert " (both ways)" in rung.words
    for _ in range(3):
        workbench.press(Qt.Key.Key_Down)
    workbench.settle()
    assert rung.head.text() == "8 radial lock"
    assert "Reaching it proves, to that extent: radial error" in rung.words
    assert "With what: oscilloscope" in rung.words
    assert "Caution: loop open only as the service data say" in rung.words
    workbench.press(Qt.Key.Key_Escape)
    assert not rung.isVisible()
    assert ladder.mark == 0


def test_a_rung_that_cannot_be_tested_is_said_drawn_and_not_offered(workbench: Any) -> None:
    bench = workbench.bench
    kind = next(line for line in transport_types(bench.book) if line.id == bench.type)
    save_transport_type(bench.book, bench.shop.ine, replace(kind, not_testable=(8,)))
    bench.climb(7)
    page = workbench.job()
    section = page.body.ladder
    assert section.unseen.text() == "Not testable on this type: 8 radial lock."
    assert section.ladder.facts.unseen == {8}
    assert page.body.standing.sentence.text().startswith("It stops before radial lock or before lead-in read")
    workbench.ctrl(Qt.Key.Key_T)
    offered = section.open.rung
    texts = [offered.itemText(n) for n in range(offered.count())]
    assert "9 lead-in read" in texts
    assert not [text for text in texts if text.startswith("8 ")]
    section.ladder.set_mark(8)
    workbench.settle()
    assert section.rung.words.startswith("On this type: it cannot be tested")
