"""The one lock of PDFium, the library that draws pages: it is not safe in two threads."""

from __future__ import annotations

import threading

PDFIUM = threading.RLock()  # whoever opens, draws or closes a document holds this
