"""One cutting request: per material the stock, the rack, the parts and the rules at the saw."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

from optimiser.domain.parts import BoardPart, CutOut, LengthPart
from optimiser.domain.stock import (
    NO_TRIM,
    EdgeTrim,
    LengthOffcut,
    SheetOffcut,
    StockLength,
    StockSheet,
)
from optimiser.units import Tenths

# 5 mm off each sawn side of what is cut out of a part, the kerf round it included (common practice,
# no source): a plunge saw or jigsaw leaves no factory edge.
CUT_OUT_TRIM = Tenths(50)


class Cutting(Enum):
    """Sawn with a kerf, or scored with a knife and snapped from edge to edge."""

    SAW = "saw"
    KNIFE = "knife"


class Direction(Enum):
    """The way of a cut on a sheet: set across its width (rip), or across its height."""

    RIP = "rip"
    CROSSCUT = "crosscut"


@dataclass(frozen=True, slots=True, kw_only=True)
class Keep:
    """When a remainder is an offcut worth keeping, and what keeping it is worth.

    A length is kept from `length` on, a board whose sides reach `width` and `height` either way
    round. `credit` is the share of the stock price per metre (or square metre) it is worth.
    """

    length: Tenths
    width: Tenths
    height: Tenths
    credit: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthMaterial:
    """One section to be cut to length. `end_trim` is squared off each end, its own cut included.

    `keep`: this section's own keep rule; None: the request's.
    """

    material: str
    kerf: Tenths
    end_trim: Tenths
    stock: tuple[StockLength, ...]
    offcuts: tuple[LengthOffcut, ...]
    parts: tuple[LengthPart, ...]
    keep: Keep | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetMaterial:
    """One board to be cut to rectangles, out of what is left of its sheets inside `edge_trim`.

    `max_stages` limits how often the direction of cutting may change on the way to a part, counted
    as runs of parallel cuts (2: rips, then crosscuts); None sets no limit. Where the saw asks for
    it, the first cut made on a sheet is a `first_cut`. `keep`: as for a section.

    `use_cut_outs`: what is cut out of a part may hold smaller parts, as a piece of its own that is
    there once its donor is cut. A side of it that was sawn out of the donor loses `cut_out_trim`:
    the kerf of the saw round it, and what makes a plunged or jigsawn edge straight.
    """

    material: str
    kerf: Tenths
    edge_trim: EdgeTrim
    max_stages: int | None
    cutting: Cutting
    stock: tuple[StockSheet, ...]
    offcuts: tuple[SheetOffcut, ...]
    parts: tuple[BoardPart, ...]
    first_cut: Direction | None = None
    keep: Keep | None = None
    use_cut_outs: bool = False
    cut_out_trim: Tenths = CUT_OUT_TRIM

    def trim_of_cut_out(self, part: BoardPart, hole: CutOut) -> EdgeTrim:
        """Return what the sides of a cut-out lose: those on the edge of its part nothing."""
        lost = self.cut_out_trim
        return EdgeTrim(
            left=lost if hole.x > 0 else NO_TRIM,
            right=lost if hole.x + hole.width < part.width else NO_TRIM,
            bottom=lost if hole.y > 0 else NO_TRIM,
            top=lost if hole.y + hole.height < part.height else NO_TRIM,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Alternatives of which exactly one is cut: each option lists the ids of its parts."""

    id: str
    options: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Access:
    """What can be carried to where a job is built; stock is cut outside and parts are carried in.

    `length` is the longest part, `board` the sides of the largest board part, which may be carried
    either way round. None sets no limit.
    """

    job: str
    length: Tenths | None = None
    board: tuple[Tenths, Tenths] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingRequest:
    """All that is to be cut together. `seconds` is how long the solvers may think in all.

    `fewer_layouts`: up to 0.25 % more may be paid where that saves different layouts of lengths.
    """

    seed: int
    seconds: float
    keep: Keep
    lengths: tuple[LengthMaterial, ...]
    sheets: tuple[SheetMaterial, ...]
    choices: tuple[Choice, ...] = ()
    access: tuple[Access, ...] = ()
    fewer_layouts: bool = False

    @property
    def materials(self) -> tuple[LengthMaterial | SheetMaterial, ...]:
        """Return all materials, lengths first."""
        return (*self.lengths, *self.sheets)

    def keep_for(self, material: LengthMaterial | SheetMaterial) -> Keep:
        """Return the keep rule that holds for a material: its own, or the request's."""
        return self.keep if material.keep is None else material.keep

    def without_credit(self) -> CuttingRequest:
        """Return the request with what is kept earning nothing, so that only purchase counts."""
        return replace(
            self,
            keep=_without_credit(self.keep),
            lengths=tuple(
                item if item.keep is None else replace(item, keep=_without_credit(item.keep))
                for item in self.lengths
            ),
            sheets=tuple(
                item if item.keep is None else replace(item, keep=_without_credit(item.keep))
                for item in self.sheets
            ),
        )


def with_keep_rules(request: CuttingRequest, rules: Mapping[str, Keep | None]) -> CuttingRequest:
    """Return the request with these materials' own keep rules; others stay as they are."""
    return replace(
        request,
        lengths=tuple(replace(m, keep=rules.get(m.material, m.keep)) for m in request.lengths),
        sheets=tuple(replace(m, keep=rules.get(m.material, m.keep)) for m in request.sheets),
    )


def _without_credit(keep: Keep) -> Keep:
    return replace(keep, credit=Fraction(0))
