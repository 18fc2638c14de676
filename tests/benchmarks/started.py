"""A process that shows a window and says when it was painted and what memory it takes: bare, or on a book.

Words: `bare`, or the path of a book and a folder for the window's own files.
"""

from __future__ import annotations

import sys
from datetime import UTC, datetime
from pathlib import Path

UNTIL = datetime(2026, 11, 25, 12, tzinfo=UTC)


def main(words: list[str]) -> None:
    """Show it, tell of it and close it in order."""
    if words == ["bare"]:
        _bare()
    else:
        _on_a_book(Path(words[0]), Path(words[1]))


def _bare() -> None:
    import sqlalchemy.orm  # noqa: F401  # the floor: what our window cannot be without
    from PySide6.QtWidgets import QApplication, QMainWindow

    app = QApplication([])
    window = QMainWindow()
    window.resize(1280, 800)
    window.show()
    app.processEvents()
    _tell()


def _on_a_book(path: Path, own: Path) -> None:
    from PySide6.QtCore import QCoreApplication, QEvent
    from PySide6.QtWidgets import QApplication

    from app.screens.kit import palette
    from app.screens.shop_window import ShopWindow
    from app.work.shop_book import open_shop

    app = QApplication([])
    palette.apply(app, "light")
    shop = ShopWindow(app, open_shop(path, clock=lambda: UNTIL), own)
    shop.show()
    app.processEvents()
    _tell()
    shop.window.closing.clear()  # no copy is made on leaving
    shop.window.close()
    shop.close()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def _tell() -> None:
    sys.stdout.write(f"{_memory()}\n")
    sys.stdout.flush()


def _memory() -> float:
    """MB that this process holds; 0 where the system does not say."""
    try:
        lines = Path("/proc/self/status").read_text(encoding="ascii").splitlines()
    except OSError:
        return 0.0
    return next(int(line.split()[1]) / 1024 for line in lines if line.startswith("VmRSS:"))


if __name__ == "__main__":
    main(sys.argv[1:])
