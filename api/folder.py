"""A batch as a folder: plan, order, diagrams, elevations, and a page that shows them."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path

import optimiser as lib
from api.batch import Batch
from api.documents import NAMES, Printing, batch_files, cutting_files
from api.drawings import cutting_drawings, drawing_files, set_out_sheets, wall_drawings
from api.page import batch_page
from api.report import batch_report


def write_folder(batch: Batch, folder: Path, printing: Printing) -> tuple[Path, ...]:
    """Write the batch into a folder, made if need be, and return the files written."""
    walls = list(wall_drawings(batch.frames))
    cuts = list(cutting_drawings(batch.request, batch.plan))
    sheets = set_out_sheets(batch.frames)
    files: dict[str, str | bytes] = {
        "request.json": _json(lib.request_document(batch.request)),
        "plan.json": _json(lib.plan_document(batch.plan)),
        **order_files(batch.orders),
        "summary.txt": batch_report(batch),
        **drawing_files(walls, "walls/"),
        **drawing_files(cuts, "diagrams/"),
        **{f"walls/{name}": text for name, text in sheets.items()},
        **batch_files(batch, printing),
    }
    files["index.html"] = batch_page(batch, walls, cuts, sheets, tuple(files))
    return write_files(files, folder)


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
        **drawing_files(cutting_drawings(request, plan), "diagrams/"),
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
