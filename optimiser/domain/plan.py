"""One cutting plan: which stock and offcuts are used and how each is cut.

All positions are measured from the left end of a length or the lower left corner of a sheet as
bought, trims included. Lengths in tenths of a millimetre, areas in square tenths, money in pence.
"""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.units import Pence, Tenths

NOTHING = Pence(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Money:
    """`net` = purchase + value of rack offcuts used − credit for offcuts kept; the checker adds."""

    purchase: Pence
    offcuts_used: Pence
    credit: Pence
    net: Pence

    @classmethod
    def of(cls, *, purchase: int, offcuts_used: int, credit: int) -> Money:
        """Add up the net cost."""
        return cls(
            purchase=Pence(purchase),
            offcuts_used=Pence(offcuts_used),
            credit=Pence(credit),
            net=Pence(purchase + offcuts_used - credit),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Usage:
    """Where every tenth (or square tenth) of the stock used goes; the five sum to the stock."""

    part: int
    offcut: int
    scrap: int
    kerf: int
    trim: int

    @property
    def total(self) -> int:
        """Return the length or area of all stock and rack offcuts used."""
        return self.part + self.offcut + self.scrap + self.kerf + self.trim


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthWeights:
    """One reason why no plan of a section can cost less: what each part type weighs.

    `weights` stand in the order of the request's parts, whole numbers of 0 or more; a penny weighs
    `scale`. The checker works out how much weight each stock can yield at most, and from that the
    least money that yields the weight of all parts.
    """

    weights: tuple[int, ...]
    scale: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetWeights:
    """One reason why no plan of a board can cost less: a part weighs `across` × `along`.

    Both map the distinct sizes of the parts (in tenths) to whole weights of 0 or more: `across` a
    size laid along the sheet's width, `along` one laid along its height. A part that may be turned
    weighs the lesser of its two ways. No guillotine layout can weigh more than the most that fits
    across the sheet times the most that fits along it (induction over the cuts; the idea of
    conservative scales: Fekete and Schepers 2004).
    """

    across: tuple[tuple[int, int], ...]
    along: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartWeights:
    """One reason why no plan of a board can cost less: what each part weighs, however it lies.

    `weights` stand in the order of the request's parts, whole numbers of 0 or more. The checker
    works out by a table of its own how much weight edge-to-edge cuts can take out of each sheet,
    with `once`, for small orders, if no part is cut more often than it is wanted. With a `scale`
    above 0 the weights are prices, so many to the penny, and what a sheet yields is counted
    together with the credit for what is kept of it. With `below` above 0 and `once` it speaks of
    plans that cost less than that, and so do the others with the same figure: each row of weights
    leaves fewer sets of parts that such a plan may cut from a sheet, until there is no such plan.
    All reasons of a board's certificate count together: one number of sheets must satisfy them all.
    """

    weights: tuple[int, ...]
    once: bool = False
    scale: int = 0
    below: Pence = NOTHING


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedLength:
    """One part on a length."""

    part: str
    job: str
    start: Tenths
    length: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """What is left of a length, from `start` on."""

    start: Tenths
    length: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthCut:
    """Cut number `n`: the near side of the blade stands `at` from the left end as bought."""

    n: int
    at: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthLayout:
    """How `count` equal stock lengths (or one rack offcut) are cut."""

    stock: str
    offcut: bool
    count: int
    parts: tuple[PlacedLength, ...]
    cuts: tuple[LengthCut, ...]
    offcuts: tuple[Stretch, ...]
    scrap: tuple[Stretch, ...]

    @property
    def bought(self) -> bool:
        """Return whether this stock is bought for the plan."""
        return not self.offcut


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetCut:
    """Cut number `n` divides piece `of` into pieces "na" (near) and "nb" (far).

    "rip" runs along the sheet's height and is set across its width; "crosscut" runs across.
    `at` is the size of the near piece, measured from the left (rip) or lower (crosscut) edge of
    `of`. The piece "sheet" is what is left of the sheet as bought after its edges are trimmed.
    `edge` says what made the edge measured from: "factory", "trimmed", "offcut" (the edge of a rack
    offcut as it lies), "part" (the edge of the part that the piece was cut out of) or "cut n".
    `tool` is "saw" or "snap". Both are "" in plans that do not say.
    """

    n: int
    of: str
    direction: str
    at: Tenths
    edge: str = ""
    tool: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOutWork:
    """How cut-out number `cut_out` (from 0) of a part is made in a board that is snapped.

    `shape` is "corner notch", "U-notch" or "window". The sides of the cut-out are named as the part
    is given, not turned: `saw` those to be sawn, `snap` the one to be scored and snapped after.
    """

    part: str
    cut_out: int
    shape: str
    saw: tuple[str, ...]
    snap: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedBoard:
    """One part on a sheet: the whole of the piece named `piece`. `turned`: a quarter turn."""

    part: str
    job: str
    piece: str
    x: Tenths
    y: Tenths
    width: Tenths
    height: Tenths
    turned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Leftover:
    """A rectangle that no part uses: the whole of the piece named `piece`."""

    piece: str
    x: Tenths
    y: Tenths
    width: Tenths
    height: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLayout:
    """How `count` equal stock sheets (or one rack offcut) are cut, cuts in the order of work.

    `cut_outs` says how those of snapped boards are made, once for each part. Where `cut_out` is
    given, what is cut is that cut-out (from 0) of the part named by `stock`; positions are then
    measured from the cut-out's lower left corner as the part is given.
    """

    stock: str
    offcut: bool
    count: int
    cuts: tuple[SheetCut, ...]
    parts: tuple[PlacedBoard, ...]
    offcuts: tuple[Leftover, ...]
    scrap: tuple[Leftover, ...]
    cut_outs: tuple[CutOutWork, ...] = ()
    cut_out: int | None = None

    @property
    def bought(self) -> bool:
        """Return whether this stock is bought for the plan, not on the rack nor cut out of it."""
        return not self.offcut and self.cut_out is None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trade:
    """A plan with fewer different layouts that was found too: how many, and what more it costs."""

    layouts: int
    extra: Pence


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthPlan:
    """The layouts of one section, their money, and the proven bound on that money."""

    material: str
    layouts: tuple[LengthLayout, ...]
    money: Money
    usage: Usage
    bound: Pence
    proven: bool
    certificate: tuple[LengthWeights, ...]
    seconds: float
    method: str
    trade: Trade | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPlan:
    """The layouts of one board, their money, and the proven bound on that money."""

    material: str
    layouts: tuple[SheetLayout, ...]
    money: Money
    usage: Usage
    bound: Pence
    proven: bool
    certificate: tuple[SheetWeights | PartWeights, ...]
    seconds: float
    method: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """Which option of a choice the plan cuts, counted from 0."""

    choice: str
    option: int


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingPlan:
    """The answer to one request; every plan that leaves the library has passed the checker.

    `choices_saved` is what the options taken cost less than the first that could be taken of every
    choice, both planned for the same time while it was decided: a figure of the search, 0 or more.
    """

    seed: int
    lengths: tuple[LengthPlan, ...]
    sheets: tuple[SheetPlan, ...]
    chosen: tuple[Chosen, ...]
    money: Money
    bound: Pence
    proven: bool
    seconds: float
    choices_saved: Pence = NOTHING

    @property
    def materials(self) -> tuple[LengthPlan | SheetPlan, ...]:
        """Return the plans of all materials, lengths first."""
        return (*self.lengths, *self.sheets)
