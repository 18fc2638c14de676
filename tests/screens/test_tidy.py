"""Widgets in cycles are collected in the window's thread, never where some other thread allocates."""

from __future__ import annotations

import gc
import weakref
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from PySide6.QtWidgets import QApplication

from app.screens.tidy import OVERDUE, QUIET_LOOKS, QUIET_WAKES, Tidy


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


def test_a_round_through_everything_waits_until_the_window_is_idle(tidy: Tidy) -> None:
    kept: list[Any] = [[] for _ in range(2_000)]
    gone = weakref.ref(Cycle())
    gc.collect(0)
    gc.collect(1)  # by now it is old
    another = weakref.ref(kept_cycle := Cycle())
    gc.collect(1)
    assert another() is not None
    del kept_cycle
    assert tidy.look() != 2
    assert another() is not None
    assert tidy.look(idle=True) == 2
    assert another() is None
    assert gone() is None
    assert len(kept) == 2_000


def test_what_stands_when_it_is_first_idle_is_looked_through_only_once(tidy: Tidy) -> None:
    tidy.look(idle=True)
    assert gc.get_freeze_count() > 0
    assert tidy.look(idle=True) != 2
    tidy.stop()
    assert gc.get_freeze_count() == 0


def test_what_stood_before_the_window_waits_until_it_is_idle(qapp: QApplication) -> None:
    was = gc.isenabled()
    gc.disable()
    gone = weakref.ref(Cycle())
    made = Tidy()
    try:
        kept: list[Any] = [[] for _ in range(2_000)]
        assert made.look() is not None
        assert gone() is not None
        assert made.look(idle=True) == 2
        assert gone() is None
        assert len(kept) == 2_000
    finally:
        made.stop()
        made.deleteLater()
        (gc.enable if was else gc.disable)()


def test_idle_means_that_the_event_loop_slept(tidy: Tidy, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[bool] = []
    monkeypatch.setattr(tidy, "look", lambda *, idle: asked.append(idle))
    for _ in range(QUIET_LOOKS):
        tidy._look_in_turn()
    assert asked[-1]
    for _ in range(QUIET_WAKES + 1):
        tidy._woke()
    tidy._look_in_turn()
    assert asked == [False] * (QUIET_LOOKS - 1) + [True, False]


def test_a_window_that_is_never_idle_is_tidied_all_the_same(
    tidy: Tidy, monkeypatch: pytest.MonkeyPatch
) -> None:
    limit = gc.get_threshold()[2]
    monkeypatch.setattr(gc, "get_count", lambda: (0, 0, limit * OVERDUE))
    assert tidy.look() is None
    monkeypatch.setattr(gc, "get_count", lambda: (0, 0, limit * OVERDUE + 1))
    assert tidy.look() == 2


@pytest.mark.parametrize("before", [True, False])
def test_stopped_it_is_collected_as_before(qapp: QApplication, before: bool) -> None:
    was = gc.isenabled()
    (gc.enable if before else gc.disable)()
    try:
        made = Tidy()
        assert not gc.isenabled()
        made.stop()
        made.deleteLater()
        assert gc.isenabled() is before
    finally:
        (gc.enable if was else gc.disable)()
