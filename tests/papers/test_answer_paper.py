"""An answer on one page: what has no room on it is said."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.papers.answer_facts import AnswerColumn, AnswerFacts, AnswerTable
from app.papers.answer_paper import answer_paper
from app.papers.facts import PaperSize
from app.papers.list_facts import ListLine
from tests.papers import story
from tests.papers.plots.panels import HEBREW, LONG, bars, curves, grid, pareto, picture, rates
from tests.papers.reading import collisions, letters, sizes, texts

COLUMNS = (
    AnswerColumn("Transport type"),
    AnswerColumn("Came back", number=True),
    AnswerColumn("Share", True),
    AnswerColumn("Against the rest", least_wanted=1),
)


def rows(count, name="Velk A"):
    return tuple(ListLine((f"{name}{at}", str(at), "7.5\u00a0%", "cannot tell")) for at in range(count))


FACTS = AnswerFacts(
    question="Which repairs come back",
    headline="One transport type comes back more often than the rest",
    day=date(2026, 11, 26),
    asked=("handed back at any time", "Parted by: transport type"),
    picture=picture(rates(5)),
    table=AnswerTable("Share that came back, by group", COLUMNS, rows(5)),
    said=("A comeback: the player comes in again.",),
    why=("436 repairs watched for 180 days; came back: 38.", "Share with 95 % score interval."),
    sources=("E. B. Wilson (1927)", "S. Holm (1979)"),
)


def paper(facts, *, letter=False, german=False):
    sheet = replace(story.SHEET, size=PaperSize.LETTER if letter else PaperSize.A4)
    return answer_paper(facts, sheet, story.LONG_WORDS if german else story.ENGLISH)


@pytest.mark.parametrize("letter", [False, True])
def test_one_page_says_everything_in_its_order(letter):
    pdf = paper(FACTS, letter=letter)
    (page,) = texts(pdf)
    order = (
        "Which repairs come back",
        "One transport type",
        "handed back at any time · Parted by: transport type",
        "Came back within 180 days",
        "Share that came back, by group",
        "Why this number",
        "436 repairs watched",
        "A comeback: the player",
        "Source: E. B. Wilson (1927); S. Holm (1979).",
    )
    assert "printed 26 Nov 2026 page 1 of 1" in page
    page = page.partition("page 1 of 1")[2]
    places = [page.index(words) for words in order]
    assert places == sorted(places)
    assert sizes(pdf)[0][0] == pytest.approx(215.9 if letter else 210, abs=0.2)


def test_a_longer_table_is_cut_and_it_is_said_how_many_rows_are_left():
    (page,) = texts(paper(replace(FACTS, table=replace(FACTS.table, lines=rows(40, "Type ")))))
    printed = [at for at in range(40) if f"Type {at} " in page]
    assert printed == list(range(len(printed)))
    assert 3 <= len(printed) <= 15
    assert f"{40 - len(printed)} more rows are not printed here." in page
    (page,) = texts(paper(replace(FACTS, table=replace(FACTS.table, lines=rows(16, "Type ")))))
    assert "1 more row is not printed here." in page or "more rows" in page


@pytest.mark.parametrize("letter", [False, True])
def test_pictures_without_room_are_left_out_and_that_is_said(letter):
    full = replace(FACTS, picture=picture(curves(6), grid(10, 8), rates(20), bars()))
    (page,) = texts(paper(full, letter=letter))
    for there in ("Why this number", "Share that came back, by group", "Share of repairs that hold"):
        assert there in page
    assert "Cures by the rung" not in page
    assert "Further pictures of this answer are not printed here." in page
    (page,) = texts(paper(FACTS, letter=letter))
    assert "Further pictures" not in page


def many_bars(name, sentences):
    """Twenty bars of such names, a table of twenty rows, and so many sentences beside them."""
    said = tuple(f"Sentence {n} that has to stand beside the answer." for n in range(sentences))
    bars_of = picture(rates(20, tuple(f"{name}, number {n}" for n in range(20))))
    return replace(FACTS, picture=bars_of, said=said, table=replace(FACTS.table, lines=rows(20)))


def test_where_bars_fill_the_page_the_table_is_left_out_and_that_is_said():
    (page,) = texts(paper(many_bars("Guide cleaned", 14)))
    assert page.count("Guide cleaned, number") == 20
    assert "The table of 20 rows is not printed here." in page
    assert "Source: E. B. Wilson (1927)" in page


def test_where_names_alone_fill_the_page_they_are_cut_and_the_table_stands():
    (page,) = texts(paper(many_bars("Guide and rack cleaned, greased and fitted anew", 3)))
    assert page.count("Guide and rack cleaned") == 20
    assert "16 more rows are not printed here." in page


def test_short_panels_share_the_first_page():
    assert len(texts(paper(replace(FACTS, picture=picture(bars(), pareto()))))) == 1


def test_columns_leave_where_they_have_no_room_and_the_least_wanted_first():
    columns = tuple(
        AnswerColumn(f"Column {letter * 9}", True, least_wanted=at)
        for at, letter in enumerate("abcdefghijkl")
    )
    lines = (ListLine(("100\u202f000.00\u00a0EUR",) * 12),)
    (page,) = texts(paper(replace(FACTS, table=AnswerTable("Wide", columns, lines))))
    assert "aaaaaaaaa" in page
    assert "bbbbbbbbb" in page
    assert "lllllllll" not in page


@pytest.mark.parametrize("german", [False, True])
def test_absurd_names_run_over_nothing(german):
    table = AnswerTable(LONG, COLUMNS, (*rows(2, LONG), *rows(2, HEBREW), ListLine(("x" * 300,))))
    facts = replace(
        FACTS, headline=LONG, asked=(LONG, "y" * 300), picture=picture(rates(4, (LONG, HEBREW))), table=table
    )
    pdf = paper(facts, german=german)
    for number in range(len(texts(pdf))):
        assert collisions(pdf, number) == []
        placed = letters(pdf, number)
        assert min(letter.left for letter in placed) > 19
        assert max(letter.right for letter in placed) < 196
        assert min(letter.size for letter in placed) >= 9


def test_an_answer_of_nothing_is_its_headline_and_why():
    bare = replace(FACTS, picture=picture(), table=None, asked=(), sources=(), said=())
    (page,) = texts(paper(bare))
    assert "One transport type" in page
    assert "Source" not in page
    assert (
        "Share that came back"
        not in texts(paper(replace(bare, table=AnswerTable("Share that came back", COLUMNS, ()))))[0]
    )
