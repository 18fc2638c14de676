"""The hybrid e-invoice: what stands in its PDF. Named rules are of ISO 19005-3 (PDF/A-3), level b.

No validator of PDF/A-3 is at hand: these checks are ours, from memory of the standard, and no proof of conformity.
"""

from __future__ import annotations

import io
import re
import struct
import xml.etree.ElementTree as ET
from dataclasses import replace
from datetime import UTC, datetime
from functools import cache
from typing import Any

import facturx
import pypdfium2
import pytest
from PIL import Image, ImageChops, ImageCms
from pypdf import PdfReader
from pypdf.generic import ContentStream

from app.papers.colour_profile import srgb_profile
from app.papers.e_invoice import e_invoice
from app.papers.e_invoice_xml import e_invoice_xml
from app.papers.press import printed
from app.trade.refusal import Fault
from tests.papers.e_invoice_story import CASES
from tests.papers.reading import picture
from tests.papers.story import ENGLISH, INVOICE

FACTS = CASES["several rates"]
MADE = datetime(2026, 11, 25, 11, 30, tzinfo=UTC)


@cache
def visible() -> bytes:
    return printed(INVOICE, ENGLISH)


def hybrid(**more: Any) -> bytes:
    said = {"title": "Rechnung R-0412 Łódź", "language": "de", "issued_at": MADE} | more
    return e_invoice(visible(), FACTS, **said)


@cache
def reader() -> PdfReader:
    return PdfReader(io.BytesIO(hybrid()))


def test_the_xml_comes_out_as_it_went_in() -> None:
    """Oracles: factur-x and PDFium, each reading the attachment in its own way."""
    name, xml = facturx.get_xml_from_pdf(hybrid(), check_xsd=True, check_schematron=False)
    assert (name, xml) == ("factur-x.xml", e_invoice_xml(FACTS))
    document = pypdfium2.PdfDocument(hybrid())
    (attached,) = [document.get_attachment(n) for n in range(document.count_attachments())]
    assert (attached.get_name(), bytes(attached.get_data())) == (name, xml)
    document.close()


def test_the_page_looks_as_it_was_filed() -> None:
    before, after = picture(visible(), 60), picture(hybrid(), 60)
    assert ImageChops.difference(before, after).getbbox() is None


def test_equal_facts_give_equal_bytes() -> None:
    assert hybrid() == hybrid()
    assert hybrid() != hybrid(title="Invoice R-0412")


def test_the_file_says_which_colours_it_means() -> None:
    """6.2.3: one output intent with an embedded profile; 6.2.4.3: device RGB and grey only under it."""
    (intent,) = reader().trailer["/Root"]["/OutputIntents"]
    said = intent.get_object()
    assert said["/S"] == "/GTS_PDFA1"
    profile = said["/DestOutputProfile"]
    assert (profile["/N"], profile.get_data()) == (3, srgb_profile())


def test_the_colour_profile_is_srgb() -> None:
    """Oracle: Little CMS, which has a sRGB of its own; all colours come out the same to one part in 255."""
    ours = ImageCms.ImageCmsProfile(io.BytesIO(srgb_profile()))
    assert ImageCms.getProfileDescription(ours).strip() == "sRGB IEC61966-2.1"
    assert ours.profile.version == pytest.approx(2.1)
    colours = Image.merge("RGB", [Image.effect_noise((90, 90), 120) for _ in range(3)])
    change = ImageCms.buildTransform(ours, ImageCms.createProfile("sRGB"), "RGB", "RGB")
    moved = ImageChops.difference(ImageCms.applyTransform(colours, change), colours)
    assert max(high for _, high in moved.getextrema()) <= 1


# Letters of the house font, of the one that stands in, above U+FFFF, and one that no font has.
LETTERS = "Łódź Ωμέγα Привет ☃ 字 \U0001d11e"


def fonts_of(pdf: bytes) -> list[Any]:
    fonts = {}
    for page in PdfReader(io.BytesIO(pdf)).pages:
        fonts |= {font.idnum: font.get_object() for font in page["/Resources"]["/Font"].values()}
    return list(fonts.values())


@cache
def odd_letters() -> bytes:
    odd = replace(INVOICE, customer=replace(INVOICE.customer, name=LETTERS), heading=LETTERS)
    return e_invoice(printed(odd, ENGLISH), FACTS, title="x", language="en", issued_at=MADE)


@cache
def every_font() -> list[Any]:
    return fonts_of(odd_letters())


def test_every_font_is_embedded_as_one_that_needs_no_encoding() -> None:
    """6.2.11.4: programs embedded; 6.2.11.6: a symbolic TrueType font has no Encoding and one table of its codes."""
    names = {font["/BaseFont"].partition("+")[2] for font in every_font()}
    assert {"SourceSansPro-Regular", "SourceSansPro-Semibold", "DejaVuSans"} <= names
    for font in every_font():
        assert font["/Subtype"] == "/TrueType"
        assert "/Encoding" not in font
        described = font["/FontDescriptor"]
        assert described["/Flags"] & 4
        program = tables(described["/FontFile2"].get_data())
        assert struct.unpack(">H", program["cmap"][2:4]) == (1,)


def test_widths_in_the_document_are_those_of_the_font() -> None:
    """6.2.11.5: both agree to a thousandth of the size. Tables read by hand, after the OpenType specification."""
    compared = 0
    for font in every_font():
        program = tables(font["/FontDescriptor"]["/FontFile2"].get_data())
        units = struct.unpack(">H", program["head"][18:20])[0]
        measured = struct.unpack(">H", program["hhea"][34:36])[0]
        glyphs = glyphs_by_code(program["cmap"])
        for code, width in enumerate(font["/Widths"], int(font["/FirstChar"])):
            glyph = glyphs.get(code, 0)
            if glyph:  # a code without a glyph is never written, as the next test says
                compared += 1
                at = 4 * min(glyph, measured - 1)
                advance = struct.unpack(">H", program["hmtx"][at : at + 2])[0]
                assert float(width) == pytest.approx(advance * 1000 / units, abs=1)
    assert compared > 100


def test_no_letter_is_drawn_by_the_glyph_of_none() -> None:
    """6.2.11.8: no text refers to .notdef, which is glyph 0. What is written is read from the page itself."""
    drawn = 0
    for page in PdfReader(io.BytesIO(odd_letters())).pages:
        fonts = page["/Resources"]["/Font"]
        glyphs: dict[int, int] = {}
        for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
            if operator == b"Tf":
                program = tables(fonts[operands[0]]["/FontDescriptor"]["/FontFile2"].get_data())
                glyphs = glyphs_by_code(program["cmap"])
            elif operator == b"Tj":
                codes = operands[0].original_bytes
                assert [code for code in codes if not glyphs.get(code)] == []
                drawn += len(codes)
    assert drawn > 500


def tables(font: bytes) -> dict[str, bytes]:
    count = struct.unpack(">H", font[4:6])[0]
    found = {}
    for number in range(count):
        tag, _, at, length = struct.unpack(">4sIII", font[12 + 16 * number : 28 + 16 * number])
        found[tag.decode()] = font[at : at + length]
    return found


def glyphs_by_code(cmap: bytes) -> dict[int, int]:
    """The one table of codes, of form 0 or 6."""
    at = struct.unpack(">I", cmap[8:12])[0]
    form = struct.unpack(">H", cmap[at : at + 2])[0]
    if form == 0:
        return dict(enumerate(cmap[at + 6 : at + 262]))
    assert form == 6
    first, count = struct.unpack(">HH", cmap[at + 6 : at + 10])
    return {first + n: struct.unpack(">H", cmap[at + 10 + 2 * n : at + 12 + 2 * n])[0] for n in range(count)}


def test_metadata_claims_pdf_a_3_and_agrees_with_the_document() -> None:
    """6.6.2 and 6.6.4: XMP with part 3, level B; dates, title and maker say the same in both places."""
    metadata = reader().trailer["/Root"]["/Metadata"]
    assert "/Filter" not in metadata
    root = ET.fromstring(metadata.get_data())
    said = {element.tag.rpartition("}")[2]: (element.text or "").strip() for element in root.iter()}
    assert (said["part"], said["conformance"], said["ConformanceLevel"]) == ("3", "B", "EN 16931")
    assert said["CreateDate"] == said["ModifyDate"] == "2026-11-25T11:30:00+00:00"
    info = reader().metadata
    assert info is not None
    assert info["/CreationDate"] == info["/ModDate"] == "D:20261125113000+00'00'"
    assert (info["/Title"], info["/Author"]) == ("Rechnung R-0412 Łódź", "Lanternfield Workshop")
    assert (info["/Creator"], info["/Producer"]) == (said["CreatorTool"], said["Producer"])
    about = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}about"
    assert all(about in element.attrib for element in root.iter(about.replace("about", "Description")))


def test_the_attachment_is_bound_to_the_document() -> None:
    """6.8: the file is associated, named twice, and of a known kind."""
    catalog = reader().trailer["/Root"]
    (file,) = catalog["/AF"]
    said = file.get_object()
    assert said["/AFRelationship"] == "/Alternative"
    assert said["/F"] == said["/UF"] == "factur-x.xml"
    inside = said["/EF"]["/F"]
    assert inside["/Subtype"] == "/text/xml"
    assert inside["/Params"]["/ModDate"] == "D:20261125113000+00'00'"
    assert catalog["/Lang"] == "de"


def test_the_file_has_a_name_and_nothing_that_lasts_badly() -> None:
    """6.1.2, 6.1.3 and 6.5: header, identifier, no encryption, nothing that acts by itself."""
    raw = hybrid()
    assert raw.startswith(b"%PDF-1.7\n%")
    assert raw[10:14] > b"\x7f" * 4
    first, second = reader().trailer["/ID"]
    assert first == second
    assert len(first) == 16
    for forbidden in (b"/Encrypt", b"/JavaScript", b"/OpenAction", b"/AA ", b"/LZWDecode", b"/Trans "):
        assert forbidden not in raw


@pytest.mark.logs_errors("factur-x tells what the schema says")
def test_facts_that_break_the_schema_are_our_own_mistake() -> None:
    with pytest.raises(Fault, match="schema"):
        e_invoice(visible(), replace(FACTS, number=""), title="x", language="en", issued_at=MADE)


def test_each_description_of_the_metadata_names_its_own_namespaces() -> None:
    """Readers that look no further up find them only there, as a validator of PDF/A-1 did."""
    text = reader().trailer["/Root"]["/Metadata"].get_data().decode()
    for head, body in re.findall("<rdf:Description ([^>]*)>(.*?)</rdf:Description>", text, re.DOTALL):
        prefixes = set(re.findall(r"<(\w+):", body)) - {"rdf"}
        assert prefixes == set(re.findall(r"xmlns:(\w+)=", head))
