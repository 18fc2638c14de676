"""The colours of a paper said in numbers that last: an ICC profile of sRGB, made from its definition.

IEC 61966-2-1 gives the curve, ICC.1:2001-04 (version 2) the form; the colorants are those of the standard adapted to the
D50 of the profile connection space (Bradford), as every published sRGB profile has them.
"""

from __future__ import annotations

import struct
from functools import cache

NAME = "sRGB IEC61966-2.1"
_D50 = (0.9642, 1.0, 0.8249)
_RED, _GREEN, _BLUE = (0.4361, 0.2225, 0.0139), (0.3851, 0.7169, 0.0971), (0.1431, 0.0606, 0.7141)
_STEPS = 1024


@cache
def srgb_profile() -> bytes:
    """The profile: display class, RGB to XYZ, three colorants and one curve."""
    curve = _padded(b"curv" + struct.pack(">II", 0, _STEPS) + b"".join(map(_level, range(_STEPS))))
    parts = {
        b"desc": _described(NAME),
        b"cprt": _padded(b"text\0\0\0\0No copyright, use freely\0"),
        b"wtpt": _xyz(_D50),
        b"rXYZ": _xyz(_RED),
        b"gXYZ": _xyz(_GREEN),
        b"bXYZ": _xyz(_BLUE),
        b"rTRC": curve,
        b"gTRC": curve,
        b"bTRC": curve,
    }
    at = 128 + 4 + 12 * len(parts)
    table, body, places = b"", b"", {}
    for tag, data in parts.items():
        if data not in places:
            places[data] = at + len(body)
            body += data
        table += tag + struct.pack(">II", places[data], len(data))
    size = at + len(body)
    return _header(size) + struct.pack(">I", len(parts)) + table + body


def _header(size: int) -> bytes:
    made = struct.pack(">6H", 2026, 1, 1, 0, 0, 0)
    front = struct.pack(">I4sI4s4s4s", size, b"\0\0\0\0", 0x02100000, b"mntr", b"RGB ", b"XYZ ") + made
    platform = b"acsp" + b"\0" * 4 + b"\0" * 4 + b"\0" * 8 + b"\0" * 8
    return front + platform + struct.pack(">I", 0) + b"".join(map(_fixed, _D50)) + b"\0" * 48


def _level(step: int) -> bytes:
    """The light of one step of the curve, 0 to 65535."""
    value = step / (_STEPS - 1)
    light = value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
    return struct.pack(">H", round(light * 65535))


def _fixed(value: float) -> bytes:
    return struct.pack(">i", round(value * 65536))


def _xyz(values: tuple[float, float, float]) -> bytes:
    return b"XYZ \0\0\0\0" + b"".join(map(_fixed, values))


def _described(text: str) -> bytes:
    ascii_text = text.encode("ascii") + b"\0"
    return _padded(b"desc\0\0\0\0" + struct.pack(">I", len(ascii_text)) + ascii_text + b"\0" * 8 + b"\0" * 70)


def _padded(data: bytes) -> bytes:
    return data + b"\0" * (-len(data) % 4)
