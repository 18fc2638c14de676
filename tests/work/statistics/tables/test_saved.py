"""The tables of an answer as a file."""

from __future__ import annotations

from datetime import UTC

import pytest

from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.statistics.table import Column, Line, Shape, Table
from app.trade.wording import Wording
from app.work.statistics.tables.saved import save_tables

GERMAN = Wording(lambda key: key, "de", UTC)
TABLE = Table(Sentence("Rates"), (Column("x", Sentence("Share"), Shape.SHARE),), (Line("a", (0.25,)),))


def test_a_file_has_the_decimal_mark_of_the_language_and_replaces_the_one_before(tmp_path):
    path = tmp_path / "rates.csv"
    path.write_text("before")
    save_tables([TABLE], path, GERMAN)
    assert path.read_bytes().decode("utf-8-sig") == "Share\r\n0,25\r\n"


def test_where_nothing_can_be_written_it_is_said(tmp_path):
    with pytest.raises(Refusal) as refused:
        save_tables([TABLE], tmp_path / "none" / "rates.csv", GERMAN)
    assert refused.value.next_step is not None
