"""A canvas that writes SVG: what the pen asks of a page of PDF, in the same points from the lower left corner."""

from __future__ import annotations

from collections.abc import Sequence
from xml.sax.saxutils import escape, quoteattr

from app.papers.fonts import FILES, face
from app.papers.pen import MM
from app.papers.plots.outlines import glyph_of, outlines_of

_CAPS = ("butt", "round", "square")
_JOINS = ("miter", "round", "bevel")


class SvgPath:
    """A path being drawn."""

    def __init__(self) -> None:
        self.steps: list[str] = []

    def moveTo(self, x: float, y: float) -> None:  # noqa: N802  (the library's name)
        """Begin at a place."""
        self.steps.append(f"M{_n(x)} {_n(-y)}")

    def lineTo(self, x: float, y: float) -> None:  # noqa: N802
        """A straight line."""
        self.steps.append(f"L{_n(x)} {_n(-y)}")

    def close(self) -> None:
        """Back to the beginning."""
        self.steps.append("Z")


class SvgText:
    """One line of text being set: each letter is the outline of its glyph, so that no program needs the font."""

    def __init__(self, x: float, y: float) -> None:
        self.x, self.y = x, y
        self.fill = "#000"
        self.font, self.size = "", 0.0
        self.parts: list[str] = []
        self.glyphs: dict[str, str] = {}  # paths by their names

    def setFillGray(self, grey: float) -> None:  # noqa: N802
        """Its ink."""
        self.fill = _grey(grey)

    def setFillColorRGB(self, red: float, green: float, blue: float) -> None:  # noqa: N802
        """Its ink."""
        self.fill = _rgb(red, green, blue)

    def setFont(self, name: str, size: float) -> None:  # noqa: N802
        """Its face."""
        self.font, self.size = name, size

    def textOut(self, text: str) -> None:  # noqa: N802
        """Letters in the order in which they are drawn."""
        own, outlines = face(self.font), outlines_of(self.font)
        across, used, prefix = 0.0, [], "abcd"[list(FILES).index(self.font)]
        for letter in text:
            glyph = glyph_of(self.font, letter)
            path = outlines.path(glyph)
            if path:
                name = f"{prefix}{glyph}"
                self.glyphs[name] = path
                used.append(f'<use xlink:href="#{name}" x="{_n(across * outlines.units / 1000)}"/>')
            across += own.width(letter)
        scale = self.size / outlines.units
        place = f"matrix({scale:.6f} 0 0 {-scale:.6f} {_n(self.x)} {_n(-self.y)})"
        label = quoteattr(legal(text))
        self.parts.append(f'<g fill="{self.fill}" aria-label={label} transform="{place}">{"".join(used)}</g>')
        self.x += across * self.size / 1000


class SvgCanvas:
    """The part of a PDF canvas that the pen draws pictures with. ``width`` and ``height`` are mm."""

    def __init__(self, width: float, height: float) -> None:
        self.width, self.height = width, height
        self.parts: list[str] = []
        self._fill, self._stroke = "#000", "#000"
        self._width, self._dash, self._cap, self._join = 1.0, "", 0, 0
        self._groups: list[int] = []
        self._glyphs: dict[str, str] = {}

    def setLineWidth(self, points: float) -> None:  # noqa: N802
        """Of strokes from now on."""
        self._width = points

    def setStrokeGray(self, grey: float) -> None:  # noqa: N802
        """Of strokes from now on."""
        self._stroke = _grey(grey)

    def setStrokeColorRGB(self, red: float, green: float, blue: float) -> None:  # noqa: N802
        """Of strokes from now on."""
        self._stroke = _rgb(red, green, blue)

    def setFillGray(self, grey: float) -> None:  # noqa: N802
        """Of fills from now on."""
        self._fill = _grey(grey)

    def setFillColorRGB(self, red: float, green: float, blue: float) -> None:  # noqa: N802
        """Of fills from now on."""
        self._fill = _rgb(red, green, blue)

    def setDash(self, *dash: float | Sequence[float]) -> None:  # noqa: N802
        """Of strokes from now on: lengths in points, as one list or one after the other; none for solid."""
        lengths = [length for one in dash for length in (one if isinstance(one, Sequence) else (one,))]
        self._dash = " ".join(_n(length) for length in lengths)

    def setLineCap(self, cap: int) -> None:  # noqa: N802
        """Ends of strokes."""
        self._cap = cap

    def setLineJoin(self, join: int) -> None:  # noqa: N802
        """Corners of strokes."""
        self._join = join

    def line(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """A straight stroke."""
        ends = f'x1="{_n(x1)}" y1="{_n(-y1)}" x2="{_n(x2)}" y2="{_n(-y2)}"'
        self.parts.append(f"<line {ends}{self._paint(1, 0)}/>")

    def rect(self, x: float, y: float, width: float, height: float, stroke: int = 1, fill: int = 0) -> None:
        """A rectangle by its lower left corner."""
        place = f'x="{_n(x)}" y="{_n(-y - height)}" width="{_n(width)}" height="{_n(height)}"'
        self.parts.append(f"<rect {place}{self._paint(stroke, fill)}/>")

    def circle(self, x: float, y: float, radius: float, stroke: int = 1, fill: int = 0) -> None:
        """A circle."""
        place = f'cx="{_n(x)}" cy="{_n(-y)}" r="{_n(radius)}"'
        self.parts.append(f"<circle {place}{self._paint(stroke, fill)}/>")

    def beginPath(self) -> SvgPath:  # noqa: N802
        """A path to be drawn with `drawPath`."""
        return SvgPath()

    def drawPath(self, path: SvgPath, stroke: int = 1, fill: int = 0) -> None:  # noqa: N802
        """The path."""
        self.parts.append(f'<path d="{"".join(path.steps)}"{self._paint(stroke, fill)}/>')

    def beginText(self, x: float, y: float) -> SvgText:  # noqa: N802
        """A line of text to be drawn with `drawText`."""
        return SvgText(x, y)

    def drawText(self, text: SvgText) -> None:  # noqa: N802
        """The line."""
        self.parts += text.parts
        self._glyphs.update(text.glyphs)

    def saveState(self) -> None:  # noqa: N802
        """What is moved or turned from here on is put back by `restoreState`."""
        self._groups.append(0)

    def translate(self, x: float, y: float) -> None:
        """Move what comes."""
        self._group(f"translate({_n(x)} {_n(-y)})")

    def rotate(self, degrees: float) -> None:
        """Turn what comes, anticlockwise."""
        self._group(f"rotate({_n(-degrees)})")

    def restoreState(self) -> None:  # noqa: N802
        """Back to where `saveState` was."""
        self.parts += ["</g>"] * self._groups.pop()

    def document(self, title: str, told: Sequence[str], language: str) -> bytes:
        """The whole file, with a title and a description for those who do not see it."""
        wide, high = self.width * MM, self.height * MM
        head = (
            '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
            f' width="{_n(self.width)}mm" height="{_n(self.height)}mm"'
            f' viewBox="0 {_n(-high)} {_n(wide)} {_n(high)}" role="img" xml:lang={quoteattr(language)}>'
        )
        about = [
            f"<title>{escape(legal(title))}</title>",
            f"<desc>{escape(legal(chr(10).join(told)))}</desc>",
        ]
        glyphs = [f'<path id="{name}" d="{path}"/>' for name, path in sorted(self._glyphs.items())]
        begin = ['<?xml version="1.0" encoding="UTF-8"?>', head, *about]
        lines = [*begin, "<defs>", *glyphs, "</defs>", *self.parts, "</svg>", ""]
        return "\n".join(lines).encode()

    def _group(self, transform: str) -> None:
        self.parts.append(f'<g transform="{transform}">')
        self._groups[-1] += 1

    def _paint(self, stroke: int, fill: int) -> str:
        paint = f' fill="{self._fill}"' if fill else ' fill="none"'
        if stroke:
            paint += f' stroke="{self._stroke}" stroke-width="{_n(self._width)}"'
            paint += f' stroke-dasharray="{self._dash}"' if self._dash else ""
            paint += f' stroke-linecap="{_CAPS[self._cap]}"' if self._cap else ""
            paint += f' stroke-linejoin="{_JOINS[self._join]}"' if self._join else ""
        return paint


def _n(number: float) -> str:
    """A number to a hundredth of a point, as short as it goes."""
    return f"{round(number, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def _grey(grey: float) -> str:
    return _rgb(grey, grey, grey)


def _rgb(red: float, green: float, blue: float) -> str:
    return "#" + "".join(f"{round(part * 255):02x}" for part in (red, green, blue))


def legal(text: str) -> str:
    """Without signs that XML has no place for."""
    return "".join(char for char in text if char in "\n\t" or ord(char) >= 32)
