"""Cut every sheet again by its own cut list, and list each thing that is not as it must be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from optimiser.domain.fault import Fault
from optimiser.domain.plan import Leftover, Money, PlacedBoard, SheetLayout, SheetPlan, Usage
from optimiser.units import mm
from optimiser.verify.cut_list import wrong_cut_outs, wrong_edge, wrong_tool
from optimiser.verify.cut_outs import check_cut_outs, cut_out_of, trim_of
from optimiser.verify.supply import check_supply
from optimiser.verify.worth import board_is_kept, sheet_rate, worth

if TYPE_CHECKING:
    from optimiser.domain.parts import BoardPart
    from optimiser.domain.request import Keep, SheetMaterial
    from optimiser.domain.stock import EdgeTrim


def check_sheet_layouts(
    plan: SheetPlan, material: SheetMaterial, keep: Keep
) -> tuple[list[Fault], dict[str, int], Money, Usage]:
    """Return the faults, how often each part is cut, and money and usage as cut."""
    faults: list[Fault] = []
    counted: dict[str, int] = {}
    sums = {"part": 0, "offcut": 0, "scrap": 0, "kerf": 0, "trim": 0}
    purchase = used = credit = 0
    rate = sheet_rate(material, keep)
    parts = {part.id: part for part in material.parts}
    bought = {stock.id: stock for stock in material.stock}
    racked = {offcut.id: offcut for offcut in material.offcuts}
    faults += check_supply(
        material.material,
        [(item.stock, item.offcut, item.count) for item in plan.layouts if item.cut_out is None],
        {stock.id: stock.available for stock in material.stock},
        set(racked),
    )
    faults += check_cut_outs(plan, material)
    for number, layout in enumerate(plan.layouts, start=1):
        where = f"{material.material} layout {number}"
        freed = cut_out_of(layout, material)
        piece = racked.get(layout.stock) if layout.offcut else bought.get(layout.stock)
        whole = piece if layout.cut_out is None else freed and freed[1]
        if whole is None or layout.count < 1:
            continue  # named by check_supply and check_cut_outs
        if freed is not None:
            trim = trim_of(*freed, material)
        else:
            trim = racked[layout.stock].edge_trim if layout.offcut else material.edge_trim
        board = _Sheet(where, layout, material, keep)
        faults += board.cut(whole.width, whole.height, trim)
        faults += board.check_pieces(parts)
        for placed in layout.parts:
            counted[placed.part] = counted.get(placed.part, 0) + layout.count
        for name, area in board.usage(parts).items():
            sums[name] += area * layout.count
        if freed is not None:
            # Counted as scrap where its part is cut; what became of it is counted here.
            sums["scrap"] -= whole.width * whole.height * layout.count
        elif layout.offcut:
            used += worth(rate, whole.width * whole.height) * layout.count
        else:
            purchase += bought[layout.stock].price * layout.count
        credit += layout.count * sum(
            worth(rate, left.width * left.height) for left in layout.offcuts
        )
    money = Money.of(purchase=purchase, offcuts_used=used, credit=credit)
    return faults, counted, money, Usage(**sums)


@dataclass(frozen=True, slots=True)
class _Piece:
    x: int
    y: int
    width: int
    height: int
    stage: int
    direction: str
    left: str
    lower: str


class _Sheet:
    """One sheet under the saw: the pieces that lie on the bench after each cut."""

    def __init__(
        self, where: str, layout: SheetLayout, material: SheetMaterial, keep: Keep
    ) -> None:
        self._where = where
        self._layout = layout
        self._material = material
        self._keep = keep
        self._pieces: dict[str, _Piece] = {}
        self._kerf_area = 0
        self._trim_area = 0

    def cut(self, width: int, height: int, trim: EdgeTrim) -> list[Fault]:
        """Trim the edges, then make every cut in order."""
        found: list[str] = []
        outer = "offcut" if self._layout.offcut else "factory"
        outer = outer if self._layout.cut_out is None else "part"
        left = "trimmed" if trim.left else outer
        lower = "trimmed" if trim.bottom else outer
        inside = trim.inside(width, height)
        inner = _Piece(trim.left, trim.bottom, *inside, 0, "", left, lower)
        self._trim_area = width * height - inner.width * inner.height
        self._pieces["sheet"] = inner
        for order, cut in enumerate(self._layout.cuts, start=1):
            piece = self._pieces.pop(cut.of, None)
            if cut.n != order:
                found.append(f"cut {cut.n} stands in place {order} of the list")
            if piece is None:
                found.append(f"cut {cut.n} divides {cut.of!r}, which does not lie there")
                continue
            if cut.direction not in ("rip", "crosscut"):
                found.append(f"cut {cut.n} is neither a rip nor a crosscut")
                continue
            extent = piece.width if cut.direction == "rip" else piece.height
            if not 0 < cut.at < extent:
                found.append(f"cut {cut.n} at {mm(cut.at)} misses its piece of {mm(extent)} mm")
                continue
            edge = piece.left if cut.direction == "rip" else piece.lower
            said = (wrong_edge(cut, edge), wrong_tool(cut, extent, self._material))
            found += [what for what in said if what]
            self._divide(cut.n, cut.direction, cut.at, piece)
        return [Fault(self._where, what) for what in found]

    def _divide(self, n: int, direction: str, at: int, piece: _Piece) -> None:
        kerf = self._material.kerf
        stage = piece.stage + (piece.direction != direction)
        beyond = at + kerf
        if direction == "rip":
            self._kerf_area += min(kerf, piece.width - at) * piece.height
            near = (piece.x, piece.y, at, piece.height)
            far = (piece.x + beyond, piece.y, piece.width - beyond, piece.height)
        else:
            self._kerf_area += min(kerf, piece.height - at) * piece.width
            near = (piece.x, piece.y, piece.width, at)
            far = (piece.x, piece.y + beyond, piece.width, piece.height - beyond)
        self._pieces[f"{n}a"] = _Piece(*near, stage, direction, piece.left, piece.lower)
        if min(far[2], far[3]) > 0:
            left = f"cut {n}" if direction == "rip" else piece.left
            lower = piece.lower if direction == "rip" else f"cut {n}"
            self._pieces[f"{n}b"] = _Piece(*far, stage, direction, left, lower)

    def check_pieces(self, parts: dict[str, BoardPart]) -> list[Fault]:
        """Hold every piece on the bench against what the layout says it is."""
        found: list[str] = []
        layout = self._layout
        if not layout.parts:
            found.append("no part is cut from it")
        left = dict(self._pieces)
        items: list[PlacedBoard | Leftover] = [*layout.parts, *layout.offcuts, *layout.scrap]
        for item in items:
            name = item.part if isinstance(item, PlacedBoard) else "a remainder"
            piece = left.pop(item.piece, None)
            if piece is None:
                found.append(f"{name} claims piece {item.piece!r}, which is not free")
            elif (piece.x, piece.y, piece.width, piece.height) != (
                item.x,
                item.y,
                item.width,
                item.height,
            ):
                found.append(f"{name} is not the size or in the place of piece {item.piece!r}")
        found += [f"piece {name!r} is neither part, offcut nor scrap" for name in left]
        for placed in layout.parts:
            found += self._check_part(placed, parts.get(placed.part))
        found += wrong_cut_outs(layout, parts)
        found += self._check_remainders(layout.offcuts, should_keep=True)
        found += self._check_remainders(layout.scrap, should_keep=False)
        most = self._material.max_stages
        deepest = max((piece.stage for piece in self._pieces.values()), default=0)
        if most is not None and deepest > most:
            found.append(f"needs {deepest} stages of cutting where {most} are allowed")
        first = self._material.first_cut
        if first is not None and layout.cuts and layout.cuts[0].direction != first.value:
            found.append(f"begins with a {layout.cuts[0].direction}, not a {first.value}")
        return [Fault(self._where, what) for what in found]

    @staticmethod
    def _check_part(placed: PlacedBoard, part: BoardPart | None) -> list[str]:
        if part is None:
            return [f"part {placed.part!r} was never asked for"]
        found = []
        if placed.job != part.job:
            found.append(f"part {placed.part!r} is for job {part.job!r}, not {placed.job!r}")
        if placed.turned and not part.turn:
            found.append(f"part {placed.part!r} is turned, which it must not be")
        size = (part.height, part.width) if placed.turned else (part.width, part.height)
        if (placed.width, placed.height) != size:
            found.append(
                f"part {placed.part!r} is {mm(placed.width)} × {mm(placed.height)}, "
                f"asked {mm(size[0])} × {mm(size[1])}"
            )
        return found

    def _check_remainders(
        self, remainders: tuple[Leftover, ...], *, should_keep: bool
    ) -> list[str]:
        name = "scrap" if should_keep else "an offcut"
        return [
            f"piece {left.piece!r}: {mm(left.width)} × {mm(left.height)} is {name} by the keep rule"
            for left in remainders
            if board_is_kept(self._keep, left.width, left.height) != should_keep
        ]

    def usage(self, parts: dict[str, BoardPart]) -> dict[str, int]:
        """Return areas in square tenths; what is cut out of parts is scrap."""
        gross = sum(placed.width * placed.height for placed in self._layout.parts)
        cut_out = sum(
            hole.width * hole.height
            for placed in self._layout.parts
            if placed.part in parts
            for hole in parts[placed.part].cut_outs
        )
        return {
            "part": gross - cut_out,
            "offcut": sum(left.width * left.height for left in self._layout.offcuts),
            "scrap": sum(left.width * left.height for left in self._layout.scrap) + cut_out,
            "kerf": self._kerf_area,
            "trim": self._trim_area,
        }
