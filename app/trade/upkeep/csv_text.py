"""Values as cells of a CSV file that a spreadsheet opens: text stays text, numbers stay numbers.

A text that a spreadsheet would run as a formula gets an apostrophe in front (OWASP: CSV injection). Numbers
are written by type, so a negative reading stays a number.
"""

from __future__ import annotations

import csv
import io
import math
import unicodedata
from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime
from decimal import Decimal
from enum import StrEnum

# First letters that start a formula or hide one; full-width forms become these under NFKC.

_STARTS = frozenset("=+-@\t\r\n\x00")
_GUARD = "'"


def _runs(text: str) -> bool:
    """Whether a spreadsheet may take the text for a formula, blanks and quotes in front left aside."""
    if text[:1] in _STARTS:
        return True
    bare = unicodedata.normalize("NFKC", text).lstrip('\ufeff\u200b \u00a0"')
    return bare[:1] in _STARTS


def safe_text(text: str) -> str:
    """The text with an apostrophe in front where it could run; every other text as it stands.

    A text that begins with apostrophes before such a letter gets one more, so `plain_text` is exact.
    """
    return _GUARD + text if _runs(text.lstrip(_GUARD)) else text


def plain_text(cell: str) -> str:
    """The text that `safe_text` was given."""
    return cell[1:] if cell.startswith(_GUARD) and _runs(cell.lstrip(_GUARD)) else cell


def cell(value: object) -> str:
    """One value as a cell: numbers with a point and no grouping, days and instants by ISO 8601, None empty.

    Raises ValueError for a naive instant or a number that is not finite, TypeError for other kinds of value.
    """
    match value:
        case None:
            return ""
        case bool():
            return "1" if value else "0"
        case str():  # words of enumerations too
            return safe_text(str(value))
        case int():
            return str(value)
        case float():
            if not math.isfinite(value):
                raise ValueError(f"not a finite number: {value}")
            return repr(value)
        case Decimal():
            if not value.is_finite():
                raise ValueError(f"not a finite number: {value}")
            return format(value, "f")
        case datetime():
            if value.tzinfo is None:
                raise ValueError("a naive instant has no place in an export")
            return value.astimezone(UTC).isoformat().replace("+00:00", "Z")
        case date():
            return value.isoformat()
    raise TypeError(f"no place in a cell for {type(value).__name__}")


class Mark(StrEnum):
    """The decimal mark of a file: a spreadsheet takes numbers for numbers only with the mark of its own language."""

    POINT = "."
    COMMA = ","

    @property
    def separator(self) -> str:
        """What parts the cells: a comma cannot do both."""
        return "," if self is Mark.POINT else ";"


def mark_like(symbol: str) -> Mark:
    """The mark of a language whose decimal mark is ``symbol``."""
    return Mark.COMMA if symbol == Mark.COMMA.value else Mark.POINT


def sheet_text(head: Sequence[str], rows: Iterable[Sequence[object]], mark: Mark = Mark.POINT) -> str:
    """A whole table for a spreadsheet: RFC 4180 with a byte order mark, without which umlauts are lost in some.

    ``head`` are names of ours. Decimals have ``mark``; nothing else differs between the two kinds.
    """
    kept = io.StringIO(newline="")
    kept.write("\ufeff")
    writer = csv.writer(kept, delimiter=mark.separator)
    writer.writerow(head)
    for row in rows:
        writer.writerow([_marked(value, mark) for value in row])
    return kept.getvalue()


def _marked(value: object, mark: Mark) -> str:
    written = cell(value)
    return written.replace(".", mark.value) if isinstance(value, Decimal) else written
