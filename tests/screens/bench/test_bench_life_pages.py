"""The life of a transport, the life of a player, and the list of the bench."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

from PIL import Image
from PySide6.QtCore import Qt

from app.book.tables import Unit
from app.screens.bench.life_facts import life_facts, summary_words
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Moment
from app.trade.sentence import Sentence
from app.work.bench.files import attach_file
from app.work.bench.modifications import ModificationEntry, record_modification, reverse_modification
from app.work.bench.transport_life import transport_life
from app.work.bench.transports import put_in, renew_part, take_out
from app.work.bench.work_done import use_part
from app.work.office.parts import PartEntry, save_part
from app.work.office.stock import take_from_donor
from app.work.shop_book import Changes


def live(bench: Any) -> None:
    """A year in one player, a month on the shelf, and back again."""
    bench.read("laser_current", "50.6", Moment.FINAL)
    bench.read("seek_time", "1.2", Moment.FINAL)
    bench.later(days=200)
    bench.read("laser_current", "51.4", Moment.FINAL)
    take_out(bench.book, bench.tobbe, bench.job, shelf="S3")
    bench.later(days=30)
    put_in(bench.book, bench.tobbe, bench.job, bench.transport)
    bench.later(days=1)
    bench.read("laser_current", "51.6", Moment.FINAL)


def test_a_transport_shows_every_stay_and_its_curve(workbench: Any) -> None:
    live(workbench.bench)
    page = workbench.open("transport", workbench.bench.transport)
    assert page.head.accessibleName() == "55 871 Velk A1 swing-arm single-beam"
    facts = page.line.facts
    assert [band.name for band in facts.bands] == ["Quellmar Larch 2", "", "Quellmar Larch 2"]
    assert [reading.label for reading in facts.readings] == ["50.6", "51.4", "51.6"]
    assert [reading.fitting for reading in facts.readings] == [0, 0, 1]
    assert [limit.words[0] for limit in facts.limits] == ["at most 57.6"]
    assert facts.reference == (48.0, "label 48")
    assert page.readings_table.rows_model().rowCount() == 3
    page.curve.set_value(("seek_time", ""))
    workbench.settle()
    assert page.readings_table.rows_model().rowCount() == 1
    assert page.line.facts.reference is None


def test_jobs_on_the_line_and_in_the_table_open_the_sheet(workbench: Any) -> None:
    live(workbench.bench)
    page = workbench.open("transport", workbench.bench.transport)
    page.line.setFocus()
    workbench.press(Qt.Key.Key_Right)
    workbench.press(Qt.Key.Key_Return)
    assert workbench.page.job_id == workbench.bench.job
    workbench.window.trail.back()
    page.stays_table.link_opened.emit(("unit", workbench.bench.unit))
    workbench.settle()
    assert workbench.page.unit_id == workbench.bench.unit


def test_its_changes_and_renewed_parts_stand_in_the_order_of_time(workbench: Any) -> None:
    bench = workbench.bench
    entry = ModificationEntry(
        kind=Kind.REPLACED,
        circuit=Circuit.RADIAL_COIL,
        where="R314",
        law=Law.CURRENT,
        maker_value=Decimal("6.8"),
        new_value=Decimal("5.6"),
        in_transport=True,
    )
    first = record_modification(bench.book, bench.tobbe, bench.job, entry).value.id
    bench.later(days=1)
    renew_part(bench.book, bench.tobbe, bench.job, "spindle motor")
    bench.later(days=1)
    reverse_modification(bench.book, bench.tobbe, first, bench.job)
    page = workbench.open("transport", bench.transport)
    told = [[c.plain for c in row.cells] for _, row in page.changes_table.rows_model().known()]
    assert [row[2].split(":")[0] for row in told] == ["R314 (radial coil drive)", "renewed"]
    assert told[0][4] == "14\u00a0Mar\u00a02026"


def test_its_marking_is_corrected_on_its_own_page(workbench: Any) -> None:
    page = workbench.open("transport", workbench.bench.transport)
    workbench.click(page.label_button)
    form = page.open
    form.current.set_text("soon")
    workbench.save()
    assert form.current.error() != ""
    form.marking.set_text("55 877")
    form.current.set_text("49.0")
    assert form.current.echo() == "read as 49.0\u00a0mA"
    workbench.save()
    assert page.open is None
    assert page.head.accessibleName().startswith("55 877")
    workbench.click(page.label_button)
    workbench.press(Qt.Key.Key_Escape)
    assert page.open is None
    workbench.open("bench")
    workbench.open("transport", workbench.bench.transport)
    workbench.press(Qt.Key.Key_Escape)
    assert workbench.page is not page


def test_where_a_transport_is_now_is_said_in_one_line(workbench: Any) -> None:
    bench = workbench.bench
    zone, today = bench.book.zone, bench.book.today()

    def words() -> str:
        return summary_words(transport_life(bench.book, bench.transport), today, zone)

    assert words() == "1 player, 1 job, here since Mar\u00a02026, now in Quellmar Larch 2, serial 0420 158."
    take_out(bench.book, bench.tobbe, bench.job, shelf="S3")
    assert words().endswith("now on shelf S3.")
    bench.later(days=3)
    life = transport_life(bench.book, bench.transport)
    facts = life_facts(life, None, bench.book.today(), zone)
    assert facts.bands[-1].name == ""  # on the shelf until today
    assert facts.limits == ()
    put_in(bench.book, bench.tobbe, bench.job, bench.transport)
    take_out(bench.book, bench.tobbe, bench.job)
    assert words().endswith("now in no player.")


def test_a_player_s_page_shows_its_whole_life(workbench: Any) -> None:
    bench = workbench.bench
    live(bench)
    entry = ModificationEntry(
        kind=Kind.MECHANICAL, circuit=Circuit.MECHANICS, where="clamp", now="felt 0.3 mm thicker"
    )
    record_modification(bench.book, bench.tobbe, bench.job, entry)
    former = record_modification(bench.book, bench.tobbe, bench.job, replace(entry, where="foot")).value
    reverse_modification(bench.book, bench.tobbe, former.id, bench.job)
    page = workbench.open("unit", bench.unit)
    assert page.head.accessibleName() == "Quellmar Larch 2, serial 0420 158"
    assert page.visits_table.rows_model().rowCount() == 1
    assert page.transports_table.rows_model().rowCount() == 2
    assert page.changes_table.rows_model().rowCount() == 1
    assert page.finals.isVisible()
    assert page.inside_table.rows_model().rowCount() == 1
    assert [flag.level for flag in page.life.know_first] == ["caution"]
    assert page.first_bar.isVisible()
    assert page.head._below.text().endswith("No guarantee runs.")
    page._open_inside(page.life.inside[0].id)
    workbench.settle()
    assert workbench.page.job_id == bench.job
    workbench.window.trail.back()
    page._open_change(former.id)
    workbench.settle()
    assert workbench.page.job_id == bench.job
    workbench.window.trail.back()
    page.transports_table.link_opened.emit(bench.transport)
    workbench.settle()
    assert workbench.page.transport_id == bench.transport
    workbench.window.trail.back()
    workbench.click(page.owner)
    assert workbench.page.key == bench.customer


def test_a_change_elsewhere_does_not_load_a_life_anew(workbench: Any) -> None:
    bench = workbench.bench
    unit = workbench.open("unit", bench.unit)
    seen: list[Any] = []
    unit._show = seen.append
    unit.reload(Changes(jobs=frozenset({99}), kinds=frozenset({"jobs"})))
    unit.reload(Changes(jobs=frozenset({bench.job}), kinds=frozenset({"jobs"})))
    workbench.settle()
    assert len(seen) == 1
    transport = workbench.open("transport", bench.transport)
    transport._show = seen.append
    transport.reload(Changes(transports=frozenset({99}), kinds=frozenset({"transports"})))
    transport.reload(Changes(transports=frozenset({bench.transport}), kinds=frozenset({"transports"})))
    workbench.settle()
    assert len(seen) == 2


def test_the_bench_lists_what_is_to_be_worked_on_and_enter_opens_it(workbench: Any) -> None:
    page = workbench.open("bench")
    assert page.model.rowCount() == 2  # one group, one job
    assert page.head._below.text() == "1 player."
    workbench.press(Qt.Key.Key_Return)
    assert workbench.page.job_id == workbench.bench.job


def test_the_bench_is_sorted_and_narrowed_to_what_is_on_it(workbench: Any) -> None:
    page = workbench.open("bench")
    page.table.sort_asked.emit("player", True)
    workbench.settle()
    assert page.table.sorting.key == "player"
    assert page.model.rowCount() == 1  # groups belong to the promise
    from app.work.counter.jobs_list import Show

    page.show_choice.set_value(Show.ON_THE_BENCH)
    workbench.settle()
    assert page.model.rowCount() == 1


def test_an_empty_bench_says_what_belongs_there(workbench: Any) -> None:
    workbench.bench.close()
    page = workbench.open("bench")
    assert page.empty.isVisible()
    assert not page.table.isVisible()
    assert page.head._below.text() == "No players to work on."


def test_a_late_job_is_counted_in_the_heading(workbench: Any) -> None:
    from datetime import date

    from app.work.counter.stages import promise_day

    bench = workbench.bench
    promise_day(bench.book, bench.shop.mirr, bench.job, date(2026, 3, 13))
    bench.later(days=4)
    page = workbench.open("bench")
    assert page.head._below.text() == "1 player. 1 is late."


def test_a_player_with_nothing_to_warn_of_says_so(workbench: Any) -> None:
    page = workbench.open("unit", workbench.bench.unit)
    assert not page.first_bar.isVisible()
    assert page.first.head.accessibleName() == "Know this first nothing that the book knows of"
    assert not page.inside.isVisible()


def test_a_long_life_is_foretold_and_says_why(workbench: Any) -> None:
    bench = workbench.bench
    for value in ("50.1", "51.3", "52.2", "53.4", "54.5"):
        bench.read("laser_current", value, Moment.FINAL)
        bench.later(days=300)
    bench.read("seek_time", "1.2", Moment.FINAL)
    page = workbench.open("transport", bench.transport)
    assert page.line.plot.isVisible()
    assert "crosses the limit of 57.6" in page.line.facts.sentence
    assert page.line.facts.trend != ()
    assert not page.why._body.isVisible()
    page.forecast.acted.emit("why")
    assert page.why._body.isVisible()
    page.curve.setFocus()
    workbench.press(Qt.Key.Key_Down)  # the quantity is chosen by keys
    assert page.curve.value() == ("seek_time", "")
    assert page.line.facts.sentence.endswith("1 of the 4 that a trend needs.")
    assert not page.why.isVisible()


def test_enter_on_a_change_or_a_reading_opens_its_job(workbench: Any) -> None:
    bench = workbench.bench
    bench.read("laser_current", "50.6", Moment.FINAL)
    bench.later(days=2)
    renew_part(bench.book, bench.tobbe, bench.job, "spindle motor")
    page = workbench.open("transport", bench.transport)
    page.line.setFocus()
    workbench.press(Qt.Key.Key_End)
    assert page.marked.text().replace("\u00a0", " ") == "Renewed 14 Mar 2026: spindle motor"
    workbench.press(Qt.Key.Key_Return)
    assert workbench.page.job_id == bench.job
    for table in (page.readings_table, page.changes_table):
        workbench.window.trail.back()
        workbench.settle()
        table.setFocus()
        workbench.press(Qt.Key.Key_Home)
        workbench.press(Qt.Key.Key_Return)
        assert workbench.page.job_id == bench.job


def test_the_label_of_what_is_inside_is_printed_from_the_player_s_page(workbench: Any) -> None:
    bench = workbench.bench
    page = workbench.open("unit", bench.unit)
    workbench.ctrl(Qt.Key.Key_P)
    assert "there is no label" in page.trouble.words
    entry = ModificationEntry(
        kind=Kind.MECHANICAL, circuit=Circuit.MECHANICS, where="clamp", now="felt 0.3 mm thicker"
    )
    record_modification(bench.book, bench.tobbe, bench.job, entry)
    page = workbench.open("unit", bench.unit)
    workbench.desk.announce(Changes(units=frozenset({bench.unit})))
    workbench.settle()
    workbench.desk.set_staff(None)
    page.print_label()
    assert page.trouble.words.startswith("Say first who works here")
    workbench.work_as("tobbe")
    workbench.click(page.label_link)
    (paper,) = workbench.papers
    assert paper.pdf.startswith(b"%PDF")


def test_the_newest_pictures_of_a_player_open_their_job(workbench: Any, tmp_path: Any) -> None:
    bench = workbench.bench
    for name in ("before", "after"):
        Image.new("RGB", (64, 48), (120, 90, 60)).save(tmp_path / f"{name}.png")
        attach_file(bench.book, bench.tobbe, bench.job, tmp_path / f"{name}.png", note=name)
        bench.later(days=1)
    (tmp_path / "trace.csv").write_bytes(b"t,v\n0,1\n")
    attach_file(bench.book, bench.tobbe, bench.job, tmp_path / "trace.csv")
    page = workbench.open("unit", bench.unit)
    assert [picture.note for picture in page.life.pictures] == ["after", "before"]
    assert page.pictures.isVisible()
    tile = next(iter(page.pictures_tiles.tiles.values()))
    assert tile._image is not None
    page.reload()
    workbench.settle()
    assert next(iter(page.pictures_tiles.tiles.values())) is tile  # what is shown already is left alone
    tile.setFocus()
    workbench.press(Qt.Key.Key_Return)
    assert workbench.page.job_id == bench.job


def test_the_flags_of_a_player_fold_in_a_narrow_heading_and_stay_in_sight(workbench: Any) -> None:
    bench = workbench.bench
    record_modification(
        bench.book,
        bench.tobbe,
        bench.job,
        ModificationEntry(kind=Kind.OTHER, circuit=Circuit.FUSE, where="F1", now="a bent pin", ours=False),
    )
    page = workbench.open("unit", bench.unit)
    workbench.window.resize(1366, 768)
    workbench.settle()
    assert page.flags.isVisible()
    assert not page.folded_flags.isVisible()
    workbench.window.resize(1024, 768)
    workbench.settle()
    assert page.narrow
    assert not page.flags.isVisible()
    assert page.folded_flags.isVisible()
    assert [line.isVisible() for line in page.folded_flags.lines()] == [False] * len(page.life.flags)
    workbench.window.resize(1366, 768)
    workbench.settle()
    assert page.flags.isVisible()


def test_parts_fitted_and_parts_given_stand_in_the_life_of_a_player(workbench: Any) -> None:
    bench = workbench.bench
    belt = PartEntry(code="B-22", words="Loading belt", price=3_800_000, rating="22 mm", safety_critical=True)
    part = save_part(bench.book, bench.tobbe, belt).value
    page = workbench.open("unit", bench.unit)
    assert not page.fitted.isVisible()
    assert not page.given.isVisible()
    use_part(bench.book, bench.tobbe, bench.job, part, Decimal(2), note="both")
    with bench.book.change(bench.tobbe, Sentence("kept as donor")) as change:
        change.get(Unit, bench.unit).is_donor = True
    page.reload()
    workbench.settle()
    assert page.given.isVisible()
    assert not page.given_table.isVisible()
    take_from_donor(bench.book, bench.tobbe, part, bench.unit, Decimal(1), note="as new")
    page.reload()
    workbench.settle()
    fitted, given = (
        [cell.plain for cell in next(row for _, row in table.rows_model().known()).cells]
        for table in (page.fitted_table, page.given_table)
    )
    assert fitted[1:4] == ["1001", "B-22  Loading belt 22 mm, protects people", "2 pieces"]
    assert given[1:] == [
        "into stock",
        "B-22  Loading belt 22 mm, protects people",
        "1 piece",
        "Tobbe Ruskamp",
        "as new",
    ]
    opened = []
    page.desk.open = lambda kind, key=None: opened.append((kind, key))
    page.fitted_table.opened.emit((0, part))
    page.fitted_table.link_opened.emit(("job", bench.job))
    assert opened == [("part", part), ("job", bench.job)]
