"""The shape of a wall's document: its fields, their units and what each may be.

Everything that may be left out is left out here too: framing takes the defaults and names them.
"""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation
from fractions import Fraction
from typing import Annotated, Any

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    WithJsonSchema,
)

from optimiser.domain.wall import (
    End,
    ExistingWall,
    Floor,
    Glass,
)
from optimiser.formats.fields import Flag
from optimiser.formats.toml_lines import UNITS
from optimiser.units import tenths

_MOST_NICHES = 50
_MOST_GRAMS = 1_000_000
_DATE = re.compile(r"[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])")
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 _-]{0,39}")
TAKEN = {"fire", "tv", "soundbar", "front", "left", "right", "top", "underside"}
_DAYS = {"02": 29, "04": 30, "06": 30, "09": 30, "11": 30}


def _size(value: object) -> int:
    if not isinstance(value, int | float | str | Decimal):
        raise ValueError(f"{value!r} is not a size in mm")
    return tenths(value)


def _positive(value: object) -> int:
    size = _size(value)
    if size == 0:
        raise ValueError("must be above 0")
    return size


def _fall(value: object) -> int:
    if isinstance(value, int | float | Decimal) and not isinstance(value, bool) and value < 0:
        return -_size(-value)
    if isinstance(value, str) and value.strip().startswith("-"):
        return -_size(value.strip()[1:])
    return _size(value)


def _grams(value: object) -> int:
    try:
        grams = Decimal(str(value)) * 1000
    except InvalidOperation:
        raise ValueError(f"{value!r} is not a mass in kg") from None
    if isinstance(value, bool) or not grams.is_finite() or not 0 < grams <= _MOST_GRAMS:
        raise ValueError(f"{value!r} is not a mass above 0 and up to 1000 kg")
    if grams != grams.to_integral_value():
        raise ValueError(f"{value!r} is finer than a gram")
    return int(grams)


def _inches(value: object) -> Fraction:
    try:
        inches = Decimal(str(value))
    except InvalidOperation:
        raise ValueError(f"{value!r} is not a diagonal in inches") from None
    if isinstance(value, bool) or not inches.is_finite() or not 5 <= inches <= 300:
        raise ValueError(f"{value!r} is not a diagonal from 5 to 300 inches")
    return Fraction(inches)


def _date(value: object) -> str:
    text = str(value)
    if _DATE.fullmatch(text) is None or int(text[8:]) > _DAYS.get(text[5:7], 31):
        raise ValueError(f"{text[:40]!r} is not a date such as 2026-12-01")
    year = int(text[:4])
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    if text[5:] == "02-29" and not leap:
        raise ValueError(f"{text!r} is not a day of that year")
    return text


def _name(value: object) -> str:
    if not isinstance(value, str) or _NAME.fullmatch(value) is None:
        raise ValueError("needs 1 to 40 letters, digits, spaces, - or _, first a letter or digit")
    return value


def _schema(kind: str, **limits: Any) -> WithJsonSchema:
    """Describe a field as it is written, not as it is held."""
    return WithJsonSchema({"type": kind, **limits})


Size = Annotated[int, BeforeValidator(_size), _schema("number", minimum=0)]
Above0 = Annotated[int, BeforeValidator(_positive), _schema("number", exclusiveMinimum=0)]
FallOfFloor = Annotated[int, BeforeValidator(_fall), _schema("number")]
Grams = Annotated[int, BeforeValidator(_grams), _schema("number", exclusiveMinimum=0)]
Inches = Annotated[Fraction, BeforeValidator(_inches), _schema("number", minimum=5)]
IsoDate = Annotated[str, BeforeValidator(_date), _schema("string", format="date")]
Name = Annotated[str, BeforeValidator(_name)]
Text = Annotated[str, Field(max_length=200)]
Watts = Annotated[int, Field(strict=True, gt=0, le=20_000)]


class _Model(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)

    def values(self) -> dict[str, Any]:
        """Return the fields under the domain's names, without the units in their names."""
        return {
            _plain(name): getattr(self, name)
            for name in type(self).model_fields
            if getattr(self, name) is not None
        }


def _plain(name: str) -> str:
    for unit in UNITS:
        if name.endswith(unit):
            return name.removesuffix(unit)
    return name


class SurveyPointModel(_Model):
    """Floor and ceiling at one place of the site."""

    x_mm: Size
    height_mm: Above0
    floor_mm: FallOfFloor = 0


class ProjectionModel(_Model):
    """A chimney breast or pier of the existing wall."""

    x_mm: Size
    width_mm: Above0
    depth_mm: Above0


class AccessoryModel(_Model):
    """A socket or switch on the existing wall, its middle."""

    x_mm: Size
    z_mm: Size


class SiteModel(_Model):
    """The survey of the room."""

    clear_width_mm: Above0
    height_left_mm: Above0 | None = None
    height_middle_mm: Above0 | None = None
    height_right_mm: Above0 | None = None
    floor_fall_mm: FallOfFloor = 0
    kind: ExistingWall | None = None
    floor: Floor | None = None
    stud_positions_mm: tuple[Size, ...] = Field(default=(), max_length=300)
    levels: tuple[SurveyPointModel, ...] = Field(default=(), max_length=_MOST_NICHES)
    lean_left_mm: FallOfFloor = 0
    lean_right_mm: FallOfFloor = 0
    skirting_mm: Above0 | None = None
    plug_spacing_mm: Above0 | None = None
    projections: tuple[ProjectionModel, ...] = Field(default=(), max_length=_MOST_NICHES)
    accessories: tuple[AccessoryModel, ...] = Field(default=(), max_length=_MOST_NICHES)


class ExtentModel(_Model):
    """How far the feature wall reaches."""

    depth_mm: Above0
    height_mm: Above0 | None = None
    offset_mm: Size | None = None
    width_mm: Above0 | None = None
    left: End | None = None
    right: End | None = None


class StepModel(_Model):
    """A part of the front at another depth; depth 0 leaves it open."""

    name: Name
    x_mm: Size
    width_mm: Above0
    depth_mm: Size
    z_mm: Size | None = None
    height_mm: Above0 | None = None


class FireModel(_Model):
    """The fire, by its manual."""

    body_width_mm: Above0
    body_height_mm: Above0
    body_depth_mm: Above0
    opening_width_mm: Above0 | None = None
    opening_height_mm: Above0 | None = None
    base_height_mm: Above0 | None = None
    clearance_top_mm: Size | None = None
    clearance_side_mm: Size | None = None
    clearance_back_mm: Size | None = None
    mass_kg: Grams | None = None
    glass: Glass | None = None
    centre_mm: Size | None = None
    return_depth_mm: Above0 | None = None
    lining: Text | None = None
    power_w: Watts | None = None


class SocketModel(_Model):
    """A hole in the backboard."""

    x_mm: Size
    z_mm: Size
    width_mm: Above0
    height_mm: Above0


class TvModel(_Model):
    """The TV, measured or by its diagonal."""

    width_mm: Above0 | None = None
    height_mm: Above0 | None = None
    depth_mm: Above0 | None = None
    mass_kg: Grams | None = None
    diagonal_in: Inches | None = None
    centre_mm: Size | None = None
    centre_height_mm: Above0 | None = None
    above_fire_mm: Size | None = None
    finger_gap_mm: Size | None = None
    recess_width_mm: Above0 | None = None
    recess_height_mm: Above0 | None = None
    recess_depth_mm: Above0 | None = None
    bracket_reach_mm: Size | None = None
    bracket_mass_kg: Grams | None = None
    bracket_width_mm: Above0 | None = None
    bracket_height_mm: Above0 | None = None
    eye_height_mm: Above0 | None = None
    viewing_distance_mm: Above0 | None = None
    sockets: tuple[SocketModel, ...] = Field(default=(), max_length=_MOST_NICHES)


class SoundbarModel(_Model):
    """The soundbar and its slot."""

    width_mm: Above0
    height_mm: Above0
    depth_mm: Above0
    gap_mm: Size | None = None
    x_mm: Size | None = None
    z_mm: Size | None = None


class NicheModel(_Model):
    """One niche, clear of linings."""

    name: Name
    x_mm: Size
    z_mm: Size
    width_mm: Above0
    height_mm: Above0
    depth_mm: Above0
    shelves: int = Field(default=0, ge=0, le=20, strict=True)
    lit: Flag = False


class MaterialsModel(_Model):
    """Ids of the price book and how they are used."""

    timber: Text | None = None
    board: Text | None = None
    backboard: Text | None = None
    corner_bead: Text | None = None
    stop_bead: Text | None = None
    layers: int | None = Field(default=None, ge=1, le=2, strict=True)
    centres_mm: Above0 | None = None
    skim: Flag | None = None
    fit_mm: Size | None = None


class WallModel(_Model):
    """One job as written: what may be left out is None."""

    job: Name
    client: Text = ""
    needed: IsoDate | None = None
    site: SiteModel
    wall: ExtentModel
    fire: FireModel | None = None
    tv: TvModel | None = None
    soundbar: SoundbarModel | None = None
    steps: tuple[StepModel, ...] = Field(default=(), max_length=_MOST_NICHES)
    niches: tuple[NicheModel, ...] = Field(default=(), max_length=_MOST_NICHES)
    materials: MaterialsModel = MaterialsModel()
