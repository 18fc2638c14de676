"""The effect sheets beside a modification while it is typed. Worked numbers: common practice, no source."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt

from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Moment
from app.work.bench.trials import TrialEntry, record_trial


def sheet_of(workbench: Any, kind: Kind, circuit: Circuit, law: Law | None = None, **typed: str) -> Any:
    """The form with these fields typed."""
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_M)
    form = page.body.modifications.open
    form.kind.set_value(kind)
    form.circuit.set_value(circuit)
    if law is not None:
        form.law.set_value(law)
    for name, text in typed.items():
        field = getattr(form, name, None) or getattr(form.figures, name)
        field.set_text(text)
    form.changed()
    workbench.settle()
    return form


def test_more_coil_current_tells_of_the_driver_and_what_to_read(workbench: Any) -> None:
    form = sheet_of(
        workbench,
        Kind.REPLACED,
        Circuit.RADIAL_COIL,
        Law.CURRENT,
        maker="6.8",
        new="5.6",
        current="80",
        coil="14",
        supply="8",
        wanted="1.25",
    )
    said = form.effect.besides.text()
    assert form.effect.besides.isVisible()
    assert "27\u00a0Ω" in said  # the nearest value of IEC 60063
    assert "592\u00a0mW instead of 507\u00a0mW" in said
    form.figures.wanted.set_text("more")
    form.figures.supply.set_text("?")
    form.changed()
    assert form.effect.besides.text() == ""


def test_where_neither_law_holds_it_says_why(workbench: Any) -> None:
    form = sheet_of(
        workbench, Kind.REPLACED, Circuit.RADIAL_COIL, Law.NEITHER, maker="6.8", new="4.68", coil="14"
    )
    assert "a voltage drives" in form.effect.besides.text()
    form.circuit.set_value(Circuit.SERVO_GAIN)
    form.figures.to_ground.set_text("10k")
    form.changed()
    assert "non-inverting" in form.effect.besides.text()
    form.law.set_value(Law.GAIN)
    form.changed()
    assert "overshoot" in form.effect.besides.text()
    form.new.set_text("")
    form.changed()
    assert form.effect.besides.text() == ""
    form.maker.set_text("")
    form.changed()
    assert form.effect.besides.text() == ""


def test_a_moved_rail_tells_of_its_regulator_and_the_capacitors(workbench: Any) -> None:
    form = sheet_of(
        workbench, Kind.SUPPLY, Circuit.SUPPLY_RAIL, maker="9.0", new="10.2", output="5", load="220"
    )
    assert "1144\u00a0mW instead of 880\u00a0mW" in form.effect.besides.text()
    assert "capacitor" in form.effect.besides.text()


def test_a_shim_and_a_spring_are_worked_out(workbench: Any) -> None:
    form = sheet_of(workbench, Kind.MECHANICAL, Circuit.MECHANICS, thickness="0.3")
    assert form.effect.besides.text() == ""
    form.figures.distance.set_text("42")
    form.figures.rate.set_text("0.80")
    form.figures.travel.set_text("2.5")
    form.changed()
    assert "Tilts by" in form.effect.besides.text()
    assert "×1.12" in form.effect.besides.text()


def test_another_type_has_no_formula(workbench: Any) -> None:
    form = sheet_of(workbench, Kind.OTHER_TYPE, Circuit.OTHER, now_field="a diode of another type")
    assert "No formula" in form.effect.besides.text()


def test_a_trimmer_is_told_by_the_readings_of_its_trial(workbench: Any) -> None:
    bench = workbench.bench
    trial = record_trial(
        bench.book, bench.tobbe, bench.job, TrialEntry(change="laser_set", words="laser power set")
    ).value
    for side, typed in (("before", "48.6"), ("after", "54.3")):
        bench.read("laser_current", typed, Moment.DURING, trial_id=trial, trial_side=side)
    bench.read("seek_time", "1.2", Moment.DURING, trial_id=trial, trial_side="after")
    form = sheet_of(workbench, Kind.TRIMMER, Circuit.LASER_SUPPLY)
    assert form.effect.besides.text().startswith("No law holds for a trimmer")
    form.begin(next(tile for tile in workbench.sheet.trials if tile.id == trial))
    assert (
        "48.6\u00a0mA to 54.3\u00a0mA: Reading ×1.117 ± 0.033: a real change." in form.effect.besides.text()
    )


def test_a_resistor_in_series_takes_its_share_of_the_voltage(workbench: Any) -> None:
    # 80 mA through 6.8 ohm keep 0.544 V over 6.8 + 1.5 ohm: 65.5 mA, 6.44 mW in the 1.5 ohm, 5.2 % of 125 mW.
    form = sheet_of(
        workbench,
        Kind.SERIES,
        Circuit.RADIAL_COIL,
        Law.CURRENT,
        maker="6.8",
        new="1.5",
        current="80",
        rating="0.125",
    )
    assert form.load_note.text() == "It takes 5.2\u00a0% of its rating."


def test_firmware_asks_for_versions_and_has_no_formula(workbench: Any) -> None:
    form = sheet_of(workbench, Kind.FIRMWARE, Circuit.OTHER, was="1.02", now_field="1.10", where="IC401")
    assert form.now_field.edit.placeholderText() == "version it runs now"
    assert "which readings stand in" in form.effect.besides.text()
    form.save()
    workbench.settle()
    (modification,) = workbench.sheet.modifications
    assert (modification.kind, modification.way_back.key) == (
        Kind.FIRMWARE,
        "Load version {was} into {where} again.",
    )
    form = sheet_of(workbench, Kind.SUPPLY, Circuit.SUPPLY_RAIL, maker="9", new="10,2", lowest="10")
    assert "fit others first" in form.effect.besides.text()


def test_a_trimmer_turned_outside_a_trial_keeps_what_was_read_before_and_after(workbench: Any) -> None:
    form = sheet_of(workbench, Kind.TRIMMER, Circuit.LASER_SUPPLY, where="RV1")
    trimmer = form.figures.trimmer
    assert "without a reading before" in form.effect.flags.lines()[0].flag.sentence
    trimmer.before.set_text("48.6")
    trimmer.after.set_text("?")
    form.changed()
    assert form.effect.flags.lines() == ()
    assert "Reading" not in form.effect.besides.text()
    trimmer.after.set_text("54.3")
    form.now_field.set_text("two marks on")
    form.changed()
    assert "Reading ×1.117 ± 0.033: a real change." in form.effect.besides.text()
    assert "Of the label" in form.effect.besides.text()
    trimmer.quantity.set_value("rail_dc")
    form.changed()
    assert "Of the label" not in form.effect.besides.text()
    trimmer.quantity.set_value("laser_current")
    form.save()
    workbench.settle()
    (kept,) = workbench.sheet.modifications
    assert (kept.was, kept.now) == ("48.6\u00a0mA", "two marks on; 54.3\u00a0mA")
    assert "trimmer_blind" not in {flag.rule for flag in workbench.sheet.flags}


def test_a_part_of_another_type_is_set_against_its_rating_where_that_is_known(workbench: Any) -> None:
    form = sheet_of(
        workbench, Kind.OTHER_TYPE, Circuit.SIGNAL, where="C12", was="47 µF 25 V", now_field="100 µF 16 V"
    )
    assert "over its rating" not in form.effect.besides.text()
    form.figures.on_it.set_text("17")
    form.figures.rated.set_text("16")
    form.changed()
    assert "over its rating (106\u00a0%)" in form.effect.besides.text()
