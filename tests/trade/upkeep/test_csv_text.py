"""Cells of an export: no text runs as a formula, no number becomes text."""

from __future__ import annotations

import csv
import io
from datetime import UTC, date, datetime, timedelta, timezone
from decimal import Decimal
from enum import StrEnum

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.upkeep.csv_text import Mark, cell, mark_like, plain_text, safe_text, sheet_text


class Word(StrEnum):
    READY = "ready"


# First letters after the OWASP page on CSV injection, with blanks and full-width forms in front.
@pytest.mark.parametrize(
    "text",
    [
        "=1+1",
        "+49 1",
        "-5",
        "@SUM(A1)",
        "\t=1",
        "\r=1",
        "\n=1",
        " =1",
        "\u00a0=1",
        "\ufeff=1",
        '"=1',
        "＝1",
        "＋1",
        "－1",
        "＠x",
        "\x00=1",
        "'=1",
        "''=1",
    ],
)
def test_a_text_that_could_run_gets_an_apostrophe(text: str) -> None:
    assert safe_text(text) == "'" + text
    assert plain_text(safe_text(text)) == text


@pytest.mark.parametrize("text", ["", "plain", "5-3", "a=b", "'quoted'", "'", "''", "€ 5", "(=1)", "J2131"])
def test_every_other_text_stays_as_it_is(text: str) -> None:
    assert safe_text(text) == text
    assert plain_text(text) == text


def test_values_are_written_by_their_type() -> None:
    assert cell(None) == ""
    assert cell(True) == "1"
    assert cell(False) == "0"
    assert cell(-38) == "-38"
    assert cell(-0.038) == "-0.038"
    assert cell(Decimal("-1E-7")) == "-0.0000001"
    assert cell(Decimal("7.50")) == "7.50"
    assert cell(date(2026, 11, 26)) == "2026-11-26"
    noon = datetime(2026, 11, 26, 13, 0, tzinfo=timezone(timedelta(hours=1)))
    assert cell(noon) == "2026-11-26T12:00:00Z"
    assert cell(Word.READY) == "ready"
    assert cell("-38") == "'-38"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), Decimal("NaN"), datetime(2026, 1, 1)])  # noqa: DTZ001
def test_what_is_no_plain_value_is_refused(value: object) -> None:
    with pytest.raises(ValueError):
        cell(value)


def test_other_kinds_have_no_place_in_a_cell() -> None:
    with pytest.raises(TypeError):
        cell([1])


@given(st.text(max_size=30))
def test_every_text_comes_back_and_none_can_run(text: str) -> None:
    kept = safe_text(text)
    assert plain_text(kept) == text
    assert kept[:1] not in set("=+-@\t\r\n\x00")


@given(st.integers() | st.decimals(allow_nan=False, allow_infinity=False, places=6))
def test_every_number_reads_back_as_the_number(number: int | Decimal) -> None:
    assert Decimal(cell(number)) == number
    assert cell(datetime(2026, 1, 1, tzinfo=UTC)).endswith("Z")


@pytest.mark.parametrize(
    ("mark", "line"), [(Mark.POINT, 'belt,-3.50,"a;b,c",2\r\n'), (Mark.COMMA, 'belt;-3,50;"a;b,c";2\r\n')]
)
def test_a_table_has_the_decimal_mark_of_the_spreadsheets_language(mark: Mark, line: str) -> None:
    text = sheet_text(("what", "amount", "note", "n"), [("belt", Decimal("-3.50"), "a;b,c", 2)], mark)
    assert text == "\ufeff" + mark.separator.join(("what", "amount", "note", "n")) + "\r\n" + line


def test_a_language_with_a_comma_gets_a_comma() -> None:
    assert [mark_like(symbol) for symbol in (",", ".", "٫")] == [Mark.COMMA, Mark.POINT, Mark.POINT]


@given(
    st.lists(st.tuples(st.text(), st.decimals(allow_nan=False, allow_infinity=False, places=2))),
    st.sampled_from(Mark),
)
def test_every_table_reads_back_and_nothing_in_it_can_run(
    rows: list[tuple[str, Decimal]], mark: Mark
) -> None:
    text = sheet_text(("words", "amount"), rows, mark).removeprefix("\ufeff")
    _, *read = csv.reader(io.StringIO(text, newline=""), delimiter=mark.separator)
    assert [(plain_text(words), Decimal(amount.replace(",", "."))) for words, amount in read] == rows
    assert all(words[:1] not in set("=+-@\t\r\n\x00") for words, _ in read)
