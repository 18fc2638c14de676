"""What the shop knows stands beside the job whose player or transport it concerns."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from PIL import Image

from app.screens.kit.flags import FlagLine
from app.screens.kit.label import Label
from app.trade.bench.cards import CardEntry, CardSection
from app.work.bench.cards import save_card
from app.work.bench.files import attach_picture

TEXT = {CardSection.TAKING_APART: "Disc out.\n\n- two screws <b>left</b>\n> Strong magnet."}


def write(workbench: Any, **changes: Any) -> int:
    entry = CardEntry(title="Arm out", **{"sections": TEXT, **changes})
    done = save_card(workbench.bench.book, workbench.bench.tobbe, entry)
    workbench.desk.announce(done.changes)
    workbench.settle()
    return done.value


def shown(section: Any) -> list[str]:
    return [label.text() for label in section.findChildren(Label) if label.text()]


def told(section: Any) -> str:
    """What the folded line says of its contents."""
    return str(section.head.accessibleName()).removeprefix("What we know of it ")


def test_a_job_without_a_card_says_so_and_leads_to_writing_one(workbench: Any) -> None:
    section = workbench.job().body.cards
    assert told(section) == "no card on this player or its transport"
    section.write_link.click()
    assert workbench.window.page.key is None


def test_the_card_of_the_transport_type_is_shown_as_it_was_written(workbench: Any) -> None:
    page = workbench.job()
    write(workbench, transport_type_id=page.facts.transport_type_id)
    section = page.body.cards
    assert told(section) == "Arm out"
    section.set_opened(True)
    words = shown(section)
    assert "Disc out." in words
    assert "• two screws <b>left</b>" in words  # text is data, no markup of others is obeyed
    assert [line.flag.sentence for line in section.findChildren(FlagLine)] == ["Strong magnet."]


def test_a_card_of_another_model_is_not_shown(workbench: Any) -> None:
    page = workbench.job()
    write(workbench, unit_maker="Ostrind", unit_model="Osier 7")
    assert told(page.body.cards) == "no card on this player or its transport"


def test_pictures_of_a_card_stand_where_its_text_names_them_and_the_others_below(
    workbench: Any, tmp_path: Path
) -> None:
    page = workbench.job()
    key = write(
        workbench,
        transport_type_id=page.facts.transport_type_id,
        sections={CardSection.TAKING_APART: "= flex\nDisc out.\n= lens"},
    )
    path = tmp_path / "arm.png"
    Image.new("RGB", (24, 16), "grey").save(path)
    bench = workbench.bench
    for caption in ("Arm from above", "Flex at the fold"):
        done = attach_picture(bench.book, bench.tobbe, key, path, note=caption)
        workbench.desk.announce(done.changes)
    workbench.settle()
    section = workbench.page.body.cards
    assert section.views
    assert all(view.accessibleName() == "" for view in section.views)  # read only once it is looked at
    section.set_opened(True)
    workbench.settle()
    assert [view.accessibleName() for view in section.views] == [
        "Picture: Flex at the fold",
        "Picture: Arm from above",
    ]
    words = shown(section)
    assert words.index("Flex at the fold") < words.index("Disc out.") < words.index("Arm from above")
    assert "lens" in words  # a picture that is not there stays as it was typed
