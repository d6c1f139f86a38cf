"""The published schemas are those of the models that read the documents."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from optimiser.formats.schema import schemas

FOLDER = Path(__file__).parents[2] / "docs" / "schemas"


@pytest.mark.parametrize("name", sorted(schemas()))
def test_the_schema_on_file_is_current(name: str) -> None:
    on_file = json.loads((FOLDER / f"{name}.schema.json").read_text(encoding="utf-8"))

    assert on_file == schemas()[name], "run `make schema` and commit docs/schemas"


def test_no_schema_is_left_over() -> None:
    assert {path.name for path in FOLDER.iterdir()} == {f"{name}.schema.json" for name in schemas()}


def test_a_default_on_file_is_in_mm_wherever_sizes_are_left_out() -> None:
    shown = {
        (name, part, field): shape["default"]
        for name, schema in schemas().items()
        for part, model in schema.get("$defs", {}).items()
        for field, shape in model.get("properties", {}).items()
        if field.endswith("_mm") and shape.get("default") not in (None, [])
    }

    assert {value for key, value in shown.items() if key[2] == "kerf_mm"} == {3}
    assert shown["cutting-request", "KeepDocument", "width_mm"] == 300
    assert set(shown.values()) <= {0, 3, 5, 300, 600}


def test_defaults_are_shown_as_they_are_written_in_mm_and_decimals() -> None:
    parts: dict[str, Any] = schemas()["cutting-request"]["$defs"]

    keep = parts["KeepDocument"]["properties"]
    assert (keep["length_mm"]["default"], keep["credit"]["default"]) == (600, "0.5")
    assert parts["LengthMaterialDocument"]["properties"]["kerf_mm"]["default"] == 3
