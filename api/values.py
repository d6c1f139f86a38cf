"""Frames and batches as plain values, ready for JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import optimiser as lib
from api.batch import Batch
from optimiser import pounds

if TYPE_CHECKING:
    from optimiser import Buying, Comparison, Frame, JobShare, Outlay


def _mm(size: int) -> int | float:
    return size // 10 if size % 10 == 0 else size / 10


def frame_document(frame: Frame) -> dict[str, Any]:
    """Write a framed wall: members and boards in their places, quantities, findings, defaults."""
    return {
        "job": frame.job,
        "width_mm": _mm(frame.width),
        "depth_mm": _mm(frame.depth),
        "openings": [
            {
                "name": opening.name,
                "kind": opening.kind,
                "x_mm": _mm(opening.x),
                "z_mm": _mm(opening.z),
                "width_mm": _mm(opening.width),
                "height_mm": _mm(opening.height),
                "depth_mm": _mm(opening.depth),
            }
            for opening in frame.openings
        ],
        "members": [
            {
                "mark": member.mark,
                "kind": member.kind,
                "material": member.material,
                "length_mm": _mm(member.length),
                "x_mm": _mm(member.box.x),
                "y_mm": _mm(member.box.y),
                "z_mm": _mm(member.box.z),
                "rule": member.rule,
                "screws": [
                    {
                        "end": one.end,
                        "item": one.item,
                        "count": one.count,
                        "through": one.through,
                    }
                    for one in member.fixings
                ],
            }
            for member in frame.members
        ],
        "screws_into_the_house": [
            {
                "member": one.member,
                "item": one.item,
                "into": one.into,
                "x_mm": _mm(one.at.x),
                "y_mm": _mm(one.at.y),
                "z_mm": _mm(one.at.z),
            }
            for one in frame.fixings
        ],
        "packing": [
            {"x_mm": _mm(one.x), "y_mm": _mm(one.y), "height_mm": _mm(one.height)}
            for one in frame.packing
        ],
        "boards": [
            {
                "mark": board.mark,
                "face": board.face,
                "layer": board.layer,
                "material": board.material,
                "x_mm": _mm(board.x),
                "z_mm": _mm(board.z),
                "width_mm": _mm(board.width),
                "height_mm": _mm(board.height),
                "turn": board.turn,
                "cut_outs": [
                    {
                        "x_mm": _mm(hole.x),
                        "y_mm": _mm(hole.y),
                        "width_mm": _mm(hole.width),
                        "height_mm": _mm(hole.height),
                    }
                    for hole in board.cut_outs
                ],
                "narrower_by_mm": _mm(board.eased),
                "rule": board.rule,
            }
            for board in frame.boards
        ],
        "cable_holes": [
            {
                "face": one.face,
                "diameter_mm": _mm(one.diameter),
                "x_mm": _mm(one.at.x),
                "z_mm": _mm(one.at.z),
            }
            for one in frame.passages
        ],
        "beads": [
            {
                "mark": bead.mark,
                "kind": bead.kind,
                "material": bead.material,
                "length_mm": _mm(bead.length),
                "place": bead.place,
                "rule": bead.rule,
            }
            for bead in frame.beads
        ],
        "quantities": [
            {
                "item": quantity.item,
                "amount": quantity.amount,
                "unit": quantity.unit,
                "working": quantity.working,
                "rule": quantity.rule,
            }
            for quantity in frame.quantities
        ],
        "findings": [
            {
                "rule": finding.rule,
                "severity": finding.severity.value,
                "trouble": finding.trouble,
                "remedy": finding.remedy,
                "source": finding.source,
                "change": [{"field": one.field, "value": one.value} for one in finding.change],
            }
            for finding in frame.findings
        ],
        "defaults": [
            {"field": default.field, "value": default.value} for default in frame.defaults
        ],
    }


def batch_document(batch: Batch) -> dict[str, Any]:
    """Write a batch: request, plan, order, shares, comparison, and the walls as framed."""
    return {
        "request": lib.request_document(batch.request),
        "plan": lib.plan_document(batch.plan),
        "order": lib.order_document(batch.order),
        "orders": [lib.order_document(order) for order in batch.orders],
        "merchants": None if batch.bought is None else merchants_document(batch.bought),
        "shares": [_share(share) for share in batch.shares],
        "comparison": None if batch.comparison is None else _comparison(batch.comparison),
        "walls": [frame_document(frame) for frame in batch.frames],
    }


def merchants_document(bought: Buying) -> dict[str, Any]:
    """Write what each merchant alone would take, what two orders come to, and who is chosen."""
    return {
        "quotes": [
            {
                "merchant": quote.merchant,
                "total": None if quote.total is None else pounds(quote.total),
                "trouble": quote.trouble,
            }
            for quote in bought.quotes
        ],
        "cheapest_split": None if bought.split is None else pounds(bought.split),
        "ordered_from": [order.merchant for order in bought.orders],
        "total": pounds(bought.total),
        "proven": bought.proven,
    }


def _share(share: JobShare) -> dict[str, Any]:
    return {
        "job": share.job,
        "lengths": [{"material": name, "length_mm": _mm(size)} for name, size in share.lengths],
        "areas": [{"material": name, "area_mm2": area / 100} for name, area in share.areas],
        "cost": pounds(share.cost),
    }


def _comparison(comparison: Comparison) -> dict[str, Any]:
    ways = {
        "one_by_one": comparison.one_by_one,
        "first_options": comparison.first_options,
        "decided_alone": comparison.decided_alone,
        "together": comparison.together,
        "with_rack": comparison.with_rack,
    }
    return {name: None if way is None else _outlay(way) for name, way in ways.items()}


def _outlay(outlay: Outlay) -> dict[str, Any]:
    return {
        "purchase": pounds(outlay.purchase),
        "net_cost": pounds(outlay.net),
        "lengths": outlay.lengths,
        "sheets": outlay.sheets,
        "length_mm": _mm(outlay.length),
        "area_mm2": outlay.area / 100,
    }
