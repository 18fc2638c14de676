"""Printed lists: heads on every sheet, every row, what was asked for, and how many more there are."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.papers.facts import PaperSize
from app.papers.list_facts import ListColumn, ListFacts, ListLine
from app.papers.list_paper import WIDEST_WORD, list_paper, shares
from tests.papers import story
from tests.papers.reading import letters, picture, right_edges, sizes, texts, whole, without_spaces

DAY = date(2026, 11, 25)
LONG = "it skips on the outer tracks when it has played for twenty minutes and the room is warm, " * 4
COLUMNS = (
    ListColumn("Code"),
    ListColumn("Part"),
    ListColumn("On hand", number=True),
    ListColumn("Price", True),
)
LINES = tuple(ListLine((f"F-{n:03d}", "Loading belt", str(n), f"{n}.50\u00a0EUR")) for n in range(1, 81))
PARTS = ListFacts("Parts in stock", DAY, COLUMNS, LINES, ("former ones as well",))
JOBS = ListFacts(
    "Jobs",
    DAY,
    tuple(ListColumn(head) for head in ("Job", "Promised", "Player", "Customer", "Fault", "Stage", "Flags")),
    (
        ListLine(("Late", "caution: 2 jobs"), over=True),
        ListLine(
            ("2131", "5 days late", "Quellmar Larch 2", "Benedikt Arnsvik", LONG, "ready", "stop: fuse")
        ),
        ListLine(("2132", "today", "Kestovar Kelp 1", "Jun Okeland", "", "on the bench", "")),
    ),
)


def paper(facts: ListFacts, *, letter: bool = False, german: bool = False) -> bytes:
    sheet = replace(story.SHEET, size=PaperSize.LETTER if letter else PaperSize.A4)
    return list_paper(facts, sheet, story.LONG_WORDS if german else story.ENGLISH)


def test_every_sheet_has_the_heads_the_words_asked_for_and_its_number() -> None:
    pages = texts(paper(PARTS))
    assert len(pages) > 1
    for number, page in enumerate(pages, 1):
        for word in ("Parts in stock", "former ones as well", "Code", "On hand", "Price"):
            assert word in page
        assert f"page {number} of {len(pages)}" in page
        assert "25 Nov 2026" in page
    assert "80 rows" in pages[0]


def test_every_row_is_there_once_and_in_order() -> None:
    said = whole(paper(PARTS))
    places = [said.index(f"F-{n:03d}") for n in range(1, 81)]
    assert places == sorted(places)
    assert [said.count(f"F-{n:03d}") for n in range(1, 81)] == [1] * 80


@pytest.mark.parametrize("letter", [False, True])
def test_many_columns_lie_across_and_few_stand_upright(letter: bool) -> None:
    # A4 210 x 297 mm, Letter 215.9 x 279.4 mm.
    short, long = (215.9, 279.4) if letter else (210, 297)
    assert sizes(paper(PARTS, letter=letter))[0] == pytest.approx((short, long), abs=0.1)
    assert sizes(paper(JOBS, letter=letter))[0] == pytest.approx((long, short), abs=0.1)


@pytest.mark.parametrize("letter", [False, True])
@pytest.mark.parametrize("facts", [PARTS, JOBS])
def test_nothing_is_small_and_nothing_runs_into_the_edge(facts: ListFacts, letter: bool) -> None:
    pdf = paper(facts, letter=letter, german=True)
    for number, (width, height) in enumerate(sizes(pdf)):
        for one in letters(pdf, number):
            assert one.size >= 8.99
            assert one.left >= 5
            assert one.right <= width - 14.5
            assert one.bottom <= height - 5


def test_long_cells_wrap_and_lose_nothing() -> None:
    assert without_spaces(LONG) in without_spaces(whole(paper(JOBS)))


def test_a_serial_number_stays_on_one_line_in_a_narrow_column() -> None:
    columns = tuple(ListColumn(head) for head in ("Player", "No", "Fault"))
    serials = ["71"] * 59 + ["0420 158"]
    lines = tuple(ListLine(("Quellmar Larch 2", serial, LONG)) for serial in serials)
    pdf = paper(ListFacts("Players", DAY, columns, lines))
    last = letters(pdf, len(texts(pdf)) - 1)
    place = "".join(letter.text for letter in last).index("0420158")
    first, end = last[place], last[place + 6]
    assert end.bottom == pytest.approx(first.bottom, abs=0.5)  # mm: one line


def test_numbers_stand_with_their_marks_below_each_other() -> None:
    lines = tuple(ListLine(("x", "y", text, "")) for text in ("9.75", "12", "\u22123.5"))
    pdf = paper(replace(PARTS, lines=lines))
    mark = letters(pdf)
    points = [one.left for one in mark if one.text == "."]
    assert max(points) - min(points) < 0.1
    assert right_edges(pdf, "12") == [pytest.approx(points[0], abs=0.6)]


def test_a_group_stays_with_its_first_row() -> None:
    for above in range(30, 48):
        lines = (*LINES[:above], ListLine(("Later", "9 jobs"), over=True), *LINES[above : above + 9])
        first, second, *_ = [*texts(paper(replace(PARTS, lines=lines))), ""]
        page = first if "Later" in first else second
        assert f"F-{above + 1:03d}" in page


def test_a_row_higher_than_a_sheet_goes_on_below_the_heads_of_the_next() -> None:
    endless = replace(JOBS, lines=(replace(JOBS.lines[1], cells=("2131", "", "", "", LONG * 30, "", "")),))
    pages = texts(paper(endless))
    assert len(pages) > 1
    assert all("Fault" in page for page in pages)
    assert sum(page.count("twenty minutes") for page in pages) >= 100


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (0, ""),
        (1, "1 more row is not printed"),
        (2345, "2345 more rows are not printed"),
        (-1, "There are more"),
    ],
)
def test_it_says_how_many_more_there_are(more: int, told: str) -> None:
    said = whole(paper(replace(PARTS, more=more)))
    assert told in said
    assert ("not printed" in said) is bool(more)


def test_an_empty_list_says_so_and_one_row_is_one() -> None:
    assert "nothing stands in it" in whole(paper(replace(PARTS, lines=())))
    assert "1 row" in whole(paper(replace(PARTS, lines=LINES[:1])))


def test_it_is_black_and_grey_only() -> None:
    red, green, blue = picture(paper(JOBS), 60).convert("RGB").split()
    assert red.tobytes() == green.tobytes() == blue.tobytes()


def test_equal_facts_give_equal_bytes_and_are_kept_as_text() -> None:
    assert paper(JOBS) == paper(ListFacts.from_json(JOBS.to_json()))


TEXTS = st.text(st.characters(categories=["L", "N", "Zs"]), max_size=60)


@given(st.lists(st.tuples(TEXTS, TEXTS, TEXTS), max_size=8), st.floats(60, 300))
def test_the_columns_fill_the_width_whatever_stands_in_them(
    rows: list[tuple[str, str, str]], width: float
) -> None:
    columns = (ListColumn("Job"), ListColumn("Customer"), ListColumn("Sum", number=True))
    given_widths = shares(columns, rows, width)
    assert sum(given_widths) == pytest.approx(width)
    assert min(given_widths) > 0


def test_one_endless_word_leaves_the_other_columns_their_room() -> None:
    columns = (ListColumn("Job"), ListColumn("Customer"))
    first, second = shares(columns, [("2131", "x" * 500), ("2132", "Jun Okeland")], 100)
    assert second >= WIDEST_WORD
    assert first >= 8


def test_one_odd_text_among_many_does_not_squeeze_the_others() -> None:
    columns = (ListColumn("Job"), ListColumn("Promised"), ListColumn("Fault"))
    rows = [(str(n), "Fri 20 Nov", "skips when warm, and on the outer tracks") for n in range(40)]
    calm = shares(columns, rows, 120)
    rows[7] = ("7", LONG, "skips")
    assert shares(columns, rows, 120) == pytest.approx(calm, abs=12)
