"""A batch in a page of text, for the terminal and for summary.txt."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import optimiser as lib
from api.batch import Batch
from api.commands import wrapped
from api.words import counted
from optimiser import Severity, mm, pounds

if TYPE_CHECKING:
    from optimiser import (
        Buying,
        Comparison,
        Finding,
        Frame,
        KeepAdvice,
        LengthPlan,
        PriceBook,
        Quantity,
        SheetPlan,
    )


def batch_report(batch: Batch) -> str:
    """Return the whole page: jobs, findings, plan, savings, shares, order."""
    blocks = [
        _jobs(batch),
        *([findings_text(batch.frames)] if _findings_to_show(batch.frames) else []),
        plan_text(batch),
        *([_worth_keeping(batch.advice)] if batch.advice else []),
        *([_saved(batch.comparison)] if batch.comparison is not None else []),
        _shares(batch),
        *([_merchants(batch.bought)] if batch.bought is not None else []),
        *(f"ORDER to {one.merchant}\n{lib.order_table(one)}" for one in batch.orders),
        _cautions(),
    ]
    return "\n\n".join(blocks) + "\n"


def merchants_lines(bought: Buying) -> list[str]:
    """Tell what each merchant alone would take, what two orders come to, and who is chosen."""
    lines = ["MERCHANTS, all charges and VAT included"]
    for quote in bought.quotes:
        said = f"cannot be: {quote.trouble}" if quote.total is None else pounds(quote.total)
        lines.append(f"{quote.merchant} alone: {said}")
    if bought.split is not None:
        lines.append(f"the cheapest two orders: {pounds(bought.split)}")
    chosen = " and ".join(order.merchant for order in bought.orders)
    proof = "" if bought.proven else "; not every way could be ruled out"
    return [*lines, f"ordered from {chosen}: {pounds(bought.total)}{proof}"]


def _worth_keeping(advice: tuple[KeepAdvice, ...]) -> str:
    """Tell each material's keep rule, and how often pieces of that size were used before."""
    lines = ["WORTH KEEPING, by what became of offcuts"]
    for item in advice:
        keep = item.keep
        size = f"{mm(keep.width)} × {mm(keep.height)}" if item.is_board else mm(keep.length)
        seen = sum(one.used for one in item.classes)
        wanted = "; parts to come ask for some" if any(one.wanted for one in item.classes) else ""
        lines += wrapped(
            f"{item.material}: from {size} on, at {float(keep.credit):.2f} of the price of stock; "
            f"{seen} used before{wanted}",
            indent="  ",
        )
    return "\n".join(lines)


def _merchants(bought: Buying) -> str:
    heading, *lines = merchants_lines(bought)
    return "\n".join([heading, *(part for line in lines for part in wrapped(line, indent="  "))])


def _cautions() -> str:
    lines = ["CAUTIONS"]
    for caution in lib.CAUTIONS:
        lines += wrapped(caution, indent="  ")
    return "\n".join(lines)


def _jobs(batch: Batch) -> str:
    lines = ["JOBS"]
    for job in batch.jobs:
        timber = sum(part.quantity for _, part in job.parts.lengths)
        boards = sum(part.quantity for _, part in job.parts.boards)
        named = f"{job.name} ({job.client})" if job.client else job.name
        when = f", needed {job.needed}" if job.needed else ""
        lengths = counted(timber, "length", "lengths")
        lines.append(
            f"  {named}: {lengths} and {counted(boards, 'board part', 'board parts')}{when}"
        )
    return "\n".join(lines)


def _findings_to_show(frames: tuple[Frame, ...]) -> bool:
    return any(
        finding.severity is not Severity.NOTE for frame in frames for finding in frame.findings
    )


def findings_text(frames: tuple[Frame, ...], *, notes: bool = False) -> str:
    """List stops, then warnings (and notes when asked), each once with the jobs it concerns."""
    concerned: dict[Finding, list[str]] = {}
    for frame in frames:
        for finding in frame.findings:
            if notes or finding.severity is not Severity.NOTE:
                concerned.setdefault(finding, []).append(frame.job)
    lines = ["FINDINGS"]
    worst_first = sorted(concerned, key=lambda finding: list(Severity).index(finding.severity))
    for finding in worst_first:
        jobs = concerned[finding]
        heading = f"{finding.severity.value.upper()} {', '.join(jobs)}"
        lines += wrapped(f"{heading}: {finding.trouble}", indent="  ")
        remedy = finding.remedy[:1].upper() + finding.remedy[1:]
        lines += wrapped(f"{remedy} [{finding.rule}; {finding.source}]", indent="      ")
    return "\n".join(lines)


def plan_text(batch: Batch) -> str:
    """Tell stock, use and money of each material, and how far from the proven bound."""
    plan = batch.plan
    lines = [
        f"CUTTING PLAN, checked, in {plan.seconds:.1f} s",
        f"  {'material':<20} {'buy':>5} {'rack':>5} {'used':>7} {'kept':>6} {'scrap':>6} "
        f"{'net cost':>9} {'bound':>9}",
    ]
    lines += [_material_line(item) for item in plan.materials]
    lines += [
        f"  {item.material[:20]}: {item.trade.layouts} layouts instead of {len(item.layouts)} "
        f"would cost {pounds(item.trade.extra)} more (--fewer-layouts)"
        for item in plan.lengths
        if item.trade is not None
    ]
    gap = plan.money.net - plan.bound
    if plan.choices_saved:
        lines.append(
            f"  saved by the options taken {pounds(plan.choices_saved)}, against the first"
        )
    lines.append(
        f"  purchase {pounds(plan.money.purchase)} + rack offcuts {pounds(plan.money.offcuts_used)}"
        f" − kept offcuts {pounds(plan.money.credit)} = net {pounds(plan.money.net)}"
    )
    lines.append(
        "  proven: no plan can cost less"
        if plan.proven
        else f"  no plan can cost less than {pounds(plan.bound)}: "
        f"more thinking could save at most {pounds(gap)}"
    )
    return "\n".join(lines)


def _material_line(item: LengthPlan | SheetPlan) -> str:
    bought = sum(layout.count for layout in item.layouts if layout.bought)
    racked = sum(layout.count for layout in item.layouts if layout.offcut)
    total = max(1, item.usage.total)
    waste = item.usage.scrap + item.usage.kerf + item.usage.trim
    return (
        f"  {item.material[:20]:<20} {bought:>5} {racked:>5} "
        f"{100 * item.usage.part / total:>6.1f}% {100 * item.usage.offcut / total:>5.1f}% "
        f"{100 * waste / total:>5.1f}% {pounds(item.money.net):>9} {pounds(item.bound):>9}"
        f"{' proven' if item.proven else ''}"
    )


def _saved(comparison: Comparison) -> str:
    rows = (
        ("one job at a time", comparison.one_by_one),
        ("first option of each", comparison.first_options),
        ("options by job alone", comparison.decided_alone),
        ("together", comparison.together),
        ("together, with the rack", comparison.with_rack),
    )
    lines = [
        "SAVED BY PLANNING TOGETHER",
        f"  {'':<24} {'lengths':>8} {'sheets':>7} {'length':>9} {'board':>9} "
        f"{'purchase':>9} {'net cost':>9}",
    ]
    for name, outlay in rows:
        if outlay is None:
            continue
        lines.append(
            f"  {name:<24} {outlay.lengths:>8} {outlay.sheets:>7} "
            f"{lib.metres(outlay.length):>7} m {lib.square_metres(outlay.area):>6} m² "
            f"{pounds(outlay.purchase):>9} {pounds(outlay.net):>9}"
        )
    batching = comparison.one_by_one.purchase - comparison.together.purchase
    rack = comparison.together.purchase - comparison.with_rack.purchase
    lines.append(
        f"  less to buy: {pounds(batching)} by planning together, {pounds(rack)} by the rack"
    )
    if comparison.first_options is not None and comparison.decided_alone is not None:
        first = comparison.first_options.net - comparison.together.net
        alone = comparison.decided_alone.net - comparison.together.net
        lines.append(
            f"  saved by deciding the options with the cutting: {pounds(first)} against the first "
            f"of each, {pounds(alone)} against each job's own"
        )
    return "\n".join(lines)


def _shares(batch: Batch) -> str:
    lines = ["EACH JOB'S SHARE of the net cost, by net length and area"]
    for share in batch.shares:
        length = sum(size for _, size in share.lengths)
        area = sum(size for _, size in share.areas)
        lines.append(
            f"  {share.job:<24} {lib.metres(length):>8} m  {lib.square_metres(area):>6} m²  "
            f"{pounds(share.cost):>9}"
        )
    return "\n".join(lines)


def frame_report(frame: Frame, book: PriceBook) -> str:
    """Tell one framed wall's parts, packs from the price book, findings and defaults."""
    lines = [f"JOB {frame.job}: {mm(frame.width)} wide, {mm(frame.depth)} deep"]
    job = lib.job_of_frame(replace(frame, alternatives=()))
    if frame.alternatives:
        lines += wrapped(
            f"boarded as {frame.boarding}, shown here; the cutting plan may also choose",
            indent="  ",
        )
        for choice in frame.choices:
            others = "; ".join(way.name for way in choice.ways[1:])
            box = f" of {choice.box}" if choice.box else ""
            lines += wrapped(f"{choice.name}{box}: {others}", indent="    ") if others else []
    lines.append("TIMBER AND BEADS")
    for material, length in job.parts.lengths:
        lines.append(
            f"  {length.quantity:>3} × {mm(length.length):>7} mm  {length.id:<10} "
            f"{length.name:<14} {material}"
        )
    lines.append("BOARDS")
    for material, board in job.parts.boards:
        cut = len(board.cut_outs)
        holes = f", {cut} cut-out{'s' if cut > 1 else ''}" if cut else ""
        lines.append(
            f"  {board.quantity:>3} × {mm(board.width):>7} × {mm(board.height)} mm  {board.id} "
            f"{board.name} {material}{holes}"
        )
    lines.append("BY THE PACK")
    for quantity in frame.quantities:
        lines += _quantity(quantity, book)
    lines.append(findings_text((frame,), notes=True))
    lines.append("TAKEN WHERE NOTHING WAS SAID")
    lines += [f"  {default.field}: {default.value}" for default in frame.defaults]
    lines.append(_cautions())
    return "\n".join(lines) + "\n"


def _quantity(quantity: Quantity, book: PriceBook) -> list[str]:
    """Tell how much is needed, the packs that hold it for the least money, and the working."""
    packs = [f"{count} × {pack.description}" for pack, count in lib.packs_for(quantity, book)]
    bought = " + ".join(packs) or "no pack in the price book"
    needed = f"{quantity.item:<14} {quantity.amount:>6} {quantity.unit:<4}  {bought}"
    return wrapped(needed, indent="  ") + wrapped(quantity.working, indent="      ")
