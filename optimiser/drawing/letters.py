"""How much room words take, so that labels fit without asking a browser.

A drawing must come out the same everywhere, and the reader's font is unknown: widths are those of
a wide plain sans-serif face (the advance widths of DejaVu Sans, a free font), so that common faces
take the same room or less. Names come from outside and can hold anything: `plain` makes them safe
to draw, the writer in `svg` escapes them.
"""

from __future__ import annotations

import unicodedata
from functools import lru_cache

from optimiser.drawing.scene import SMALLEST_TEXT

# Hundredths of the text size for the characters 32 to 126.
_WIDTHS = (
    *(32, 40, 46, 84, 64, 95, 78, 27, 39, 39, 50, 84, 32, 36, 32, 34),
    *(64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84, 84, 84, 53),
    *(100, 68, 69, 70, 77, 63, 58, 77, 75, 29, 29, 66, 56, 86, 75, 79),
    *(60, 79, 69, 63, 61, 73, 68, 99, 69, 61, 69, 39, 34, 39, 84, 50),
    *(50, 61, 63, 55, 63, 62, 35, 63, 63, 28, 28, 58, 28, 97, 63, 61),
    *(63, 63, 41, 52, 39, 63, 59, 82, 59, 59, 52, 64, 34, 64, 84),
)
_OTHER_WIDTHS = {"×": 84, "–": 50, "−": 84, "·": 32, "…": 100}
# Wider than any letter of Latin, Greek or Cyrillic alphabets that is likely in a name.
_UNKNOWN_WIDTH = 105
_BOLD = 1.12
_ELLIPSIS = "…"


@lru_cache(maxsize=20_000)
def text_width(text: str, size: float = SMALLEST_TEXT, *, bold: bool = False) -> float:
    """Return the most paper (mm) that `text` takes at a text size of `size` mm."""
    hundredths = sum(_width(character) for character in text)
    return hundredths * size / 100 * (_BOLD if bold else 1)


def plain(text: str) -> str:
    """Return `text` on one line, with a "?" for each character that no drawing can show."""
    normal = unicodedata.normalize("NFC", text)
    return " ".join("".join(_shown(character) for character in normal).split())


def shorten(text: str, room: float, size: float = SMALLEST_TEXT, *, bold: bool = False) -> str:
    """Return `text`, cut short with "…" if it would take more than `room` mm of paper."""
    if text_width(text, size, bold=bold) <= room:
        return text
    kept = text
    while kept and text_width(kept.rstrip() + _ELLIPSIS, size, bold=bold) > room:
        kept = kept[:-1]
    return kept.rstrip() + _ELLIPSIS


def wrap(text: str, room: float, size: float = SMALLEST_TEXT, *, bold: bool = False) -> list[str]:
    """Break `text` into lines of at most `room` mm; a word longer than a line is cut short."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size, bold=bold) <= room:
            lines[-1] = longer
        else:
            lines.append(shorten(word, room, size, bold=bold))
    return lines


def _width(character: str) -> int:
    code = ord(character)
    if 32 <= code < 127:
        return _WIDTHS[code - 32]
    return _OTHER_WIDTHS.get(character, _UNKNOWN_WIDTH)


def _shown(character: str) -> str:
    if character.isspace():
        return " "
    # C: control, format (which could turn the reading direction), surrogate and unassigned.
    return "?" if unicodedata.category(character).startswith("C") else character
