"""Which program this is, what it runs on and what it is made from, for people who look after it."""

from __future__ import annotations

import platform
from dataclasses import dataclass

from PySide6.QtCore import qVersion

from app import __version__

# What the program is made from, by the names under which it is installed, and the licence of each (SPDX).
PARTS = {
    "PySide6_Essentials": "LGPL-3.0-only",
    "SQLAlchemy": "MIT",
    "alembic": "MIT",
    "reportlab": "BSD-3-Clause",
    "pypdfium2": "Apache-2.0 OR BSD-3-Clause",
    "pillow": "MIT-CMU",
    "segno": "BSD-3-Clause",
    "factur-x": "BSD-3-Clause",
    "pypdf": "BSD-3-Clause",
    "babel": "BSD-3-Clause",
    "tzdata": "Apache-2.0",
    "rkm-codes": "MIT",
    "numpy": "BSD-3-Clause",
    "scipy": "BSD-3-Clause",
    "pyqtgraph": "MIT",
    "argon2-cffi": "MIT",
    "platformdirs": "MIT",
}
FONTS = {"Source Sans Pro": "OFL-1.1", "DejaVu Sans": "Bitstream-Vera"}


@dataclass(frozen=True)
class Part:
    """A part from elsewhere; ``version`` is empty where it is carried as files."""

    name: str
    version: str
    licence: str


def versions() -> str:
    """One line, the same in every language, e.g. ``Spindlebook 0.1.0, Python 3.11.7, Qt 6.11.2, Linux 6.1``."""
    return f"Spindlebook {__version__}, {runs_on()}"


def runs_on() -> str:
    """What the program stands on here, e.g. ``Python 3.11.7, Qt 6.11.2, Linux 6.1``."""
    return f"Python {platform.python_version()}, Qt {qVersion()}, {platform.system()} {platform.release()}"


def parts() -> tuple[Part, ...]:
    """What this program is made from. Looks the versions up on the disk: ask away from the window."""
    from importlib.metadata import PackageNotFoundError, version

    found = []
    for name, licence in PARTS.items():
        try:
            found.append(Part(name, version(name), licence))
        except PackageNotFoundError:  # in a bundle the files that tell it may be missing
            found.append(Part(name, "", licence))
    return (*found, *(Part(name, "", licence) for name, licence in FONTS.items()))
