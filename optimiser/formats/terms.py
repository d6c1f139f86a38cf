"""A merchant's terms of delivery as a document (TOML), and the days that jobs are needed."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from optimiser.domain.deliveries import Terms
from optimiser.formats.fields import Document, Id, MoneyText, Size, read_document, read_toml
from optimiser.formats.wall_document import IsoDate
from optimiser.units import Pence, Tenths

_WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
Weekday = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]


def _load(value: object) -> int:
    """Read kg up to 44 t, the most that a lorry may weigh in all (common practice, no source)."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError("a vehicle's load is a number of kg")
    if not 0 < value <= 44_000:
        raise ValueError("a vehicle's load is above 0 and up to 44000 kg")
    return int(Decimal(str(value)) * 1000)


Load = Annotated[int, BeforeValidator(_load), Field(json_schema_extra={"type": "number"})]


class LongItemModel(Document):
    """What a delivery costs more when its longest item is longer than `over_mm`."""

    over_mm: Size
    charge: MoneyText


class TermsModel(Document):
    """Terms of delivery; `needed` gives jobs their day where their own file does not.

    `storage_days` left out is 7, `weekdays` Monday to Friday (common practice, no source).
    """

    charge: MoneyText
    free_over: MoneyText | None = None
    by_length: tuple[LongItemModel, ...] = Field(default=(), max_length=20)
    vehicle_mass_kg: Load | None = None
    vehicle_length_mm: Size | None = None
    weekdays: tuple[Weekday, ...] = Field(
        default=("mon", "tue", "wed", "thu", "fri"), min_length=1, max_length=7
    )
    storage_days: Annotated[int, Field(ge=0, le=365, strict=True)] = 7
    needed: dict[Id, IsoDate] = Field(default_factory=dict, max_length=1_000)


def read_terms(text: str, *, name: str) -> tuple[Terms, dict[str, str]]:
    """Read terms and the days of need by job from TOML text.

    Raises InvalidInput with every fault of it.
    """
    content = read_toml(text, name=name, smaller="Split the terms")
    return terms_from_document(content, name=name)


def terms_from_document(content: object, *, name: str) -> tuple[Terms, dict[str, str]]:
    """Read terms from plain values. Raises InvalidInput with every fault of it."""
    model = read_document(content, TermsModel, name=name)
    terms = Terms(
        charge=Pence(model.charge),
        free_over=None if model.free_over is None else Pence(model.free_over),
        by_length=tuple((Tenths(item.over_mm), Pence(item.charge)) for item in model.by_length),
        mass=model.vehicle_mass_kg,
        length=None if model.vehicle_length_mm is None else Tenths(model.vehicle_length_mm),
        weekdays=tuple(sorted(_WEEKDAYS.index(day) for day in set(model.weekdays))),
        storage_days=model.storage_days,
    )
    return terms, dict(model.needed)
