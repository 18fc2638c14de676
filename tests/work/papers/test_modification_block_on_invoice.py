"""A modified player's invoice names every change that stays inside: in words, with numbers, with the way back."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Way
from app.trade.counter.agreements import AgreementEntry, AgreementKind
from app.trade.money import MICRO
from app.trade.settings import HOURLY_RATE
from app.work.bench.modifications import (
    ModificationEntry,
    assess_modification,
    record_modification,
    reverse_modification,
)
from app.work.bench.transports import take_out
from app.work.bench.work_done import record_labour
from app.work.counter.messages import add_agreement
from app.work.office.invoices import issue_invoice, preview_invoice
from app.work.office.settings import change_settings
from app.work.papers.issuing import file_paper, paper_pdf
from tests.papers.reading import whole

OURS = ModificationEntry(
    kind=Kind.REPLACED,
    circuit=Circuit.RADIAL_COIL,
    where="R314",
    law=Law.CURRENT,
    maker_value=Decimal("6.8"),
    new_value=Decimal("5.6"),
    maker_tolerance=Decimal(5),
    new_tolerance=Decimal(1),
    why="Three other changes did not help.",
)
FOUND = replace(OURS, ours=False, why="", where="R402", circuit=Circuit.FOCUS_COIL)


def modify(bench: Any, entry: ModificationEntry) -> int:
    return int(record_modification(bench.book, bench.tobbe, bench.job, entry).value.id)


def agree(bench: Any, modification: int, *, yes: bool = True) -> None:
    entry = AgreementEntry(
        kind=AgreementKind.MODIFICATION,
        yes=yes,
        what="5.6 for 6.8 ohm",
        way=Way.TELEPHONE,
        said_by="Benedikt Arnsvik",
        modification_id=modification,
    )
    add_agreement(bench.book, bench.shop.mirr, bench.job, entry)


def invoiced(bench: Any) -> str:
    """The words of the invoice, issued and filed."""
    change_settings(bench.book, bench.shop.ine, {HOURLY_RATE: 60 * MICRO})
    record_labour(bench.book, bench.tobbe, bench.job, "Start-up and four trials", Decimal(2))
    paper = issue_invoice(bench.book, bench.shop.ine, bench.job).value.paper_id
    file_paper(bench.book, paper)
    return whole(paper_pdf(bench.book, paper).pdf)


def previewed(bench: Any) -> str:
    """The words of the invoice as it would be."""
    return whole(preview_invoice(bench.book, bench.job))


def test_our_change_is_named_with_its_numbers_the_yes_and_the_way_back(bench: Any) -> None:
    agree(bench, modify(bench, OURS))
    assert not bench.gate("told").done
    text = invoiced(bench)
    for words in (
        "What. R314 (radial coil drive): 5.6 Ω in place of the maker's 6.8 Ω.",
        "Why. Three other changes did not help.",
        "Cause not established.",
        "Agreed. You agreed to this on 12 Mar 2026 by telephone (Mirr Quistan).",
        "To undo it. Fit 6.8 Ω at R314 again.",
        "Parts: maker's ±5 %, fitted ±1 %.",
    ):
        assert words in text
    # bench.md section 8, 6.8 to 5.6 ohm: k 1.214286, +1.6864 dB, heat 1.474490 (common practice, no source)
    for figure in ("× 1.214", "× 1.474", "+1.69 dB"):
        assert figure in text
    assert bench.gate("told").done


def test_a_found_change_is_named_too_and_what_was_decided_on_it(bench: Any) -> None:
    found = modify(bench, FOUND)
    assess_modification(bench.book, bench.tobbe, found, "It plays well with it; left as it is.")
    text = invoiced(bench)
    for words in (
        "What. R402 (focus coil drive): 5.6 Ω in place of the maker's 6.8 Ω.",
        "Found. This was in the player when it came; this shop did not make it. It plays well with it",
        "To undo it. Fit 6.8 Ω at R402 again.",
        "× 1.214",
    ):
        assert words in text
    for absent in ("Why.", "You agreed to this", "Cause not established"):
        assert absent not in text
    assert bench.gate("told").done


def test_ours_and_found_are_numbered_and_neither_hides_the_other(bench: Any) -> None:
    modify(bench, FOUND)
    bench.later(minutes=5)
    agree(bench, modify(bench, OURS))
    text = invoiced(bench)
    first, second = text.index("Modification 1 of 2"), text.index("Modification 2 of 2")
    assert first < text.index("R402 (focus") < second < text.index("R314 (radial")


def test_two_changes_of_one_circuit_tell_their_common_effect_once(bench: Any) -> None:
    modify(bench, replace(FOUND, circuit=Circuit.RADIAL_COIL, where="R313", maker_value=Decimal("4.7"),
                          new_value=Decimal("4.3")))  # fmt: skip
    bench.later(minutes=5)
    modify(bench, OURS)
    text = previewed(bench)
    # by hand: 4.7 / 4.3 * 6.8 / 5.6 = 1.32724; squared 1.76157
    assert text.count("Coil current × 1 × ") == 1
    assert "Coil current × 1 × 1.327" in text
    assert "Heat in the coil × 1 × 1.762" in text
    for part in ("Part at R313 4.7 Ω 4.3 Ω", "Part at R314 6.8 Ω 5.6 Ω"):
        assert part in text


@pytest.mark.parametrize(
    ("entry", "words"),
    [
        (
            replace(FOUND, law=Law.NEITHER, maker_value=None),
            ("5.6 Ω fitted; the maker's value is not known", "Find out the maker's value at R402"),
        ),
        (
            ModificationEntry(
                kind=Kind.SUPPLY,
                circuit=Circuit.SUPPLY_RAIL,
                where="+8 V rail",
                maker_value=Decimal("8.0"),
                new_value=Decimal("8.6"),
            ),
            ("+8 V rail: 8.6 V in place of the maker's 8.0 V", "Set +8 V rail to 8.0 V again", "8.0 V 8.6 V"),
        ),
        (
            ModificationEntry(
                kind=Kind.TRIMMER,
                circuit=Circuit.SERVO_GAIN,
                where="VR202",
                was="2.41 kΩ",
                now="2.20 kΩ",
                reading_before=True,
                way_back="Back to 2.41 kΩ between pin 1 and 2, power off.",
            ),
            ("VR202 (servo gain): 2.20 kΩ; maker: 2.41 kΩ", "Back to 2.41 kΩ between pin 1 and 2, power off."),
        ),
        (
            ModificationEntry(kind=Kind.TRIMMER, circuit=Circuit.SERVO_GAIN, where="VR202", ours=False),
            ("VR202 was turned without a reading before: the way back is not known.",),
        ),
        (
            ModificationEntry(
                kind=Kind.OTHER_TYPE,
                circuit=Circuit.SIGNAL,
                where="IC501",
                was="<the maker's> & no other",
                now="a later type",
            ),
            ("What. Part of another type at IC501 (signal): a later type; maker: <the maker's> & no other", "Put <the maker's> & no other back"),
        ),
    ],
)  # fmt: skip
def test_every_kind_of_change_tells_what_was_and_how_it_is_put_back(
    bench: Any, entry: ModificationEntry, words: tuple[str, ...]
) -> None:
    modify(bench, entry)
    text = previewed(bench)
    for expected in words:
        assert expected in text


def test_a_refusal_of_the_customer_is_no_agreement_on_paper(bench: Any) -> None:
    agree(bench, modify(bench, OURS), yes=False)
    assert "You agreed to this" not in previewed(bench)


def test_what_was_put_back_is_not_told(bench: Any) -> None:
    reversed_one = modify(bench, replace(FOUND, where="R401"))
    modify(bench, OURS)
    bench.later(minutes=5)
    reverse_modification(bench.book, bench.tobbe, reversed_one, bench.job)
    text = previewed(bench)
    assert "R314" in text
    assert "R401" not in text


def test_a_change_in_a_transport_leaves_with_it(bench: Any) -> None:
    modify(bench, replace(FOUND, where="R9 on the transport", in_transport=True))
    assert "R9 on the transport" in previewed(bench)
    take_out(bench.book, bench.tobbe, bench.job, shelf="B 2")
    assert "R9 on the transport" not in previewed(bench)
