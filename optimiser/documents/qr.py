"""The only module that knows segno: a short text as a QR code (ISO/IEC 18004) of plain rectangles.

No micro codes, as not every reader takes them; error correction M (a seventh of it may be lost) for
all, so that all codes of a sheet look alike; the quiet zone of four modules is part of the area.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import groupby

from optimiser.drawing.scene import PAPER, Area, Item, Rect

QUIET = 4
_BLACK = "#000000"
# Rows reach into the next by this share of a module, so that no viewer shows a seam between them.
_LAP = 0.03


def qr_code(text: str, area: Area) -> tuple[Item, ...]:
    """Return the code of `text` as large as it fits into `area`, its quiet zone white around it.

    Raises ValueError for a text that no code holds (some 2,300 bytes).
    """
    rows = _matrix(text)
    side = min(area.width, area.height)
    module = side / (len(rows) + 2 * QUIET)
    x0, y0 = area.middle[0] - side / 2, area.middle[1] - side / 2
    items: list[Item] = [Rect(Area(x0, y0, side, side), PAPER)]
    for number, row in enumerate(rows):
        y = y0 + (number + QUIET) * module
        place = QUIET
        for dark, run in groupby(row):
            length = len(list(run))
            if dark:
                x = x0 + place * module
                items.append(Rect(Area(x, y, length * module, module * (1 + _LAP)), _BLACK))
            place += length
    return tuple(items)


@lru_cache(maxsize=2000)
def _matrix(text: str) -> tuple[tuple[bool, ...], ...]:
    import segno

    code = segno.make_qr(text, error="m", boost_error=False)
    return tuple(tuple(bool(module) for module in row) for row in code.matrix)
