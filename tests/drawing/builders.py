"""Small plans and frames for the tests of the drawings; sizes in mm unless said."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.domain.finding import Finding, Severity
from optimiser.domain.frame import Board, Box, Frame, LevelPoint, Member, Opening
from optimiser.domain.parts import BoardPart, CutOut, LengthPart
from optimiser.domain.plan import (
    Leftover,
    LengthCut,
    LengthLayout,
    LengthPlan,
    Money,
    PlacedBoard,
    PlacedLength,
    SheetCut,
    SheetLayout,
    Stretch,
    Usage,
)
from optimiser.domain.request import Cutting, LengthMaterial, SheetMaterial
from optimiser.domain.stock import EdgeTrim, LengthOffcut, SheetOffcut, StockLength, StockSheet
from optimiser.units import Pence, Tenths

KERF, TRIM = 30, 100


def t(millimetres: float) -> Tenths:
    """Turn a size of a test into tenths."""
    return Tenths(round(millimetres * 10))


def a_section(
    *,
    lengths: Sequence[float] = (2400,),
    offcuts: Sequence[tuple[str, float]] = (),
    parts: Sequence[LengthPart] = (),
) -> LengthMaterial:
    return LengthMaterial(
        material="c16-38x63",
        kerf=Tenths(KERF),
        end_trim=Tenths(TRIM),
        stock=tuple(
            StockLength(id=f"c16-38x63-{length:g}", length=t(length), price=Pence(360))
            for length in lengths
        ),
        offcuts=tuple(LengthOffcut(id=name, length=t(length)) for name, length in offcuts),
        parts=tuple(parts),
    )


def a_length_layout(
    parts: Sequence[tuple[str, float]],
    *,
    stock: str = "c16-38x63-2400",
    length: float = 2400,
    offcut: bool = False,
    count: int = 1,
    keep: float = 600,
) -> LengthLayout:
    """Cut (id, mm) parts one after the other; the id's text before "/" is the job."""
    trim = 0 if offcut else TRIM
    end = t(length) - trim
    at = trim
    cuts = [] if offcut else [LengthCut(n=1, at=Tenths(trim - KERF))]
    placed = []
    for name, size in parts:
        job = name.split("/")[0]
        placed.append(PlacedLength(part=name, job=job, start=Tenths(at), length=t(size)))
        at += t(size)
        if at < end:
            cuts.append(LengthCut(n=len(cuts) + 1, at=Tenths(at)))
        at += KERF
    rest: tuple[Stretch, ...] = ()
    if end > at:
        rest = (Stretch(start=Tenths(at), length=Tenths(end - at)),)
    kept = bool(rest) and rest[0].length >= t(keep)
    return LengthLayout(
        stock=stock,
        offcut=offcut,
        count=count,
        parts=tuple(placed),
        cuts=tuple(cuts),
        offcuts=rest if kept else (),
        scrap=() if kept else rest,
    )


def a_length_plan(*layouts: LengthLayout) -> LengthPlan:
    return LengthPlan(
        material="c16-38x63",
        layouts=layouts,
        money=Money.of(purchase=0, offcuts_used=0, credit=0),
        usage=Usage(part=0, offcut=0, scrap=0, kerf=0, trim=0),
        bound=Pence(0),
        proven=True,
        certificate=(),
        seconds=0.0,
        method="by hand",
    )


@dataclass(frozen=True)
class Divide:
    """A cut of a test: `near` is what lies left of or below it, `far` what lies beyond.

    Each is another cut, the id of a part (with "~" before it if it is turned), "offcut" or "scrap".
    """

    direction: str
    at: float
    near: Divide | str
    far: Divide | str


def a_board(
    *,
    parts: Sequence[BoardPart],
    size: tuple[float, float] = (1220, 2440),
    trim: float = 5,
    offcuts: Sequence[tuple[str, float, float]] = (),
    cutting: Cutting = Cutting.SAW,
) -> SheetMaterial:
    return SheetMaterial(
        material="mdf-12",
        kerf=Tenths(KERF if cutting is Cutting.SAW else 0),
        edge_trim=EdgeTrim.all_round(t(trim)),
        max_stages=None,
        cutting=cutting,
        stock=(
            StockSheet(id="mdf-12-sheet", width=t(size[0]), height=t(size[1]), price=Pence(2400)),
        ),
        offcuts=tuple(SheetOffcut(id=name, width=t(w), height=t(h)) for name, w, h in offcuts),
        parts=tuple(parts),
    )


def a_board_part(
    name: str, width: float, height: float, *, cut_outs: Sequence[Sequence[float]] = ()
) -> BoardPart:
    return BoardPart(
        id=name,
        job=name.split("/")[0],
        width=t(width),
        height=t(height),
        quantity=1,
        cut_outs=tuple(CutOut(x=t(x), y=t(y), width=t(w), height=t(h)) for x, y, w, h in cut_outs),
    )


def a_sheet_layout(
    tree: Divide | str,
    *,
    size: tuple[float, float] = (1220, 2440),
    trim: float = 5,
    kerf: float = 3,
    stock: str = "mdf-12-sheet",
    offcut: bool = False,
    count: int = 1,
) -> SheetLayout:
    """Cut a sheet as the tree says, numbering the cuts from the outside in."""
    edge = 0 if offcut else t(trim)
    cutter = _Cutter(t(kerf))
    cutter.follow(tree, "sheet", (edge, edge, t(size[0]) - 2 * edge, t(size[1]) - 2 * edge))
    return SheetLayout(
        stock=stock,
        offcut=offcut,
        count=count,
        cuts=tuple(cutter.cuts),
        parts=tuple(cutter.parts),
        offcuts=tuple(cutter.left["offcut"]),
        scrap=tuple(cutter.left["scrap"]),
    )


class _Cutter:
    def __init__(self, kerf: int) -> None:
        self.kerf = kerf
        self.cuts: list[SheetCut] = []
        self.parts: list[PlacedBoard] = []
        self.left: dict[str, list[Leftover]] = {"offcut": [], "scrap": []}

    def follow(self, tree: Divide | str, piece: str, area: tuple[int, int, int, int]) -> None:
        x, y, width, height = area
        place = {"x": Tenths(x), "y": Tenths(y)}
        size = {"width": Tenths(width), "height": Tenths(height)}
        if isinstance(tree, Divide):
            self._cut(tree, piece, area)
        elif tree in self.left:
            self.left[tree].append(Leftover(piece=piece, **place, **size))
        else:
            name = tree.removeprefix("~")
            job = name.split("/")[0]
            self.parts.append(
                PlacedBoard(
                    part=name, job=job, piece=piece, **place, **size, turned=tree.startswith("~")
                )
            )

    def _cut(self, tree: Divide, piece: str, area: tuple[int, int, int, int]) -> None:
        x, y, width, height = area
        n, at, rip = len(self.cuts) + 1, t(tree.at), tree.direction == "rip"
        self.cuts.append(SheetCut(n=n, of=piece, direction=tree.direction, at=at))
        past = at + self.kerf
        if rip:
            self.follow(tree.near, f"{n}a", (x, y, at, height))
            self.follow(tree.far, f"{n}b", (x + past, y, width - past, height))
        else:
            self.follow(tree.near, f"{n}a", (x, y, width, at))
            self.follow(tree.far, f"{n}b", (x, y + past, width, height - past))


def a_member(
    mark: str,
    kind: str,
    place: tuple[float, float, float],
    size: tuple[float, float, float],
    *,
    follows_ceiling: bool = False,
) -> Member:
    return Member(
        mark=mark,
        kind=kind,
        material="c16-38x63",
        length=t(max(size)),
        box=Box(
            x=t(place[0]), y=t(place[1]), z=t(place[2]), dx=t(size[0]), dy=t(size[1]), dz=t(size[2])
        ),
        rule="test",
        follows_ceiling=follows_ceiling,
    )


def a_front_board(
    mark: str,
    place: tuple[float, float],
    size: tuple[float, float],
    *,
    cut_outs: Sequence[Sequence[float]] = (),
    face: str = "front",
    layer: int = 1,
) -> Board:
    return Board(
        mark=mark,
        face=face,
        layer=layer,
        material="mdf-12",
        x=t(place[0]),
        z=t(place[1]),
        width=t(size[0]),
        height=t(size[1]),
        turn=True,
        cut_outs=tuple(CutOut(x=t(x), y=t(y), width=t(w), height=t(h)) for x, y, w, h in cut_outs),
        rule="test",
    )


def an_opening(
    name: str, place: tuple[float, float], size: tuple[float, float], *, kind: str = "tv"
) -> Opening:
    return Opening(
        name=name,
        kind=kind,
        x=t(place[0]),
        z=t(place[1]),
        width=t(size[0]),
        height=t(size[1]),
        depth=t(150),
    )


def a_frame(
    *,
    width: float = 3600,
    floor: tuple[float, float] = (0, -20),
    ceiling: tuple[float, float] = (2400, 2380),
    openings: Sequence[Opening] = (),
    members: Sequence[Member] = (),
    boards: Sequence[Board] = (),
    findings: Sequence[Finding] = (),
) -> Frame:
    return Frame(
        job="A",
        width=t(width),
        depth=t(300),
        levels=(
            LevelPoint(x=Tenths(0), floor=t(floor[0]), ceiling=t(ceiling[0])),
            LevelPoint(x=t(width), floor=t(floor[1]), ceiling=t(ceiling[1])),
        ),
        left_free=True,
        right_free=False,
        openings=tuple(openings),
        members=tuple(members),
        boards=tuple(boards),
        beads=(),
        quantities=(),
        findings=tuple(findings),
        defaults=(),
    )


def a_finding(severity: Severity, trouble: str, *, rule: str = "tv-gap") -> Finding:
    return Finding(
        rule=rule, severity=severity, trouble=trouble, remedy="Widen the recess", source="test"
    )
