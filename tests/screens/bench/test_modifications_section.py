"""Modifications on the sheet: entered with their numbers, agreed, assessed, put back, struck out."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.screens.bench.modification_card import follows
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Moment
from app.work.bench.modifications import ModificationEntry, record_modification
from app.work.bench.trials import TrialEntry, record_trial


def record(workbench: Any, **more: Any) -> int:
    entry = ModificationEntry(
        kind=more.pop("kind", Kind.REPLACED),
        circuit=more.pop("circuit", Circuit.RADIAL_COIL),
        where=more.pop("where", "R314"),
        law=more.pop("law", Law.CURRENT),
        maker_value=more.pop("maker_value", Decimal("6.8")),
        new_value=more.pop("new_value", Decimal("5.6")),
        **more,
    )
    bench = workbench.bench
    return int(record_modification(bench.book, bench.tobbe, bench.job, entry).value.id)


def test_a_modification_is_put_back_and_its_flag_goes(workbench: Any) -> None:
    record(workbench)
    page = workbench.job()
    card = page.body.modifications.cards[0]
    assert "the current goes as 1 / R314" in card.head.accessibleName()
    card.asked.emit("reverse", card.line.id)
    workbench.settle()
    form = page.body.modifications.open
    form.tried.setChecked(True)
    workbench.type_into(form.note, "customer said no")
    workbench.save()
    assert workbench.sheet.modifications[0].reversed_at is not None
    assert page.facts.flags == ()
    assert not page.body.modifications.cards[0].is_open  # put back: folded


def test_a_found_modification_is_assessed(workbench: Any) -> None:
    record(workbench, ours=False)
    page = workbench.job()
    assert "earlier change" in [line.flag.word for line in page.head.flags.lines()]
    modifications = page.body.modifications
    modifications.cards[0].asked.emit("assess", modifications.cards[0].line.id)
    workbench.settle()
    workbench.save()
    assert modifications.open.does.error() != ""
    workbench.type("raises the coil current, stays with the customer's yes")
    workbench.save()
    assert workbench.sheet.modifications[0].assessed.startswith("raises the coil current")


def test_a_modification_is_struck_out_and_taken_back(workbench: Any) -> None:
    key = record(workbench)
    page = workbench.job()
    page.body.modifications.cards[0].asked.emit("strike", key)
    workbench.settle()
    workbench.type("entered twice")
    workbench.save()
    assert workbench.sheet.modifications[0].struck is not None
    page.body.modifications.cards[0].asked.emit("undo", key)
    workbench.settle()
    assert workbench.sheet.modifications[0].struck is None


def test_the_label_of_a_modification_is_issued_and_shown(workbench: Any) -> None:
    key = record(workbench)
    page = workbench.job()
    page.body.modifications.cards[0].asked.emit("label", key)
    workbench.settle()
    assert [paper.kind for paper in workbench.papers] == ["modified label"]


def test_the_customer_s_yes_is_written_down_from_the_card(workbench: Any) -> None:
    key = record(workbench)
    page = workbench.job()
    page.body.modifications.cards[0].asked.emit("agree", key)
    workbench.settle()
    form = page.body.said.open
    assert form.modification.value() == key
    workbench.save()
    assert workbench.sheet.modifications[0].agreed != ""
    assert "1 line" in page.body.said.head.accessibleName()


def test_every_kind_of_change_shows_the_fields_it_needs(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_M)
    form = page.body.modifications.open
    form.kind.set_value(Kind.FUSE)
    workbench.settle()
    assert form.circuit.value() is Circuit.FUSE  # a fuse is at home in its own circuit
    assert form.was.isVisible()
    assert not form.maker.isVisible()
    form.kind.set_value(Kind.TRIMMER)
    assert form.read_before.isVisible()
    form.kind.set_value(Kind.SUPPLY)
    form.where.set_text("+9 V")
    form.maker.set_text("9.0")
    form.new.set_text("10.2")
    assert form.new.echo() == "read as 10.2\u00a0V"
    workbench.save()
    assert workbench.sheet.modifications[0].value_after == Decimal("10.2")


def test_a_bypassed_interlock_is_foreseen_as_a_stop(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_M)
    form = page.body.modifications.open
    form.kind.set_value(Kind.INTERLOCK)
    form.ours.set_value("found")
    form.where.set_text("lid switch")
    workbench.type_into(form.now_field, "bridged")
    assert "stop" in [line.flag.level for line in form.effect.flags.lines()]
    workbench.save()
    assert page.head.hand_button.blocked
    assert page.head.hand_button.words().startswith("Hand back: interlock")


def test_power_in_an_added_part_is_worked_out_from_the_current(workbench: Any) -> None:
    # bench.md section 8: 80 mA, 15 ohm across 6.8 ohm: 19.729 mW of 125 mW (common practice, no source).
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_M)
    form = page.body.modifications.open
    form.kind.set_value(Kind.PARALLEL)
    form.circuit.set_value(Circuit.RADIAL_COIL)
    form.law.set_value(Law.CURRENT)
    for field, text in (
        (form.where, "R314"),
        (form.maker, "6R8"),
        (form.maker_tolerance, "5"),
        (form.new, "15"),
        (form.new_tolerance, "1"),
        (form.rating, "125m"),
        (form.current, "80"),
        (form.coil, "14"),
    ):
        field.set_text(text)
    assert form.load_note.text() == "It takes 15.8\u00a0% of its rating."
    shown = {row.key: [c.plain for c in row.cells] for _, row in form.effect.table.rows_model().known()}
    assert shown["current"][:4] == ["coil current", "100 %", "145.3 %", "×1.453"]
    assert shown["heat"][:4] == ["coil heat (power)", "89.6 mW", "189 mW", "×2.112"]
    assert "worst case" in form.effect.spread.text()
    form.rating.set_text("lots")
    workbench.save()
    assert form.rating.error() != ""


def test_only_what_the_law_has_a_use_for_is_asked_and_nothing_typed_is_lost(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_M)
    form = page.body.modifications.open
    form.kind.set_value(Kind.PARALLEL)
    form.circuit.set_value(Circuit.RADIAL_COIL)
    assert (form.coil.isVisible(), form.rating.isVisible()) == (False, False)  # no law said yet
    form.law.set_value(Law.CURRENT)
    assert (form.coil.isVisible(), form.rating.isVisible()) == (True, True)
    form.rating.set_text("125m")
    form.coil.set_text("14")
    form.law.set_value(Law.NEITHER)
    assert (form.coil.isVisible(), form.rating.isVisible()) == (True, False)
    assert (form.entry(strict=True).rating, form.entry(strict=True).coil_resistance) == (None, Decimal(14))
    form.law.set_value(Law.GAIN)
    assert (form.coil.isVisible(), form.rating.isVisible()) == (False, False)
    form.law.set_value(Law.CURRENT)
    assert (form.rating.text(), form.entry(strict=True).rating) == ("125m", Decimal("0.125"))
    form.circuit.set_value(Circuit.LASER_SUPPLY)
    assert not form.rating.isVisible()


def test_two_changes_of_one_circuit_are_told_together(workbench: Any) -> None:
    record(workbench)
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_M)
    form = page.body.modifications.open
    form.kind.set_value(Kind.PARALLEL)
    form.circuit.set_value(Circuit.RADIAL_COIL)
    form.law.set_value(Law.CURRENT)
    form.where.set_text("R9")
    form.maker.set_text("100")
    form.new.set_text("1k")
    assert "in all" in form.effect.law.text()


def test_final_readings_that_a_raised_coil_current_asks_for_are_ticked(workbench: Any) -> None:
    record(workbench)
    workbench.bench.read("driver_temp", "48", Moment.FINAL)
    page = workbench.job()
    from app.screens.bench.modification_card import _finals

    gates = _finals(page.facts, page.facts.modifications[0])
    assert [(gate.word, gate.done, gate.detail) for gate in gates] == [
        ("driver temperature", True, "48 °C"),
        ("coil resistance cold", False, ""),
        ("coil resistance after 30 min", False, ""),
        ("dropout passed", False, ""),
    ]
    page.follow(("gate", "final_missing"))
    workbench.settle()
    form = page.body.readings.open
    assert form.moment.value() is Moment.FINAL
    assert form.quantity.text() == "radial coil resistance"
    assert form.warm.text() == ""
    workbench.press(Qt.Key.Key_Down)
    assert form.warm.text() == "30"
    QTest.keyClicks(form.value.edit, "15.2")
    workbench.press(Qt.Key.Key_Return)
    assert workbench.sheet.readings[-1].warm_minutes == 30


def test_what_the_drive_does_by_the_change_alone_is_told(workbench: Any) -> None:
    # bench.md section 8: 228 mV before, k 1.214286: 187.8 mV foretold (common practice, no source).
    bench = workbench.bench
    bench.read("radial_drive", "228")
    bench.later(minutes=5)
    raised = TrialEntry(change="coil_current", words="Coil current raised")
    trial = record_trial(bench.book, bench.tobbe, bench.job, raised).value
    record(workbench, trial_id=trial)
    bench.later(minutes=5)
    bench.read("radial_drive", "188", Moment.DURING, trial_id=trial, trial_side="after")
    page = workbench.job()
    words = follows(page.facts.readings, page.facts.modifications[0])
    assert "228\u00a0mV foretells 187.8\u00a0mV, 188\u00a0mV was read" in words
    trials = page.body.trials
    trials.mark(trial)
    assert words in trials.about.text()  # apart from what the trial is judged by
