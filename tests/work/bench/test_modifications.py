"""Modifications through the book: flagged with their numbers, agreed, named, reversed."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Outcome, Way
from app.trade.refusal import FieldRefusal, Held, Refusal
from app.trade.wording import plain
from app.work.bench.modifications import (
    ModificationEntry,
    assess_modification,
    effect_of,
    record_modification,
    reverse_modification,
)
from app.work.bench.strike_out import strike_out
from app.work.bench.transports import take_out
from app.work.bench.trials import TrialEntry, record_trial
from app.work.counter.messages import AgreementEntry, AgreementKind, add_agreement


def raised(**more: Any) -> ModificationEntry:
    values: dict[str, Any] = {
        "kind": Kind.REPLACED,
        "circuit": Circuit.RADIAL_COIL,
        "law": Law.CURRENT,
        "where": "R314",
        "maker_value": Decimal("6.8"),
        "new_value": Decimal("5.6"),
        "maker_tolerance": Decimal(5),
        "new_tolerance": Decimal(5),
    }
    return ModificationEntry(**{**values, **more})


def modify(bench: Any, entry: ModificationEntry | None = None) -> int:
    return record_modification(bench.book, bench.tobbe, bench.job, entry or raised()).value.id


def test_raised_coil_current_is_flagged_with_its_numbers(bench: Any) -> None:
    # bench.md section 8, 6.8 to 5.6 ohm: k 1.214286, +1.6864 dB, heat 1.474490 (common practice, no source)
    modify(bench)
    flag = next(flag for flag in bench.sheet.flags if flag.rule == "coil_up")
    said = plain(bench.book.zone)(flag.sentence)
    assert "1.214" in said
    assert "+1.69 dB" in said.replace("\u00a0", " ")
    assert "1.474" in said
    line = bench.sheet.modifications[0]
    assert line.ratio is not None
    assert line.ratio.quantize(Decimal("0.000001")) == Decimal("1.214286")


def test_the_checks_of_the_issue_are_worked_out_live() -> None:
    # 4.7 ohm across a current-setting 3.3 ohm: common practice, no source
    effect = effect_of(raised(kind=Kind.PARALLEL, maker_value=Decimal("3.3"), new_value=Decimal("4.7")))
    assert effect is not None
    assert effect.effect is not None
    assert effect.effect.heat is not None
    assert effect.now == Decimal("1.93875")
    assert effect.effect.ratio.quantize(Decimal("0.0001")) == Decimal("1.7021")
    assert effect.effect.heat.quantize(Decimal("0.0001")) == Decimal("2.8972")


@pytest.mark.parametrize(
    "entry",
    [
        raised(kind=Kind.TRIMMER, law=Law.NEITHER),
        raised(maker_value=None),
        raised(new_value=None),
        raised(new_value=Decimal(0)),
        raised(maker_value=Decimal(-1)),
    ],
)
def test_without_its_numbers_no_effect_is_shown(entry: ModificationEntry) -> None:
    assert effect_of(entry) is None


def test_a_change_without_the_customers_yes_is_held_until_the_yes(bench: Any) -> None:
    number = modify(bench)
    assert not bench.gate("not_agreed").done
    add_agreement(
        bench.book,
        bench.shop.mirr,
        bench.job,
        AgreementEntry(
            kind=AgreementKind.MODIFICATION,
            yes=True,
            what="R314 5.6 for 6.8 ohm, can be undone",
            modification_id=number,
            way=Way.TELEPHONE,
            said_by="Benedikt Arnsvik",
        ),
    )
    assert bench.gate("not_agreed").done
    assert bench.sheet.modifications[0].agreed


def test_a_recorded_no_is_no_yes(bench: Any) -> None:
    number = modify(bench)
    add_agreement(
        bench.book,
        bench.shop.mirr,
        bench.job,
        AgreementEntry(
            kind=AgreementKind.MODIFICATION,
            yes=False,
            what="R314 5.6 for 6.8 ohm",
            modification_id=number,
            way=Way.TELEPHONE,
            said_by="Benedikt Arnsvik",
        ),
    )
    assert not bench.gate("not_agreed").done


def test_a_held_job_is_not_handed_back(bench: Any) -> None:
    modify(bench)
    with pytest.raises(Held) as held:
        bench.close(Outcome.MENDED_MODIFIED)
    assert held.value.reasons


def test_reversal_takes_the_flag_away_and_stays_in_the_record(bench: Any) -> None:
    number = modify(bench)
    bench.later(minutes=10)
    reverse_modification(bench.book, bench.tobbe, number, bench.job)
    assert "coil_up" not in bench.rules()
    line = bench.sheet.modifications[0]
    assert (line.reversed_in, line.reversed_at is not None) == (bench.sheet.number, True)
    with pytest.raises(Refusal):
        reverse_modification(bench.book, bench.tobbe, number, bench.job)


def test_a_wrong_fuse_stops_at_once_and_is_put_right_with_its_cause(bench: Any) -> None:
    number = modify(
        bench,
        raised(
            kind=Kind.FUSE,
            circuit=Circuit.FUSE,
            law=Law.NEITHER,
            where="F1",
            maker_value=None,
            new_value=None,
            was="T 400 mA",
            now="foil",
            ours=False,
        ),
    )
    assert "fuse" in bench.rules()
    assert bench.sheet.flags[0].rule == "fuse"
    with pytest.raises(FieldRefusal):
        reverse_modification(bench.book, bench.tobbe, number, bench.job)
    reverse_modification(bench.book, bench.tobbe, number, bench.job, note="shorted diode D3")
    assert "fuse" not in bench.rules()


def test_a_found_change_is_assessed_and_then_needs_no_yes(bench: Any) -> None:
    number = modify(bench, raised(ours=False))
    assert "unknown_mod" in bench.rules()
    with pytest.raises(FieldRefusal):
        assess_modification(bench.book, bench.tobbe, number, " ")
    assess_modification(bench.book, bench.tobbe, number, "stays at the customer's wish")
    assert "unknown_mod" not in bench.rules()
    gate = bench.gate("not_agreed")
    assert gate is None or gate.done
    assert bench.sheet.modifications[0].assessed == "stays at the customer's wish"


def test_only_found_changes_are_assessed(bench: Any) -> None:
    with pytest.raises(Refusal):
        assess_modification(bench.book, bench.tobbe, modify(bench), "ours")


def test_it_belongs_to_the_transport_where_that_was_said(bench: Any) -> None:
    modify(bench, raised(in_transport=True))
    assert bench.sheet.modifications[0].in_transport
    take_out(bench.book, bench.tobbe, bench.job)
    # entered in this job, so it stays in its record; but it is not in this player any more
    assert "coil_up" not in bench.rules()
    with pytest.raises(FieldRefusal):
        modify(bench, raised(in_transport=True))


def test_another_players_change_cannot_be_reversed_here(bench: Any) -> None:
    from app.trade.counter.taking_in import Intake
    from app.work.counter.taking_in import receive_unit

    number = modify(bench)
    other = receive_unit(
        bench.book,
        bench.shop.mirr,
        Intake(
            name="Odile Varenne",
            maker="Ostrind",
            model="Osier 7",
            serial="20 1184",
            fault="Tray opens by itself.",
        ),
    ).value
    with pytest.raises(Refusal):
        reverse_modification(bench.book, bench.tobbe, number, other.job_id)

    # nor can a trial of the other job have put it back
    trial = record_trial(
        bench.book, bench.tobbe, other.job_id, TrialEntry(change="", words="R314 back")
    ).value
    with pytest.raises(Refusal):
        reverse_modification(bench.book, bench.tobbe, number, bench.job, trial_id=trial)


@pytest.mark.parametrize(
    ("field", "entry"),
    [
        ("where", raised(where=" ")),
        ("new_value", raised(new_value=Decimal("6.8"))),
        ("law", raised(circuit=Circuit.LASER_SUPPLY)),
    ],
)
def test_what_cannot_be_right_is_said_at_its_field(bench: Any, field: str, entry: ModificationEntry) -> None:
    with pytest.raises(FieldRefusal) as refused:
        modify(bench, entry)
    assert field in refused.value.fields


def test_entering_one_opens_the_case(bench: Any) -> None:
    done = record_modification(bench.book, bench.tobbe, bench.job, raised()).value
    assert done.assumed is not None
    assert bench.sheet.case_open


def test_a_struck_out_one_counts_no_more(bench: Any) -> None:
    number = modify(bench)
    strike_out(bench.book, bench.tobbe, "modification", number, "entered on the wrong job")
    assert "coil_up" not in bench.rules()
    assert bench.sheet.modifications[0].struck is not None


def test_a_changed_rail_is_kept_in_volt(bench: Any) -> None:
    modify(
        bench,
        raised(
            kind=Kind.SUPPLY,
            circuit=Circuit.SUPPLY_RAIL,
            law=Law.NEITHER,
            where="+9 V",
            maker_value=Decimal("9.0"),
            new_value=Decimal("10.2"),
        ),
    )
    line = bench.sheet.modifications[0]
    assert (line.unit, line.ratio, line.effect) == ("V", None, None)
    assert "supply_changed" in bench.rules()
