"""The pen: a PDF page in millimetres from its top left corner, with the inks of the family."""

from __future__ import annotations

import base64
import io
from collections.abc import Iterable, Sequence

from reportlab import rl_config
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from app.papers.fonts import FIRST_FONT, Piece, face
from app.trade.refusal import Fault

rl_config.useA85 = 0  # binary streams: a paper is a fifth smaller, and it is kept for years

MM = 72 / 25.4
POINT = 25.4 / 72  # millimetres

Ink = float | tuple[float, float, float]  # grey, or red, green and blue
INK: Ink = 0.08
LABEL: Ink = 0.34
HAIRLINE: Ink = 0.62
BAND: Ink = 0.84
GHOST: Ink = 0.86
FAINT: Ink = 0.925  # behind running text
TINT: Ink = 0.94
WHITE: Ink = 1.0
SPOT: Ink = (0.035, 0.29, 0.36)  # the one spot colour: the shop's mark and the start of a section rule
YELLOW: Ink = (1.0, 0.80, 0.10)  # inside warning signs only
BLUE: Ink = (0.0, 0.26, 0.54)  # inside the plug sign only

Points = Sequence[tuple[float, float]]


class Pen:
    """Draws on one page of ``width`` by ``height`` mm. All places are mm from the top left, line widths points."""

    def __init__(self, canvas: Canvas, width: float, height: float) -> None:
        self.canvas = canvas
        self.width = width
        self.height = height

    def _y(self, y: float) -> float:
        return (self.height - y) * MM

    def _stroke(self, ink: Ink, points: float) -> None:
        self.canvas.setLineWidth(points)
        if isinstance(ink, tuple):
            self.canvas.setStrokeColorRGB(*ink)
        else:
            self.canvas.setStrokeGray(ink)

    def _fill(self, ink: Ink) -> None:
        if isinstance(ink, tuple):
            self.canvas.setFillColorRGB(*ink)
        else:
            self.canvas.setFillGray(ink)

    def line(
        self,
        x1: float,
        y1: float,
        x2: float,
        y2: float,
        points: float = 0.4,
        ink: Ink = HAIRLINE,
        dash: tuple[float, float] | None = None,
    ) -> None:
        """A straight line; ``dash`` is stroke and gap in mm."""
        self._stroke(ink, points)
        if dash:
            self.canvas.setDash(dash[0] * MM, dash[1] * MM)
        self.canvas.line(x1 * MM, self._y(y1), x2 * MM, self._y(y2))
        if dash:
            self.canvas.setDash()

    def rule(self, x: float, y: float, width: float, points: float = 0.4, ink: Ink = HAIRLINE) -> None:
        """A level line."""
        self.line(x, y, x + width, y, points, ink)

    def frame(
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        points: float = 0.8,
        ink: Ink = INK,
        radius: float = 0,
        dash: tuple[float, float] | None = None,
    ) -> None:
        """An open rectangle."""
        self._stroke(ink, points)
        if dash:
            self.canvas.setDash(dash[0] * MM, dash[1] * MM)
        place = (x * MM, self._y(y + height), width * MM, height * MM)
        if radius:
            self.canvas.roundRect(*place, radius * MM, stroke=1, fill=0)
        else:
            self.canvas.rect(*place, stroke=1, fill=0)
        if dash:
            self.canvas.setDash()

    def block(self, x: float, y: float, width: float, height: float, ink: Ink = INK) -> None:
        """A filled rectangle."""
        self._fill(ink)
        self.canvas.rect(x * MM, self._y(y + height), width * MM, height * MM, stroke=0, fill=1)

    def blocks(self, places: Iterable[tuple[float, float, float, float]], ink: Ink = INK) -> None:
        """Many filled rectangles as one path: modules of a code, without seams between them."""
        self._fill(ink)
        path = self.canvas.beginPath()
        for x, y, width, height in places:
            path.rect(x * MM, self._y(y + height), width * MM, height * MM)
        self.canvas.drawPath(path, stroke=0, fill=1)

    def disc(self, x: float, y: float, radius: float, ink: Ink = INK) -> None:
        """A filled circle."""
        self._fill(ink)
        self.canvas.circle(x * MM, self._y(y), radius * MM, stroke=0, fill=1)

    def ring(self, x: float, y: float, radius: float, points: float = 0.9, ink: Ink = INK) -> None:
        """An open circle."""
        self._stroke(ink, points)
        self.canvas.circle(x * MM, self._y(y), radius * MM, stroke=1, fill=0)

    def arc(
        self, x: float, y: float, radius: float, start: float, extent: float, points: float, ink: Ink
    ) -> None:
        """Part of a circle; degrees, anticlockwise from the right."""
        self._stroke(ink, points)
        self.canvas.setLineCap(1)
        low, left, high = self._y(y + radius), (x - radius) * MM, self._y(y - radius)
        self.canvas.arc(left, low, (x + radius) * MM, high, start, extent)
        self.canvas.setLineCap(0)

    def shape(
        self, points: Points, fill: Ink | None = INK, stroke: Ink | None = None, width: float = 0.0
    ) -> None:
        """A closed shape of straight sides; a stroke of ``width`` mm has round corners."""
        path = self.canvas.beginPath()
        path.moveTo(points[0][0] * MM, self._y(points[0][1]))
        for x, y in points[1:]:
            path.lineTo(x * MM, self._y(y))
        path.close()
        if fill is not None:
            self._fill(fill)
        if stroke is not None:
            self._stroke(stroke, width * MM)
            self.canvas.setLineJoin(1)
        self.canvas.drawPath(path, stroke=int(stroke is not None), fill=int(fill is not None))
        self.canvas.setLineJoin(0)

    def polyline(
        self, points: Points, width: float, ink: Ink = INK, cap: int = 0, dash: Sequence[float] = ()
    ) -> None:
        """An open line through ``points``, ``width`` in mm; ``dash`` is strokes and gaps in mm by turns."""
        self._stroke(ink, width * MM)
        if dash:
            self.canvas.setDash([length * MM for length in dash])
        self.canvas.setLineCap(cap)
        self.canvas.setLineJoin(1)
        path = self.canvas.beginPath()
        path.moveTo(points[0][0] * MM, self._y(points[0][1]))
        for x, y in points[1:]:
            path.lineTo(x * MM, self._y(y))
        self.canvas.drawPath(path, stroke=1, fill=0)
        self.canvas.setLineCap(0)
        self.canvas.setLineJoin(0)
        if dash:
            self.canvas.setDash()

    def letters(
        self, x: float, baseline: float, size: float, pieces: Iterable[Piece], ink: Ink = INK
    ) -> None:
        """Pieces of one line at ``size`` points."""
        text = self.canvas.beginText(x * MM, self._y(baseline))
        if isinstance(ink, tuple):
            text.setFillColorRGB(*ink)
        else:
            text.setFillGray(ink)
        for piece in pieces:
            text.setFont(piece.face, size)
            text.textOut(piece.text)
        self.canvas.drawText(text)

    def slanted(
        self, x: float, baseline: float, degrees: float, size: float, pieces: Sequence[Piece], ink: Ink
    ) -> None:
        """Pieces of one line, turned anticlockwise about their start."""
        self.canvas.saveState()
        self.canvas.translate(x * MM, self._y(baseline))
        self.canvas.rotate(degrees)
        self.canvas.translate(-x * MM, -self._y(baseline))
        self.letters(x, baseline, size, pieces, ink)
        self.canvas.restoreState()

    def picture(self, data: str, x: float, y: float, width: float, height: float) -> float:
        """A PNG or JPEG (base64) fitted into a box, at its left, in the middle of its height; its width in mm."""
        reader = _reader(data)
        across, down = reader.getSize()
        scale = min(width / across, height / down)
        top = y + (height - down * scale) / 2
        place = (x * MM, self._y(top + down * scale), across * scale * MM, down * scale * MM)
        self.canvas.drawImage(reader, *place, mask="auto")
        return float(across * scale)

    @staticmethod
    def size_of(data: str) -> tuple[int, int]:
        """Width and height of a picture in pixels."""
        across, down = _reader(data).getSize()
        return int(across), int(down)


def _reader(data: str) -> ImageReader:
    try:
        return ImageReader(io.BytesIO(base64.b64decode(data, validate=True)))
    except (ValueError, OSError) as trouble:
        raise Fault("the logo or a photo on a paper cannot be read") from trouble


def open_canvas(
    buffer: io.BytesIO, width: float, height: float, title: str, author: str, language: str
) -> Canvas:
    """A canvas for a paper of ``width`` by ``height`` mm: no dates inside, so equal facts give equal bytes."""
    face(FIRST_FONT)
    canvas = Canvas(
        buffer,
        pagesize=(width * MM, height * MM),
        invariant=1,
        pageCompression=1,
        initialFontName=FIRST_FONT,  # type: ignore[arg-type]  # the stubs say float
        initialFontSize=10,
        lang=language.replace("_", "-"),
    )
    canvas.setTitle(title)
    canvas.setSubject(title)
    canvas.setAuthor(author)
    canvas.setCreator("Spindlebook")
    return canvas
