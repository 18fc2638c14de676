"""Where the shop's own book lies when nobody says where."""

from __future__ import annotations

from pathlib import Path


def default_book() -> Path:
    """The book in the folder that the system gives a program for its data; not made here."""
    from platformdirs import user_data_path

    return user_data_path("Spindlebook", appauthor=False) / "book.sqlite"
