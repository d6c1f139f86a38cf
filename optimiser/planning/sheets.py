"""One board: the request's sheets to the solver's integers, and its trees back to layouts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from optimiser.domain.parts import BoardPart
from optimiser.domain.plan import (
    Leftover,
    Money,
    PartWeights,
    PlacedBoard,
    SheetCut,
    SheetLayout,
    SheetPlan,
    SheetWeights,
    Usage,
)
from optimiser.domain.request import Choice, Keep, SheetMaterial
from optimiser.planning.cut_list import listed
from optimiser.planning.cut_outs import freed_pieces, in_order
from optimiser.planning.lifting import lifted_boards, lifted_table, shared_weights
from optimiser.planning.worth import sheet_credit, value_of
from optimiser.solvers.sheets.problem import Cut, Leaf, Sheet, SheetsProblem, Way
from optimiser.units import Pence, Tenths
from optimiser.verify.board_bounds import sheet_bound, sheet_reasons
from optimiser.verify.weighing import BadCertificate

if TYPE_CHECKING:
    from optimiser.solvers.sheets.problem import Node, SheetPattern, SheetsOutcome, Table


def sheets_problem(
    material: SheetMaterial, keep: Keep, quantities: Mapping[str, int]
) -> SheetsProblem:
    """Put one board as integers: stock, then rack offcuts, then cut-outs, in the request's order.

    A cut-out costs nothing and is there once for each part that it is cut out of.
    """
    credit = sheet_credit(material, keep)
    sheets = [
        Sheet(
            width=max(0, stock.width - material.edge_trim.across),
            height=max(0, stock.height - material.edge_trim.along),
            cost=stock.price,
            available=stock.available,
        )
        for stock in material.stock
    ] + [
        Sheet(
            width=max(0, offcut.width - offcut.edge_trim.across),
            height=max(0, offcut.height - offcut.edge_trim.along),
            cost=value_of(credit, offcut.width * offcut.height),
            available=1,
        )
        for offcut in material.offcuts
    ]
    for piece in freed_pieces(material):
        width, height = piece.inside
        available = quantities[piece.part.id]
        sheets.append(Sheet(width=width, height=height, cost=0, available=available))
    return SheetsProblem(
        widths=tuple(part.width for part in material.parts),
        heights=tuple(part.height for part in material.parts),
        demands=tuple(quantities[part.id] for part in material.parts),
        turns=tuple(part.turn for part in material.parts),
        kerf=material.kerf,
        sheets=tuple(sheets),
        max_stages=material.max_stages,
        keep=(keep.width, keep.height),
        credit=credit,
        first_cut=None if material.first_cut is None else Way(material.first_cut.value),
    )


Reason: TypeAlias = SheetWeights | PartWeights


def board_certificate(
    material: SheetMaterial, keep: Keep, choices: tuple[Choice, ...], outcome: SheetsOutcome
) -> tuple[Reason, ...]:
    """Return the reasons of a solver's proof as the checker reads them, for every option."""
    narrowed = _narrowed(material, keep, choices, outcome)
    sizes = sorted({size for part in material.parts for size in (part.width, part.height)})
    # Plain area proves something even where the solver's tables do not.
    by_area = tuple((int(size), size + material.kerf) for size in sizes)
    everything = sheets_problem(material, keep, {part.id: part.quantity for part in material.parts})
    kerf = material.kerf
    rows = [(_padded(kerf, a, sizes), _padded(kerf, b, sizes)) for a, b in outcome.rows]
    if material.parts:
        rows.append((by_area, by_area))
    return (
        *(SheetWeights(across=across, along=along) for across, along in dict.fromkeys(rows)),
        *(
            PartWeights(
                weights=lifted_boards(material, everything, weights) if choices else weights
            )
            for weights in outcome.weights
        ),
        *once_reasons(
            material,
            keep,
            choices,
            [shared_weights(material, row) if choices else row for row in outcome.once],
        ),
        *narrowed,
    )


def sheets_plan(
    material: SheetMaterial,
    keep: Keep,
    choices: tuple[Choice, ...],
    outcome: SheetsOutcome,
    certificate: tuple[Reason, ...],
) -> SheetPlan:
    """Lay the solver's trees out on real sheets, and let the checker derive the bound."""
    drawn = [_layout(material, keep, pattern) for pattern in outcome.patterns]
    layouts = in_order([layout for layout, _, _ in drawn], material)
    money = _money(material, keep, layouts)
    bound = sheet_bound(material, keep, choices, certificate)
    return SheetPlan(
        material=material.material,
        layouts=layouts,
        money=money,
        usage=_usage(
            material,
            layouts,
            kerf=sum(layout.count * kerf for layout, kerf, _ in drawn),
            trim=sum(layout.count * trim for layout, _, trim in drawn),
        ),
        bound=Pence(bound),
        proven=bound == money.net,
        certificate=certificate,
        seconds=round(outcome.seconds, 3),
        method=outcome.method,
    )


def once_reasons(
    material: SheetMaterial,
    keep: Keep,
    choices: tuple[Choice, ...],
    rows: Iterable[tuple[int, ...]],
) -> Iterator[PartWeights]:
    """Yield weights that hold because no part is cut more often than it is wanted.

    Left out where the checker would find too many sets of parts.
    """
    for weights in rows:
        reason = PartWeights(weights=weights, once=True)
        try:
            if choices:
                sheet_reasons(material, keep, choices, (reason,))
        except BadCertificate:
            continue
        yield reason


def _narrowed(
    material: SheetMaterial, keep: Keep, choices: tuple[Choice, ...], outcome: SheetsOutcome
) -> tuple[PartWeights, ...]:
    """Return the rows that rule out plans below the bound; none where the checker cannot follow.

    They speak of these parts only, so not where there are options.
    """
    below = Pence(outcome.bound)
    rows = tuple(PartWeights(weights=row, once=True, below=below) for row in outcome.narrowed)
    try:
        return rows if not choices and sheet_bound(material, keep, (), rows) >= below else ()
    except BadCertificate:
        return ()


def _padded(kerf: int, table: Table, sizes: list[Tenths]) -> Table:
    """Give sizes that the solver did not cut, of parts of options not taken, a weight too."""
    weights = lifted_table(kerf, dict(table), [int(size) for size in sizes])
    return tuple((int(size), weight) for size, weight in zip(sizes, weights, strict=True))


@dataclass(frozen=True, slots=True)
class _Place:
    """A piece on the bench: its name and where it lies on the sheet as bought."""

    name: str
    x: int
    y: int
    width: int
    height: int


class _Bench:
    """Walks a tree of cuts in the order of work: a whole run before its pieces are cut on."""

    def __init__(self, material: SheetMaterial, keep: Keep) -> None:
        self._material = material
        self._keep = keep
        self.cuts: list[SheetCut] = []
        self.parts: list[PlacedBoard] = []
        self.offcuts: list[Leftover] = []
        self.scrap: list[Leftover] = []
        self.kerf_area = 0

    def cut(self, root: Node, sheet: _Place) -> None:
        waiting = [(root, sheet)]
        while waiting:
            node, place = waiting.pop(0)
            waiting = [*self._run(node, place), *waiting]

    def _run(self, node: Node, place: _Place) -> Iterator[tuple[Node, _Place]]:
        """Make one run of parallel cuts at one fence setting after another; yield the pieces."""
        while isinstance(node, Cut):
            near, far = self._divide(node, place)
            if isinstance(node.near, Cut) and node.near.rip == node.rip:
                yield from self._run(node.near, near)
            else:
                yield from self._settle(node.near, near)
            if node.far is None or far is None:
                return
            if isinstance(node.far, Cut) and node.far.rip != node.rip:
                yield node.far, far
                return
            node, place = node.far, far
        yield from self._settle(node, place)

    def _settle(self, node: Node, place: _Place) -> Iterator[tuple[Node, _Place]]:
        if isinstance(node, Cut):
            yield node, place
        elif node.part is None:
            self._leave(place)
        else:
            self._place(node, self._material.parts[node.part], place)

    def _divide(self, cut: Cut, place: _Place) -> tuple[_Place, _Place | None]:
        n = len(self.cuts) + 1
        direction = "rip" if cut.rip else "crosscut"
        self.cuts.append(SheetCut(n=n, of=place.name, direction=direction, at=Tenths(cut.at)))
        kerf = self._material.kerf
        beyond = cut.at + kerf
        if cut.rip:
            near = _Place(f"{n}a", place.x, place.y, cut.at, place.height)
            far = _Place(f"{n}b", place.x + beyond, place.y, place.width - beyond, place.height)
            self.kerf_area += min(kerf, place.width - cut.at) * place.height
        else:
            near = _Place(f"{n}a", place.x, place.y, place.width, cut.at)
            far = _Place(f"{n}b", place.x, place.y + beyond, place.width, place.height - beyond)
            self.kerf_area += min(kerf, place.height - cut.at) * place.width
        return near, far if min(far.width, far.height) > 0 else None

    def _place(self, leaf: Leaf, part: BoardPart, place: _Place) -> None:
        self.parts.append(
            PlacedBoard(
                part=part.id,
                job=part.job,
                piece=place.name,
                x=Tenths(place.x),
                y=Tenths(place.y),
                width=Tenths(place.width),
                height=Tenths(place.height),
                turned=leaf.turned,
            )
        )

    def _leave(self, place: _Place) -> None:
        left = Leftover(
            piece=place.name,
            x=Tenths(place.x),
            y=Tenths(place.y),
            width=Tenths(place.width),
            height=Tenths(place.height),
        )
        sides = sorted((place.width, place.height))
        limits = sorted((self._keep.width, self._keep.height))
        kept = sides[0] >= limits[0] and sides[1] >= limits[1]
        (self.offcuts if kept else self.scrap).append(left)


def _layout(
    material: SheetMaterial, keep: Keep, pattern: SheetPattern
) -> tuple[SheetLayout, int, int]:
    """Return a layout with the areas of its kerfs and its trims."""
    racked, cut_out = pattern.sheet - len(material.stock), None
    is_offcut = 0 <= racked < len(material.offcuts)
    if racked < 0:
        stock = material.stock[pattern.sheet]
        id_, width, height, trim = stock.id, stock.width, stock.height, material.edge_trim
    elif is_offcut:
        offcut = material.offcuts[racked]
        id_, width, height, trim = offcut.id, offcut.width, offcut.height, offcut.edge_trim
    else:
        piece = freed_pieces(material)[racked - len(material.offcuts)]
        id_, cut_out, trim = piece.part.id, piece.index, piece.trim
        width, height = piece.hole.width, piece.hole.height
    inner = _Place("sheet", trim.left, trim.bottom, width - trim.across, height - trim.along)
    bench = _Bench(material, keep)
    bench.cut(pattern.root, inner)
    layout = SheetLayout(
        stock=id_,
        offcut=is_offcut,
        count=pattern.times,
        cuts=tuple(bench.cuts),
        parts=tuple(bench.parts),
        offcuts=tuple(bench.offcuts),
        scrap=tuple(bench.scrap),
        cut_out=cut_out,
    )
    return listed(layout, material), bench.kerf_area, width * height - inner.width * inner.height


def _money(material: SheetMaterial, keep: Keep, layouts: tuple[SheetLayout, ...]) -> Money:
    credit = sheet_credit(material, keep)
    prices = {stock.id: stock.price for stock in material.stock}
    racked = {offcut.id: offcut.width * offcut.height for offcut in material.offcuts}
    return Money.of(
        purchase=sum(prices[item.stock] * item.count for item in layouts if item.bought),
        offcuts_used=sum(value_of(credit, racked[item.stock]) for item in layouts if item.offcut),
        credit=sum(
            value_of(credit, left.width * left.height) * item.count
            for item in layouts
            for left in item.offcuts
        ),
    )


def _usage(
    material: SheetMaterial, layouts: tuple[SheetLayout, ...], *, kerf: int, trim: int
) -> Usage:
    holes = {
        part.id: sum(hole.width * hole.height for hole in part.cut_outs) for part in material.parts
    }
    part = offcut = scrap = 0
    for item in layouts:
        for placed in item.parts:
            part += item.count * (placed.width * placed.height - holes[placed.part])
            scrap += item.count * holes[placed.part]
        offcut += item.count * sum(left.width * left.height for left in item.offcuts)
        scrap += item.count * sum(left.width * left.height for left in item.scrap)
        if item.cut_out is not None:
            # Counted as scrap where its part is cut; what became of it is counted here.
            hole = next(p for p in material.parts if p.id == item.stock).cut_outs[item.cut_out]
            scrap -= item.count * hole.width * hole.height
    return Usage(part=part, offcut=offcut, scrap=scrap, kerf=kerf, trim=trim)


def sheet_layouts(
    material: SheetMaterial, keep: Keep, outcome: SheetsOutcome
) -> tuple[SheetLayout, ...]:
    """Lay the solver's trees out on real sheets, without a proof."""
    layouts = [_layout(material, keep, pattern)[0] for pattern in outcome.patterns]
    return in_order(layouts, material)
