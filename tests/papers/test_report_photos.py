"""Photos of a service report: equally high in a row, each above its words."""

from __future__ import annotations

import pytest

from app.papers.report_photos import PHOTO_HIGH, photo_rows
from app.papers.service_report_facts import Photo
from tests.papers.story_report import photo

WIDE, TALL = photo(), photo(80, 120)


@pytest.mark.parametrize(
    ("pictures", "in_rows"),
    [
        ([], []),
        ([WIDE], [1]),
        ([WIDE] * 4, [3, 1]),  # 48 mm each, of 165
        ([WIDE, TALL, WIDE], [3]),
        ([TALL] * 6, [6]),
        ([photo(800, 60)], [1]),  # wider than the paper: as high as it comes out
    ],
)
def test_a_row_holds_as_many_photos_as_have_room(pictures: list[str], in_rows: list[int]) -> None:
    rows = photo_rows([Photo(picture) for picture in pictures], 165)
    assert [len(row.inside.columns) for row in rows] == in_rows  # type: ignore[attr-defined]
    assert all(row.height <= PHOTO_HIGH + 0.01 for row in rows)


def test_the_words_below_a_narrow_photo_have_room_to_be_read() -> None:
    (row,) = photo_rows([Photo(TALL, "the label inside the cover"), Photo(WIDE)], 165)
    (first, words), (second, _) = row.inside.columns  # type: ignore[attr-defined]
    assert first == 0.0
    assert second == pytest.approx(34.0)
    assert max(part.width for part in words.parts if hasattr(part, "lines")) == 30.0
