"""What people type for a value: read strictly, shown back, or refused with what would be right."""

from dataclasses import replace
from datetime import UTC
from decimal import Decimal

import pytest
import rkm_codes
from hypothesis import example, given
from hypothesis import strategies as st

from app.trade.bench.bound import Bound
from app.trade.bench.part_entries import CORD, RESISTANCE
from app.trade.bench.typed_value import Entry, TypedValue, parse_value, read_value, typed_form
from app.trade.bench.units import UNITS
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.trade.wording import plain

D = Decimal

SAY = plain(UTC)


def entry(unit: str, low: str, high: str, example: str, **more: bool) -> Entry:
    return Entry(UNITS[unit], D(low), D(high), D(example), **more)


OHM = entry("Ω", "0", "1E+9", "4.7", open_circuit=True)
LASER = entry("mA", "0", "200", "51.2")
OFFSET = entry("mV", "-2000", "2000", "12")
SEEK = entry("s", "0", "60", "1.3")
INSULATION = entry("MΩ", "0", "20000", "100", more_than=True)
HEIGHT = entry("mm", "0", "50", "18.25")
CAPACITOR = entry("µF", "0.0000001", "1E+6", "220")
ERRORS = entry("/s", "0", "7350", "12")
TEMPERATURE = entry("°C", "-10", "150", "48")
AREA = entry("mV s", "0", "1000", "48")
EYE = entry("Vpp", "0", "5", "1.08")
LEVEL = entry("V rms", "0", "10", "2.00")
SPEED = entry("m/s", "0.5", "3", "1.30")


def value_of(typed: str, field: Entry) -> TypedValue:
    found = read_value(typed, field)
    assert isinstance(found, TypedValue), SAY(found)
    return found


def refusal_of(typed: str, field: Entry) -> str:
    found = read_value(typed, field)
    assert isinstance(found, Sentence), found
    return SAY(found).replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("typed", "field", "si"),
    [
        ("4k7", OHM, "4700"),
        ("4K7", OHM, "4700"),
        ("4R7", OHM, "4.7"),
        ("4r7", OHM, "4.7"),
        ("4Ω7", OHM, "4.7"),
        ("0R1", OHM, "0.1"),
        ("R47", OHM, "0.47"),
        ("3R9", OHM, "3.9"),
        ("1M5", OHM, "1500000"),
        ("150m", OHM, "0.150"),
        ("470R", OHM, "470"),
        ("4.7 kohm", OHM, "4700"),
        ("4,7kΩ", OHM, "4700"),
        ("4k7 Ω", OHM, "4700"),
        ("4k7ohm", OHM, "4700"),
        ("12 \u2126", OHM, "12"),
        ("0,82", OHM, "0.82"),
        ("1.2", OHM, "1.2"),
        (".5", OHM, "0.5"),
        ("+5", OHM, "5"),
        ("  5  ", OHM, "5"),
        ("2u2", CAPACITOR, "0.0000022"),
        ("2µ2", CAPACITOR, "0.0000022"),
        ("2\u03bc2", CAPACITOR, "0.0000022"),
        ("220", CAPACITOR, "0.00022"),
        ("100n", CAPACITOR, "1E-7"),
        ("p47", CAPACITOR, "4.7E-13"),
        ("51.2", LASER, "0.0512"),
        ("51.2 mA", LASER, "0.0512"),
        ("0,0512 A", LASER, "0.0512"),
        ("150m", LASER, "0.150"),
        ("228 mV", OFFSET, "0.228"),
        ("-38", OFFSET, "-0.038"),
        ("\u221238", OFFSET, "-0.038"),
        ("0V1", OFFSET, "0.1"),
        ("4.8 s", SEEK, "4.8"),
        ("900 ms", SEEK, "0.9"),
        ("12", ERRORS, "12"),
        ("12/s", ERRORS, "12"),
        ("12 1/s", ERRORS, "12"),
        ("48 °C", TEMPERATURE, "48"),
        ("48C", TEMPERATURE, "48"),
        ("48 mV s", AREA, "0.048"),
        ("48 mVs", AREA, "0.048"),
        ("0.05 V·s", AREA, "0.05"),
        ("1.08 V", EYE, "1.08"),
        ("1.08 Vpp", EYE, "1.08"),
        ("800 mVpp", EYE, "0.8"),
        ("2.00 V rms", LEVEL, "2"),
        ("1.3 m/s", SPEED, "1.3"),
        ("5 mm", HEIGHT, "0.005"),
        ("50 um", HEIGHT, "0.00005"),
        ("5 m", CORD, "5"),
        ("1m5", CORD, "1.5"),
    ],
)  # fmt: skip
def test_read(typed: str, field: Entry, si: str) -> None:
    found = value_of(typed, field)
    assert found.value == D(si)
    assert found.bound is Bound.EXACT
    assert found.typed == typed.strip()


@pytest.mark.parametrize(
    ("typed", "field", "echo"),
    [
        ("4k7", OHM, "read as 4.7 kΩ"),
        ("4k70", OHM, "read as 4.70 kΩ"),
        ("150m", OHM, "read as 0.150 Ω"),
        ("0,82", OHM, "read as 0.82 Ω"),
        ("0.0512 A", LASER, "read as 51.2 mA"),
        ("> 100M", INSULATION, "read as more than 100 MΩ"),
        ("20G", INSULATION, "read as 20 GΩ"),
        ("open", OHM, "read as open, no circuit"),
    ],
)
def test_what_was_read_is_shown_back(typed: str, field: Entry, echo: str) -> None:
    assert SAY(value_of(typed, field).echo).replace("\u00a0", " ") == echo


@pytest.mark.parametrize(
    ("typed", "field", "step"),
    [
        ("51.2", LASER, "0.1"),
        ("51", LASER, "1"),
        ("4k7", OHM, "100"),
        ("4k70", OHM, "10"),
        ("0,820", OHM, "0.001"),
        ("open", OHM, "0"),
    ],
)
def test_the_step_is_one_in_the_last_figure_typed(typed: str, field: Entry, step: str) -> None:
    assert value_of(typed, field).step == D(step)


def test_small_m_and_large_m_differ() -> None:
    assert value_of("150m", OHM).value == D("0.15")
    assert value_of("150M", OHM).value == D(150_000_000)
    assert refusal_of("150M", LASER) == (
        "150 MA cannot be: 0 mA to 200 mA is possible. Large M is mega, small m is milli."
    )


def test_a_comma_is_always_a_decimal_mark() -> None:
    assert value_of("1,234", OHM).value == D("1.234")


@pytest.mark.parametrize("typed", ["> 100M", ">100", "> 100 MΩ", ">100,0"])
def test_a_lower_bound_where_it_is_a_reading(typed: str) -> None:
    found = value_of(typed, INSULATION)
    assert (found.value, found.bound) == (D(100_000_000), Bound.MORE)
    assert SAY(found.measure).replace("\u00a0", " ").startswith("more than 100")


@pytest.mark.parametrize("typed", ["open", "Open", "OPEN", "offen"])
def test_an_open_circuit_where_it_is_a_reading(typed: str) -> None:
    found = value_of(typed, OHM)
    assert (found.value, found.shown, found.bound) == (None, None, Bound.OPEN)
    assert SAY(found.measure) == "open"  # type: ignore[arg-type]


def test_a_value_is_shown_in_tables_in_its_own_unit() -> None:
    assert SAY.value(value_of("0.0512 A", LASER).measure).replace("\u00a0", " ") == "51.2 mA"


@pytest.mark.parametrize(
    ("typed", "field", "said"),
    [
        ("", LASER, "Type a value, for example 51.2 mA."),
        ("   ", LASER, "Type a value, for example 51.2 mA."),
        ("1" * 41, LASER, "This is too long for a value. Right is for example 51.2 mA."),
        ("open", LASER, "Open is no reading here. Right is for example 51.2 mA."),
        ("> 3", LASER, "A lower bound is no reading here. Right is for example 51.2 mA."),
        (">", INSULATION, "> is no value here. Right is for example 100 MΩ."),
        ("228 mV", LASER, "This is read in mA, not in mV. Right is for example 51.2 mA."),
        ("12 quux", LASER, "This is read in mA, not in quux. Right is for example 51.2 mA."),
        ("48 K", TEMPERATURE, "This is read in °C, not in K. Right is for example 48 °C."),
        ("1.2k", ERRORS, "This is read in /s, not in k. Right is for example 12 /s."),
        ("1k2", ERRORS, "1k2 is no value here. Right is for example 12 /s."),
        ("12 k/s", ERRORS, "This is read in /s, not in k/s. Right is for example 12 /s."),
        ("1,234.5", OHM, "Figures are never grouped here: one decimal mark, no spaces, 4.7 Ω."),
        ("1.2.3", OHM, "Figures are never grouped here: one decimal mark, no spaces, 4.7 Ω."),
        ("1 234", OHM, "Figures are never grouped here: one decimal mark, no spaces, 4.7 Ω."),
        ("1'234", OHM, "Figures are never grouped here: one decimal mark, no spaces, 4.7 Ω."),
        ("1.", OHM, "Figures are missing after the decimal mark. Right is for example 4.7 Ω."),
        ("1.k", OHM, "Figures are missing after the decimal mark. Right is for example 4.7 Ω."),
        (".", OHM, ". is no value here. Right is for example 4.7 Ω."),
        ("-", OHM, "- is no value here. Right is for example 4.7 Ω."),
        ("k", OHM, "k is no value here. Right is for example 4.7 Ω."),
        ("nan", OHM, "nan is no value here. Right is for example 4.7 Ω."),
        ("inf", OHM, "inf is no value here. Right is for example 4.7 Ω."),
        ("1e3", OHM, "1e3 is no value here. Right is for example 4.7 Ω."),
        ("4k7k", OHM, "4k7k is no value here. Right is for example 4.7 Ω."),
        ("4k7 mA", OHM, "4k7 mA is no value here. Right is for example 4.7 Ω."),
        ("1.4k7", OHM, "This is read in Ω, not in k7. Right is for example 4.7 Ω."),
        ("4 k7", OHM, "This is read in Ω, not in k7. Right is for example 4.7 Ω."),
        ("- 5", OHM, "- 5 is no value here. Right is for example 4.7 Ω."),
        ("\u0663", OHM, "\u0663 is no value here. Right is for example 4.7 Ω."),
        ("5m", HEIGHT, "Here m could mean milli or metres. Type the whole unit: mm."),
        ("4m7", HEIGHT, "Here m could mean milli or metres. Type the whole unit: mm."),
        ("2 m", SEEK, "Here m could mean milli or minutes. Type the whole unit: s."),
        ("0.1234567891", OHM, "So many figures are no reading. Right is for example 4.7 Ω."),
        ("1234567890123", OHM, "So many figures are no reading. Right is for example 4.7 Ω."),
        ("-5", OHM, "−5 Ω cannot be: 0 Ω to 1 GΩ is possible."),
        ("5 kA", LASER, "5 kA cannot be: 0 mA to 200 mA is possible."),
        ("> 21G", INSULATION, "21 GΩ cannot be: 0 MΩ to 20 GΩ is possible."),
        ("-11", TEMPERATURE, "−11 °C cannot be: −10 °C to 150 °C is possible."),
    ],
)  # fmt: skip
def test_refused_with_what_would_be_right(typed: str, field: Entry, said: str) -> None:
    assert refusal_of(typed, field) == said


def test_the_refusal_stands_under_its_field() -> None:
    with pytest.raises(FieldRefusal) as refused:
        parse_value("nan", OHM, "added")
    assert list(refused.value.fields) == ["added"]
    assert parse_value("4R7", OHM).value == D("4.7")


def test_twelve_figures_before_the_mark_and_nine_behind_it_are_still_read() -> None:
    wide = entry("Ω", "0", "1E+15", "1")
    assert value_of("123456789012.123456789", wide).value == D("123456789012.123456789")


def test_zero_has_no_sign() -> None:
    assert str(value_of("-0.0", OFFSET).shown) == "0.0"


@pytest.mark.parametrize(
    "code", ["4k7", "4K7", "47k", "R47", "0R1", "3R9", "4r7", "470R", "1M5", "2M2", "2u2", "100n", "4G7"]
)
def test_codes_agree_with_rkm_codes(code: str) -> None:
    # IEC 60062 codes as the library `rkm_codes` reads them.
    theirs = rkm_codes.from_rkm(code)
    ours = value_of(code, entry("Ω", "0", "1E+12", "1")).value
    assert ours is not None
    assert float(ours) == pytest.approx(float(theirs), rel=1e-12)


_FIELDS = [
    OHM,
    LASER,
    OFFSET,
    SEEK,
    INSULATION,
    HEIGHT,
    CAPACITOR,
    ERRORS,
    TEMPERATURE,
    AREA,
    EYE,
    SPEED,
    CORD,
]
_NEAR_MISSES = st.text("0123456789.,-+> kKmMuµnpGRrΩVAsohmopen\u221213e'/%°", max_size=14)


@given(st.one_of(st.text(max_size=60), _NEAR_MISSES), st.sampled_from(_FIELDS))
@example("1" * 12 + "G", OHM)
@example("-.,", OHM)
def test_anything_typed_is_a_value_in_range_or_a_sentence(typed: str, field: Entry) -> None:
    found = read_value(typed, field)
    if isinstance(found, Sentence):
        assert SAY(found)
        return
    assert SAY(found.echo)
    if found.shown is None:
        assert found.bound is Bound.OPEN
    else:
        assert found.value is not None
        assert found.value.is_finite()
        assert field.low <= found.shown <= field.high
        assert field.unit.to_si(found.shown) == found.value


@given(st.sampled_from(_FIELDS), st.data(), st.sampled_from([".", ","]))
def test_what_is_written_out_reads_back_the_same(field: Entry, data: st.DataObject, mark: str) -> None:
    places = data.draw(st.integers(0, 4))
    low, high = (int(end * 10**places) for end in (field.low, min(field.high, D(10**9))))
    shown = D(data.draw(st.integers(low, high))).scaleb(-places)
    if not field.low <= shown <= field.high:
        return
    bound = Bound.MORE if field.more_than and data.draw(st.booleans()) else Bound.EXACT
    found = value_of(typed_form(shown, field.unit, bound, mark), field)
    assert (found.shown, found.bound) == (shown, bound)
    assert str(found.shown) == str(shown or abs(shown))


def test_an_open_circuit_reads_back_too() -> None:
    assert value_of(typed_form(None, OHM.unit), OHM).bound is Bound.OPEN


def test_part_values_refuse_what_no_part_has() -> None:
    assert refusal_of("0", RESISTANCE) == "0 Ω cannot be: 1 mΩ to 100 MΩ is possible."
    assert value_of("6R8", RESISTANCE).value == D("6.8")


def test_values_taken_anew_are_read_as_their_mean() -> None:
    read = value_of("28.4;30.4 ; 32.4 mA", replace(LASER, repeats=3))
    assert (read.typed, read.shown, read.step) == ("28.4; 30.4; 32.4 mA", D("30.4"), D("0.1"))
    assert read.value == D("0.0304")
    assert read.repeats == (D("0.0284"), D("0.0304"), D("0.0324"))
    assert SAY(read.echo).replace("\u00a0", " ") == "read as the mean of 3: 30.4 mA"


def test_a_mean_that_does_not_come_out_even_gets_one_figure_more() -> None:
    read = value_of("40; 41; 41", replace(LASER, repeats=3))
    assert (read.shown, read.step) == (D("40.7"), D("0.1"))


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("40; 41; 42; 43", "At most 3 values have their mean here. Right is for example 51.2 mA."),
        ("40;", "Type a value, for example 51.2 mA."),
        ("40; x", "x is no value here. Right is for example 51.2 mA."),
        ("40; open", "Only plain values have a mean. Right is for example 51.2 mA."),
        ("> 40; 41", "Only plain values have a mean. Right is for example 51.2 mA."),
    ],
)
def test_what_has_no_mean_is_refused(typed: str, said: str) -> None:
    assert refusal_of(typed, replace(LASER, repeats=3, open_circuit=True, more_than=True)) == said


def test_a_field_that_reads_one_value_reads_no_mean() -> None:
    assert refusal_of("40; 41", LASER) == "One value is read here. Right is for example 51.2 mA."
