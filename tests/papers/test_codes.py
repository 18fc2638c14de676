"""Codes read back, and have the modules that their papers promise."""

from __future__ import annotations

import io

import pytest
import zxingcpp

from app.papers.codes import bars_width, draw_bars, draw_qr, job_code, qr_side, transfer_code
from app.papers.pen import Pen, open_canvas
from app.trade.money import Money
from tests.papers.reading import picture


def drawn(draw: object) -> bytes:
    buffer = io.BytesIO()
    canvas = open_canvas(buffer, 80, 60, "code", "", "en")
    draw(Pen(canvas, 80, 60))  # type: ignore[operator]
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


@pytest.mark.parametrize("job", [1, 7, 42, 2131, 99999, 123456, 10_000_000])
@pytest.mark.parametrize("dpi", [300, 203])
def test_job_codes_read_back(job: int, dpi: int) -> None:
    """Oracle: zxing-cpp."""

    def both(pen: Pen) -> None:
        draw_qr(pen, job_code(job), 6, 6, 0.6)
        draw_bars(pen, job_code(job), 6, 30, 0.38, 10)

    image = picture(drawn(both), dpi, grey=True).point(lambda grey: 255 if grey > 127 else 0)
    found = {code.format.name: code.text for code in zxingcpp.read_barcodes(image)}
    assert found == {"QRCode": f"J{job}", "Code128": f"J{job}"}


def test_a_job_code_is_a_version_1_symbol() -> None:
    """ISO/IEC 18004: version 1 has 21 modules a side; with level Q it holds J and any number people say."""
    assert qr_side("J2131", 0.72) == pytest.approx(15.12)
    assert qr_side("J1234567", 0.6) == pytest.approx(12.6)


def test_a_job_code_can_lose_a_quarter_of_its_modules() -> None:
    """Level Q (ISO/IEC 18004): the QR is the code to trust when a label is rubbed."""
    (code,) = zxingcpp.read_barcodes(picture(drawn(lambda pen: draw_qr(pen, "J2131", 6, 6, 0.6)), 300))
    assert code.ec_level == "Q"


def test_code_128_of_j_and_four_figures_has_79_modules() -> None:
    """Worked by hand (ISO/IEC 15417): start 11, J 11, shift to figures 11, two pairs 22, check 11, stop 13."""
    assert bars_width("J2131", 1) == 79


def test_the_code_of_a_transfer_says_what_a_bank_reads() -> None:
    """EPC069-12, version 002: eleven lines, sum with a point, structured reference in the tenth."""
    lines = transfer_code(
        "Lanternfield Workshop", "XX00 SPEC IMEN 0000 0000 00", "", Money(15932, "EUR"), "RF00 SPECIMEN 2131"
    ).split("\n")
    assert lines == [
        "BCD", "002", "1", "SCT", "", "Lanternfield Workshop", "XX00SPECIMEN0000000000", "EUR159.32", "",
        "RF00SPECIMEN2131",
    ]  # fmt: skip
    free = transfer_code("Łódź", "XX00", "SPECXX00", Money(5, "EUR"), "invoice 12").split("\n")
    assert (free[4], free[7], free[9], free[10]) == ("SPECXX00", "EUR0.05", "", "invoice 12")


def test_the_code_of_a_transfer_reads_back_with_its_letters() -> None:
    content = transfer_code("Łódź Ωμέγα " + "x" * 80, "XX00 SPEC", "", Money(123456789, "EUR"), "y" * 200)
    pdf = drawn(lambda pen: draw_qr(pen, content, 5, 5, 0.62, "m"))
    (code,) = zxingcpp.read_barcodes(picture(pdf, 300))
    assert code.text == content
    assert qr_side(content, 1, "m") <= 69  # version 13 at most


def test_a_transfer_never_says_more_than_a_code_may_hold() -> None:
    """EPC069-12: at most 331 bytes, which is what a version 13 symbol of level M holds, and 999,999,999.99 euro."""
    for reference in ("字" * 140, "RF18539007547034"):
        content = transfer_code(
            "字" * 70, "DE89 3704 0044 0532 0130 00", "XMPLDEFFXXX", Money(1, "EUR"), reference
        )
        assert len(content.encode()) <= 331
        assert "DE89370400440532013000\nEUR0.01" in content
        assert qr_side(content, 1, "m") <= 69
    most = transfer_code("A", "DE89370400440532013000", "", Money(99_999_999_999, "EUR"), "")
    assert "EUR999999999.99" in most
    assert transfer_code("A", "DE89370400440532013000", "", Money(100_000_000_000, "EUR"), "") == ""
