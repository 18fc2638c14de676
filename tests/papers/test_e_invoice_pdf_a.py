"""What stands in an e-invoice's PDF, key by key, under ISO 19005-3 (PDF/A-3), level b.

The clauses are from memory of the standard, and this is no proof of conformity. A key, an operator or a filter that
nobody has looked at makes a test fail, so that a change of the PDF library or of a paper is looked at first. What an
independent validator said by hand, and of what, is told in DEVELOPERS.md.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from pypdf import PdfReader, PdfWriter
from pypdf.generic import ContentStream, DictionaryObject, NameObject, TextStringObject

from app.papers.e_invoice import e_invoice
from app.papers.press import printed
from tests.papers.story import ENGLISH, INVOICE
from tests.papers.test_e_invoice import FACTS, MADE, hybrid, odd_letters
from tests.papers.test_letter_logo import logo

# Each looked at: no /AA, /A, /OpenAction, /JavaScript (6.5), no /Perms, /Encrypt (6.1.3, 6.1.12), no /OCProperties
# (6.9), no /Alternates, /OPI, /Interpolate (6.2.8), no /TR, /HTP (6.2.5), no /PS, /Ref (6.2.9), no /BM (6.2.10).
LOOKED_AT = {
    "/Catalog": "/AF /Lang /Metadata /Names /OutputIntents /PageMode /Pages /Type",
    "/EmbeddedFile": "/Filter /Params /Subtype /Type",
    "/Filespec": "/AFRelationship /Desc /EF /F /Type /UF",
    "/Font": "/BaseFont /FirstChar /FontDescriptor /LastChar /Name /Subtype /ToUnicode /Type /Widths",
    "/FontDescriptor": "/Ascent /CapHeight /Descent /Flags /FontBBox /FontFile2 /FontName /ItalicAngle /MissingWidth"
    " /StemV /Type",
    "/Metadata": "/Subtype /Type",
    "/OutputIntent": "/DestOutputProfile /Info /OutputConditionIdentifier /RegistryName /S /Type",
    "/Page": "/Contents /MediaBox /Parent /Resources /Rotate /Type",
    "/Pages": "/Count /Kids /Type",
    # A soft mask is transparency, which part 3 lets in: what it blends in is the output intent's (6.2.10).
    "/XObject": "/BitsPerComponent /ColorSpace /Decode /Filter /Height /SMask /Subtype /Type /Width",
    # Without a type: trailer, its information, names of files, their dates, resources, streams of fonts and pages.
    "": "/Author /CheckSum /CreationDate /Creator /ModDate /Producer /Subject /Title /EmbeddedFiles /F /UF /Names /Filter"
    " /Length1 /N /Font /XObject /ProcSet /ID /Info /Root /Size",
}
# Operators of ISO 32000-1, Annex A, that the papers draw with; none of them sets a CMYK colour (k, K) or an intent (ri).
OPERATORS = frozenset(
    b"q Q cm w J j M d m l c h re n S s f f* B B* W W* BT ET Tf Tm Td TL T* Tj Tr Tc Tw Tz rg RG g G Do".split()
)
FILTERS = frozenset({"/FlateDecode", "/ASCII85Decode"})  # 6.1.7.2: neither LZWDecode nor Crypt
_OWN = re.compile(r"/F\d+\+\d+$|/FormXob\.|/Im\d")  # what the pages call their fonts and pictures
NAME, TEXT, NESTED, PAGE = 127, 32_767, 28, (3, 14_400)  # 6.1.13: limits, in bytes, bytes, q within q, points


@cache
def with_logo() -> bytes:
    """An invoice whose logo has transparent parts."""
    shop = replace(INVOICE.sheet.shop, logo=logo((300, 100)))
    pdf = printed(replace(INVOICE, sheet=replace(INVOICE.sheet, shop=shop)), ENGLISH)
    return e_invoice(pdf, FACTS, title="x", language="en", issued_at=MADE)


FILES = {"plain": hybrid, "odd letters": odd_letters, "logo": with_logo}


def things(pdf: bytes) -> Iterator[Any]:
    """Every object that the trailer leads to, once."""
    seen: set[int] = set()
    waiting: list[Any] = [PdfReader(io.BytesIO(pdf)).trailer]
    while waiting:
        one = waiting.pop()
        one = one.get_object() if hasattr(one, "get_object") else one
        if id(one) in seen:
            continue
        seen.add(id(one))
        yield one
        if isinstance(one, dict):
            waiting += one.values()
        elif isinstance(one, list):
            waiting += one


def not_looked_at(pdf: bytes) -> set[str]:
    """Keys outside the list; names of fonts and pictures in their own dictionaries are ours."""
    found = set()
    for one in things(pdf):
        if isinstance(one, dict):
            kind = str(one.get("/Type", "/XObject" if "/BitsPerComponent" in one else ""))
            allowed = LOOKED_AT.get(kind, "").split()
            own = {key for key in one if not kind and _OWN.match(key)}
            found |= {f"{kind} {key}" for key in one if key not in allowed and key not in own}
    return found


@pytest.mark.parametrize("name", FILES)
def test_nothing_stands_in_it_that_nobody_has_looked_at(name: str) -> None:
    assert not_looked_at(FILES[name]()) == set()


@pytest.mark.parametrize("key", ["/OpenAction", "/AA", "/Perms", "/OCProperties"])
def test_what_acts_by_itself_or_hides_would_be_found(key: str) -> None:
    """The check itself: one key more in the catalog and it speaks."""
    writer = PdfWriter(clone_from=io.BytesIO(hybrid()))
    writer.root_object[NameObject(key)] = DictionaryObject({NameObject("/S"): TextStringObject("x")})
    changed = io.BytesIO()
    writer.write(changed)
    assert f"/Catalog {key}" in not_looked_at(changed.getvalue())


@pytest.mark.parametrize("name", FILES)
def test_it_keeps_to_the_limits_and_the_filters_that_last(name: str) -> None:
    """6.1.13 and 6.1.7.2; and a page as wide and tall as one may be."""
    for one in things(FILES[name]()):
        if isinstance(one, NameObject):
            assert len(one.encode("utf-8")) - 1 <= NAME
        elif isinstance(one, TextStringObject):
            assert len(one.original_bytes) <= TEXT
        elif isinstance(one, dict) and "/Filter" in one:
            filters = one["/Filter"]
            assert {filters} if isinstance(filters, NameObject) else set(filters) <= FILTERS
        elif isinstance(one, int):
            assert abs(one) < 2**31
    for page in PdfReader(io.BytesIO(FILES[name]())).pages:
        assert all(PAGE[0] <= side <= PAGE[1] for side in page.mediabox[2:])


@pytest.mark.parametrize("name", FILES)
def test_pages_are_drawn_with_operators_of_the_standard_and_colours_of_the_intent(name: str) -> None:
    """6.2.2, 6.2.4.3 and 6.1.13: known operators, no CMYK, every Q closes a q, not too many of them open."""
    for page in PdfReader(io.BytesIO(FILES[name]())).pages:
        open_ones = 0
        for _, operator in ContentStream(page.get_contents(), page.pdf).operations:
            assert operator in OPERATORS
            open_ones += (operator == b"q") - (operator == b"Q")
            assert 0 <= open_ones <= NESTED
        assert open_ones == 0


def test_a_logo_has_colours_of_the_intent_and_a_mask_of_its_own_size() -> None:
    """6.2.4.3 and 6.2.8: device RGB or grey; 8 bits; the mask is as large as what it hides."""
    pictures = [one for one in things(with_logo()) if isinstance(one, dict) and "/BitsPerComponent" in one]
    assert len(pictures) == 2
    for picture in pictures:
        assert picture["/ColorSpace"] in ("/DeviceRGB", "/DeviceGray")
        assert (picture["/BitsPerComponent"], picture["/Width"], picture["/Height"]) == (8, 300, 100)
