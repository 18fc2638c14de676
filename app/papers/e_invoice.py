"""The hybrid e-invoice: the filed PDF with the XML inside, as PDF/A-3 says that a file which lasts is made.

factur-x puts the XML in and writes the metadata; here follow what it leaves out: the output intent with its colour
profile, dates that are those of the invoice instead of now, and no key that PDF/A-3 has no place for. No validator of
PDF/A-3 stands behind this: what is checked is told in the tests, what is not in DEVELOPERS.md.
"""

from __future__ import annotations

import hashlib
import io
import re
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from app.papers.colour_profile import NAME, srgb_profile
from app.papers.e_invoice_facts import EInvoiceFacts
from app.papers.e_invoice_xml import e_invoice_xml
from app.trade.refusal import Fault

if TYPE_CHECKING:
    from pypdf import PdfWriter

_NAMESPACE = re.compile(r' xmlns:(?!x=|rdf=)(\w+)="([^"]+)"')
TOOL, PRODUCER = "Spindlebook", "Spindlebook with ReportLab and pypdf"


def e_invoice(pdf: bytes, facts: EInvoiceFacts, *, title: str, language: str, issued_at: datetime) -> bytes:
    """The PDF of an invoice with the XML of its facts inside. Equal input gives equal bytes.

    Raises Fault where the XML does not keep its schema: its facts were let through unchecked.
    """
    import facturx
    from pypdf import PdfWriter

    xml = e_invoice_xml(facts)
    hybrid = io.BytesIO(pdf)  # written anew in place: nothing of a customer lies in a temporary file
    about = {"author": facts.seller.name, "title": title, "subject": title, "keywords": ""}
    try:
        facturx.generate_from_file(
            hybrid,
            xml,
            flavor="factur-x",
            level="en16931",
            check_xsd=True,
            check_schematron=False,  # without a server it passes whatever it is given
            pdf_metadata=about,
            lang=language,
            afrelationship="alternative",  # page and XML say the same
            xmp_compression=False,
        )
    except Exception as wrong:  # the library raises a bare one for a broken schema
        raise Fault(f"the e-invoice does not keep its schema: {wrong}") from wrong
    writer = PdfWriter(clone_from=hybrid)
    _last(writer, issued_at.astimezone(UTC), hashlib.sha256(pdf + xml).digest()[:16])
    buffer = io.BytesIO()
    writer.write(buffer)
    return buffer.getvalue()


def _last(writer: PdfWriter, made: datetime, name: bytes) -> None:
    """Output intent, dates, the file's name, and nothing that does not belong."""
    from pypdf.generic import (
        ArrayObject,
        ByteStringObject,
        DecodedStreamObject,
        DictionaryObject,
        NameObject,
        NumberObject,
        TextStringObject,
    )

    root: Any = writer.root_object
    profile = DecodedStreamObject()
    profile.set_data(srgb_profile())
    packed = profile.flate_encode()
    packed[NameObject("/N")] = NumberObject(3)
    intent = DictionaryObject(
        {
            NameObject("/Type"): NameObject("/OutputIntent"),
            NameObject("/S"): NameObject("/GTS_PDFA1"),
            NameObject("/OutputConditionIdentifier"): TextStringObject(NAME),
            NameObject("/RegistryName"): TextStringObject("http://www.color.org"),
            NameObject("/Info"): TextStringObject(NAME),
            NameObject("/DestOutputProfile"): writer._add_object(packed),
        }
    )
    root[NameObject("/OutputIntents")] = ArrayObject([writer._add_object(intent)])
    day = TextStringObject(f"D:{made:%Y%m%d%H%M%S}+00'00'")
    for file in root["/AF"]:
        file.get_object()["/EF"]["/F"]["/Params"][NameObject("/ModDate")] = day
    metadata = root["/Metadata"]
    metadata.set_data(_metadata(metadata.get_data(), made))
    info: Any = writer._info
    for key in ("/CreationDate", "/ModDate"):
        info[NameObject(key)] = day
    info[NameObject("/Creator")], info[NameObject("/Producer")] = (
        TextStringObject(TOOL),
        TextStringObject(PRODUCER),
    )
    for key in [key for key in ("/Keywords", "/Trapped") if key in info]:
        del info[key]
    for page in writer.pages:
        if "/Trans" in page:  # a turn of the page: empty, and of no use on paper
            del page["/Trans"]
    writer.pdf_header = "%PDF-1.7"  # what PDF/A-3 (ISO 19005-3) stands on
    writer._ID = ArrayObject([ByteStringObject(name), ByteStringObject(name)])


def _metadata(xmp: bytes, made: datetime) -> bytes:
    """The XMP that factur-x wrote, saying the same as the information dictionary; each description with its subject and
    with the namespaces that it uses, as readers of XMP that look no further up find them only there."""
    day = f"{made:%Y-%m-%dT%H:%M:%S}+00:00"
    said = {"xmp:CreateDate": day, "xmp:ModifyDate": day, "xmp:CreatorTool": TOOL, "pdf:Producer": PRODUCER}
    text = xmp.decode("utf-8")
    for name, value in said.items():
        text = re.sub(f"(<{name}>)[^<]*", rf"\g<1>{value}", text)
    head, rest = text.split("<rdf:RDF>", 1)
    spaces = dict(_NAMESPACE.findall(head))

    def description(found: re.Match[str]) -> str:
        used = "".join(f' xmlns:{name}="{spaces[name]}"' for name in spaces if f"<{name}:" in found[1])
        return f'<rdf:Description rdf:about=""{used}>{found[1]}</rdf:Description>'

    rest = re.sub("<rdf:Description>(.*?)</rdf:Description>", description, rest, flags=re.DOTALL)
    return f"{_NAMESPACE.sub('', head)}<rdf:RDF>{rest}".encode()
