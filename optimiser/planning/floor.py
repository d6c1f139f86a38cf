"""What lies on the floor when work stops: unfinished pieces, and offcuts that are free.

A unit is one piece of a layout that still has parts to give, put as layouts on what the rest's
request calls it: stock in hand, a rack offcut, or remnants of started stock. The cut list says
where each remnant ends; a remnant of a length is measured to the far trim, one of a sheet within
the trimmed edges, so neither is trimmed again.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from optimiser.domain.continuation import FloorPiece
from optimiser.domain.marks import Mark, State
from optimiser.domain.plan import Leftover, LengthCut, LengthLayout, SheetCut, SheetLayout, Stretch
from optimiser.domain.request import LengthMaterial, SheetMaterial
from optimiser.domain.stock import LengthOffcut, SheetOffcut
from optimiser.planning.cut_list import source_of
from optimiser.planning.cut_outs import freed_from
from optimiser.planning.marking import Freed, parts_off
from optimiser.units import Tenths

Layout = LengthLayout | SheetLayout
Offcut = LengthOffcut | SheetOffcut


@dataclass(frozen=True, slots=True)
class Unit:
    """One unfinished piece as it was drawn: layouts of one each, and the offcuts they lie on."""

    layouts: tuple[Layout, ...]
    offcuts: tuple[Offcut, ...]
    stock: str | None

    @property
    def parts(self) -> Counter[str]:
        """Return how often each part is still to come off it."""
        return Counter(part.part for layout in self.layouts for part in layout.parts)

    @property
    def spare(self) -> int:
        """Return the length or area that no part uses."""
        return sum(_size(left) for layout in self.layouts for left in remainders(layout))


@dataclass(slots=True)
class Floor:
    """Everything of one material when work stops; filled by `clear_up`."""

    finished: Counter[str] = field(default_factory=Counter)
    units: list[Unit] = field(default_factory=list)
    free: list[Offcut] = field(default_factory=list)
    named: list[FloorPiece] = field(default_factory=list)
    used: Counter[str] = field(default_factory=Counter)


def remainders(layout: Layout) -> tuple[Stretch | Leftover, ...]:
    """Return what a layout leaves, kept or not."""
    return (*layout.offcuts, *layout.scrap)


def _size(left: Stretch | Leftover) -> int:
    return left.length if isinstance(left, Stretch) else left.width * left.height


def clear_up(
    material: LengthMaterial | SheetMaterial,
    layouts: tuple[Layout, ...],
    marks: tuple[Mark, ...],
    in_hand: dict[str, str],
    taken: set[str],
) -> Floor:
    """Sort one material's layouts by their marks into what is done, unfinished and free.

    `in_hand` gives the id under which bought stock is listed in the rest, `taken` the offcut ids
    that are in use; both grow by what is named here. Marks must fit the layouts.
    """
    floor = Floor()
    racked = {offcut.id: offcut for offcut in material.offcuts}
    freed = Freed(layouts, marks)
    for number, layout in enumerate(layouts, start=1):
        of_layout = [mark for mark in marks if mark.layout == number]
        if layout.offcut:
            taken.add(layout.stock)
        elif layout.bought:
            floor.used[layout.stock] += layout.count
        piece = 0
        for mark in of_layout:
            off = Counter(parts_off(layout, mark)) if mark.state is not State.DAMAGED else Counter()
            for _ in range(mark.pieces):
                piece += 1
                floor.finished += off
                if mark.state is not State.DAMAGED:
                    _leave(floor, material, layout, mark, (number, piece), taken)
            # A good part less for each name; pieces with spoiled parts are marked one by one.
            floor.finished -= Counter(mark.spoiled)
        freed.cut_by(layout, of_layout)
        whole = layout.count - piece
        if isinstance(layout, SheetLayout) and layout.cut_out is not None:
            assert isinstance(material, SheetMaterial)
            lying = max(0, freed.take(layout, whole))
            for n in range(piece + 1, piece + lying + 1):
                _lay_down_freed(floor, material, layout, (number, n), taken)
            floor.units += [Unit((replace(layout, count=1),), (), None)] * (whole - lying)
            continue
        if whole and layout.offcut:
            single = replace(layout, count=1)
            floor.units.append(Unit((single,), (racked[layout.stock],), None))
        elif whole:
            id_ = in_hand.setdefault(layout.stock, _free_name(f"{layout.stock} in hand", material))
            single = replace(layout, count=1, stock=id_)
            floor.units += [Unit((single,), (), id_)] * whole
    floor.free += [offcut for id_, offcut in racked.items() if id_ not in taken]
    return floor


def _lay_down_freed(
    floor: Floor,
    material: SheetMaterial,
    layout: SheetLayout,
    place: tuple[int, int],
    taken: set[str],
) -> None:
    """Lay down a cut-out whose part is cut, whole and not yet trimmed, as an offcut."""
    assert layout.cut_out is not None
    donor = next(part for part in material.parts if part.id == layout.stock)
    piece = freed_from(material, donor, layout.cut_out)
    offcut = SheetOffcut(
        id=_named(floor, material, "cut-out", place, taken),
        width=piece.hole.width,
        height=piece.hole.height,
        edge_trim=piece.trim,
    )
    drawn = replace(layout, stock=offcut.id, offcut=True, count=1, cut_out=None)
    floor.units.append(Unit((drawn,), (offcut,), None))


def _named(
    floor: Floor,
    material: LengthMaterial | SheetMaterial,
    name: str,
    place: tuple[int, int],
    taken: set[str],
) -> str:
    """Name a piece on the floor by layout and piece, and note where it came from."""
    id_ = f"L{place[0]}.{place[1]}/{name}"
    while id_ in taken or any(offcut.id == id_ for offcut in material.offcuts):
        id_ += "'"
    taken.add(id_)
    floor.named.append(
        FloorPiece(material=material.material, id=id_, layout=place[0], piece=place[1], name=name)
    )
    return id_


def _free_name(name: str, material: LengthMaterial | SheetMaterial) -> str:
    known = {stock.id for stock in material.stock}
    while name in known:
        name += "'"
    return name


def _leave(
    floor: Floor,
    material: LengthMaterial | SheetMaterial,
    layout: Layout,
    mark: Mark,
    place: tuple[int, int],
    taken: set[str],
) -> None:
    """Lay down what one cut or started piece leaves."""

    def named(name: str) -> str:
        return _named(floor, material, name, place, taken)

    cuts = len(layout.cuts) if mark.state is State.CUT else mark.cuts
    if isinstance(layout, LengthLayout):
        assert isinstance(material, LengthMaterial)
        _leave_length(floor, material, layout, cuts, named)
    else:
        assert isinstance(material, SheetMaterial)
        _leave_sheet(floor, material, layout, cuts, named)


def _leave_length(
    floor: Floor,
    material: LengthMaterial,
    layout: LengthLayout,
    cuts: int,
    named: Callable[[str], str],
) -> None:
    """Lay down what is left of a length after so many cuts."""
    left = layout.parts[cuts:] if cuts < len(layout.cuts) else ()
    if not left:
        floor.free += [
            LengthOffcut(id=named("rest"), length=kept.length) for kept in layout.offcuts
        ]
        return
    start = left[0].start
    offcut = LengthOffcut(id=named("rest"), length=Tenths(_usable_end(material, layout) - start))
    drawn = replace(
        layout,
        stock=offcut.id,
        offcut=True,
        count=1,
        parts=tuple(replace(part, start=Tenths(part.start - start)) for part in left),
        cuts=tuple(
            LengthCut(n=cut.n - cuts, at=Tenths(cut.at - start)) for cut in layout.cuts[cuts:]
        ),
        offcuts=tuple(_moved(piece, start) for piece in layout.offcuts),
        scrap=tuple(_moved(piece, start) for piece in layout.scrap),
    )
    floor.units.append(Unit((drawn,), (offcut,), None))


def _moved(piece: Stretch, start: int) -> Stretch:
    return replace(piece, start=Tenths(piece.start - start))


def _usable_end(material: LengthMaterial, layout: LengthLayout) -> int:
    if layout.offcut:
        racked = next(offcut for offcut in material.offcuts if offcut.id == layout.stock)
        return racked.length - racked.end_trim
    stock = next(stock for stock in material.stock if stock.id == layout.stock)
    return stock.length - material.end_trim


def _leave_sheet(
    floor: Floor,
    material: SheetMaterial,
    layout: SheetLayout,
    cuts: int,
    named: Callable[[str], str],
) -> None:
    """Lay down kept offcuts that are off a sheet, and its remnants; scrap that is off is gone."""
    bench = _bench(material, layout, cuts)
    kept = {left.piece for left in layout.offcuts}
    open_ = {cut.of for cut in layout.cuts[cuts:]}
    units: list[SheetLayout] = []
    offcuts: list[SheetOffcut] = []
    for name, (x, y, width, height) in bench.items():
        if name not in kept and name not in open_:
            continue
        offcut = SheetOffcut(id=named(name), width=Tenths(width), height=Tenths(height))
        drawn = _grown(layout, cuts, name, x, y)
        if drawn.parts:
            units.append(replace(drawn, stock=offcut.id))
            offcuts.append(offcut)
        else:
            floor.free.append(offcut)
    if units:
        floor.units.append(Unit(tuple(units), tuple(offcuts), None))


def _bench(
    material: SheetMaterial, layout: SheetLayout, cuts: int
) -> dict[str, tuple[int, int, int, int]]:
    """Return the pieces that lie there after so many cuts: x, y, width and height by name."""
    width, height, trim = source_of(layout, material)
    inner = trim.inside(width, height)
    lying: dict[str, tuple[int, int, int, int]] = {"sheet": (trim.left, trim.bottom, *inner)}
    for cut in layout.cuts[:cuts]:
        x, y, width, height = lying.pop(cut.of)
        beyond = cut.at + material.kerf
        if cut.direction == "rip":
            lying[f"{cut.n}a"] = (x, y, cut.at, height)
            far = (x + beyond, y, width - beyond, height)
        else:
            lying[f"{cut.n}a"] = (x, y, width, cut.at)
            far = (x, y + beyond, width, height - beyond)
        if min(far[2:]) > 0:
            lying[f"{cut.n}b"] = far
    return lying


def _grown(layout: SheetLayout, cuts: int, root: str, x: int, y: int) -> SheetLayout:
    """Return how a layout cuts one remnant on, seen from the remnant's own corner."""
    names = {root: "sheet"}
    own: list[SheetCut] = []
    for cut in layout.cuts[cuts:]:
        if cut.of in names:
            n = len(own) + 1
            own.append(replace(cut, n=n, of=names[cut.of]))
            names |= {f"{cut.n}{side}": f"{n}{side}" for side in "ab"}
    return SheetLayout(
        stock="",
        offcut=True,
        count=1,
        cuts=tuple(own),
        parts=tuple(
            replace(part, piece=names[part.piece], x=Tenths(part.x - x), y=Tenths(part.y - y))
            for part in layout.parts
            if part.piece in names
        ),
        offcuts=_shifted(layout.offcuts, names, x, y),
        scrap=_shifted(layout.scrap, names, x, y),
    )


def _shifted(
    left: tuple[Leftover, ...], names: dict[str, str], x: int, y: int
) -> tuple[Leftover, ...]:
    return tuple(
        replace(one, piece=names[one.piece], x=Tenths(one.x - x), y=Tenths(one.y - y))
        for one in left
        if one.piece in names
    )
