"""A wall while it is being chosen: framed and drawn at once, nothing kept."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import lru_cache
from typing import TYPE_CHECKING, Annotated, Any, Literal

from fastapi import Query, Request
from starlette.concurrency import run_in_threadpool

import optimiser as lib
from api.bodies import name_of_book, only, read_object
from api.callers import Planner, TheStore
from api.openapi import Routes, body_of
from api.store.engine import Store
from api.store.papers import prices_on
from api.values import frame_document

if TYPE_CHECKING:
    from optimiser import Frame, PriceBook, Wall

router = Routes(prefix="/v1", tags=["planning"])
View = Literal["elevation", "boards", "section", "plan", "pictorial"]
Views = Annotated[
    list[View] | None, Query(description="Which drawings are wanted; may be given again.")
]


@router.post("/frames", openapi_extra=body_of("frame"))
async def look_at_wall(
    request: Request, store: TheStore, caller: Planner, view: Views = None
) -> dict[str, Any]:
    """Frame a wall and draw it: parts, findings with what they concern, drawings with places.

    One way of boarding is taken; the ways are compared when the wall is planned. Places are where
    parts and openings lie on a drawing, in the units of its viewBox.
    """
    body = await request.body()
    return await run_in_threadpool(_look, store, caller.firm, body, view or ["elevation"])


def _look(store: Store, firm: str, body: bytes, views: list[View]) -> dict[str, Any]:
    document = only(read_object(body), ("wall", "prices", "price_book"))
    if "price_book" in document:
        name = name_of_book(document)
        today = datetime.now(UTC).date().isoformat()
        with store.read() as connection:
            document["prices"] = prices_on(connection, firm, name, today)
    book = lib.price_book_from_document(document.get("prices"), name="body.prices")
    wall = lib.wall_from_document(document.get("wall", {}), name="body.wall", book=book)
    frame = _framed(wall, book)
    whole = frame_document(frame)
    for finding, written in zip(frame.findings, whole["findings"], strict=True):
        written["concerns"] = list(lib.concerned(frame, finding))
    drawings = [drawing for view in dict.fromkeys(views) for drawing in _drawn(frame, view)]
    return {"frame": whole, "drawings": drawings}


# A page asks for one view after the other of the same wall; framing is half of the work.
@lru_cache(maxsize=16)
def _framed(wall: Wall, book: PriceBook) -> Frame:
    return lib.look_at_wall(wall, book)


def _drawn(frame: Frame, view: View) -> list[dict[str, Any]]:
    match view:
        case "elevation":
            title = f"Job {frame.job}: frame"
            svg = lib.draw_elevation(frame, title=title)
            return [_drawing(view, title, svg, lib.elevation_places(frame))]
        case "boards":
            layers = lib.front_layers(frame)
            return [
                _drawing(
                    f"{view}-{layer}",
                    f"Job {frame.job}: boards" + (f", layer {layer}" if len(layers) > 1 else ""),
                    lib.draw_boarding(frame, title=f"Job {frame.job}: boards", layer=layer),
                    lib.boarding_places(frame, layer=layer),
                )
                for layer in layers
            ]
        case "section":
            place = next((o.x + o.width // 2 for o in frame.openings), frame.width // 2)
            title = f"Job {frame.job}: upright section {lib.mm(place)} mm from the left end"
            return [
                _drawing(view, title, lib.draw_upright_sections(frame, places=[place], title=title))
            ]
        case "plan":
            height = next((o.z + o.height // 2 for o in frame.openings), 10_000)
            title = f"Job {frame.job}: plan {lib.mm(height)} mm above the floor datum"
            return [
                _drawing(view, title, lib.draw_plan_sections(frame, heights=[height], title=title))
            ]
        case "pictorial":
            title = f"Job {frame.job}: pictorial view of the frame"
            return [_drawing(view, title, lib.draw_pictorial(frame, title=title))]


def _drawing(name: str, title: str, svg: str, places: tuple[lib.Place, ...] = ()) -> dict[str, Any]:
    return {
        "name": name,
        "title": title,
        "svg": svg,
        "places": [
            {
                "mark": place.mark,
                "x": round(place.area.x, 2),
                "y": round(place.area.y, 2),
                "width": round(place.area.width, 2),
                "height": round(place.area.height, 2),
            }
            for place in places
        ],
    }
