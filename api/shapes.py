"""How answers are described in the OpenAPI document: a schema and an example made together.

Every field is given with the value that the example shows, so that the two cannot drift apart; a
test holds real answers against these schemas. Answers may get new fields at any time.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

REF = "#/components/schemas/{model}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """What JSON of one kind looks like, and one such."""

    schema: dict[str, Any]
    example: Any

    def or_null(self) -> Shape:
        """Return the same where there may be nothing."""
        return Shape(schema={"anyOf": [self.schema, {"type": "null"}]}, example=self.example)

    def but(self, example: Any) -> Shape:
        """Return the same with another example."""
        return Shape(schema=self.schema, example=example)


def text(example: str) -> Shape:
    """Describe a text."""
    return Shape(schema={"type": "string"}, example=example)


def moment(example: str = "2026-11-26T08:30:00.000+00:00") -> Shape:
    """Describe a time in UTC."""
    return Shape(schema={"type": "string", "format": "date-time"}, example=example)


def money(example: str) -> Shape:
    """Describe a sum of money as decimal text."""
    return Shape(schema={"type": "string", "pattern": r"^-?[0-9]+\.[0-9]{2}$"}, example=example)


def one_of(*values: str) -> Shape:
    """Describe one of several words; the first is the example."""
    return Shape(schema={"type": "string", "enum": list(values)}, example=values[0])


def whole(example: int) -> Shape:
    """Describe a whole number."""
    return Shape(schema={"type": "integer"}, example=example)


def number(example: float) -> Shape:
    """Describe a number."""
    return Shape(schema={"type": "number"}, example=example)


def flag(*, example: bool) -> Shape:
    """Describe true or false."""
    return Shape(schema={"type": "boolean"}, example=example)


def named(model: str, example: Any) -> Shape:
    """Describe what has a schema of its own among the components."""
    return Shape(schema={"$ref": REF.format(model=model)}, example=example)


def many(of: Shape, *, examples: int = 1) -> Shape:
    """Describe a list; its example has so many of its things."""
    schema = {"type": "array", "items": of.schema}
    return Shape(schema=schema, example=[of.example] * examples)


def thing(fields: dict[str, Shape], optional: dict[str, Shape] | None = None) -> Shape:
    """Describe an object with these fields, all there but the optional ones.

    The example shows no optional fields.
    """
    every = {**fields, **(optional or {})}
    return Shape(
        schema={
            "type": "object",
            "required": list(fields),
            "properties": {name: shape.schema for name, shape in every.items()},
        },
        example={name: shape.example for name, shape in fields.items()},
    )


def page(of: Shape) -> Shape:
    """Describe one page of a list; `next` is the `after` of the following one."""
    return thing({"items": many(of), "next": Shape(schema=_TEXT_OR_NULL, example=None)})


_TEXT_OR_NULL = {"anyOf": [{"type": "string"}, {"type": "null"}]}
