"""Folding for find-as-you-type, checked against SQLite's own full-text index."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.find.fold import MOST_WORDS, fold, fold_tail, fold_words, match_tail, match_words


@pytest.fixture(scope="module")
def index() -> Iterator[sqlite3.Connection]:
    connection = sqlite3.connect(":memory:")
    connection.execute(
        "CREATE VIRTUAL TABLE find_fts USING fts5(words, tokenize = 'unicode61 remove_diacritics 0')"
    )
    connection.execute("CREATE VIRTUAL TABLE find_tails USING fts5(tails, tokenize = 'trigram')")
    yield connection
    connection.close()


def found(index: sqlite3.Connection, text: str, question: str) -> bool:
    index.execute("DELETE FROM find_fts")
    index.execute("INSERT INTO find_fts(words) VALUES (?)", (" ".join(fold_words(text)),))
    expression = match_words(question)
    if expression is None:
        return False
    rows = index.execute("SELECT rowid FROM find_fts WHERE find_fts MATCH ?", (expression,))
    return rows.fetchone() is not None


@pytest.mark.parametrize(
    ("text", "folded"),
    [
        ("Łukasz Żółć", "lukasz zolc"),
        ("Søren Ødegård", "soren odegard"),
        ("Đorđe", "dorde"),
        ("Guðrún Þórsdóttir", "gudrun thorsdottir"),
        ("Straße", "strasse"),
        ("GROẞ", "gross"),
        ("Œuvre, Ægir", "oeuvre aegir"),
        ("Ιωάννης Ὀδυσσεύς", "ιωαννης οδυσσευσ".replace("ης", "ησ")),
        ("İstanbul ISPARTA ırmak", "istanbul isparta irmak"),
        ("Ёлка", "елка"),
        ("Nguyễn Văn", "nguyen van"),
        ("٠٤٢٠ １５８", "0420 158"),
        ("ﬁne № 5", "fine no 5"),
        ("CD-37/b", "cd 37 b"),
        ("", ""),
        ("- ' ( )", ""),
    ],
)
def test_case_accents_and_separators_fold_away(text: str, folded: str) -> None:
    assert fold(text) == folded


@pytest.mark.parametrize(
    ("text", "question"),
    [
        ("Łukasz Żółć", "zolc luk"),
        ("Łukasz Żółć", "Żół"),
        ("Ιωάννης Παπαδόπουλος", "ΠΑΠΑΔ"),
        ("Ιωάννης Παπαδόπουλος", "ιωαννης"),
        ("Işık Yılmaz", "isik yilmaz"),
        ("Işık Yılmaz", "IŞIK"),
        ("Müller", "mueller"),
        ("Müller", "Muller"),
        ("Mueller", "Müller"),
        ("Håkon Ångström", "aangstroem haakon"),
        ("Søren", "Soeren"),
        ("O'Neill", "oneill"),
        ("O'Neill", "o neill"),
        ("d’Arco", "d'arco"),
        ("Quellmar Larch 2", "2 larch"),
        ("0420 158", "158"),
        ("Grellin S3", "s3"),
        ("J2131 2131", "j2131"),
    ],
)
def test_people_are_found_however_their_name_is_typed(
    index: sqlite3.Connection, text: str, question: str
) -> None:
    assert found(index, text, question)


@pytest.mark.parametrize("text", ["Muller", "Larch"])
def test_what_does_not_stand_there_is_not_found(index: sqlite3.Connection, text: str) -> None:
    assert not found(index, text, "osier")
    assert not found(index, text, text + " osier")


# Each of these raised when it reached the full-text index as typed (measured, DESIGN section 5).
RAW = [
    'a"b',
    "AND",
    "OR NOT",
    "-5",
    "na:me",
    "(",
    ")",
    "NEAR(a b)",
    "a*",
    "^a",
    "{a}",
    "+",
    '"',
    "''",
    "a\x00b",
    "\\",
]


@pytest.mark.parametrize("question", RAW)
def test_signs_of_the_query_language_are_words_or_nothing(index: sqlite3.Connection, question: str) -> None:
    found(index, question, question)
    expression = match_tail(question)
    if expression is not None:
        index.execute("SELECT 1 FROM find_tails WHERE find_tails MATCH ?", (expression,)).fetchall()


def test_a_question_without_letters_asks_nothing() -> None:
    assert match_words(" -- ( ' ") is None
    assert match_tail("12-3") is None


def test_words_of_the_query_language_are_found_as_words(index: sqlite3.Connection) -> None:
    assert found(index, "tooth and nail", "AND")
    assert found(index, "tooth near nail", "NEAR")


def test_a_serial_is_found_by_its_end(index: sqlite3.Connection) -> None:
    index.execute("DELETE FROM find_tails")
    index.execute("INSERT INTO find_tails(tails) VALUES (?)", (fold_tail("XK 04-20 158"),))
    for question in ("0158", "20158", "k0420158", "20-158"):
        expression = match_tail(question)
        rows = index.execute("SELECT 1 FROM find_tails WHERE find_tails MATCH ?", (expression,)).fetchall()
        assert rows
    assert match_tail("158") is None


def test_a_pasted_page_asks_for_its_first_words_only() -> None:
    expression = match_words(" ".join(f"w{n}" for n in range(500)))
    assert expression is not None
    assert expression.count('"*') == MOST_WORDS
    assert len(match_words("x" * 5000) or "") < 100


@given(st.text(max_size=60))
def test_no_text_breaks_the_index_and_every_text_finds_itself(text: str) -> None:
    connection = sqlite3.connect(":memory:")
    try:
        connection.execute(
            "CREATE VIRTUAL TABLE find_fts USING fts5(words, tokenize = 'unicode61 remove_diacritics 0')"
        )
        words = fold_words(text)
        connection.execute("INSERT INTO find_fts(words) VALUES (?)", (" ".join(words),))
        expression = match_words(text)
        if expression is not None:
            rows = connection.execute(
                "SELECT 1 FROM find_fts WHERE find_fts MATCH ?", (expression,)
            ).fetchall()
            seen = connection.execute("SELECT 1 FROM find_fts WHERE words <> ''").fetchall()
            assert bool(rows) == bool(seen)
    finally:
        connection.close()


@given(st.text(max_size=80))
def test_folding_twice_changes_nothing_more(text: str) -> None:
    assert fold(fold(text)) == fold(text)
    assert fold_tail(text) == "".join(fold(text).split())


@given(st.text(max_size=40), st.text(max_size=40))
def test_a_question_of_two_words_is_met_in_either_order(one: str, other: str) -> None:
    both = fold_words(one + " " + other)
    assert set(both) == set(fold_words(other + " " + one))


@given(st.text(st.characters(max_codepoint=127)))
def test_plain_letters_fold_as_they_do_beside_others(text: str) -> None:
    assert fold(text) == fold(f"{text} \u0301")  # a lone accent folds away and takes the long way round
    assert fold_words(text) == fold_words(f"{text} \u0301")
