"""PDF read back by libraries that did not write it: words in their places, fonts, paper, codes."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import pdfplumber
import pypdfium2
import zxingcpp
from pdfminer.pdftypes import resolve1

MM = 25.4 / 72


@dataclass(frozen=True)
class Pdf:
    """A PDF's pages as pdfplumber sees them."""

    content: bytes

    @cached_property
    def pages(self) -> list[Any]:
        return list(pdfplumber.open(io.BytesIO(self.content)).pages)

    @cached_property
    def texts(self) -> list[str]:
        """Return each page's text, line by line."""
        return [page.extract_text(x_tolerance=1.5) for page in self.pages]

    @cached_property
    def text(self) -> str:
        return "\n".join(self.texts)

    @cached_property
    def words(self) -> list[str]:
        """Return each page's words in the order they were written, quicker than line by line."""
        document = pypdfium2.PdfDocument(self.content)
        return [
            " ".join(document[page].get_textpage().get_text_bounded().split())
            for page in range(len(document))
        ]

    @property
    def flat(self) -> str:
        """Return the words of all pages with one blank between them."""
        return " ".join(self.text.split())

    @property
    def papers(self) -> set[tuple[int, int]]:
        """Return the sizes of the pages in mm, the shorter side first."""
        sides = (sorted((page.width, page.height)) for page in self.pages)
        return {(round(short * MM), round(long * MM)) for short, long in sides}

    def fonts(self) -> Iterator[tuple[str, bool]]:
        """Yield each font of each page, and whether its file is embedded."""
        for page in self.pages:
            for reference in resolve1(page.page_obj.resources["Font"]).values():
                font = resolve1(reference)
                for descendant in resolve1(font.get("DescendantFonts", [font])):
                    described = resolve1(resolve1(descendant)["FontDescriptor"])
                    yield str(font["BaseFont"]), "FontFile2" in described

    def colours(self) -> set[tuple[float, ...]]:
        """Return every colour that anything is drawn in."""
        found: set[tuple[float, ...]] = set()
        for page in self.pages:
            for thing in (*page.rects, *page.lines, *page.curves, *page.chars):
                for name in ("stroking_color", "non_stroking_color"):
                    colour = thing.get(name)
                    if colour is not None:
                        found.add(tuple(colour) if isinstance(colour, tuple | list) else (colour,))
        return found

    def codes(self, page: int = 0, *, scale: float = 2.5) -> list[str]:
        """Return what the QR codes of a page say, as a camera would read them."""
        picture = pypdfium2.PdfDocument(self.content)[page].render(scale=scale).to_pil()
        return [code.text for code in zxingcpp.read_barcodes(picture.convert("L"))]
