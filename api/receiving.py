"""What came for an order, line by line, and what that means for the plan it was ordered for.

A piece that came damaged, did not come, or came as something else is a piece the plan cannot cut:
it becomes a tick "damaged" or "short" on a layout that nobody has begun, the last drawn first, as
layouts are cut in their order. What came instead in the plan's own material lies there to be cut.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from api.ticks import Ticked
from optimiser import InvalidInput, Problem

if TYPE_CHECKING:
    from optimiser import CuttingPlan, CuttingRequest

PHONE = "delivery"
_COUNTS = ("good", "damaged", "short")


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """How one line of an order stands; `instead` counts the pieces that came as something else."""

    number: int
    item: str
    description: str
    material: str
    charge: bool
    ordered: int
    good: int
    damaged: int
    short: int
    instead: int

    @property
    def to_come(self) -> int:
        """Return how many are still to come; a charge never comes."""
        if self.charge:
            return 0
        return self.ordered - self.good - self.damaged - self.short - self.instead


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Stock of an order in the plan that is being cut now.

    `name`: its id there; `there`: how many of it the plan was given.
    """

    material: str
    name: str
    there: int


def lines_of(order: dict[str, Any], came: Iterable[dict[str, Any]]) -> list[Line]:
    """Add deliveries, documents that stand, up to how each line of an order stands."""
    counted: dict[int, Counter[str]] = {}
    for delivery in came:
        for line in delivery["lines"]:
            own = counted.setdefault(line["line"], Counter())
            own.update({name: line.get(name, 0) for name in _COUNTS})
            own["instead"] += _instead(line)
    return [
        Line(
            number=number,
            item=line["item"],
            description=line["description"],
            material=line.get("material", ""),
            charge=line.get("charge", False),
            ordered=line["quantity"],
            **{name: counted.get(number, Counter())[name] for name in (*_COUNTS, "instead")},
        )
        for number, line in enumerate(order["lines"], start=1)
    ]


def state_of(lines: Iterable[Line]) -> str:
    """Return an order's state: placed, part received, received."""
    goods = [line for line in lines if not line.charge]
    if all(line.to_come == 0 for line in goods):
        return "received"
    return "placed" if all(line.to_come == line.ordered for line in goods) else "part received"


def require_fitting(lines: list[Line], new: list[dict[str, Any]]) -> None:
    """Raise InvalidInput for every line of a delivery that the order has no room for."""
    problems = []
    seen: set[int] = set()
    for place, given in enumerate(new):
        here = f"lines[{place}]"
        number = given["line"]
        if not 1 <= number <= len(lines):
            trouble = f"the order has {len(lines)} lines"
            problems.append(Problem(f"{here}.line", trouble, "Count as ordered, from 1"))
            continue
        line = lines[number - 1]
        count = sum(given.get(name, 0) for name in _COUNTS) + _instead(given)
        if number in seen:
            problems.append(Problem(f"{here}.line", "stands here twice", "Give each line once"))
        elif line.charge:
            trouble = "is a charge, which nobody delivers"
            problems.append(Problem(f"{here}.line", trouble, "Leave it out"))
        elif count == 0:
            remedy = "Say how many, or leave the line out: it is still to come"
            problems.append(Problem(here, "says of no piece what came of it", remedy))
        elif count > line.to_come:
            trouble = f"speaks of {count}, and {line.to_come} of {line.ordered} are still to come"
            remedy = "Count again; what came beyond the order is racked by hand"
            problems.append(Problem(here, trouble, remedy))
        seen.add(number)
    if problems:
        raise InvalidInput(tuple(problems))


def stock_of(
    line: Line,
    ordered_for: CuttingRequest,
    plan: CuttingPlan,
    later: Iterable[list[dict[str, Any]]],
) -> tuple[str, str] | None:
    """Return material and id of an order's line in the plan cut now; None for what no plan cuts.

    `later`: the stock in hand of each plan that went on since, in their order.
    """
    # An order written before lines named their material: the stock's id says it, unless two have it
    names = [
        item.material
        for item in plan.materials
        if line.material in ("", item.material)
        and any(one.bought and one.stock == line.item for one in item.layouts)
    ]
    sold = {(item.material, stock.id) for item in ordered_for.materials for stock in item.stock}
    if len(names) != 1 or (names[0], line.item) not in sold:
        return None
    name = line.item
    for hands in later:
        following = [
            one["id"] for one in hands if (one["material"], one["stock"]) == (names[0], name)
        ]
        if not following:
            return None
        name = following[0]
    return names[0], name


def ticks_for(
    delivery: str,
    given: dict[str, Any],
    stock: Stock,
    plan: CuttingPlan,
    ticked: Ticked,
    lost: int,
) -> list[dict[str, Any]]:
    """Return the ticks that one line of a delivery makes. `lost`: pieces of the stock lost so far,
    these among them.

    What was ordered beyond what is cut goes first, and a piece that the saw ticked as damaged or
    short already is the same piece. Raises InvalidInput when more is missing than is still whole.
    """
    drawn: tuple[Any, ...] = next(
        item.layouts for item in plan.materials if item.material == stock.material
    )
    places = [
        (number, piece)
        for number, layout in enumerate(drawn, start=1)
        if layout.bought and layout.stock == stock.name
        for piece in range(1, layout.count + 1)
    ]
    told = [at for at in places if _state(ticked, stock.material, at) is not None]
    gone = [at for at in told if getattr(_state(ticked, stock.material, at), "lost", "")]
    spare = max(0, stock.there - len(places))
    need = max(0, lost - spare) - len(gone)
    whole = [at for at in reversed(places) if at not in told]
    if need > len(whole):
        trouble = f"leaves {need - len(whole)} fewer of {stock.name} than are ticked as cut already"
        remedy = "Count again, or undo the ticks that are wrong at the saw"
        raise InvalidInput((Problem(f"line {given['line']}", trouble, remedy),))
    damaged = given.get("damaged", 0)
    return [
        {
            "tick": f"{delivery}-{given['line']}-{count}",
            "phone": PHONE,
            "kind": "damaged" if count <= damaged else "short",
            "material": stock.material,
            "layout": layout,
            "piece": piece,
        }
        for count, (layout, piece) in enumerate(whole[: max(0, need)], start=1)
    ]


def one_size(length: float | None, width: float | None, height: float | None) -> bool:
    """Return whether sizes are those of one piece: its length, or both its sides, never a mix."""
    given = tuple(size is not None for size in (length, width, height))
    return given in ((True, False, False), (False, True, True))


def floor_ticks(
    delivery: str, given: dict[str, Any], request: CuttingRequest
) -> Iterator[dict[str, Any]]:
    """Return a tick for each piece that came instead, in a material that the plan cuts."""
    lengths = {item.material for item in request.lengths}
    sheets = {item.material for item in request.sheets}
    for place, one in enumerate(given.get("instead", ()), start=1):
        is_length = "length_mm" in one
        if one["material"] not in (lengths if is_length else sheets):
            continue
        sizes = {name: one[name] for name in ("length_mm", "width_mm", "height_mm") if name in one}
        for count in range(1, one["quantity"] + 1):
            yield {
                "tick": f"{delivery}-{given['line']}-i{place}-{count}",
                "phone": PHONE,
                "kind": "floor",
                "material": one["material"],
                **sizes,
            }


def lost_by(given: dict[str, Any]) -> int:
    """Return how many pieces of a line a delivery lost: damaged, short, or something else."""
    lost: int = given.get("damaged", 0) + given.get("short", 0)
    return lost + _instead(given)


def touched(plan: CuttingPlan, made: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Tell which layouts of a plan lost a piece, whose parts those are, and what they leave."""
    drawn = {item.material: item.layouts for item in plan.materials}
    pieces = Counter(
        (tick["material"], tick["layout"], tick["kind"]) for tick in made if tick["kind"] != "floor"
    )
    found = []
    for (material, number, kind), count in sorted(pieces.items()):
        layout = drawn[material][number - 1]
        found.append(
            {
                "material": material,
                "layout": number,
                "stock": layout.stock,
                "pieces": count,
                "kind": kind,
                "jobs": sorted({part.job for part in layout.parts}),
                "parts": sorted({part.part for part in layout.parts}),
            }
        )
    return found


def _instead(line: dict[str, Any]) -> int:
    return sum(one["quantity"] for one in line.get("instead", ()))


def _state(ticked: Ticked, material: str, at: tuple[int, int]) -> Any:
    return ticked.pieces.get((material, *at))
