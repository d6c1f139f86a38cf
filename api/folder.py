"""A batch as a folder: plan, order, diagrams, elevations, and a page that shows them."""

from __future__ import annotations

import json
from collections.abc import Iterable
from html import escape
from pathlib import Path

import optimiser as lib
from api.batch import Batch
from api.drawings import Drawing, cutting_drawings, wall_drawings
from api.report import batch_report

_STYLE = """
:root { color-scheme: light; }
body { font: 16px/1.5 system-ui, sans-serif; margin: 0 auto; max-width: 70rem; padding: 1rem;
  color: #1d1d1b; background: #fff; }
h1 { font-size: 1.6rem; margin: .5rem 0; } h2 { font-size: 1.2rem; margin-top: 2.2rem; }
pre { background: #f4f2ee; padding: 1rem; overflow-x: auto; font-size: .8rem; line-height: 1.35; }
figure { margin: 1rem 0; } figcaption { font-weight: 600; margin-bottom: .3rem; }
img { display: block; width: 100%; height: auto; border: 1px solid #c9c4ba; background: #fff; }
nav a { margin-right: 1rem; white-space: nowrap; } a { color: #1d4f73; }
.cautions { border-left: .4rem solid #b3541e; padding: .2rem 1rem; background: #fbf3ec; }
@media print { nav { display: none; } figure { break-inside: avoid; } }
"""


def write_folder(batch: Batch, folder: Path) -> tuple[Path, ...]:
    """Write the batch into a folder, made if need be, and return the files written."""
    walls = list(wall_drawings(batch.frames))
    cuts = list(cutting_drawings(batch.request, batch.plan))
    files: dict[str, str] = {
        "request.json": _json(lib.request_document(batch.request)),
        "plan.json": _json(lib.plan_document(batch.plan)),
        "order.csv": lib.order_csv(batch.order),
        "order.json": _json(lib.order_document(batch.order)),
        "summary.txt": batch_report(batch),
        **{f"walls/{drawing.name}.svg": drawing.svg for drawing in walls},
        **{f"diagrams/{drawing.name}.svg": drawing.svg for drawing in cuts},
        "index.html": _page(batch, walls, cuts),
    }
    return write_files(files, folder)


def write_cutting(
    request: lib.CuttingRequest, plan: lib.CuttingPlan, folder: Path
) -> tuple[Path, ...]:
    """Write a plan and its diagrams into a folder, made if need be."""
    files = {
        "request.json": _json(lib.request_document(request)),
        "plan.json": _json(lib.plan_document(plan)),
        **{f"diagrams/{item.name}.svg": item.svg for item in cutting_drawings(request, plan)},
    }
    return write_files(files, folder)


def write_files(files: dict[str, str], folder: Path) -> tuple[Path, ...]:
    """Write all texts below a folder; each file is whole or not there at all.

    Drawings of an earlier plan in the same folder go: a fitter must not cut from a stale one.
    """
    if (folder / "plan.json").exists():
        for stale in (*folder.glob("diagrams/*.svg"), *folder.glob("walls/*.svg")):
            stale.unlink()
    written = []
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        part = path.with_name(path.name + ".part")
        part.write_text(text, encoding="utf-8", newline="")
        part.replace(path)
        written.append(path)
    return tuple(written)


def _json(document: dict[str, object]) -> str:
    return json.dumps(document, indent=1, ensure_ascii=False) + "\n"


def _page(batch: Batch, walls: Iterable[Drawing], cuts: Iterable[Drawing]) -> str:
    names = ", ".join(job.name for job in batch.jobs)
    cautions = "".join(f"<li>{escape(text)}</li>" for text in lib.CAUTIONS)
    return f"""<!doctype html>
<html lang="en-GB">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>Batch: {escape(names)}</title><style>{_STYLE}</style></head>
<body>
<h1>Batch: {escape(names)}</h1>
<nav><a href="#summary">Summary</a> <a href="#cautions">Cautions</a> <a href="#walls">Walls</a>
<a href="#cutting">Cutting</a> <a href="plan.json">plan.json</a>
<a href="order.csv">order.csv</a></nav>
<h2 id="summary">Summary and order</h2>
<pre>{escape(batch_report(batch))}</pre>
<h2 id="cautions">Cautions</h2>
<ul class="cautions">{cautions}</ul>
<h2 id="walls">Walls</h2>
{_figures(walls, "walls")}
<h2 id="cutting">Cutting diagrams, in the order of work</h2>
{_figures(cuts, "diagrams")}
</body></html>
"""


def _figures(drawings: Iterable[Drawing], folder: str) -> str:
    return "\n".join(
        f'<figure id="{escape(drawing.name)}"><figcaption>{escape(drawing.title)}</figcaption>'
        f'<a href="{folder}/{escape(drawing.name)}.svg"><img loading="lazy" '
        f'src="{folder}/{escape(drawing.name)}.svg" alt="{escape(drawing.title)}"></a></figure>'
        for drawing in drawings
    )
