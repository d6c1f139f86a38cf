"""What a part list says before anyone keeps it: what was understood, and what was not."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from pydantic import Base64Bytes, BaseModel, ConfigDict, Field

import optimiser as lib
from api.callers import Planner
from api.openapi import Routes
from optimiser import Problem, mm

if TYPE_CHECKING:
    from optimiser import ListReading

router = Routes(prefix="/v1", tags=["jobs and prices"])
# Enough to look through; a page with more would only be slow.
MOST_SHOWN = 500


class PreviewBody(BaseModel):
    """A part list as a file, for one job; a column of the list may name others."""

    model_config = ConfigDict(
        extra="forbid",
        json_schema_extra={
            "examples": [
                {
                    "name": "parts.csv",
                    "job": "shelves",
                    "content": "bWFyayxtYXRlcmlhbCxsZW5ndGhfbW0KVTEsYzE2LTM4eDYzLDkwMAo=",
                }
            ]
        },
    )

    name: Annotated[str, Field(min_length=1, max_length=200, pattern=r"^[^\x00-\x1f\x7f]+$")]
    job: Annotated[str, Field(max_length=120, pattern=r"^[^\x00-\x1f\x7f]*$")] = ""
    content: Annotated[Base64Bytes, Field(description="The file, CSV or XLSX, in Base64.")]


@router.post("/part-lists/preview")
def preview_part_list(body: PreviewBody, caller: Planner) -> dict[str, Any]:
    """Look through a part list and keep nothing: the parts it means, every fault by its cell.

    At most 500 parts, problems and notes are shown; their numbers count all of them. `sound` says
    whether the list can be kept as it stands.
    """
    del caller
    found = lib.look_through_part_list(body.content, name=body.name, job=body.job)
    parts = list(_parts(found))
    return {
        "sound": not found.problems,
        "rows": found.rows,
        "columns": [
            {
                "column": column.letter,
                "header": column.header,
                "read_as": column.name,
                "unit": column.unit if column.name in ("length", "width", "height") else None,
            }
            for column in found.columns
        ],
        "understood": len(parts),
        "parts": parts[:MOST_SHOWN],
        "faults": len(found.problems),
        "problems": [_problem(item) for item in found.problems[:MOST_SHOWN]],
        "remarks": len(found.notes),
        "notes": [_problem(item) for item in found.notes[:MOST_SHOWN]],
    }


def _parts(found: ListReading) -> list[dict[str, Any]]:
    shared = [
        (material, part, {"length_mm": mm(part.length)}) for material, part in found.parts.lengths
    ] + [
        (
            material,
            part,
            {
                "width_mm": mm(part.width),
                "height_mm": mm(part.height),
                "turn": part.turn,
                "cut_outs": len(part.cut_outs),
            },
        )
        for material, part in found.parts.boards
    ]
    parts = [
        {
            "row": found.row_of[part.id],
            "id": part.id,
            "job": part.job,
            "name": part.name,
            "material": material,
            "quantity": part.quantity,
            **sizes,
        }
        for material, part, sizes in shared
    ]
    return sorted(parts, key=lambda part: int(str(part["row"])))


def _problem(item: Problem) -> dict[str, Any]:
    return {
        "row": item.row,
        "column": item.column,
        "field": item.field,
        "trouble": item.trouble,
        "remedy": item.remedy,
    }
