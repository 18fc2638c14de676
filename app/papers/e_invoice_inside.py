"""The XML inside a hybrid PDF from anywhere: found by the names that the standards give it, unpacked with a limit."""

from __future__ import annotations

import io
import logging

from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

# Factur-X and ZUGFeRD 2.1 on; ZUGFeRD 1 and 2.0; XRechnung (names as factur-x 7.8 and the ZUGFeRD notes have them).
NAMES = ("factur-x.xml", "zugferd-invoice.xml", "xrechnung.xml")


def xml_inside(pdf: bytes) -> bytes:
    """The XML of a hybrid e-invoice. Raises Refusal for a PDF that is broken, locked, or has none inside."""
    from pypdf import PdfReader

    logging.getLogger("pypdf").addHandler(
        logging.NullHandler()
    )  # what it says of a broken file is no news here
    found: dict[str, bytes] = {}
    try:
        # The reader unpacks at most 75 MB of any stream, so that a small file cannot fill the memory.
        for attached in PdfReader(io.BytesIO(pdf)).attachment_list:
            name = attached.name.lower()
            if name in NAMES and name not in found:
                found[name] = attached.content
    except Exception as broken:  # whatever a broken file brings about in the library is a broken file
        raise Refusal(
            Sentence("This PDF cannot be read: it is damaged, locked, or too large inside.")
        ) from broken
    for name in NAMES:
        if name in found:
            return found[name]
    raise Refusal(
        Sentence("This PDF has no e-invoice inside."),
        Sentence("It may be an ordinary invoice, for people only."),
    )
