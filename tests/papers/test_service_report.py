"""The service report: what customers show their friends."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from app.papers.facts import Clause, Flag, FlagLevel, Player
from app.papers.report_ratios import log_place
from app.papers.report_readings import limit_text, readings_table
from app.papers.safety import safety_pair
from app.papers.service_report_facts import Climb, LadderFacts, RatioRow
from app.trade.sentence import Sentence
from tests.papers.conftest import pdf_of
from tests.papers.reading import collisions, letters, plain, texts, whole
from tests.papers.story import ENGLISH
from tests.papers.story_report import REPORT


def ordinary() -> Any:
    """The same job without modification and photos."""
    return replace(REPORT, modifications=(), ratios=(), photos=())


def test_an_ordinary_job_takes_two_pages(press: Any) -> None:
    assert len(texts(press(ordinary()))) == 2


def test_a_box_of_safety_notes_gives_way_to_the_one_with_more_to_read() -> None:
    few, many = REPORT.cautions_user[:1], REPORT.cautions_technician
    even = safety_pair(many, many, 165, ENGLISH)
    uneven = safety_pair(few, many, 165, ENGLISH)
    assert even.user is not None
    assert uneven.user is not None
    assert even.user.width == 70.0
    assert uneven.user.width < 70.0
    assert len(uneven.user.title.lines) == 1
    assert safety_pair((), many, 165, ENGLISH).user is None


def test_names_too_long_for_the_strip_stand_one_below_the_other_and_in_one_line_later(press: Any) -> None:
    name = "Ägidius Maximilian Grundstücksverkehrsgenehmigungszuständigkeit " * 4
    player = replace(REPORT.player, name=name, serial="SN-0123456789012345678901234567890123456")
    pdf = press(replace(REPORT, customer_name=name, player=player))
    for number, text in enumerate(texts(pdf)):
        assert collisions(pdf, number) == []
        assert (plain(name) in text) == (number == 0)


def test_the_story_is_told_from_complaint_to_guarantee() -> None:
    text = whole(pdf_of("report"))
    order = [
        "Complaint, in the customer’s words", "“Plays nicely", "Start-up ladder", "Known.", "Readings Quantity",
        "Instruments", "What was tried, one change at a time", "Parts", "Modification: this player differs",
        "To undo it.", "How large the change is", "Photos", "R314 after the change",
        "Electrical safety test after repair", "Shop’s verdict: passed,", "Guarantee", "For you, who use it",
        "For the next technician",
    ]  # fmt: skip
    places = [text.index(words) for words in order]
    assert places == sorted(places)


def test_every_page_says_which_report_of_which_player_it_is() -> None:
    pages = texts(pdf_of("report"))
    for number, page in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in page
        assert "Service report" in page
        assert "job 2131" in page
        assert "0420 158" in page


def test_readings_stand_with_limit_and_verdict_and_what_could_not_be_read_says_so() -> None:
    text = texts(pdf_of("report"))[0]
    for row in (
        "laser current, mA 51.2 ±0.3 51.3 ±0.3 ≤ 57.6 within",
        "0.80–1.40", "−50…50", "too close to call (outside)", "not readable 19 ±0.8", "> 100", "seek 0.48 s",
    ):  # fmt: skip
        assert row in plain(text)


def test_a_dash_between_limits_is_never_read_as_a_minus() -> None:
    assert limit_text(Decimal(-50), Decimal(50), ENGLISH) == "−50…50"
    assert limit_text(Decimal("0.5"), None, ENGLISH) == "≥\u00a00.5"
    assert limit_text(None, None, ENGLISH) == ""


def test_the_table_stays_within_its_width_with_long_names_and_numbers() -> None:
    long = replace(
        REPORT.readings[0], name="W" * 40, low=Decimal("12345.678"), high=Decimal("99999.999"),
        verdict=Sentence("too close to call"), was="outside " * 5,
    )  # fmt: skip
    head, rows = readings_table((*REPORT.readings, long), 165.0, ENGLISH)
    for row in rows:
        assert all(across + block.width <= 165.01 for across, block in row.row.cells)  # type: ignore[attr-defined]
    assert all(across + block.width <= 165.01 for across, block in head.cells)


def test_without_start_ups_the_finding_stands_by_itself(press: Any) -> None:
    text = whole(press(replace(REPORT, ladder=None)))
    assert "What was found" in text
    assert "Start-up ladder" not in text


def test_one_climb_alone_is_drawn_alone(press: Any) -> None:
    ladder = REPORT.ladder
    assert ladder is not None
    arrival = whole(press(replace(REPORT, ladder=replace(ladder, final=None))))
    assert "On arrival 24 Nov" in arrival
    final = whole(press(replace(REPORT, ladder=replace(ladder, arrival=None))))
    assert "On arrival 24 Nov" not in final


def test_a_long_name_of_a_rung_keeps_to_its_line(press: Any) -> None:
    ladder = LadderFacts(("spindle" * 12,) * 12, Climb(3, REPORT.day), None)
    assert "Readings" in whole(press(replace(REPORT, ladder=ladder)))


def test_nearly_nothing_makes_a_report_too(press: Any) -> None:
    bare = replace(
        REPORT, player=Player("Unknown"), complaint=" ", bench="", ladder=None, finding=(), readings=(),
        struck=REPORT.struck, reading_notes=(), instruments="", captures="", trials=(), trials_fine_print=(),
        parts=(), modifications=(), ratios=(), photos=(), safety=None, cautions_user=(),
        cautions_technician=(), guarantee="",
    )  # fmt: skip
    (page,) = texts(press(bare))
    assert "Nothing was noted." in page
    assert "not readable" in page
    assert "Struck out: seek 0.48 s" in page
    assert "Electrical safety test" not in page
    missing = replace(bare, struck=(), safety_missing="Not done. Opened 3 Nov and not tested since.")
    assert "Not done. Opened 3 Nov" in whole(press(missing))


def test_an_open_stop_stands_at_the_top(press: Any) -> None:
    stop = Flag(FlagLevel.STOP, "The fuse is bridged.")
    page = texts(press(replace(REPORT, flags=(stop,), complaint_words=(Sentence("skips"),))))[0]
    assert page.index("Noted at the counter: skips") < page.index("Stop. The fuse is bridged.")
    assert page.index("Stop. The fuse is bridged.") < page.index("Start-up ladder")


def test_several_modifications_are_counted(press: Any) -> None:
    text = whole(press(replace(REPORT, modifications=REPORT.modifications * 2)))
    assert "Modification 1 of 2" in text
    assert "Modification 2 of 2" in text


def test_trials_without_readings_need_no_columns_for_them(press: Any) -> None:
    trials = tuple(replace(trial, readings=()) for trial in REPORT.trials)
    assert "measured before" not in whole(press(replace(REPORT, trials=trials, safety=None)))


def test_a_hundred_trials_repeat_their_head_on_every_page(press: Any) -> None:
    trials = tuple(replace(REPORT.trials[at % 3], number=at) for at in range(1, 101))
    pages = texts(press(replace(ordinary(), trials=trials)))
    of_trials = [page for page in pages if "Flex led anew" in page]
    assert len(of_trials) > 2
    assert all("What was changed measured before after" in page for page in of_trials)


def test_parts_with_long_words_stand_in_one_column(press: Any) -> None:
    parts = tuple(replace(part, what=str(part.what) * 4) for part in REPORT.parts)
    assert "given back" in whole(press(replace(REPORT, parts=parts)))


@pytest.mark.parametrize(("ratio", "at"), [("0.5", 0.0), ("1", 0.5), ("2", 1.0), ("1.41421356", 0.75)])
def test_the_rule_of_ratios_is_logarithmic_from_half_to_double(ratio: str, at: float) -> None:
    assert log_place(Decimal(ratio)) == pytest.approx(at, abs=1e-6)


def test_ratios_beyond_the_rule_and_lines_close_together_are_drawn(press: Any) -> None:
    rows = (
        RatioRow("a", Decimal(5), Decimal("1.10"), Decimal("1.12")), RatioRow("b", Decimal("0.2"))
    )  # fmt: skip
    text = whole(press(replace(REPORT, ratios=rows)))
    assert "caution × 1.10" in text
    assert "owner × 1.12" in text


def test_a_long_finding_goes_below_the_ladder_without_being_cut(press: Any) -> None:
    finding = (Clause("Known.", "word " * 400 + "end."),)
    assert "end." in whole(press(replace(REPORT, finding=finding)))


def test_nothing_is_printed_outside_the_margins() -> None:
    for number in range(len(texts(pdf_of("report")))):
        found = letters(pdf_of("report"), number)
        assert min(letter.left for letter in found) > 24.5
        assert max(letter.right for letter in found) < 190.6
