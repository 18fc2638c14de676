"""A modification in plain words, its effect, and the way back."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.circuit_ratio import circuit_ratios
from app.trade.bench.modification_words import (
    against_maker,
    effect_in_words,
    ohms,
    volts,
    way_back,
    what_it_is,
)
from app.trade.bench.modifications import Circuit, Kind, Law, Modification
from app.trade.wording import Wording


@pytest.mark.parametrize(
    ("value", "shown"),
    [("6.8", "6.8 Ω"), ("0.47", "0.47 Ω"), ("100", "100 Ω"), ("4700", "4.7 kΩ"), ("1e6", "1 MΩ")],
)
def test_resistors_are_written_as_people_write_them(value: str, shown: str, english: Wording) -> None:
    assert english.measure(ohms(Decimal(value))) == shown.replace(" ", "\u00a0")


def test_volts_keep_their_digits(english: Wording) -> None:
    assert english.measure(volts(Decimal("10.20"))) == "10.20\u00a0V"


@pytest.mark.parametrize(
    ("given", "is_", "back"),
    [
        (
            {},
            "R314 (radial coil drive): 5.6 Ω in place of the maker's 6.8 Ω",
            "Fit 6.8 Ω at R314 again.",
        ),
        (
            {"kind": Kind.PARALLEL, "new_value": Decimal(15)},
            "15 Ω added across the maker's 6.8 Ω at R314 (radial coil drive)",
            "Take the 15 Ω out at R314; the maker's 6.8 Ω stays.",
        ),
        (
            {"kind": Kind.SERIES, "new_value": Decimal("1.5")},
            "1.5 Ω added in series with the maker's 6.8 Ω at R314 (radial coil drive)",
            "Take the 1.5 Ω out at R314 and close the gap; the maker's 6.8 Ω stays.",
        ),
        (
            {"maker_value": None},
            "R314 (radial coil drive): 5.6 Ω fitted; the maker's value is not known",
            "Find out the maker's value at R314 and fit it again.",
        ),
        (
            {"kind": Kind.PARALLEL, "maker_value": None},
            "5.6 Ω added in parallel at R314 (radial coil drive); the maker's value is not known",
            "Take the 5.6 Ω out at R314.",
        ),
        (
            {"kind": Kind.SERIES, "maker_value": None},
            "5.6 Ω added in series at R314 (radial coil drive); the maker's value is not known",
            "Take the 5.6 Ω out at R314 and close the gap.",
        ),
        (
            {
                "kind": Kind.SUPPLY,
                "circuit": Circuit.SUPPLY_RAIL,
                "where": "+9 V",
                "maker_value": Decimal("9.0"),
                "new_value": Decimal("10.2"),
            },
            "+9 V: 10.2 V in place of the maker's 9.0 V",
            "Set +9 V to 9.0 V again.",
        ),
    ],
)
def test_a_change_says_its_numbers_and_its_way_back(
    given: dict[str, Any], is_: str, back: str, modification: Any, english: Wording
) -> None:
    change = modification(**given)
    assert english(what_it_is(change)).replace("\u00a0", " ") == is_
    assert english(way_back(change)).replace("\u00a0", " ") == back


def test_a_change_without_numbers_says_what_was_and_what_is(unlawful: Any, english: Wording) -> None:
    fuse = unlawful(Kind.FUSE, Circuit.FUSE, where="F1", was="T 315 mA", now="bridged with foil")
    assert english(what_it_is(fuse)) == "fuse at F1 (fuse): bridged with foil; maker: T 315 mA"
    assert english(way_back(fuse)) == "Put T 315 mA back at F1."
    lid = unlawful(Kind.INTERLOCK, Circuit.INTERLOCK, where="lid switch", now="taped down")
    assert english(what_it_is(lid)) == "interlock at lid switch (laser interlock): taped down"
    assert english(way_back(lid)) == "Put lid switch back as its maker had it."
    other = unlawful(Kind.OTHER, Circuit.OTHER, where="front")
    assert english(what_it_is(other)) == "other change at front (other circuit)"


def test_a_trimmer_turned_blind_has_no_way_back(unlawful: Any, english: Wording) -> None:
    blind = unlawful(Kind.TRIMMER, Circuit.LASER_SUPPLY, where="VR1")
    assert "not known" in english(way_back(blind))
    read = unlawful(Kind.TRIMMER, Circuit.LASER_SUPPLY, where="VR1", was="48.6 mA", reading_before=True)
    assert english(way_back(read)) == "Put 48.6 mA back at VR1."


def test_what_somebody_wrote_about_the_way_back_stands_first(modification: Any, english: Wording) -> None:
    assert english(way_back(modification(way_back="the old part is taped inside"))) == (
        "the old part is taped inside"
    )


def effect(change: Modification) -> Any:
    (ratio,) = circuit_ratios([change])
    return effect_in_words(ratio)


def test_the_effect_on_a_coil_says_current_gain_and_heat(modification: Any, english: Wording) -> None:
    assert english(effect(modification())).replace("\u00a0", " ") == (
        "Current in the radial coil is 1.214 times the maker's, loop gain +1.69 dB, "
        "coil heat 1.474 times (R314)."
    )


def test_gain_makes_no_claim_about_heat(modification: Any, english: Wording) -> None:
    said = english(effect(modification(law=Law.GAIN)))
    assert said.startswith("Loop gain in the radial coil is 0.824 times the maker's")
    assert "heat" not in said


def test_current_outside_a_coil_makes_no_claim_about_coil_heat(modification: Any, english: Wording) -> None:
    said = english(effect(modification(circuit=Circuit.SIGNAL)))
    assert said == "Current in the signal path is 1.214 times the maker's (R314)."


def test_without_a_law_there_is_no_effect_to_word(modification: Any) -> None:
    assert effect(modification(law=Law.NEITHER)) is None


def test_a_factor_is_said_as_a_share(english: Wording) -> None:
    assert english(against_maker(Decimal("1.214286"))) == "21\u00a0% above the maker's figure"
    assert english(against_maker(Decimal("0.792952"))) == "21\u00a0% below the maker's figure"


@pytest.mark.parametrize(
    ("kind", "was", "now", "is_", "back"),
    [
        (
            Kind.FIRMWARE,
            "1.02",
            "1.10",
            "firmware changed at IC401 (other circuit): 1.02 to 1.10",
            "Load version 1.02 into IC401 again.",
        ),
        (
            Kind.JUMPER,
            "A-B",
            "B-C",
            "jumper set at IC401 (other circuit): A-B to B-C",
            "Set IC401 to A-B again.",
        ),
    ],
)
def test_firmware_and_jumpers_go_back_to_what_they_were(
    kind: Kind, was: str, now: str, is_: str, back: str, unlawful: Any, english: Wording
) -> None:
    changed = unlawful(kind, Circuit.OTHER, was=was, now=now, where="IC401")
    assert english(what_it_is(changed)) == is_
    assert english(way_back(changed)) == back
