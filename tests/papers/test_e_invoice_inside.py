"""Taking the XML out of a PDF from a stranger."""

from __future__ import annotations

import io
import zlib
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfWriter
from pypdf.generic import ArrayObject, DictionaryObject, NameObject, StreamObject, TextStringObject

from app.papers.e_invoice import e_invoice
from app.papers.e_invoice_inside import xml_inside
from app.papers.e_invoice_xml import e_invoice_xml
from app.papers.press import printed
from app.trade.refusal import Refusal
from tests.papers.e_invoice_story import CASES
from tests.papers.story import ENGLISH, LABEL


def with_attachments(**packed: bytes) -> bytes:
    """A PDF of one empty page; the attachments' bytes are packed already."""
    writer = PdfWriter()
    writer.add_blank_page(50, 50)
    names = ArrayObject()
    for key, data in packed.items():
        name = TextStringObject(f"{key.replace('_', '-')}.xml")
        stream = StreamObject()
        stream._data = data
        stream[NameObject("/Filter")] = NameObject("/FlateDecode")
        file = DictionaryObject({NameObject("/F"): writer._add_object(stream)})
        said = {"/Type": NameObject("/Filespec"), "/F": name, "/UF": name, "/EF": file}
        names += [name, writer._add_object(DictionaryObject({NameObject(k): v for k, v in said.items()}))]
    tree = DictionaryObject({NameObject("/Names"): names})
    writer.root_object[NameObject("/Names")] = DictionaryObject({NameObject("/EmbeddedFiles"): tree})
    buffer = io.BytesIO()
    writer.write(buffer)
    return buffer.getvalue()


def refused(pdf: bytes) -> str:
    with pytest.raises(Refusal) as told:
        xml_inside(pdf)
    return told.value.sentence.key


def test_the_xml_that_we_put_in_comes_out() -> None:
    facts = CASES["plain"]
    pdf = e_invoice(
        printed(LABEL, ENGLISH), facts, title="x", language="en", issued_at=datetime(2026, 1, 2, tzinfo=UTC)
    )
    assert xml_inside(pdf) == e_invoice_xml(facts)


def test_older_names_are_known_and_the_present_one_comes_first() -> None:
    both = with_attachments(ZUGFeRD_invoice=zlib.compress(b"<old/>"), factur_x=zlib.compress(b"<new/>"))
    assert xml_inside(both) == b"<new/>"
    assert xml_inside(with_attachments(ZUGFeRD_invoice=zlib.compress(b"<old/>"))) == b"<old/>"
    assert xml_inside(with_attachments(xrechnung=zlib.compress(b"<x/>"))) == b"<x/>"


def test_a_pdf_without_an_e_invoice_says_so() -> None:
    assert "no e-invoice inside" in refused(printed(LABEL, ENGLISH))
    assert "no e-invoice inside" in refused(with_attachments(notes=zlib.compress(b"<x/>")))


def test_a_small_file_that_unpacks_to_much_is_refused_before_it_fills_the_memory() -> None:
    """200 MB of nothing, packed into 200 kB."""
    packer = zlib.compressobj(9)
    packed = b"".join(packer.compress(bytes(1 << 20)) for _ in range(200)) + packer.flush()
    assert len(packed) < 300_000
    assert "too large inside" in refused(with_attachments(factur_x=packed))


def test_a_locked_pdf_is_refused() -> None:
    writer = PdfWriter(clone_from=io.BytesIO(with_attachments(factur_x=zlib.compress(b"<x/>"))))
    writer.encrypt("secret", algorithm="RC4-128")
    buffer = io.BytesIO()
    writer.write(buffer)
    assert "locked" in refused(buffer.getvalue())


@given(st.binary(max_size=200))
def test_bytes_that_only_begin_like_a_pdf_are_refused_in_words(rest: bytes) -> None:
    with pytest.raises(Refusal):
        xml_inside(b"%PDF-1.7\n" + rest)


def test_a_pdf_cut_short_is_refused() -> None:
    whole = with_attachments(factur_x=zlib.compress(b"<x/>"))
    for share in (3, 2):
        with pytest.raises(Refusal):
            xml_inside(whole[: len(whole) // share])
