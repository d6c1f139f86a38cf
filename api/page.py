"""The page of a batch: summary, order, cautions and every drawing, for desk, phone and paper."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import partial
from html import escape
from typing import TYPE_CHECKING

import optimiser as lib
from api.batch import Batch
from api.documents import TITLES
from api.drawings import Drawn
from api.report import merchants_lines
from optimiser import Severity, mm, pounds

if TYPE_CHECKING:
    from optimiser import Finding, Job, LengthPlan, Order, Outlay, SheetPlan

_STYLE = """
:root { color-scheme: light; }
body { font: 16px/1.45 system-ui, sans-serif; margin: 0 auto; max-width: 70rem; padding: 1rem;
  color: #1d1d1b; background: #fff; }
h1 { font-size: 1.6rem; margin: .5rem 0; } h2 { font-size: 1.25rem; margin: 2.2rem 0 .6rem; }
h3 { font-size: 1rem; margin: 1.2rem 0 .3rem; }
.wide { overflow-x: auto; } pre { white-space: pre-wrap; font-size: .85rem; }
.files { columns: 18rem; padding-left: 1.2rem; } small { color: #55524b; }
details { margin: .5rem 0; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
th, td { padding: .25rem .7rem .25rem 0; text-align: left; vertical-align: top;
  border-bottom: 1px solid #dcd8cf; }
th { font-size: .85rem; color: #55524b; } .n { text-align: right; } td.n { white-space: nowrap; }
tfoot td { border: 0; font-weight: 600; }
figure { margin: 1.2rem 0; } figcaption { font-weight: 600; margin-bottom: .3rem; }
img { display: block; box-sizing: border-box; width: 100%; height: auto;
  border: 1px solid #c9c4ba; background: #fff; }
.phone { display: none; }
nav a { margin-right: 1rem; white-space: nowrap; } a { color: #1d4f73; }
.cautions { border-left: .4rem solid #b3541e; padding: .4rem 1rem .4rem 2rem; margin: 0;
  background: #fbf3ec; }
@media (max-width: 40rem) { body { font-size: 15px; padding: .7rem; }
  th, td { padding-right: .45rem; }
  .desk { display: none; } .phone { display: block; margin: 0 -.7rem; }
  .plot a { display: block; overflow-x: auto; } .plot img { width: 46rem; max-width: none; }
  .told thead { display: none; } .told tr { display: block; padding: .5rem 0;
    border-bottom: 1px solid #dcd8cf; } .told td { display: block; border: 0; padding: .05rem 0; }
  .told td:first-child { font-weight: 600; } .told td:last-child { color: #55524b; } }
@media print { nav, .phone { display: none; } .desk { display: block; }
  figure { break-inside: avoid; } }
"""


def batch_page(
    batch: Batch,
    walls: Iterable[Drawn],
    cuts: Iterable[Drawn],
    sheets: Mapping[str, str],
    files: Sequence[str] = (),
) -> str:
    """Write the page; drawings and set-out `sheets` are linked below `walls/` and `diagrams/`.

    Of `files`, the names of all that is written, the documents are linked and the plots shown.
    """
    names = escape(", ".join(job.name for job in batch.jobs))
    return f"""<!doctype html>
<html lang="en-GB">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>Batch: {names}</title><style>{_STYLE}</style></head>
<body>
<h1>Batch: {names}</h1>
<nav><a href="#cautions">Cautions</a> <a href="#plan">Plan</a> <a href="#order">Order</a>
<a href="#parts">Parts</a> <a href="#walls">Walls</a>
<a href="#set-out">Set-out</a> <a href="#cutting">Cutting</a> <a href="#files">Files</a></nav>
<h2 id="files">Documents and files</h2>
{_documents(files)}
<h2>Jobs</h2>
{_jobs(batch)}
<h2 id="cautions">Cautions</h2>
<ul class="cautions">{"".join(f"<li>{escape(text)}</li>" for text in lib.CAUTIONS)}</ul>
<h2>Findings</h2>
{_findings(batch)}
<h2 id="plan">Cutting plan</h2>
{_plan(batch)}
{_saved(batch)}
{_plots(files)}
<div id="order">{_orders(batch)}</div>
<h2 id="parts">Parts of each job</h2>
{_parts(batch)}
<h2 id="walls">Walls</h2>
{_figures(walls, "walls")}
<h2 id="set-out">Set-out sheets</h2>
{_set_out(sheets)}
<h2 id="cutting">Cutting diagrams</h2>
<p>Guards on, eyes and lungs protected; follow the makers' instructions.</p>
{_figures(cuts, "diagrams")}
</body></html>
"""


def _documents(files: Sequence[str]) -> str:
    linked = "".join(
        f'<li><a href="{name}">{escape(title)}</a> <small>{name}</small></li>'
        for name, title in TITLES.items()
        if name in files
    )
    return f'<ul class="files">{linked}</ul>'


def _plots(files: Sequence[str]) -> str:
    return "".join(
        f'<figure class="plot"><a href="{name}">'
        f'<img loading="lazy" src="{name}" alt="{title}"></a></figure>'
        for name, title in (
            ("plots/waste.svg", "Where the money of the stock goes, by material and by job"),
            ("plots/money.svg", "Net cost and proven bound of each material"),
        )
        if name in files
    )


def _table(
    heads: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    numbers: Sequence[int] = (),
    feet: Iterable[Sequence[str]] = (),
    told: bool = False,
) -> str:
    """Write a table; columns named in `numbers` stand to the right.

    Where it is `told`, a phone shows each row's cells under one another.
    """

    def line(cells: Sequence[str], tag: str) -> str:
        marked = ""
        for column, cell in enumerate(cells):
            side = ' class="n"' if column in numbers else ""
            marked += f"<{tag}{side}>{escape(cell)}</{tag}>"
        return f"<tr>{marked}</tr>"

    body = "".join(line(row, "td") for row in rows)
    foot = "".join(line(row, "td") for row in feet)
    kind = "wide told" if told else "wide"
    return (
        f'<div class="{kind}"><table><thead>{line(heads, "th")}</thead><tbody>{body}</tbody>'
        f"<tfoot>{foot}</tfoot></table></div>"
    )


def _jobs(batch: Batch) -> str:
    shares = {share.job: share for share in batch.shares}
    rows = [
        (
            job.name,
            job.client,
            job.needed,
            str(sum(part.quantity for _, part in job.parts.lengths)),
            str(sum(part.quantity for _, part in job.parts.boards)),
            pounds(shares[job.name].cost) if job.name in shares else "",
        )
        for job in batch.jobs
    ]
    return _table(
        ("job", "client", "needed", "lengths", "board parts", "share of net cost"),
        rows,
        numbers=(3, 4, 5),
    )


def _findings(batch: Batch) -> str:
    concerned: dict[Finding, list[str]] = {}
    for frame in batch.frames:
        for finding in frame.findings:
            concerned.setdefault(finding, []).append(frame.job)
    ranks = (Severity.STOP, Severity.WARNING, Severity.NOTE)
    ordered = sorted(concerned, key=lambda finding: ranks.index(finding.severity))
    rows = [
        (
            finding.severity.value,
            " ".join(concerned[finding]),
            f"{finding.trouble}: {finding.remedy}",
            finding.source,
        )
        for finding in ordered
    ]
    return (
        _table(("kind", "jobs", "finding and remedy", "source"), rows, told=True)
        if rows
        else "<p>None.</p>"
    )


def _plan(batch: Batch) -> str:
    plan = batch.plan
    rows = [_material(item) for item in plan.materials]
    total = (
        "all",
        "",
        "",
        "",
        "",
        "",
        pounds(plan.money.net),
        pounds(plan.bound),
    )
    heads = ("material", "bought", "from rack", "used", "kept", "scrap", "net cost", "proven bound")
    table = _table(heads, rows, numbers=range(1, 8), feet=(total,))
    gap = pounds(plan.money.net - plan.bound)
    says = (
        "Proven: no plan can cost less."
        if plan.proven
        else f"No plan can cost less than {pounds(plan.bound)}: more thinking could save at most "
        f"{gap}."
    )
    money = (
        f"Purchase {pounds(plan.money.purchase)} + rack offcuts {pounds(plan.money.offcuts_used)} "
        f"− kept offcuts {pounds(plan.money.credit)} = net {pounds(plan.money.net)}, without VAT. "
        "Checked: every part once, every cut edge to edge, every millimetre accounted for."
    )
    return f"{table}<p>{says} {money}</p>"


def _material(item: LengthPlan | SheetPlan) -> tuple[str, ...]:
    total = max(1, item.usage.total)
    waste = item.usage.scrap + item.usage.kerf + item.usage.trim
    return (
        item.material,
        str(sum(layout.count for layout in item.layouts if layout.bought)),
        str(sum(layout.count for layout in item.layouts if layout.offcut)),
        f"{100 * item.usage.part / total:.1f} %",
        f"{100 * item.usage.offcut / total:.1f} %",
        f"{100 * waste / total:.1f} %",
        pounds(item.money.net),
        pounds(item.bound),
    )


def _saved(batch: Batch) -> str:
    if batch.comparison is None:
        return ""
    rows = [
        _outlay(name, outlay)
        for name, outlay in (
            ("one job at a time", batch.comparison.one_by_one),
            ("together, first option of each choice", batch.comparison.first_options),
            ("together, options as each job alone has them", batch.comparison.decided_alone),
            ("together", batch.comparison.together),
            ("together, with the rack", batch.comparison.with_rack),
        )
        if outlay is not None
    ]
    heads = ("planned", "lengths", "sheets", "length, m", "board, m²", "purchase", "net cost")
    return "<h2>Saved by planning together</h2>" + _table(heads, rows, numbers=range(1, 7))


def _outlay(name: str, outlay: Outlay) -> tuple[str, ...]:
    return (
        name,
        str(outlay.lengths),
        str(outlay.sheets),
        lib.metres(outlay.length),
        lib.square_metres(outlay.area),
        pounds(outlay.purchase),
        pounds(outlay.net),
    )


def _orders(batch: Batch) -> str:
    blocks = [
        f"<h2>Order to {escape(order.merchant)}</h2>\n{_order(order)}" for order in batch.orders
    ]
    if batch.bought is not None:
        _, *lines = merchants_lines(batch.bought)
        told = "".join(f"<li>{escape(line)}</li>" for line in lines)
        blocks.insert(0, f"<h2>Merchants, all charges and VAT included</h2>\n<ul>{told}</ul>")
    return "\n".join(blocks)


def _order(order: Order) -> str:
    rows = [
        (
            str(line.quantity),
            line.description,
            pounds(line.price),
            pounds(line.total),
            " ".join(line.jobs),
            line.needed,
        )
        for line in order.lines
    ]
    sums = (
        ("", f"net, {order.currency}", "", pounds(order.net), "", ""),
        ("", f"VAT {order.vat_rate / 100:g} %", "", pounds(order.vat), "", ""),
        ("", f"total, {order.currency}", "", pounds(order.total), "", ""),
    )
    heads = ("qty", "item", "each", "total", "jobs", "needed")
    return _table(heads, rows, numbers=(0, 2, 3), feet=sums)


def _parts(batch: Batch) -> str:
    """List every part of every job, as it is marked on the drawings."""
    return "".join(
        f"<h3>Job {escape(job.name)}</h3>"
        + _table(("part", "qty", "size, mm", "what for", "material"), _rows(job), numbers=(1, 2))
        for job in batch.jobs
    )


def _rows(job: Job) -> list[tuple[str, ...]]:
    timber: list[tuple[str, ...]] = [
        (part.id, str(part.quantity), mm(part.length), part.name, material)
        for material, part in job.parts.lengths
    ]
    boards: list[tuple[str, ...]] = [
        (
            part.id,
            str(part.quantity),
            f"{mm(part.width)} × {mm(part.height)}",
            part.name + (f", {len(part.cut_outs)} cut out" if part.cut_outs else ""),
            material,
        )
        for material, part in job.parts.boards
    ]
    return sorted(timber + boards, key=lambda row: _natural(row[0]))


def _natural(text: str) -> list[tuple[bool, int, str]]:
    """Order marks as people count: U2 before U10."""
    pieces = re.findall(r"[0-9]{1,9}|[^0-9]+", text)
    return [(piece.isdecimal(), int(piece) if piece.isdecimal() else 0, piece) for piece in pieces]


def _set_out(sheets: Mapping[str, str]) -> str:
    """Show each set-out sheet folded, with a link to its text for the printer."""
    return "".join(
        f'<details><summary><a href="walls/{escape(name)}">{escape(text.splitlines()[0])}</a>'
        f"</summary><pre>{escape(text)}</pre></details>"
        for name, text in sheets.items()
    )


def _figures(drawings: Iterable[Drawn], folder: str) -> str:
    """Show each drawing, on a phone the one that is set for it."""
    return "\n".join(map(partial(_figure, folder=folder), drawings))


def _figure(drawing: Drawn, *, folder: str) -> str:
    # What is not displayed is not loaded either.
    shown = "".join(
        f'<a class="{screen}" href="{path}"><img loading="lazy" src="{path}" '
        f'alt="{escape(drawing.title)}"></a>'
        for screen, path in (
            ("desk", f"{folder}/{escape(drawing.name)}.svg"),
            ("phone", f"{folder}/phone/{escape(drawing.name)}.svg"),
        )
    )
    caption = f"<figcaption>{escape(drawing.title)}</figcaption>"
    return f'<figure id="{escape(drawing.name)}">{caption}{shown}</figure>'
