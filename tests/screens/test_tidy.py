"""Widgets in cycles are collected in the window's thread, never where some other thread allocates."""

from __future__ import annotations

import gc
import weakref
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from PySide6.QtWidgets import QApplication

from app.screens.tidy import Tidy


class Cycle:
    """Something that only the collector can free."""

    def __init__(self) -> None:
        self.itself = self


@pytest.fixture
def tidy(qapp: QApplication) -> Iterator[Tidy]:
    was = gc.isenabled()
    made = Tidy()
    yield made
    made.stop()
    made.deleteLater()
    (gc.enable if was else gc.disable)()


def test_another_thread_collects_nothing(tidy: Tidy) -> None:
    gone = weakref.ref(Cycle())

    def allocate() -> int:
        kept: list[Any] = [[] for _ in range(200_000)]
        return len(kept)

    with ThreadPoolExecutor(1) as pool:
        assert pool.submit(allocate).result() == 200_000
    assert gone() is not None
    assert not gc.isenabled()


def test_the_windows_thread_collects_what_is_due(tidy: Tidy) -> None:
    gc.collect()
    assert tidy.look() is None
    gone = weakref.ref(Cycle())
    kept: list[Any] = [[] for _ in range(2_000)]
    assert tidy.look() is not None
    assert gone() is None
    assert len(kept) == 2_000


def test_stopped_the_interpreter_collects_again(tidy: Tidy) -> None:
    tidy.stop()
    assert gc.isenabled()
