"""What is told beside a reading: its earlier values, and what follows from it besides its own verdict."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.book.bench.catalogue import quantities
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Moment
from app.trade.bench.verdict import VerdictWord
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Measure
from app.work.bench.earlier_values import NOTHING, earlier_values
from app.work.bench.modifications import ModificationEntry, record_modification, reverse_modification
from app.work.bench.readings import ReadingEntry, judge_reading, record_reading
from app.work.bench.strike_out import strike_out
from app.work.bench.transport_life import transport_life
from app.work.bench.transports import change_label, take_out
from app.work.bench.worked_out import share_of_label
from app.work.counter.taking_in import Intake, receive_unit
from app.work.office.shop_lists import LimitLine, save_limit


def judged(bench: Any, quantity: str, typed: str, **more: Any) -> Any:
    entry = ReadingEntry(quantity=quantity, typed=typed, moment=Moment.ARRIVAL, **more)
    return judge_reading(bench.book, bench.job, entry)


def beside(bench: Any, quantity: str, typed: str, **more: Any) -> str:
    said = judged(bench, quantity, typed, **more).besides
    return "" if said is None else said.key.format(**{k: words(v) for k, v in said.values.items()})


def words(value: Any) -> str:
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, Measure):
        return f"{value.value} {value.unit}"
    return value.key.format(**{k: words(v) for k, v in value.values.items()})


def test_the_laser_is_told_against_its_label_and_judged_by_the_usual_share(bench: Any) -> None:
    # 51.2 mA of 48.0: 106.67 %, 90 to 115 % usual; common practice, no source.
    assert beside(bench, "laser_current", "51.2") == (
        "106.7 % ± 4.4 % of the label, 48 mA; limit 90 % to 115 %: within."
    )
    assert beside(bench, "laser_current", "61").endswith(": outside.")
    assert beside(bench, "laser_current", "0") == ""


def test_a_type_may_have_a_share_of_its_own(bench: Any) -> None:
    line = LimitLine(quantity="laser_rel", transport_type_id=bench.type, high=Decimal("1.02"), source="p. 9")
    save_limit(bench.book, bench.tobbe, line)
    assert beside(bench, "laser_current", "55").endswith(": outside.")


def test_without_a_label_nothing_is_worked_out(bench: Any) -> None:
    life = transport_life(bench.book, bench.transport)
    change_label(bench.book, bench.tobbe, life.id, "55 871", None, version=life.version)
    assert beside(bench, "laser_current", "51.2") == ""
    take_out(bench.book, bench.tobbe, bench.job)
    assert beside(bench, "laser_current", "51.2") == ""


def test_a_tilt_is_told_as_an_angle_from_its_geometry(bench: Any) -> None:
    assert beside(bench, "tilt_rad", "2.8", place="L 300") == (
        "Tilt 0.267 ° ± 0.097 ° at L 300 mm; the limit is 0.286 °."
    )
    assert "without the geometry" in beside(bench, "tilt_tan", "-1.6")


def test_a_drive_is_judged_as_it_would_be_at_the_maker_s_value(bench: Any) -> None:
    # 253 mV is within 300, but 253 x 1.214286 = 307.2, U 13.2: too close to call; common practice, no source.
    assert beside(bench, "radial_drive", "253") == ""
    entry = ModificationEntry(
        kind=Kind.REPLACED,
        circuit=Circuit.RADIAL_COIL,
        where="R314",
        law=Law.CURRENT,
        maker_value=Decimal("6.8"),
        new_value=Decimal("5.6"),
        why="seeks again",
    )
    done = record_modification(bench.book, bench.tobbe, bench.job, entry)
    assert judged(bench, "radial_drive", "253").verdict.word is VerdictWord.WITHIN
    said = beside(bench, "radial_drive", "253")
    assert said.startswith("At the maker's value (change ×1.214): 307 mV ± 13 mV, too close to call.")
    bench.read("radial_drive", "253")
    bench.read("seek_time", "1.2")
    bench.shop.clock.advance(minutes=5)
    reverse_modification(bench.book, bench.tobbe, done.value.id, bench.job)
    assert beside(bench, "radial_drive", "253") == ""
    bench.read("radial_drive", "253")
    then, other, since = bench.sheet.readings
    assert (
        then.verdict is VerdictWord.WITHIN
    )  # as it was read; what it says of the maker's part stands beside
    assert words(then.as_made) == "At the maker's value (change ×1.214): 307 mV ± 13 mV, too close to call."
    assert (other.as_made, since.as_made) == (None, None)


def test_a_speed_tells_the_turns_that_the_limits_mean_at_the_radius(bench: Any) -> None:
    # 1.20 and 1.40 m/s (IEC 60908, secondary) at 25 mm: 458 and 535 turns a minute.
    assert beside(bench, "speed", "1.30", place="r 25 mm") == (
        "At this radius the limits are 458 /min to 535 /min turns."
    )
    assert beside(bench, "speed", "1.30") == ""
    save_limit(
        bench.book,
        bench.tobbe,
        LimitLine(quantity="speed", transport_type_id=bench.type, high=Decimal("1.4"), source="p. 3"),
    )
    assert beside(bench, "speed", "1.30", place="r 25 mm") == ""


def test_other_quantities_and_bounds_have_nothing_beside(bench: Any) -> None:
    assert beside(bench, "seek_time", "1.3") == ""
    assert beside(bench, "radial_coil_r", "open") == ""


def test_without_a_usual_share_the_share_is_told_alone(bench: Any) -> None:
    with bench.book.ask() as session:
        known = quantities(session)
    said = share_of_label(Decimal("0.0512"), Decimal("0.001"), Decimal("0.048"), None, known)
    assert said.key == "{share} ± {u} of the label, {label}."


def other_player(bench: Any, serial: str, value: str) -> None:
    """Another player of the same type, with one reading."""
    intake = Intake(
        name="Else",
        phone="01632 960245",
        maker="Quellmar",
        model="Larch 2",
        serial=serial,
        transport_type_id=bench.type,
        transport_serial=serial,
        fault="Skips.",
    )
    here, bench.job = bench.job, receive_unit(bench.book, bench.shop.mirr, intake).value.job_id
    bench.read("seek_time", value)
    bench.job = here


def test_the_last_value_and_the_median_of_the_type_stand_beside_the_field(bench: Any) -> None:
    assert earlier_values(bench.book, bench.job, "seek_time", "").last is None
    bench.read("seek_time", "4.8")
    struck = bench.read("seek_time", "0.48").id
    strike_out(bench.book, bench.tobbe, "reading", struck, "decimal mark in the wrong place")
    for serial, value in (("1", "1.1"), ("2", "1.3")):
        other_player(bench, serial, value)
    known = earlier_values(bench.book, bench.job, "seek_time", "")
    assert (known.last, known.last_job) == (Measure(Decimal("4.8"), "s"), bench.sheet.number)
    assert (known.median, known.count) == (None, 2), "two are too few for a median"
    bench.later(minutes=1)
    other_player(bench, "3", "1.2")
    known = earlier_values(bench.book, bench.job, "seek_time", "")
    assert (known.median, known.count, known.type) == (Measure(Decimal("1.2"), "s"), 3, "Velk A1")


def test_nothing_is_known_without_a_transport_or_of_a_quantity_that_is_none(bench: Any) -> None:
    assert earlier_values(bench.book, bench.job, "no such", "") == NOTHING
    take_out(bench.book, bench.tobbe, bench.job)
    assert earlier_values(bench.book, bench.job, "seek_time", "") == NOTHING


@pytest.mark.parametrize(
    ("quantity", "first", "again", "ends"),
    [("motor_current", "80", "98", ("64.0", "96.0")), ("radial_offset", "-20", "-30", ("-24.0", "-16.0"))],
)
def test_a_limit_may_be_a_share_of_the_same_transport_s_last_value(
    bench: Any, quantity: str, first: str, again: str, ends: tuple[str, str]
) -> None:
    line = LimitLine(
        quantity=quantity,
        transport_type_id=bench.type,
        low=Decimal("0.8"),
        high=Decimal("1.2"),
        relative_to="earlier",
        source="common practice, no source",
    )
    save_limit(bench.book, bench.tobbe, line)
    assert bench.read(quantity, first) is not None
    before = bench.sheet.readings[0]
    assert (before.low, before.high) != (Decimal(ends[0]), Decimal(ends[1])), "there was no value before"
    bench.make_safe()
    bench.close()
    bench.come_again(40)
    bench.read(quantity, again)
    line_now = bench.sheet.readings[0]
    assert (line_now.low, line_now.high) == (Decimal(ends[0]), Decimal(ends[1]))
    assert line_now.verdict is not VerdictWord.WITHIN


def test_without_a_transport_there_is_no_last_value_to_compare_with(bench: Any) -> None:
    save_limit(
        bench.book,
        bench.tobbe,
        LimitLine(
            quantity="unit_power",
            unit_maker="Quellmar",
            unit_model="Larch 2",
            high=Decimal("1.2"),
            relative_to="earlier",
            source="p. 1",
        ),
    )
    take_out(bench.book, bench.tobbe, bench.job)
    assert judged(bench, "unit_power", "12").verdict.limit.high == 25  # the usual window, in watts


def test_turns_typed_at_a_radius_are_kept_and_judged_as_a_speed(bench: Any) -> None:
    # 1.20 to 1.40 m/s: IEC 60908, from secondary texts.
    entry = ReadingEntry(quantity="speed", typed="500 rpm", moment=Moment.ARRIVAL, place="r 25 mm")
    record_reading(bench.book, bench.tobbe, bench.job, entry)
    (line,) = bench.sheet.readings
    assert (str(line.value), line.unit, line.verdict) == ("1.309", "m/s", VerdictWord.WITHIN)
    with pytest.raises(FieldRefusal) as refused:
        judged(bench, "speed", "500 rpm")
    assert set(refused.value.fields) == {"value"}


def test_a_tilt_tells_both_directions_together_once_the_other_is_read(bench: Any) -> None:
    # 3 and 4 mm at right angles are 5 mm: Euclid I.47.
    place = "on the scale, L 300 mm"
    assert "Both directions" not in beside(bench, "tilt_tan", "4", place=place)
    bench.read("tilt_rad", "3", place=place)
    assert beside(bench, "tilt_tan", "4", place=place).endswith(" Both directions together: 5.0 mm.")
    bench.read("tilt_rad", "-1", Moment.FINAL, place=place)
    assert beside(bench, "tilt_tan", "4", place=place).endswith("together: 5.0 mm.")  # of the same moment
