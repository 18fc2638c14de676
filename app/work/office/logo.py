"""The shop's logo: taken in only as a picture that papers can print, kept beside the book."""

from __future__ import annotations

import io
import warnings
from pathlib import Path

from app.book import attachments
from app.book.door import Book
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

FORMATS = ("PNG", "JPEG")
MOST_BYTES = 5 * 1024 * 1024
MOST_SIDE = 4000  # pixels
KEPT = (1200, 400)  # pixels at most: 300 to the inch at the size on a letterhead


def store_logo(book: Book, path: Path) -> str:
    """Put a PNG or JPEG beside the book and give its SHA-256, for the setting. Raises Refusal.

    The picture is written anew and no larger than papers print it, so that nothing but its pixels is kept (no place, no
    date, no hidden data) and no invoice grows by it.
    """
    return attachments.store(book.files, _pixels(path)).sha256


def logo_bytes(book: Book, sha256: str) -> bytes:
    """The picture as PNG, to be shown. Raises Refusal when it is missing or damaged."""
    return attachments.read(book.files, sha256)


def _pixels(path: Path) -> bytes:
    from PIL import Image

    try:
        if path.stat().st_size > MOST_BYTES:
            raise Refusal(
                Sentence("This picture is larger than 5 MB."), Sentence("Save it smaller, then choose it.")
            )
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(path, formats=FORMATS) as picture:
                if max(picture.size) > MOST_SIDE:
                    raise Refusal(
                        Sentence("A logo has at most {side} pixels to a side.", {"side": MOST_SIDE}),
                        Sentence("Save it smaller, then choose it."),
                    )
                written = io.BytesIO()
                kept = picture.convert("RGBA")
                kept.thumbnail(KEPT, Image.Resampling.LANCZOS)
                kept.save(written, "PNG", optimize=True)
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombWarning) as error:
        # Pillow raises the middle two for files that only begin like a picture.
        raise Refusal(
            Sentence("{file} is no picture that papers can print.", {"file": path.name}),
            Sentence("Choose a PNG or JPEG file."),
        ) from error
    return written.getvalue()
