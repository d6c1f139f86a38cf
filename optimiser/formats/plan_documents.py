"""The cutting plan's document as it stands in JSON: what every field is called and may hold."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from optimiser.domain.plan import NOTHING
from optimiser.formats.fields import (
    Area,
    Document,
    Flag,
    Id,
    MoneyText,
    SignedMoneyText,
    Size,
    SizeOrZero,
    SizeSum,
)

_MOST = 1_000_000


class MoneyFields(Document):
    """Net cost is purchase + value of offcuts used − credit for offcuts kept."""

    purchase: MoneyText
    offcuts_used: MoneyText
    credit: MoneyText
    net_cost: SignedMoneyText
    lower_bound: MoneyText
    proven: Flag
    seconds: float = Field(ge=0, allow_inf_nan=False)


class PlacedLengthDocument(Document):
    """One part on a length, measured from the left end."""

    part: Id
    job: Id
    start_mm: SizeOrZero
    length_mm: Size


class LengthCutDocument(Document):
    """Cut n: the near side of the blade stands here, from the left end."""

    n: int = Field(ge=1, le=_MOST, strict=True)
    at_mm: Size


class StretchDocument(Document):
    """What is left of a length."""

    start_mm: SizeOrZero
    length_mm: Size


class LengthLayoutDocument(Document):
    """How `count` equal lengths are cut."""

    stock: Id
    offcut: Flag
    count: int = Field(ge=1, le=_MOST, strict=True)
    cuts: tuple[LengthCutDocument, ...]
    parts: tuple[PlacedLengthDocument, ...]
    offcuts: tuple[StretchDocument, ...]
    scrap: tuple[StretchDocument, ...]


class LengthUsageDocument(Document):
    """Where every tenth of a millimetre goes."""

    part_mm: SizeSum
    offcut_mm: SizeSum
    scrap_mm: SizeSum
    kerf_mm: SizeSum
    trim_mm: SizeSum


class LengthWeightsDocument(Document):
    """One reason for the bound: what each part weighs, and a penny."""

    weights: tuple[int, ...]
    scale: int


class TradeDocument(Document):
    """How many different layouts would do, and what more that costs; not this plan."""

    layouts: int = Field(ge=1, le=_MOST, strict=True)
    extra: MoneyText


class LengthPlanDocument(MoneyFields):
    """The plan of one section."""

    material: Id
    method: str
    trade: TradeDocument | None = None
    layouts: tuple[LengthLayoutDocument, ...]
    usage: LengthUsageDocument
    certificate: tuple[LengthWeightsDocument, ...]


class SheetCutDocument(Document):
    """Cut n divides piece `of` at `at_mm` from its left (rip) or lower (crosscut) edge.

    `edge` says what made that edge: "factory", "trimmed", "offcut", "part" or "cut n".
    """

    n: int = Field(ge=1, le=_MOST, strict=True)
    of: Id
    direction: Literal["rip", "crosscut"]
    at_mm: Size
    edge: str = Field("", pattern=r"^(factory|trimmed|offcut|part|cut [1-9][0-9]{0,8})?$")
    tool: Literal["", "saw", "snap"] = ""


class PlacedBoardDocument(Document):
    """One part on a sheet: the whole of piece `piece`."""

    part: Id
    job: Id
    piece: Id
    x_mm: SizeOrZero
    y_mm: SizeOrZero
    width_mm: Size
    height_mm: Size
    turned: Flag


class LeftoverDocument(Document):
    """A rectangle that no part uses."""

    piece: Id
    x_mm: SizeOrZero
    y_mm: SizeOrZero
    width_mm: Size
    height_mm: Size


Side = Literal["left", "right", "bottom", "top"]


class CutOutWorkDocument(Document):
    """Which sides of cut-out number `cut_out` (from 0) of a part are sawn, and which is snapped."""

    part: Id
    cut_out: int = Field(ge=0, le=_MOST, strict=True)
    shape: Literal["corner notch", "U-notch", "window"]
    saw: tuple[Side, ...]
    snap: tuple[Side, ...]


class SheetLayoutDocument(Document):
    """How `count` equal sheets are cut, in the order of work."""

    stock: Id
    offcut: Flag
    count: int = Field(ge=1, le=_MOST, strict=True)
    cuts: tuple[SheetCutDocument, ...]
    parts: tuple[PlacedBoardDocument, ...]
    offcuts: tuple[LeftoverDocument, ...]
    scrap: tuple[LeftoverDocument, ...]
    cut_outs: tuple[CutOutWorkDocument, ...] = ()
    cut_out: int | None = Field(default=None, ge=0, le=_MOST, strict=True)


class SheetUsageDocument(Document):
    """Where every square millimetre goes."""

    part_mm2: Area
    offcut_mm2: Area
    scrap_mm2: Area
    kerf_mm2: Area
    trim_mm2: Area


class SheetWeightsDocument(Document):
    """One reason for the bound: weights of sizes across and along the sheet, sizes in tenths."""

    across: tuple[tuple[int, int], ...]
    along: tuple[tuple[int, int], ...]


class PartWeightsDocument(Document):
    """One reason for a board's bound: what each part of the request weighs, however it lies.

    With `once` it holds because no part is cut more often than it is wanted. With a `scale` above 0
    the weights are prices, so many to the penny, and credit for what is kept is counted with them.
    All with the same `below` above 0 together rule out plans that cost less than that, in pence.
    """

    weights: tuple[int, ...]
    once: bool = False
    scale: int = 0
    below: int = 0


class SheetPlanDocument(MoneyFields):
    """The plan of one board."""

    material: Id
    method: str
    layouts: tuple[SheetLayoutDocument, ...]
    usage: SheetUsageDocument
    certificate: tuple[SheetWeightsDocument | PartWeightsDocument, ...]


class ChosenDocument(Document):
    """The option taken for a choice, counted from 0."""

    choice: Id
    option: int = Field(ge=0, strict=True)


class PlanDocument(MoneyFields):
    """A cutting plan: the answer to one request."""

    seed: int = Field(ge=0, strict=True)
    lengths: tuple[LengthPlanDocument, ...]
    sheets: tuple[SheetPlanDocument, ...]
    chosen: tuple[ChosenDocument, ...]
    choices_saved: MoneyText = NOTHING
