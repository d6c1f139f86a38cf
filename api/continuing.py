"""From marks on a plan to all that is kept of the plan that goes on from it; no database.

Books: the offcuts that the plan before racked are held meanwhile. One that the rest leaves in that
size keeps its label and its place; the others are used when the new plan is confirmed, and what
else the rest leaves is racked then. Other offcuts of the rack stay where they are.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Any

import optimiser as lib
from api.store.ledger import Piece
from api.store.plans import Made, left_over
from api.store.runs import Progress
from optimiser import InvalidInput, NoPlan, Problem

if TYPE_CHECKING:
    from optimiser import Continuation, CuttingPlan, CuttingRequest

_Size = tuple[str, int | None, int | None, int | None]


def continue_plan(document: str, held: tuple[Piece, ...], at_most: float | None) -> Made:
    """Plan the rest. `held`: the offcuts that the plan before racked and that are still free.

    Raises InvalidInput when nothing is left to cut, NoPlan when stock does not suffice or an offcut
    that is promised elsewhere would be cut.
    """
    asked = json.loads(document)
    request = lib.request_from_document(asked["request"], name="request")
    plan = lib.plan_from_document(asked["plan"], name="plan")
    marks = lib.marks_from_document(asked["marks"], name="marks")
    seconds = asked["seconds"] if at_most is None else min(asked["seconds"], at_most)
    found = lib.replan(request, plan, marks, seconds=max(0.0, seconds), withheld=asked["withheld"])
    rest = found.rest
    if rest is None:
        trouble = "say that every part is cut and good"
        raise InvalidInput((Problem("marks", trouble, "Nothing is left to plan"),))
    cut = {item.material for item in rest.request.materials}
    labels = {piece.label for piece in held}
    own = _ours(
        [_own(one) for one in asked["own"] if one["material"] in cut],
        labels,
        Counter(map(_size, _drawn(request, plan, continues=asked["is_continuation"]))),
    )
    lying = list(_lying(request, plan, found, continues=asked["is_continuation"]))
    left = Counter(_size(piece) for piece in lying)
    _require_kept([piece for piece in own if piece.label not in labels], left)
    adopted: list[str] = []
    for piece in own:
        if piece.label in labels and left[_size(piece)]:
            left[_size(piece)] -= 1
            adopted.append(piece.label)
    leaves = [
        {"material": size[0], **_sizes(size)}
        for size, count in left.items()
        if _is_kept(request, size)
        for _ in range(count)
    ]
    order = None
    if asked["prices"] is not None:
        book = lib.price_book_from_document(asked["prices"], name="prices")
        order = lib.order_for(rest.plan, (), book)
    whole = lib.continuation_document(found)
    extra = {
        "continues": asked["continues"],
        "finished": whole["finished"],
        "pieces": whole["rest"]["pieces"],
        "floor": whole["rest"]["floor"],
        "in_hand": whole["rest"]["in_hand"],
        "adopted": adopted,
        "leaves": leaves,
    }
    using = {piece.label for piece in own if piece.label in labels} - set(adopted)
    wanted = order is not None and order.lines
    return Made(
        request=json.dumps(lib.request_document(rest.request)),
        plan=json.dumps(lib.plan_document(rest.plan)),
        extra=json.dumps(extra),
        pictures=(),
        order=json.dumps(lib.order_document(order)) if order and wanted else None,
        order_csv=lib.order_csv(order) if order and wanted else None,
        offcuts_used=frozenset(using),
        progress=Progress(
            cost=rest.plan.money.net,
            bound=rest.plan.bound,
            layouts=sum(len(item.layouts) for item in rest.plan.materials),
            spent=rest.plan.seconds,
        ),
    )


def unused_offcuts(request: CuttingRequest, plan: CuttingPlan) -> list[str]:
    """Return the rack offcuts of a request that its plan leaves alone."""
    used = _used(plan)
    return [
        offcut.id
        for item in request.materials
        for offcut in item.offcuts
        if (item.material, offcut.id) not in used
    ]


def _drawn(request: CuttingRequest, plan: CuttingPlan, *, continues: bool) -> Iterator[Piece]:
    """List the offcuts that a plan racked and that its marks or its request can still speak of."""
    yield from left_over(plan, None)
    if continues:
        used = _used(plan)
        for item in request.materials:
            for offcut in item.offcuts:
                if (item.material, offcut.id) not in used:
                    yield _piece(item.material, offcut)
        yield from _whole(request, plan, lambda _, stock: stock.price == 0)


def _ours(own: list[Piece], free: set[str], drawn: Counter[_Size]) -> list[Piece]:
    """Leave aside pieces that lie by themselves since the plan began, those in other hands first.

    Pieces of one size are as good as each other.
    """
    found = []
    for piece in sorted(own, key=lambda piece: (piece.label not in free, piece.label)):
        if drawn[_size(piece)]:
            drawn[_size(piece)] -= 1
            found.append(piece)
    return found


def _require_kept(taken: list[Piece], left: Counter[_Size]) -> None:
    """Take pieces that others have out of what is left. Raises NoPlan where the rest cuts them."""
    problems = []
    for piece in taken:
        if left[_size(piece)]:
            left[_size(piece)] -= 1
        else:
            trouble = "is in other hands, and the rest would be cut from it"
            remedy = "Drop or undo the plan that has it, or mark its piece as damaged"
            problems.append(Problem(f"offcut {piece.label}", trouble, remedy))
    if problems:
        raise NoPlan(tuple(problems))


def _lying(
    request: CuttingRequest, plan: CuttingPlan, found: Continuation, *, continues: bool
) -> Iterator[Piece]:
    """List all that lies there when the rest is cut."""
    rest = found.rest
    assert rest is not None
    used, before = _used(rest.plan), _used(plan)
    offered: dict[tuple[str, str], Any] = {
        (item.material, offcut.id): offcut
        for item in rest.request.materials
        for offcut in item.offcuts
    }
    drawn = {item.material: item.layouts for item in plan.materials}
    for piece in rest.floor:
        if (piece.material, piece.id) not in offered:
            layout = drawn[piece.material][piece.layout - 1]
            # What was not offered holds no part; it is an offcut that was drawn, or too small.
            for one in layout.offcuts:
                if getattr(one, "piece", "rest") == piece.name:
                    yield _piece(piece.material, one)
    if continues:
        for item in request.materials:
            for offcut in item.offcuts:
                key = (item.material, offcut.id)
                if key not in before and key not in offered and item.material in _names(rest):
                    yield _piece(item.material, offcut)
    for key, offcut in offered.items():
        if key not in used:
            yield _piece(key[0], offcut)
    hands = {(piece.material, piece.id) for piece in rest.in_hand}
    yield from _whole(
        rest.request,
        rest.plan,
        lambda name, stock: (name, stock.id) in hands or (continues and stock.price == 0),
    )
    yield from left_over(rest.plan, None)


def _whole(
    request: CuttingRequest, plan: CuttingPlan, is_there: Callable[[str, Any], bool]
) -> Iterator[Piece]:
    """List stock that is bought and stays whole."""
    cut: Counter[tuple[str, str]] = Counter()
    for drawn in plan.materials:
        for layout in drawn.layouts:
            if layout.bought:
                cut[drawn.material, layout.stock] += layout.count
    for item in request.materials:
        for stock in item.stock:
            if is_there(item.material, stock) and stock.available is not None:
                for _ in range(stock.available - cut[item.material, stock.id]):
                    yield _piece(item.material, stock)


def _names(rest: Any) -> set[str]:
    return {item.material for item in rest.request.materials}


def _used(plan: CuttingPlan) -> set[tuple[str, str]]:
    return {
        (item.material, layout.stock)
        for item in plan.materials
        for layout in item.layouts
        if layout.offcut
    }


def _piece(material: str, thing: Any) -> Piece:
    return Piece(
        label="",
        material=material,
        length=getattr(thing, "length", None),
        width=getattr(thing, "width", None),
        height=getattr(thing, "height", None),
        place="",
    )


def _own(document: dict[str, Any]) -> Piece:
    return Piece(
        label=document["label"],
        material=document["material"],
        length=document["length"],
        width=document["width"],
        height=document["height"],
        place="",
    )


def _size(piece: Piece) -> _Size:
    return piece.material, piece.length, piece.width, piece.height


def _sizes(size: _Size) -> dict[str, int]:
    named = zip(("length", "width", "height"), size[1:], strict=True)
    return {name: value for name, value in named if value is not None}


def _is_kept(request: CuttingRequest, size: _Size) -> bool:
    material = next(item for item in request.materials if item.material == size[0])
    keep = request.keep_for(material)
    if size[1] is not None:
        return size[1] >= keep.length
    short, long = sorted((size[2] or 0, size[3] or 0))
    least = sorted((keep.width, keep.height))
    return short >= least[0] and long >= least[1]
