"""The service report of a job: gathered from the book, named on it what stays inside, filed as it was issued."""

from __future__ import annotations

import io
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from app.book.tables import Paper
from app.trade.bench.kinds import HowSeen, Warmth
from app.trade.bench.modifications import Circuit, Law
from app.trade.bench.safety_limits import PROPOSED
from app.trade.bench.safety_test import Step
from app.trade.bench.stages import CaseStep, CauseFound, Left, Moment, TrialOutcome
from app.trade.counter.hand_back import LeftKind
from app.trade.money import MICRO
from app.trade.refusal import Refusal
from app.trade.settings import HOURLY_RATE
from app.trade.settings.bench import SAFETY_STANDARD
from app.work.bench.files import attach_file
from app.work.bench.findings import Findings, record_findings
from app.work.bench.safety_tests import SafetyEntry, record_safety_test
from app.work.bench.strike_out import strike_out
from app.work.bench.trials import TrialEntry, judge_trial, record_trial
from app.work.bench.work_done import note_case, put_part_back, record_labour, use_part
from app.work.counter.things_left import give_thing_back, note_thing
from app.work.office.invoices import issue_invoice
from app.work.office.parts import PartEntry, save_part
from app.work.office.settings import change_settings
from app.work.office.stock import receive_part
from app.work.papers.issuing import file_paper, paper_pdf
from app.work.papers.service_report import issue_service_report, preview_service_report
from tests.papers.reading import texts, whole
from tests.work.papers.test_modification_block_on_invoice import OURS, agree, modify


def previewed(bench: Any, *photos: int) -> str:
    """The words of the report as it would be."""
    return whole(preview_service_report(bench.book, bench.job, photos))


def tried(bench: Any, words: str, outcome: TrialOutcome, left: Left = Left.LEFT_SO, **more: Any) -> int:
    trial = int(record_trial(bench.book, bench.tobbe, bench.job, TrialEntry(change="", words=words)).value)
    for quantity, typed, side in more.get("readings", ()):
        bench.read(quantity, typed, Moment.DURING, trial_id=trial, trial_side=side, instrument_id=bench.meter)
    judge_trial(bench.book, bench.tobbe, trial, outcome, left=left)
    bench.later(minutes=2)
    return trial


def picture(path: Path, size: tuple[int, int] = (2400, 1600)) -> Path:
    """A photo on the disk."""
    from PIL import Image

    out = io.BytesIO()
    Image.linear_gradient("L").resize(size).save(out, "JPEG")
    path.write_bytes(out.getvalue())
    return path


def test_a_job_with_nothing_on_it_makes_a_report_that_claims_nothing(bench: Any) -> None:
    text = previewed(bench)
    assert "“Hangs when I jump to the last songs.”" in text
    assert "No start-up was recorded on arrival. Not known. Cause not established." in text
    for absent in ("Readings Quantity", "What was tried", "Instruments", "Guarantee", "passed", "Done."):
        assert absent not in text


def test_ladder_readings_and_trials_are_told_before_and_after(bench: Any) -> None:
    bench.climb(10, tries=3, stopped_in=3)
    bench.read("seek_time", "4.8", detail="first to last track", instrument_id=bench.meter)
    bench.later(minutes=2)
    tried(bench, "flex led anew", TrialOutcome.NO_DIFFERENCE,
          readings=(("seek_time", "4.8", "before"), ("seek_time", "4.7", "after")))  # fmt: skip
    tried(bench, "arm cleaned", TrialOutcome.CURED)
    bench.climb(12, Moment.FINAL, tries=5, stopped_in=0, disc="R2", warmth=Warmth.WARM)
    bench.read("seek_time", "1.2", Moment.FINAL, detail="first to last track")
    bench.read("c1_outer", "19", Moment.FINAL, seconds=60)
    text = previewed(bench)
    for words in (
        "On arrival: It plays, but stalls on a long seek.", "stopped in 3 of 3", "to the end in 5 of 5",
        "2 changes were tried, one at a time. No difference: flex led anew. The fault was gone with: arm cleaned.",
        "warm, normal use, R2", "not readable", "The ladder stopped at rung 11, before they could be read.",
        "1 flex led anew", "4.8 4.7", "no difference; left so", "cured; left so",
        "Limits: ", "bench meter (due 1 Sep", "bench: Tobbe Ruskamp",
    ):  # fmt: skip
        assert words in text
    assert "within (outside)" in text


def test_only_normal_use_counts_as_before_and_after(bench: Any) -> None:
    bench.climb(12, seen=HowSeen.TEST_MODE, stopped_in=0)
    assert "Start-up ladder" not in previewed(bench)
    bench.climb(4)
    text = previewed(bench)
    assert "On arrival 12 Mar" in text
    assert "Final 12 Mar" not in text
    assert "between" not in text.split("Known.")[0]


def test_a_disc_is_named_with_how_the_climb_was_seen(bench: Any) -> None:
    bench.climb(4, disc="reference disc R2")
    assert "normal use, reference disc R2" in previewed(bench)


def test_readings_alone_on_arrival_or_out_of_reach_of_nobody_are_told(bench: Any) -> None:
    bench.read("laser_current", "51.2")
    bench.read("c1_outer", "19", Moment.FINAL, seconds=60)
    text = previewed(bench)
    assert "not readable" not in text  # no climb says that it was out of reach
    assert "Laser current, mA" in text
    bench.read("home_time", "0.4")
    assert "0.4" in previewed(bench)  # there is no limit, so there is no verdict


def test_a_final_reading_too_close_to_call_says_its_chance_and_what_it_was(bench: Any) -> None:
    bench.read("arm_start_current", "30.4")
    bench.read("arm_start_current", "30.1", Moment.FINAL)
    text = previewed(bench)
    assert "too close to call (same)" in text
    assert "Chance of being within, final: arm start current" in text


def test_a_struck_out_reading_stays_legible_with_reason_and_person(bench: Any) -> None:
    reading = bench.read("seek_time", "0.48")
    strike_out(bench.book, bench.tobbe, "reading", reading.id, "decimal mark in the wrong place")
    bench.later(minutes=1)
    open_circuit = bench.read("focus_coil_r", "open")
    strike_out(bench.book, bench.tobbe, "reading", open_circuit.id, "clip fell off")
    bound = bench.read("insulation", "> 100")
    strike_out(bench.book, bench.tobbe, "reading", bound.id, "wrong range")
    text = previewed(bench)
    assert (
        "seek time, first to last track 0.48 s “decimal mark in the wrong place”, Tobbe Ruskamp, 12 Mar 2026"
        in text
    )
    assert "focus coil resistance open “clip fell off”" in text
    assert "> 100 MΩ “wrong range”" in text


def test_a_report_that_names_what_stays_inside_opens_the_gate_once_it_is_filed(bench: Any) -> None:
    agree(bench, modify(bench, OURS))
    bench.read("radial_drive", "188", Moment.FINAL)
    assert not bench.gate("told").done
    paper = issue_service_report(bench.book, bench.tobbe, bench.job).value
    assert not bench.gate("told").done
    file_paper(bench.book, paper)
    assert bench.gate("told").done
    shown = paper_pdf(bench.book, paper)
    text = whole(shown.pdf)
    assert shown.title == "Service report 1001"
    for words in (
        "What. R314 (radial coil drive): 5.6 Ω in place of the maker's 6.8 Ω.", "To undo it. Fit 6.8 Ω at R314",
        "Current in the radial coil", "caution × 1.1", "owner × 1.5", "× 1.474", "By the change alone:",
        "Caution. Current in the radial coil", "Modified.",
    ):  # fmt: skip
        assert words in text


def test_a_change_of_gain_alone_stands_on_its_own_rule_and_one_without_law_on_none(bench: Any) -> None:

    modify(bench, replace(OURS, circuit=Circuit.SERVO_GAIN, law=Law.GAIN, where="R20"))
    modify(bench, replace(OURS, circuit=Circuit.OTHER, law=Law.NEITHER, where="R9"))
    text = previewed(bench)
    assert "Loop gain in" in text
    assert text.count("R9") >= 1


def test_the_facts_are_frozen_when_it_is_issued(bench: Any) -> None:
    paper = issue_service_report(bench.book, bench.tobbe, bench.job).value
    before = paper_pdf(bench.book, paper).pdf
    bench.climb(10)
    assert paper_pdf(bench.book, paper).pdf == before
    assert "draft" not in whole(before)
    assert all("draft" in page for page in texts(preview_service_report(bench.book, bench.job)))


def test_chosen_photos_are_printed_in_their_order_no_larger_than_needed(bench: Any, tmp_path: Path) -> None:
    first, second = (
        attach_file(bench.book, bench.tobbe, bench.job, picture(tmp_path / f"{name}.jpg"), note=name).value
        for name in ("the board", "the label")
    )
    paper = issue_service_report(bench.book, bench.tobbe, bench.job, (second, first)).value
    text = whole(paper_pdf(bench.book, paper).pdf)
    assert text.index("the label") < text.index("the board")
    with bench.book.ask() as session:
        photos = session.get_one(Paper, paper).facts["photos"]
    assert all(len(photo["picture"]) < 200_000 for photo in photos)


def test_what_cannot_be_printed_as_a_photo_is_refused(bench: Any, tmp_path: Path) -> None:
    trace = tmp_path / "trace.csv"
    trace.write_text("t,v\n0,1\n", encoding="utf-8")
    file = attach_file(bench.book, bench.tobbe, bench.job, trace, note="HF eye on arrival").value
    with pytest.raises(Refusal, match=r"no picture"):
        preview_service_report(bench.book, bench.job, (file,))
    with pytest.raises(Refusal, match="not with this job"):
        preview_service_report(bench.book, bench.job, (999,))
    with pytest.raises(Refusal, match="room for"):
        preview_service_report(bench.book, bench.job, tuple(range(9)))
    assert "HF eye on arrival. Copies on request." in previewed(bench)


def test_a_cause_that_was_found_and_the_reason_for_an_order_are_told(bench: Any) -> None:
    entry = TrialEntry(change="", words="coil current raised", order_reason="wanted back this week")
    record_trial(bench.book, bench.tobbe, bench.job, entry)
    version = bench.sheet.version
    findings = Findings(cause=CauseFound.DIRT, cause_note="film on the lens")
    record_findings(bench.book, bench.tobbe, bench.job, findings, version=version)
    text = previewed(bench)
    assert "Cause. Dirt or film: film on the lens." in text
    assert "reason: “wanted back this week” (Tobbe Ruskamp)." in text
    assert "not judged" in text


def test_old_parts_are_told_with_where_they_are(bench: Any) -> None:
    part = note_thing(bench.book, bench.tobbe, bench.job, LeftKind.OLD_PART, "R314, 6.8 Ω").value
    assert "Old part: R314, 6.8 Ω kept for you" in previewed(bench)
    give_thing_back(bench.book, bench.tobbe, part)
    note_thing(bench.book, bench.tobbe, bench.job, LeftKind.THING, "remote control")
    text = previewed(bench)
    assert "Old part: R314, 6.8 Ω given back" in text
    assert "remote control" not in text


def test_a_safety_test_is_told_step_by_step_and_a_missing_one_as_missing(bench: Any) -> None:
    note_case(bench.book, bench.tobbe, bench.job, CaseStep.OPENED)
    assert "Electrical safety test after repair Not done. The case is open since" in previewed(bench)
    bench.later(minutes=5)
    bench.make_safe()
    text = previewed(bench)
    for words in (
        "EN 50678:2020 · class II", "in order", "more than 100 MΩ",
        "Verdict: passed,", "by Sanna Wickerel.", "Case closed 12 Mar 2026",
        "the rules in force where the player is used decide.",
    ):  # fmt: skip
        assert words in text


def test_the_guarantee_is_the_one_that_the_invoice_promised(bench: Any) -> None:
    assert "Guarantee" not in previewed(bench)
    change_settings(bench.book, bench.shop.ine, {HOURLY_RATE: 60 * MICRO})
    record_labour(bench.book, bench.tobbe, bench.job, "Start-up", Decimal(1))
    issue_invoice(bench.book, bench.shop.ine, bench.job)
    text = previewed(bench)
    assert "Guarantee as on the invoice" in text
    assert "Done. No change was tried." in text


def test_parts_that_stay_are_counted_and_those_put_back_are_not_in_it(bench: Any) -> None:
    for code, words, unit in (
        ("B-112", "loading belt", "H87"),
        ("S-1", "cleaning bath", "HUR"),
        ("F-1", "fuse", "H87"),
    ):
        entry = PartEntry(code=code, words=words, unit=unit, price=3_500_000)
        part = save_part(bench.book, bench.shop.ine, entry).value
        receive_part(bench.book, bench.shop.ine, part, Decimal(10))
        used = use_part(bench.book, bench.tobbe, bench.job, part, Decimal(2)).value
        if code == "F-1":
            put_part_back(bench.book, bench.tobbe, used.id)
    text = previewed(bench)
    assert "2 × loading belt fitted" in text
    assert "2 h cleaning bath fitted" in text
    assert "fuse fitted" not in text


def test_a_safety_test_says_what_was_not_done_and_what_failed(bench: Any) -> None:
    limits = replace(PROPOSED, standard="EN 50678", edition="2020")
    change_settings(bench.book, bench.shop.ine, {SAFETY_STANDARD: limits})
    entry = SafetyEntry(
        typed=((Step.INSULATION, "0.5"),), in_order=((Step.VISUAL, False),), note="cord 1.5 m",
        instrument_id=bench.meter,
    )  # fmt: skip
    record_safety_test(bench.book, bench.shop.sanna, bench.shop.pin("sanna"), bench.job, entry)
    text = previewed(bench)
    for words in (
        "not in order no", "0.5 MΩ at least 2.0 MΩ no outside low", "not done", "Verdict: failed,",
        "Measured with bench meter.", "Cord and remarks: cord 1.5 m",
    ):  # fmt: skip
        assert words in text
    assert "Case closed" not in text


def test_a_report_on_an_earlier_job_says_that_the_player_was_here_again(bench: Any) -> None:
    note_case(bench.book, bench.tobbe, bench.job, CaseStep.OPENED)
    bench.make_safe()
    first = bench.job
    assert "Since then." not in previewed(bench)
    bench.close()
    bench.come_again(40)
    note_case(bench.book, bench.tobbe, bench.job, CaseStep.OPENED)
    bench.later(minutes=5)
    note_case(bench.book, bench.tobbe, bench.job, CaseStep.CLOSED)
    text = whole(preview_service_report(bench.book, first))
    assert "Since then. The player was here again as job 1002." in text
    assert "Case closed 12 Mar 2026" in text
