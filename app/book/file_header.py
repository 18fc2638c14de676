"""What a book's file says of itself in its first 100 bytes, read before any connection is made."""

from __future__ import annotations

import struct
from dataclasses import dataclass
from pathlib import Path

APPLICATION_ID = 0x53504C42  # "SPLB"
SCHEMA = 16  # ordinal of the newest migration; raised by one with every new one


@dataclass(frozen=True, slots=True)
class FileHeader:
    """``is_sqlite`` False: not a database at all; ``ours`` False: another program's."""

    is_sqlite: bool
    ours: bool
    schema: int
    size: int
    whole: bool  # the file is as long as its header says


def read_header(path: Path) -> FileHeader:
    """Read the header as plain bytes. The file format: sqlite.org/fileformat.html, section 1.3."""
    with path.open("rb") as file:
        head = file.read(100)
    size = path.stat().st_size
    if len(head) < 100 or head[:16] != b"SQLite format 3\x00":
        return FileHeader(False, False, 0, size, False)
    page, pages = struct.unpack(">H", head[16:18])[0], struct.unpack(">I", head[28:32])[0]
    page = 65536 if page == 1 else page
    schema, application = struct.unpack(">I", head[60:64])[0], struct.unpack(">I", head[68:72])[0]
    counted = head[24:28] == head[92:96]  # only then does the page count in the header hold
    whole = page >= 512 and (not counted or size >= page * pages)
    return FileHeader(True, application == APPLICATION_ID, schema, size, whole)
