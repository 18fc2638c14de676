"""Where a book may lie: refuses network folders, missing folders, read-only places and full disks."""

from __future__ import annotations

import os
import re
import shutil
import sys
from decimal import Decimal
from pathlib import Path

from app.trade.refusal import BookRefused, Way
from app.trade.sentence import Measure, Sentence

NEEDED = 20 * 1024 * 1024  # bytes free, below which a book is not opened for work
NETWORK_TYPES = frozenset(
    {
        "nfs",
        "nfs4",
        "cifs",
        "smb",
        "smb2",
        "smb3",
        "smbfs",
        "afpfs",
        "webdav",
        "davfs",
        "fuse.sshfs",
        "9p",
        "ncpfs",
    }
)
MOUNTS = Path("/proc/mounts")


def is_address(path: Path) -> bool:
    """Whether what was given as a path is the address of a database server."""
    return re.match(r"[A-Za-z][A-Za-z0-9+.]+:[/\\]", str(path)) is not None  # a path folds the two strokes


def check_place(path: Path) -> None:
    """Raise BookRefused, in one sentence with the next step, when no book can live at ``path``."""
    folder = path.parent
    check_folder(path)
    if is_network(folder):
        raise BookRefused(
            Sentence(
                "{folder} is on a network drive, where a book in one file can be damaged.",
                {"folder": str(folder)},
            ),
            Sentence("Keep the book on this computer. Sharing it needs a PostgreSQL server."),
        )
    if not os.access(folder, os.W_OK) or (path.exists() and not os.access(path, os.W_OK)):
        raise BookRefused(
            Sentence("{path} may only be read.", {"path": str(path)}),
            Sentence("Allow writing to the file and its folder, or copy the book to a folder of your own."),
        )
    free = shutil.disk_usage(folder).free
    if free < NEEDED:
        raise BookRefused(
            Sentence("The disk of {folder} is nearly full.", {"folder": str(folder)}),
            Sentence(
                "Make room for at least {size} and try again.", {"size": Measure(_megabytes(NEEDED), "MB")}
            ),
        )


def check_folder(path: Path) -> None:
    """Raise BookRefused when the folder that ``path`` names is not there."""
    if not path.parent.is_dir():
        raise BookRefused(
            Sentence("There is no folder {folder}.", {"folder": str(path.parent)}),
            Sentence("Plug in the drive it is on, or choose another book."),
            ways=(Way.ANOTHER_BOOK,),
        )


def is_network(folder: Path) -> bool:
    """Whether the folder lies on a network file system. Unknown counts as local."""
    if sys.platform == "win32":  # pragma: no cover  # cannot be run on the machines that test
        import ctypes

        drive = folder.absolute().drive
        remote: bool = drive.startswith("\\\\") or ctypes.windll.kernel32.GetDriveTypeW(drive + "\\") == 4
        return remote
    if not MOUNTS.exists():  # pragma: no cover  # macOS has no such list
        return False
    return mount_type(folder.resolve(), MOUNTS.read_text(encoding="utf-8", errors="replace")) in NETWORK_TYPES


def mount_type(folder: Path, mounts: str) -> str:
    """The file system type of ``folder`` by the text of /proc/mounts; empty when none fits."""
    best, kind = -1, ""
    for line in mounts.splitlines():
        parts = line.split(" ")
        if len(parts) < 3:
            continue
        point = Path(parts[1].replace("\\040", " "))
        if (point == folder or point in folder.parents) and len(point.parts) > best:
            best, kind = len(point.parts), parts[2]
    return kind


def _megabytes(size: int) -> Decimal:
    return Decimal(size // (1024 * 1024))
