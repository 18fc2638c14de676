"""What holds for every paper: sizes, legible type, white margins, codes that read back, hostile text, equal bytes."""

from __future__ import annotations

import io
import subprocess
import sys
from dataclasses import fields, is_dataclass, replace
from typing import Any

import pytest
import zxingcpp
from reportlab.pdfbase import pdfmetrics

from app.papers import fonts
from app.papers import text as set_texts
from app.papers.facts import PaperSize
from app.papers.press import FACTS, PaperKind, kind_of, printed, read_facts
from tests.papers import story
from tests.papers.conftest import PAPERS, SHEETS, pdf_of
from tests.papers.reading import collisions, letters, picture, plain, sizes, texts, whole, without_spaces

PAGES = {"estimate": 2, "invoice": 2, "report": 3}
HOSTILE = [
    "a<b && c>d",
    "<b>open",
    '<img src="file:///etc/passwd"/>',
    "</para><font size=99>",
    "{braces} {0} %s %(x)s",
    "Zażółć gęślą jaźń, Łódź",
    "проигрыватель компакт-дисков",
    "Ωμέγα, αναπαραγωγή",
    "\U0001f600 \U0001f527 \U0001f9ff",
    "中文播放器",
    "Ångström ß ẞ ŉ ƒ № ‰ ™ ſ",
    "\\(parens) \\000 )(",
]


def test_equal_facts_give_equal_bytes(paper: tuple[str, bytes]) -> None:
    name, pdf = paper
    assert printed(replace(PAPERS[name]), story.ENGLISH) == pdf


def test_another_process_gives_the_same_bytes() -> None:
    """`check` files a missing paper from its facts, on another day in another program run."""
    code = (
        "import sys; from tests.papers import story; from app.papers.press import printed; "
        "sys.stdout.buffer.write(printed(story.INVOICE, story.ENGLISH))"
    )
    made = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, check=True, env={"PYTHONHASHSEED": "7"}
    )
    assert made.stdout == pdf_of("invoice")


def test_papers_printed_at_the_same_time_do_not_mix() -> None:
    """Issuing files papers in the background while a preview is drawn."""
    from concurrent.futures import ThreadPoolExecutor

    names = sorted(PAPERS) * 3
    with ThreadPoolExecutor(4) as pool:
        made = list(pool.map(lambda name: printed(PAPERS[name], story.ENGLISH), names))
    assert [len(pdf) for pdf in made] == [len(pdf_of(name)) for name in names]
    assert all(pdf == pdf_of(name) for name, pdf in zip(names, made, strict=True))


def test_the_first_papers_of_a_day_printed_at_the_same_time_do_not_mix() -> None:
    """The library reads its fonts late and by one place in the file: two papers at once once spoiled each other."""
    from concurrent.futures import ThreadPoolExecutor

    usual = sys.getswitchinterval()
    try:
        for _ in range(4):
            for name in fonts.FILES:
                pdfmetrics._fonts.pop(name, None)  # as if not read yet
            fonts.face.cache_clear()
            fonts.pieces.cache_clear()
            set_texts._set_plain.cache_clear()
            sys.setswitchinterval(1e-5)
            with ThreadPoolExecutor(4) as pool:
                made = list(pool.map(lambda _: printed(PAPERS["small tag"], story.ENGLISH), range(4)))
            sys.setswitchinterval(usual)
            assert all(pdf == pdf_of("small tag") for pdf in made)
    finally:
        sys.setswitchinterval(usual)


def test_facts_kept_as_text_print_the_same_paper(paper: tuple[str, bytes]) -> None:
    name, pdf = paper
    facts = PAPERS[name]
    again = read_facts(kind_of(facts), facts.to_json())
    assert again == facts
    assert printed(again, story.ENGLISH) == pdf


def test_every_kind_of_paper_has_its_facts() -> None:
    assert set(FACTS) == set(PaperKind)
    assert {kind_of(facts) for facts in PAPERS.values()} == set(PaperKind)


@pytest.mark.parametrize(
    ("name", "letter", "size"),
    [
        ("ticket", False, (210, 297)),  # ISO 216
        ("ticket", True, (215.9, 279.4)),  # ANSI/ASME Y14.1 size A
        ("invoice", False, (210, 297)),
        ("invoice", True, (215.9, 279.4)),
        ("unsafe", False, (210, 297)),
        ("unsafe", True, (215.9, 279.4)),
        ("receipt", False, (148, 210)),
        ("receipt", True, (139.7, 215.9)),
        ("small tag", False, (70, 36)),
        ("modified label", False, (70, 36)),
    ],
)
def test_pages_have_the_size_of_their_paper(name: str, letter: bool, size: tuple[float, float]) -> None:
    for page in sizes(pdf_of(name, letter)):
        assert page == pytest.approx(size, abs=0.1)


def test_a_roll_tag_is_as_wide_as_its_roll_and_about_85_long() -> None:
    ((width, height),) = sizes(pdf_of("roll tag"))
    assert width == pytest.approx(62, abs=0.1)
    assert 75 < height < 95


@pytest.mark.parametrize(
    ("name", "letter", "pages"),
    [(name, letter, PAGES.get(name, 1)) for name in SHEETS for letter in (False, True)],
)
def test_the_story_takes_as_many_pages_as_it_should(name: str, letter: bool, pages: int) -> None:
    assert len(texts(pdf_of(name, letter))) == pages


def test_no_type_is_smaller_than_nine_points(sheet: bytes) -> None:
    for number in range(len(texts(sheet))):
        assert min(letter.size for letter in letters(sheet, number)) >= 9 - 0.01


def test_labels_have_no_smaller_type_either() -> None:
    for name in ("roll tag", "small tag", "modified label"):
        for long_words in (False, True):
            assert min(letter.size for letter in letters(pdf_of(name, False, long_words))) >= 9 - 0.01


def test_nothing_is_printed_nearer_to_an_edge_than_5_mm(sheet: bytes) -> None:
    """The dashed cut line of the ticket alone runs out to both sides."""
    for number, (width, height) in enumerate(sizes(sheet)):
        image = picture(sheet, 127, number, grey=True)  # 5 dots a millimetre
        edge = 24
        band = [
            image.crop((0, 0, image.width, edge)),
            image.crop((0, image.height - edge, image.width, image.height)),
        ]
        sides = [
            image.crop((0, 0, edge, image.height)),
            image.crop((image.width - edge, 0, image.width, image.height)),
        ]
        assert all(strip.getextrema()[0] > 250 for strip in band)
        for side in sides:
            middle = side.height // 2
            side.paste(255, (0, middle - 4, side.width, middle + 4))  # the cut line
            assert side.getextrema()[0] > 250
        assert width > 0 < height


def test_no_letter_lies_on_another(sheet: bytes) -> None:
    """Letters of two texts that overlap would mean that something ran into its neighbour."""
    for number in range(len(texts(sheet))):
        assert collisions(sheet, number) == []


def test_every_page_says_which_it_is_and_of_how_many(sheet: bytes) -> None:
    pages = texts(sheet)
    for number, text in enumerate(pages, 1):
        if len(pages) > 1 or "half 1 of 2" not in text:
            assert f"page {number} of {len(pages)}" in text


@pytest.mark.parametrize("dpi", [300, 203])
@pytest.mark.parametrize("name", ["ticket", "roll tag", "small tag", "modified label", "receipt", "unsafe"])
def test_codes_read_back_from_the_printed_page(name: str, dpi: int) -> None:
    """Oracle: zxing-cpp. 300 and 203 dots an inch are what office and label printers have; one bit, as they print."""
    image = picture(pdf_of(name), dpi, grey=True).point(lambda grey: 255 if grey > 127 else 0)
    found = {(code.format.name, code.text) for code in zxingcpp.read_barcodes(image)}
    job = "J2119" if name == "unsafe" else "J2131"
    assert ("QRCode", job) in found
    if name in ("ticket", "roll tag"):
        assert ("Code128", job) in found


def test_both_halves_of_the_ticket_carry_both_codes() -> None:
    image = picture(pdf_of("ticket"), 300)
    for half in (
        image.crop((0, 0, image.width, image.height // 2)),
        image.crop((0, image.height // 2, *image.size)),
    ):
        assert sorted(code.format.name for code in zxingcpp.read_barcodes(half)) == ["Code128", "QRCode"]


def test_nothing_is_told_by_colour_alone(paper: tuple[str, bytes]) -> None:
    """In grey every ink keeps its distance from the paper: text 4.5 : 1 at least (WCAG 2.2, 1.4.3)."""
    _, pdf = paper
    for number in range(len(texts(pdf))):
        image = picture(pdf, 150, number, grey=True)
        assert image.getextrema()[0] < 40
    assert contrast(0.34) >= 4.5


def contrast(grey: float) -> float:
    """Contrast of a grey (0 to 1) on white, WCAG 2.2."""
    linear = grey / 12.92 if grey <= 0.04045 else ((grey + 0.055) / 1.055) ** 2.4
    return 1.05 / (linear + 0.05)


def poisoned(facts: Any, text: str) -> Any:
    """The facts with ``text`` behind everything that a person typed."""
    if isinstance(facts, tuple):
        return tuple(poisoned(item, text) for item in facts)
    if (
        not is_dataclass(facts)
        or isinstance(facts, type)
        or not type(facts).__module__.startswith("app.papers")
    ):
        return facts
    changes = {}
    for field in fields(facts):
        value = getattr(facts, field.name)
        if isinstance(value, str) and type(value) is str and value and field.name not in KEPT:
            changes[field.name] = f"{value} {text}"
        else:
            changes[field.name] = poisoned(value, text)
    return replace(facts, **changes)


KEPT = {"language", "zone", "iban", "bic", "reference", "logo", "picture", "id", "transport_type", "now"}


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("name", ["ticket", "receipt", "invoice", "unsafe"])
def test_what_a_person_types_prints_letter_for_letter(name: str, text: str) -> None:
    """Nothing typed can set type, open a file or stop a paper, and the text layer holds it as typed."""
    pdf = printed(poisoned(PAPERS[name], text), story.ENGLISH)
    assert without_spaces(text) in without_spaces(whole(pdf))
    assert "root:" not in whole(pdf)


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("name", ["roll tag", "small tag", "modified label"])
def test_a_label_prints_whatever_is_typed(name: str, text: str) -> None:
    facts = PAPERS[name]
    facts = replace(facts, **{"what" if name == "modified label" else "fault": text})
    assert without_spaces(text) in without_spaces(whole(printed(facts, story.ENGLISH)))


def test_hebrew_is_drawn_from_right_to_left_and_reads_back() -> None:
    """PDFium puts drawn letters into reading order; it finds the word only if it was drawn from the right."""
    pdf = printed(replace(story.TICKET, fault="נגן תקליטורים"), story.ENGLISH)
    assert "נגן תקליטורים" in whole(pdf)


@pytest.mark.parametrize("name", sorted(PAPERS))
def test_no_letter_is_a_box(name: str) -> None:
    """Code 0 is the box of a font that lacks the letter; its place in the text layer would be U+0000."""
    for text in HOSTILE:
        pdf = printed(poisoned(PAPERS[name], text), story.ENGLISH)
        for number in range(len(texts(pdf))):
            assert all(letter.text != "\0" for letter in letters(pdf, number))


def test_every_font_is_embedded_and_helvetica_is_not_needed(paper: tuple[str, bytes]) -> None:
    """ISO 19005 (PDF/A) asks for embedded fonts; the library would else name Helvetica in every file."""
    _, pdf = paper
    assert b"Helvetica" not in pdf
    assert pdf.count(b"/FontFile2") == pdf.count(b"/Type /FontDescriptor")


def test_a_draft_says_so_on_every_page_and_an_issued_paper_does_not(paper: tuple[str, bytes]) -> None:
    name, pdf = paper
    facts = PAPERS[name]
    draft = printed(replace(facts, sheet=replace(facts.sheet, draft=True)), story.ENGLISH)
    assert all("draft" in text for text in texts(draft))
    assert not any("draft" in text for text in texts(pdf))


def test_every_letter_carries_its_marks_for_folding_and_punching() -> None:
    """DIN 5008 form B on A4: folds at 105 and 210, hole at 148.5 mm; Letter in thirds and in its middle."""
    marks = {False: ((105.0, 5), (210.0, 5), (148.5, 3)), True: ((93.1, 5), (186.2, 5), (139.7, 3))}
    letters_of = [name for name, facts in PAPERS.items() if hasattr(facts, "panel") or name == "estimate"]
    assert letters_of
    for name in letters_of:
        for letter, places in marks.items():
            image = picture(pdf_of(name, letter), 300, grey=True)
            dots = 300 / 25.4
            for at, length in places:
                row = [
                    min(
                        image.getpixel((round(x * dots), round(at * dots) + off)) for off in (-2, -1, 0, 1, 2)
                    )
                    for x in (5.4, 5 + length - 0.4, 5 + length + 0.6)
                ]
                assert max(row[:2]) < 220 < row[2], (name, letter, at)


@pytest.mark.parametrize("name", ["roll tag", "small tag", "modified label"])
def test_no_label_names_the_customer(name: str) -> None:
    text = whole(pdf_of(name))
    for private in ("Arnsvik", "Nowhere Lane", "960 244", "C 0418"):
        assert private not in text


def test_facts_are_read_without_the_pdf_library() -> None:
    """The window starts with the facts; the library is loaded with the first paper."""
    code = "import sys, app.papers.press; print(sorted({'reportlab', 'segno', 'PIL'} & set(sys.modules)))"
    ended = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ended.stdout.strip() == "[]"


def test_words_of_the_program_pass_through_the_catalogue() -> None:
    """Every template is asked for; with a catalogue that marks them no plain English word is left."""
    from zoneinfo import ZoneInfo

    from app.trade.wording import Wording

    asked: set[str] = set()

    def marked(key: str) -> str:
        asked.add(key)
        return f"¤{key}"

    wording = Wording(marked, "en_GB", ZoneInfo("Europe/Berlin"))
    text = plain(whole(printed(story.INVOICE, wording)))
    for word in (
        "Sum of lines, net",
        "What was done or fitted",
        "For you, who use it",
        "Keep this page with the player",
    ):
        assert f"¤{word}" in text
        assert word in asked


def test_a_paper_can_be_opened_again_by_the_program_that_shows_it() -> None:
    assert io.BytesIO(pdf_of("invoice")).read(5) == b"%PDF-"
    assert PaperSize("Letter") is PaperSize.LETTER
