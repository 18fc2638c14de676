"""The family of papers of an ordinary and of an awkward job, to be looked at: `python -m tests.papers.family FOLDER`.

Words after the folder: `de` for German, `letter` for that sheet. Every paper is written as PDF and page by page as PNG.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from datetime import UTC
from pathlib import Path
from typing import Any

from app.papers.facts import PaperSize, Shop
from app.papers.pdfium import PDFIUM
from app.papers.press import printed
from app.work.language import wording_for
from tests.papers.conftest import PAPERS

LONG = "Grundstücksverkehrsgenehmigungszuständigkeit " * 4 + "W" * 30
# Fields that hold no words of a person, and those that the forms keep short: letters at most.
NEVER = {
    "language", "zone", "iban", "bic", "reference", "logo", "picture", "id", "transport_type", "now", "number",
    "invoice", "letter",
}  # fmt: skip
AT_MOST = {
    "serial": 40,
    "phone": 24,
    "transport": 60,
    "taken_by": 80,
    "taken_by_short": 20,
    "writer": 80,
    "unit": 12,
}
SCALE = 100 / 72  # of pictures: 100 dots to the inch


def at_its_longest(facts: Any) -> Any:
    """The facts with long words behind everything that a person types; the shop's own head is set up once."""
    if isinstance(facts, tuple):
        return tuple(at_its_longest(item) for item in facts)
    ours = (
        is_dataclass(facts)
        and not isinstance(facts, type)
        and type(facts).__module__.startswith("app.papers")
    )
    if not ours or isinstance(facts, Shop):
        return facts
    changes = {}
    for field in fields(facts):
        value = getattr(facts, field.name)
        if type(value) is str and value and field.name not in NEVER:
            most = max(AT_MOST.get(field.name, 300), len(value))
            changes[field.name] = f"{value} {LONG}"[:most]
        elif field.name not in NEVER:
            changes[field.name] = at_its_longest(value)
    return replace(facts, **changes)


def write_family(folder: Path, names: Sequence[str], *, german: bool = False, letter: bool = False) -> None:
    """Write the papers of these names into the folders `ordinary` and `awkward`."""
    wording = wording_for("de" if german else "en", UTC)
    for name in names:
        for kind, facts in (("ordinary", PAPERS[name]), ("awkward", at_its_longest(PAPERS[name]))):
            if letter:
                facts = replace(facts, sheet=replace(facts.sheet, size=PaperSize.LETTER))
            path = folder / kind / f"{name.replace(' ', '-')}.pdf"
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(printed(facts, wording))
            _draw(path)


def _draw(path: Path) -> None:
    import pypdfium2

    with PDFIUM:
        pdf = pypdfium2.PdfDocument(path)
        for number, page in enumerate(pdf, 1):
            page.render(scale=SCALE).to_pil().save(path.with_name(f"{path.stem}-{number}.png"))
        pdf.close()


if __name__ == "__main__":
    write_family(
        Path(sys.argv[1]), sorted(PAPERS), german="de" in sys.argv[2:], letter="letter" in sys.argv[2:]
    )
