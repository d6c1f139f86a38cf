"""The typeface of all documents: DejaVu Sans 2.37, free to use and pass on, see LICENSE.txt."""

from __future__ import annotations

from importlib.resources import files


def regular() -> str:
    """Return where the upright face lies, a TrueType file of this package."""
    return str(files(__name__).joinpath("DejaVuSans.ttf"))


def bold() -> str:
    """Return where the bold face lies, a TrueType file of this package."""
    return str(files(__name__).joinpath("DejaVuSans-Bold.ttf"))
