"""The heading of the job sheet: facts, gates, flags, and the button that names what holds it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from PySide6.QtCore import Qt

from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Stage, Waiting
from app.work.bench.modifications import ModificationEntry, record_modification


def raise_current(bench: Any, new: str = "4.7", kind: Kind = Kind.PARALLEL) -> None:
    """4.7 ohm across 3.3 ohm: over 50 %, so that the owner acknowledges it."""
    entry = ModificationEntry(
        kind=kind,
        circuit=Circuit.RADIAL_COIL,
        where="R314",
        law=Law.CURRENT,
        maker_value=Decimal("3.3"),
        new_value=Decimal(new),
    )
    record_modification(bench.book, bench.tobbe, bench.job, entry)


def test_number_player_and_facts_stand_in_the_heading(workbench: Any) -> None:
    head = workbench.job().head
    assert head.head.accessibleName().endswith("Quellmar Larch 2, serial 0420 158")
    assert head.customer.text() == "Benedikt Arnsvik"
    assert head.transport.text() == "Velk A1, 55 871"
    assert head.stage.accessibleName() == "Stage: on the bench"
    assert head.said.text() == "“Hangs when I jump to the last songs.”"


def test_links_lead_to_customer_and_transport(workbench: Any) -> None:
    head = workbench.job().head
    workbench.click(head.customer)
    assert workbench.page.key == workbench.bench.customer
    workbench.window.trail.back()
    workbench.click(workbench.page.head.transport)
    assert workbench.page.transport_id == workbench.bench.transport


def test_the_blocked_button_names_what_is_to_do_and_leads_there(workbench: Any) -> None:
    workbench.bench.read("seek_time", "4.8")
    workbench.bench.read("focus_offset", "12")
    page = workbench.job()
    button = page.head.hand_button
    assert button.words() == "Hand back: safety test, final readings to do"
    workbench.click(button)
    assert page.body.safety.open_kind == "safety test"


def test_a_free_button_opens_the_page_of_handing_back(workbench: Any) -> None:
    workbench.bench.climb(12)
    page = workbench.job()
    form = page.body.findings.open_form("findings")
    workbench.settle()
    form.finals.set_text("nothing was opened")
    workbench.save()
    assert not page.head.hand_button.blocked
    assert page.head.ready_button.isVisible()
    workbench.ctrl(Qt.Key.Key_R, shift=True)
    assert page.facts.stage is Stage.READY
    workbench.ctrl(Qt.Key.Key_H)
    assert workbench.page.key == workbench.bench.job


def test_what_holds_a_job_that_asks_to_be_ready_is_told_at_the_top(workbench: Any) -> None:
    workbench.bench.read("focus_offset", "12")
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R, shift=True)
    assert page.trouble.words.startswith("This job cannot be ready yet.")
    assert "close it, then test" in page.trouble.words


def test_the_owner_acknowledges_a_caution_with_pin_and_reason(workbench: Any) -> None:
    raise_current(workbench.bench)
    page = workbench.job()
    (line,) = page.head.flags.lines()
    assert line.flag.word == "coil current high"
    assert line.flag.action == "Acknowledge…"
    workbench.click(line._link)
    form = page.head.open
    assert [form.signature.person.itemText(i) for i in range(form.signature.person.count())] == [
        "Ine Varloes"
    ]
    workbench.save()
    assert form.reason.error().startswith("Give the reason")
    workbench.type("measured warm, 48 °C".replace("°", "deg"))
    workbench.type_into(form.signature.pin, workbench.pin("tobbe"))
    workbench.save()
    assert form.signature.pin.error().startswith("That is not the PIN of Ine Varloes.")
    workbench.type(workbench.pin("ine"))
    workbench.save()
    assert page.head.open is None
    (line,) = page.head.flags.lines()
    assert line.flag.action == ""
    assert "Acknowledged by Ine Varloes." in line.flag.whole


def test_the_gate_of_the_owner_leads_to_the_same_form(workbench: Any) -> None:
    raise_current(workbench.bench)
    page = workbench.job()
    page.follow(("gate", "owner_sees"))
    workbench.settle()
    assert page.head.open is not None
    workbench.press(Qt.Key.Key_Escape)
    assert page.head.open is None
    page.follow(("gate", "not_agreed"))
    workbench.settle()
    assert page.body.said.open_kind == "agreement"
    for gate, kind in (("told", "invoice"), ("disc_inside", "hand_back")):
        page.follow(("gate", gate))
        workbench.settle()
        assert workbench.page.key == workbench.bench.job, kind
        workbench.window.trail.back()


def test_a_flag_is_cleared_with_a_reason(workbench: Any) -> None:
    raise_current(workbench.bench, "33")
    raise_current(workbench.bench, "47")
    page = workbench.job()
    stacked = next(line for line in page.head.flags.lines() if line.flag.word == "changes stacked")
    workbench.click(stacked._link)
    form = page.head.open
    assert form.save_button.text() == "Clear it"
    workbench.type("both are needed, see trial 4")
    form.signature.person.set_value(workbench.bench.tobbe)
    workbench.type_into(form.signature.pin, workbench.pin("tobbe"))
    workbench.save()
    assert "changes stacked" not in [line.flag.word for line in page.head.flags.lines()]


def test_more_than_three_flags_fold_and_open(workbench: Any) -> None:
    from app.trade.bench.flag import Closing, Level, Subject
    from app.trade.sentence import Sentence
    from app.work.bench.sheet_lines import FlagLineFact

    page = workbench.job()
    flags = tuple(
        FlagLineFact(
            i, "coil_hot", Level.CAUTION, Subject.JOB, Sentence(f"flag {i}"), Sentence("it says so."),
            Sentence("Nothing."), Closing.FACTS, None, False, "",
        )
        for i in range(6)
    )  # fmt: skip
    from dataclasses import replace

    page.head.show_sheet(replace(page.facts, flags=flags))
    shown = [line for line in page.head.flags.lines() if line.isVisible()]
    assert len(shown) == 3


def test_stage_waiting_and_promise_are_changed_under_the_facts(workbench: Any) -> None:
    page = workbench.job()
    workbench.click(page.head.stage)
    form = page.head.open
    form.stage.set_value(Stage.RUNNING_IN)
    form.waiting.set_value(Waiting.PART)
    workbench.type_into(form.day.edit, "+8")
    workbench.press(Qt.Key.Key_Return)
    form.time.set_text("17:00")
    workbench.save()
    sheet = workbench.sheet
    assert (sheet.stage, sheet.waiting) == (Stage.RUNNING_IN, Waiting.PART)
    assert (sheet.promised_on, sheet.promised_time) == (date(2026, 3, 20), "17:00")
    assert page.head.stage.accessibleName() == "Stage: running in waiting for part"


def test_a_day_that_is_none_is_told_at_its_field(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_G)
    form = page.head.open
    form.day.set_text("someday")
    workbench.save()
    assert form.day.error().startswith("No day can be read")
    assert workbench.sheet.promised_on is None


def test_a_player_taken_in_is_put_on_the_bench(workbench: Any) -> None:
    from app.work.counter.stages import set_stage

    bench = workbench.bench
    set_stage(bench.book, bench.tobbe, bench.job, Stage.TAKEN_IN)
    page = workbench.job()
    assert page.head.bench_button.isVisible()
    workbench.click(page.head.bench_button)
    assert page.facts.stage is Stage.ON_THE_BENCH
    assert not page.head.bench_button.isVisible()


def test_ctrl_p_issues_the_bench_tag_and_shows_it(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_P)
    assert [paper.kind for paper in workbench.papers] == ["bench tag"]
    assert "Bench tag" in page.body.papers.head.accessibleName()


def test_while_the_sheet_scrolls_the_heading_folds_and_nothing_jumps(workbench: Any) -> None:
    workbench.bench.climb(10)
    raise_current(workbench.bench, "33")
    for value in ("51.2", "50.8", "52.0", "51.4", "51.9"):
        workbench.bench.read("laser_current", value)
    page = workbench.job()
    bar = page.scroller.verticalScrollBar()

    def top() -> int:
        return page.body.trials.mapTo(page, page.body.trials.rect().topLeft()).y()

    bar.setValue(0)
    workbench.settle()
    assert not page.head.compact
    start, scrolled = top(), page.head.won_by_folding() + 30
    bar.setValue(scrolled)
    workbench.settle()
    assert page.head.compact
    assert page.head.standing.isVisible()
    assert abs(top() - (start - scrolled)) <= 1
    bar.setValue(0)
    workbench.settle()
    assert not page.head.compact
    assert page.head.gates.isVisible()


def test_on_a_narrow_sheet_flags_fold_to_one_line(workbench: Any) -> None:
    raise_current(workbench.bench)
    workbench.window.resize(1024, 700)
    page = workbench.job()
    assert page.head.folded_flags.isVisible()
    assert not page.head.flags.isVisible()


def test_a_closed_job_only_shows(workbench: Any) -> None:
    workbench.bench.close()
    page = workbench.job()
    for button in (
        page.head.tag_button,
        page.head.ready_button,
        page.head.bench_button,
        page.head.hand_button,
    ):
        assert not button.isVisible()
    assert not page.head.gates.isVisible()
    assert set(page.commands()) == {
        "leave", "save", "add_message", "ticket", "receipt", "invoice", "history", "print", "estimate", "service_report",
    }  # fmt: skip
    page.commands()["receipt"]()
    workbench.settle()
    assert [paper.kind for paper in workbench.papers] == ["hand-back receipt"]


def test_on_a_low_page_what_is_to_do_stands_in_one_line_and_flags_stay(workbench: Any) -> None:
    workbench.bench.read("focus_offset", "12")
    raise_current(workbench.bench, "4.7")
    workbench.window.resize(1366, 768)
    page = workbench.job()
    head = page.head
    assert head.gates.isVisible()
    assert not head.standing.isVisible()
    workbench.window.set_text_size(200)
    workbench.settle()
    assert not head.gates.isVisible()
    assert not head.said_line.isVisible()
    assert head.standing.isVisible()
    assert head.folded_flags.isVisible()
    assert head.height() >= head.layout().heightForWidth(head.width())
    workbench.window.set_text_size(100)
    workbench.settle()
    assert head.gates.isVisible()


def test_on_a_low_page_forms_of_the_heading_open_above_the_sheet(workbench: Any) -> None:
    workbench.window.resize(1366, 768)
    page = workbench.job()
    workbench.window.set_text_size(200)
    workbench.settle()
    page.change_stage()
    workbench.settle()
    form = page.head.open
    assert page.scroller.widget().isAncestorOf(form)
    assert form.height() >= form.layout().heightForWidth(form.width())
    form.leave()
    workbench.settle()
    assert page.head.open is None
    assert not form.isVisible()


def test_the_estimate_is_named_with_its_answer_and_leads_to_its_page(workbench: Any) -> None:
    from app.trade.money import Money
    from app.work.bench.sheet_estimate import SheetEstimate, Standing

    page = workbench.job()
    head, sheet = page.head, workbench.sheet
    assert not head.estimate.isVisible()
    for estimate, said in (
        (SheetEstimate(Standing.WRITTEN), "being written"),
        (SheetEstimate(Standing.WAITS, "0412"), "0412 waits for the answer"),
        (SheetEstimate(Standing.WAITS, "0412", unanswered=9), "0412: no answer for 9 days"),
        (SheetEstimate(Standing.DECLINED, "0412"), "0412 declined"),
        (SheetEstimate(Standing.LEFT, "0412"), "0412, never answered"),
        (
            SheetEstimate(Standing.AGREED, "0412", up_to=Money(5950, "EUR")),
            "0412: agreed, up to 59.50\u00a0EUR",
        ),
        (
            SheetEstimate(Standing.AGREED, "0412", letter="B", title="x" * 200, up_to=Money(5950, "EUR")),
            f"0412: B, {'x' * 31}…, up to 59.50\u00a0EUR",
        ),
    ):
        head.show_sheet(replace(sheet, estimate=estimate))
        assert head.estimate.text() == said
        assert head.estimate.isVisible()
    opened: list[Any] = []
    page.desk.open = lambda *where: opened.append(where)
    workbench.click(head.estimate)
    assert opened == [("estimate", workbench.bench.job)]
