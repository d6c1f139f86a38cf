"""The fields that documents share: sizes in mm, money as text, names; and their faults in words."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterable, Iterator
from difflib import get_close_matches
from typing import Annotated, Any, TypeVar, get_args

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    PlainSerializer,
    ValidationError,
    WithJsonSchema,
)
from pydantic_core import PydanticCustomError

from optimiser.errors import InvalidInput, Problem, invalid
from optimiser.units import MOST_SIGNS, mm_number, pence, pounds, tenths

# A document larger than this is refused before it is read.
MOST_BYTES = 10_000_000


def size_of(value: object) -> int:
    """Read millimetres as whole tenths. Raises ValueError in words a user can act on."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError("a size is a number of mm, such as 2281.5, without quotes or unit")
    return tenths(value)


def _above_zero(value: object) -> int:
    size = size_of(value)
    if size == 0:
        raise ValueError("a size here must be above 0")
    return size


def _money(value: object) -> int:
    if not isinstance(value, str):
        raise PydanticCustomError(
            "money_type", 'money is written as text, such as "3.60"', {"remedy": "Put it in quotes"}
        )
    return pence(value)


def _signed_money(value: object) -> int:
    if isinstance(value, str) and value.startswith("-"):
        return -_money(value[1:])
    return _money(value)


def _whole(value: int | float) -> int:
    try:
        return round(value)
    except (OverflowError, ValueError):
        raise ValueError("a number here must be finite") from None


def _size_sum(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError("a sum of sizes is a number of mm")
    size = _whole(value * 10)
    if size < 0 or abs(size - value * 10) > 1e-3:
        raise ValueError("a sum of sizes is 0 or more mm with at most one decimal")
    return size


def _area(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError("an area is a number of mm²")
    area = _whole(value * 100)
    if area < 0 or abs(area - value * 100) > 1e-3:
        raise ValueError("an area is 0 or more mm² with at most two decimals")
    return area


def _area_number(area: int) -> int | float:
    return area // 100 if area % 100 == 0 else area / 100


SIZE_SCHEMA = {"type": "number", "minimum": 0, "maximum": 100_000}

# Millimetres with at most one decimal in the document, tenths of a millimetre as a value.
Size = Annotated[
    int,
    BeforeValidator(_above_zero),
    PlainSerializer(mm_number, return_type=int | float),
    WithJsonSchema({**SIZE_SCHEMA, "minimum": 0, "exclusiveMinimum": 0}),
]
SizeOrZero = Annotated[
    int,
    BeforeValidator(size_of),
    PlainSerializer(mm_number, return_type=int | float),
    WithJsonSchema(SIZE_SCHEMA),
]
# A sum of sizes may exceed what any one size may be.
SizeSum = Annotated[
    int,
    BeforeValidator(_size_sum),
    PlainSerializer(mm_number, return_type=int | float),
    WithJsonSchema({"type": "number", "minimum": 0}),
]
Area = Annotated[
    int,
    BeforeValidator(_area),
    PlainSerializer(_area_number, return_type=int | float),
    WithJsonSchema({"type": "number", "minimum": 0}),
]
MoneyText = Annotated[
    int,
    BeforeValidator(_money),
    PlainSerializer(pounds, return_type=str),
    WithJsonSchema(
        {"type": "string", "pattern": r"^[0-9]+([.,][0-9]{1,2})?$", "maxLength": MOST_SIGNS}
    ),
]
SignedMoneyText = Annotated[
    int,
    BeforeValidator(_signed_money),
    PlainSerializer(pounds, return_type=str),
    WithJsonSchema(
        {"type": "string", "pattern": r"^-?[0-9]+([.,][0-9]{1,2})?$", "maxLength": MOST_SIGNS + 1}
    ),
]
Id = Annotated[str, Field(min_length=1, max_length=120, pattern=r"^[^\x00-\x1f\x7f]+$")]
Label = Annotated[str, Field(max_length=200, pattern=r"^[^\x00-\x1f\x7f]*$")]
Flag = Annotated[bool, Field(strict=True)]
Count = Annotated[int, Field(ge=1, le=1_000_000, strict=True)]


class Document(BaseModel):
    """A part of a document: unknown fields are refused, so that a slip of spelling is not lost."""

    model_config = ConfigDict(extra="forbid", defer_build=True, frozen=True)


DocumentT = TypeVar("DocumentT", bound=BaseModel)

_TROUBLES = {"missing": "is left out", "extra_forbidden": "is not a field here"}
_MESSAGES = {"model_type": "this must be a group of named fields"}
_REMEDIES = {
    "missing": "Add this field",
    "extra_forbidden": "Take it out or correct its spelling",
    "bool_type": "Give true or false",
    "int_type": "Give a whole number",
    "int_from_float": "Give a whole number",
    "greater_than_equal": "Give a larger number",
    "less_than_equal": "Give a smaller number",
    "too_long": "Split it by date or by material",
    "string_too_long": "Shorten the text",
    "enum": "Use one of the words named",
    "literal_error": "Use one of the words named",
}


def read_json(text: str | bytes, model: type[DocumentT], *, name: str) -> DocumentT:
    """Read one document from JSON text. Raises InvalidInput with every fault of it."""
    if len(text) > MOST_BYTES:
        raise invalid(name, f"{len(text)} bytes is more than 10 MB", "Split the request")
    try:
        content = json.loads(text)
    except UnicodeDecodeError:
        raise invalid(name, "is not text in UTF-8", "Save it as JSON in UTF-8") from None
    except RecursionError:
        raise invalid(name, "is nested too deeply", "Lay it out as the schema says") from None
    except ValueError as trouble:
        raise invalid(name, f"is not JSON: {trouble}", "Mend the text at that place") from None
    return read_document(content, model, name=name)


def read_toml(text: str, *, name: str, smaller: str) -> dict[str, Any]:
    """Read TOML text as plain values. `smaller` is what to do with a text of more than 10 MB.

    Raises InvalidInput for text that is too large, not TOML, or nested too deeply.
    """
    if len(text) > MOST_BYTES:
        raise invalid(name, "is larger than 10 MB", smaller)
    try:
        return tomllib.loads(text)
    # Not TOMLDecodeError alone: a number of thousands of digits is a plain ValueError.
    except ValueError as fault:
        raise invalid(name, f"is not TOML: {fault}", "Mend that line") from None
    except RecursionError:
        raise invalid(name, "is nested too deeply", "Lay it out as the schema says") from None


def read_document(content: object, model: type[DocumentT], *, name: str) -> DocumentT:
    """Read one document from plain values. Raises InvalidInput with every fault of it."""
    try:
        return model.model_validate(content)
    except ValidationError as faults:
        raise InvalidInput(problems_of(faults, name=name, model=model)) from None


def problems_of(
    faults: ValidationError, *, name: str, model: type[BaseModel] | None = None
) -> tuple[Problem, ...]:
    """Put every fault of a document in words: the field, the value given, what to do.

    With the document's `model` a field that is not known is led to the nearest that is.
    """
    found = faults.errors(include_url=False)
    paths = [fault["loc"] for fault in found]
    return tuple(
        _problem(dict(fault), name, model)
        for fault in found
        # A list whose only item is at fault counts as too short as well: one fault, told once.
        if fault["type"] != "too_short"
        or not any(
            len(path) > len(fault["loc"]) and path[: len(fault["loc"])] == fault["loc"]
            for path in paths
        )
    )


def _problem(fault: dict[str, Any], name: str, model: type[BaseModel] | None) -> Problem:
    path = ""
    for step in fault["loc"]:
        path += f"[{step}]" if isinstance(step, int) else f".{step}" if path else str(step)
    trouble = _MESSAGES.get(fault["type"], str(fault["msg"]).removeprefix("Value error, "))
    if fault["type"] in _TROUBLES:
        trouble = _TROUBLES[fault["type"]]
    elif fault["type"] == "too_long":
        most, listed = fault["ctx"]["max_length"], fault["ctx"]["actual_length"]
        trouble = f"lists {listed or f'more than {most}'}, and {most} is the most"
    else:
        given = fault["input"]
        shown = repr(given) if isinstance(given, str | int | float | None) else type(given).__name__
        # Some messages begin with the value already.
        if not trouble.startswith(shown[:40]):
            trouble = f"{shown[:60]}: {trouble[:1].lower()}{trouble[1:]}"
    named = fault.get("ctx", {}).get("remedy")
    if fault["type"] == "extra_forbidden" and model is not None:
        *above, last = fault["loc"]
        nearest = get_close_matches(str(last), _fields_at(model, above), n=1, cutoff=0.7)
        named = f"Write {nearest[0]}, if that is meant, or take it out" if nearest else None
    remedy = named or _REMEDIES.get(str(fault["type"]), "Correct the value as described")
    return Problem(f"{name}: {path}" if path else name, trouble, remedy)


def _fields_at(model: type[BaseModel], path: Iterable[str | int]) -> list[str]:
    """Return the fields that a document has at a path of names and places, empty where unknown."""
    for step in path:
        if isinstance(step, int):
            continue
        field = model.model_fields.get(step)
        inner = next(_models_in(field.annotation), None) if field is not None else None
        if inner is None:
            return []
        model = inner
    return list(model.model_fields)


def _models_in(annotation: object) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in get_args(annotation):
        yield from _models_in(part)
