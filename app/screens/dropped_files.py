"""Files that are dropped on a page."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtGui import QDropEvent


def files_in(event: QDropEvent) -> list[Path]:
    """Those that lie on this computer; something that is dragged over a page tells them as well."""
    return [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
