"""What can be asked, with a sentence each."""

from __future__ import annotations

from app.screens.office.figures.figure_kinds import KINDS


def test_each_question_is_a_link_with_its_sentence(office):
    page = office.open("figures")
    assert office.focus is page.links[0]
    said = office.sees()
    for kind, link in zip(KINDS.values(), page.links, strict=True):
        assert link.words() == kind.title.key
        assert kind.about.key in said
    office.push(page.links[-1])
    assert office.page.title == "How the shop goes"
    office.press("Esc")
    assert office.page is page
