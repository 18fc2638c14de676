"""The trail of pages: places remember, the way back leads back, pages far behind are let go."""

from __future__ import annotations

from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from app.screens.desk import Desk
from app.screens.frame.trail import KEPT_PAGES, Trail
from app.screens.page import Page

MADE: list[Any] = []


class Told(Page):
    """A page that remembers what was asked of it."""

    def __init__(self, desk: Desk, key: Any) -> None:
        super().__init__(desk)
        self.key = key
        self.told: list[Any] = []
        self.stays = False
        self.set_title(f"page {key}")

    def reload(self, changes: Any = None) -> None:
        self.told.append(("reload", changes))

    def arrive(self) -> None:
        self.told.append("arrive")

    def leave(self) -> bool:
        self.told.append("leave")
        return not self.stays

    def put_away(self) -> None:
        MADE.append(("gone", self.key))


@pytest.fixture
def trail(qtbot: QtBot, desk: Desk) -> Trail:
    MADE.clear()
    made = Trail(desk)
    qtbot.addWidget(made)
    for place in ("counter", "bench", "office"):
        made.register(place, place, Told, root=True)
    made.register("job", "bench", Told)
    made.go_to("counter")
    made.show()
    return made


def at(trail: Trail) -> tuple[str, Any]:
    page = trail.page
    assert isinstance(page, Told)
    return trail.place, page.key


def test_a_page_is_loaded_before_it_comes_into_sight(trail: Trail) -> None:
    page = trail.page
    assert isinstance(page, Told)
    assert page.told == [("reload", None), "arrive"]


def test_the_way_back_leads_through_other_places(trail: Trail) -> None:
    trail.open("job", 1)
    trail.open("job", 2)
    assert at(trail) == ("bench", 2)
    assert trail.back()
    assert at(trail) == ("bench", 1)
    assert trail.back()
    assert at(trail) == ("counter", None)
    assert not trail.back()


def test_a_place_remembers_what_it_showed_and_twice_goes_to_its_root(trail: Trail) -> None:
    trail.open("job", 1)
    trail.go_to("office")
    trail.go_to("bench")
    assert at(trail) == ("bench", 1)
    trail.go_to("bench")
    assert at(trail) == ("bench", None)


def test_opening_the_page_in_sight_is_no_step(trail: Trail) -> None:
    trail.open("job", 1)
    trail.open("job", 1)
    trail.back()
    assert at(trail) == ("counter", None)


def test_a_page_that_will_not_be_left_stays(trail: Trail) -> None:
    trail.open("job", 1)
    page = trail.page
    assert isinstance(page, Told)
    page.stays = True
    assert not trail.open("job", 2)
    assert not trail.back()
    assert not trail.leave()
    assert at(trail) == ("bench", 1)


def test_the_page_in_sight_hears_of_changes_and_others_load_when_they_are_seen(
    trail: Trail, desk: Desk
) -> None:
    counter = trail.page
    trail.open("job", 1)
    job = trail.page
    assert isinstance(counter, Told)
    assert isinstance(job, Told)
    counter.told.clear()
    job.told.clear()
    desk.announce("changes")
    assert job.told == [("reload", "changes")]
    assert counter.told == []
    trail.back()
    assert counter.told == [("reload", None), "arrive"]


def test_pages_far_behind_are_let_go_and_made_anew_on_the_way_back(trail: Trail) -> None:
    for key in range(KEPT_PAGES + 3):
        trail.open("job", key)
    assert ("gone", None) in MADE
    assert trail.count() == KEPT_PAGES
    for _ in range(KEPT_PAGES + 3):
        trail.back()
    assert at(trail) == ("counter", None)


def test_a_saved_form_is_not_on_the_way_back(trail: Trail) -> None:
    trail.open("job", 1)
    trail.open("job", 2)
    trail.open("job", 3)
    trail.close_page("job", 2)
    trail.back()
    assert at(trail) == ("bench", 1)
    trail.close_page("job", 1)
    assert at(trail) == ("counter", None)
    trail.go_to("bench")
    trail.close_page("bench")
    assert ("gone", 2) in MADE


def test_a_page_of_no_place_is_shown_where_it_was_asked_for_and_not_remembered(trail: Trail) -> None:
    trail.register("keys", "", Told)
    trail.open("job", 1)
    trail.open("keys")
    assert at(trail) == ("bench", None)
    trail.go_to("bench")
    assert at(trail) == ("bench", 1)
    trail.open("keys")
    trail.go_to("office")
    trail.go_to("bench")
    assert at(trail) == ("bench", 1)


def test_a_page_of_no_place_may_be_the_first_and_closes_to_a_root(qtbot: QtBot, desk: Desk) -> None:
    trail = Trail(desk)
    qtbot.addWidget(trail)
    trail.register("counter", "counter", Told, root=True)
    trail.register("keys", "", Told)
    trail.open("keys")
    assert trail.place == ""
    trail.close_page("keys")
    assert at(trail) == ("counter", None)


def test_a_kind_must_be_known(trail: Trail) -> None:
    assert trail.knows("job")
    assert not trail.knows("nothing")
    with pytest.raises(KeyError):
        trail.open("nothing")


def test_who_watches_hears_of_arrivals_and_titles(qtbot: QtBot, trail: Trail) -> None:
    heard: list[Any] = []
    trail.arrived.connect(lambda place, page: heard.append((place, page.title)))
    trail.titled.connect(lambda page: heard.append(page.title))
    trail.open("job", 5)
    page = trail.page
    assert page is not None
    page.set_title("2131 Quellmar")
    assert heard == [("bench", "page 5"), "2131 Quellmar"]
    trail.put_away()
    assert ("gone", 5) in MADE
