"""Whether the stock and the rack hold what a plan takes from them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from optimiser.domain.fault import Fault

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping


def check_supply(
    material: str,
    layouts: Iterable[tuple[str, bool, int]],
    available: Mapping[str, int | None],
    racked: set[str],
) -> list[Fault]:
    """Return faults of (stock id, from the rack?, count) against stock and rack."""
    faults: list[Fault] = []
    taken: dict[tuple[str, bool], int] = {}
    for number, (stock, is_offcut, count) in enumerate(layouts, start=1):
        where = f"{material} layout {number}"
        if count < 1:
            faults.append(Fault(where, f"its count is {count}, not 1 or more"))
        elif stock not in (racked if is_offcut else available):
            place = "on the rack" if is_offcut else "in stock"
            faults.append(Fault(where, f"{stock!r} is not {place}"))
        else:
            taken[stock, is_offcut] = taken.get((stock, is_offcut), 0) + count
    for (stock, is_offcut), count in taken.items():
        limit = 1 if is_offcut else available[stock]
        if limit is not None and count > limit:
            faults.append(
                Fault(material, f"takes {count} of {stock!r}, of which there are {limit}")
            )
    return faults
