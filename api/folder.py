"""A batch as a folder: plan, order, diagrams, elevations, and a page that shows them."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path

import optimiser as lib
from api.batch import Batch
from api.beside import Beside
from api.documents import NAMES, Printing, cutting_files, order_papers, wall_files
from api.drawings import Drawn, cutting_drawings, drawing_files, set_out_sheets, wall_drawings
from api.page import batch_page
from api.report import batch_report


def write_folder(
    batch: Batch, folder: Path, printing: Printing, *, workers: int = 1
) -> tuple[Drawn, ...]:
    """Write the batch into a folder, made if need be, and return the drawings of its walls.

    With more than one of `workers` a process of its own draws the walls, half of the work.
    """
    with Beside(workers) as beside:
        asked = beside.ask(_walls, batch.frames, printing)
        request, plan = batch.request, batch.plan
        cuts = [drawing.drawn() for drawing in cutting_drawings(request, plan)]
        files: dict[str, str | bytes] = {
            "request.json": _json(lib.request_document(request)),
            "plan.json": _json(lib.plan_document(plan)),
            **order_files(batch.orders),
            "summary.txt": batch_report(batch),
            **drawing_files(cuts, "diagrams/"),
            **cutting_files(request, plan, printing),
            **order_papers(request, plan, batch.orders, batch.jobs, printing),
        }
        walls, printed = asked()
    sheets = set_out_sheets(batch.frames)
    files |= printed
    files |= drawing_files(walls, "walls/")
    files |= {f"walls/{name}": text for name, text in sheets.items()}
    files["index.html"] = batch_page(batch, walls, cuts, sheets, tuple(files))
    write_files(files, folder)
    return walls


def _walls(
    frames: tuple[lib.Frame, ...], printing: Printing
) -> tuple[tuple[Drawn, ...], dict[str, str | bytes]]:
    drawn = tuple(drawing.drawn() for drawing in wall_drawings(frames))
    return drawn, wall_files(frames, printing)


def order_files(
    orders: tuple[lib.Order, ...], *, buyer: str = "", issued: str = ""
) -> dict[str, str]:
    """Write each order as CSV and JSON, and as UBL XML where the buyer has a name.

    The second order's files are called order-2, and its number ends so.
    """
    files: dict[str, str] = {}
    for number, order in enumerate(orders, start=1):
        name = "order" if number == 1 else f"order-{number}"
        files[f"{name}.csv"] = lib.order_csv(order)
        files[f"{name}.json"] = _json(lib.order_document(order))
        if buyer and any(not line.charge for line in order.lines):
            files[f"{name}.xml"] = lib.order_ubl(
                order, number=f"{issued}-{number}", issued=issued, buyer=buyer
            )
    return files


def write_cutting(
    request: lib.CuttingRequest, plan: lib.CuttingPlan, folder: Path, printing: Printing
) -> tuple[Path, ...]:
    """Write a plan, its diagrams and its documents into a folder, made if need be."""
    files: dict[str, str | bytes] = {
        "request.json": _json(lib.request_document(request)),
        "plan.json": _json(lib.plan_document(plan)),
        **drawing_files((d.drawn() for d in cutting_drawings(request, plan)), "diagrams/"),
        **cutting_files(request, plan, printing),
    }
    return write_files(files, folder)


def write_files(files: Mapping[str, str | bytes], folder: Path) -> tuple[Path, ...]:
    """Write all texts and bytes below a folder; each file is whole or not there at all.

    Drawings that an earlier plan left in the folder go: nobody must cut from a stale one.
    """
    written = []
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        part = path.with_name(path.name + ".part")
        part.write_bytes(content.encode("utf-8") if isinstance(content, str) else content)
        part.replace(path)
        written.append(path)
    if folder / "plan.json" in written:
        for stale in _left_before(folder) - {*written}:
            stale.unlink()
    return tuple(written)


def _left_before(folder: Path) -> set[Path]:
    ways = (
        "order-*.*",
        "order.xml",
        "*/phone/*.svg",
        "diagrams/*.svg",
        "walls/*.svg",
        "walls/*-set-out.txt",
    )
    drawn = {path for way in ways for path in folder.glob(way)}
    return drawn | {folder / name for name in NAMES if (folder / name).exists()}


def _json(document: dict[str, object]) -> str:
    return json.dumps(document, indent=1, ensure_ascii=False) + "\n"
