"""How counts are told."""

from __future__ import annotations


def counted(count: int, one: str, many: str) -> str:
    """Return a count with its word: "1 part", "2 parts"."""
    return f"{count} {one if count == 1 else many}"
