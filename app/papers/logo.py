"""A shop's logo as papers keep it: checked once when it is chosen, so that no ticket fails for a picture."""

from __future__ import annotations

import base64
import io
import warnings

from PIL import Image

from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

MOST = (1200, 400)  # pixels: 300 a inch at the size on a letterhead
MOST_BYTES = 20_000_000


def logo_for_papers(picture: bytes) -> str:
    """A PNG or JPEG as base64 of a PNG of at most 1200 by 400 pixels, the value of `Shop.logo`.

    Refusal where it cannot be read, is another kind of file, or is far too large.
    """
    wrong = Refusal(
        Sentence("This picture cannot be read as a logo."),
        Sentence("Save it as PNG or JPEG, not larger than a screen, and choose it again."),
    )
    if len(picture) > MOST_BYTES:
        raise wrong
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(picture), formats=("PNG", "JPEG")) as opened:
                image = opened.convert("RGBA" if opened.has_transparency_data else "RGB")
    except (
        OSError,
        ValueError,
        SyntaxError,
        Image.DecompressionBombError,
        Image.DecompressionBombWarning,
    ) as trouble:
        raise wrong from trouble
    image.thumbnail(MOST, Image.Resampling.LANCZOS)
    out = io.BytesIO()
    image.save(out, "PNG", optimize=True)
    return base64.b64encode(out.getvalue()).decode("ascii")
