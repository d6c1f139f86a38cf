"""Scantling: boarded timber walls to parts, one cutting plan over jobs, stock and rack, one order.

This is the library's front door; whatever stands in `__all__` is promised, nothing else is.
Names are loaded when first used, so that asking for one does not load every solver.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from optimiser.domain.continuation import Continuation
    from optimiser.domain.deliveries import Deliveries, Delivery, Terms
    from optimiser.domain.easing import Easing, NearMiss
    from optimiser.domain.fault import Fault
    from optimiser.domain.finding import Finding, Severity
    from optimiser.domain.frame import Frame
    from optimiser.domain.job import Comparison, Job, JobShare, Outlay
    from optimiser.domain.marks import Marks
    from optimiser.domain.merchants import Buying, Quote
    from optimiser.domain.order import Order
    from optimiser.domain.part_list import PartList
    from optimiser.domain.plan import CuttingPlan, LengthPlan, SheetPlan
    from optimiser.domain.price_book import OrderTerms, PriceBook
    from optimiser.domain.rack import Rack
    from optimiser.domain.request import Access, CuttingRequest, Keep
    from optimiser.domain.spares import Breakage, Handling, SparesTable
    from optimiser.domain.wall import Wall
    from optimiser.drawing.boarding import draw_boarding, front_layers
    from optimiser.drawing.elevation import draw_elevation
    from optimiser.drawing.lengths import draw_length_layout, draw_length_plan
    from optimiser.drawing.pictorial import draw_box, draw_pictorial
    from optimiser.drawing.sections import draw_plan_section, draw_upright_section
    from optimiser.drawing.sheets import draw_sheet_layout
    from optimiser.drawing.spares import draw_spares
    from optimiser.errors import InvalidInput, NoPlan, PlanRefused, Problem
    from optimiser.formats.continuation import continuation_document
    from optimiser.formats.marks import marks_from_document, read_marks
    from optimiser.formats.new_wall import new_wall
    from optimiser.formats.order import order_csv, order_document, order_table
    from optimiser.formats.order_ubl import order_from_document, order_ubl
    from optimiser.formats.part_list import ListReading, look_through_part_list, read_part_list
    from optimiser.formats.plan import plan_document, plan_from_document, read_plan
    from optimiser.formats.price_book import price_book_from_document, read_price_book
    from optimiser.formats.rack import rack_from_document, read_rack
    from optimiser.formats.request import read_request, request_document, request_from_document
    from optimiser.formats.schema import schemas
    from optimiser.formats.set_out import set_out_text
    from optimiser.formats.terms import read_terms
    from optimiser.formats.toml_lines import quote_lines
    from optimiser.formats.wall import read_wall, wall_from_document
    from optimiser.framing.cautions import CAUTIONS
    from optimiser.inspection.inspect import inspect_frame
    from optimiser.planning.books import merged_book
    from optimiser.planning.deliveries import plan_deliveries
    from optimiser.planning.easing import near_misses
    from optimiser.planning.jobs import (
        frame_as_planned,
        job_as_planned,
        job_of_frame,
        request_for_jobs,
    )
    from optimiser.planning.merchants import buy_from
    from optimiser.planning.order import order_for
    from optimiser.planning.plan import plan_cutting
    from optimiser.planning.progress import PlanProgress
    from optimiser.planning.replan import replan
    from optimiser.planning.shares import compare_batch, job_shares
    from optimiser.planning.spares import spares_by_risk, usual_breakage
    from optimiser.planning.walls import frame_wall
    from optimiser.units import Pence, metres, mm, pence, pounds, square_metres, tenths
    from optimiser.verify.check import check_plan
    from optimiser.verify.continuation import check_continuation
    from optimiser.verify.easing import check_easing

_HOMES = {
    "domain.continuation": ("Continuation",),
    "domain.deliveries": (
        "Deliveries",
        "Delivery",
        "Terms",
    ),
    "domain.easing": (
        "Easing",
        "NearMiss",
    ),
    "domain.fault": ("Fault",),
    "domain.finding": ("Finding", "Severity"),
    "domain.frame": ("Frame",),
    "domain.job": ("Comparison", "Job", "JobShare", "Outlay"),
    "domain.marks": ("Marks",),
    "domain.merchants": ("Buying", "Quote"),
    "domain.order": ("Order",),
    "domain.part_list": ("PartList",),
    "domain.plan": ("CuttingPlan", "LengthPlan", "SheetPlan"),
    "domain.price_book": ("OrderTerms", "PriceBook"),
    "domain.rack": ("Rack",),
    "domain.request": ("Access", "CuttingRequest", "Keep"),
    "domain.spares": (
        "Breakage",
        "Handling",
        "SparesTable",
    ),
    "domain.wall": ("Wall",),
    "drawing.boarding": ("draw_boarding", "front_layers"),
    "drawing.elevation": ("draw_elevation",),
    "drawing.lengths": ("draw_length_layout", "draw_length_plan"),
    "drawing.pictorial": ("draw_box", "draw_pictorial"),
    "drawing.sections": ("draw_plan_section", "draw_upright_section"),
    "drawing.sheets": ("draw_sheet_layout",),
    "drawing.spares": ("draw_spares",),
    "errors": ("InvalidInput", "NoPlan", "PlanRefused", "Problem"),
    "formats.continuation": ("continuation_document",),
    "formats.marks": (
        "marks_from_document",
        "read_marks",
    ),
    "formats.new_wall": ("new_wall",),
    "formats.order": ("order_csv", "order_document", "order_table"),
    "formats.order_ubl": ("order_from_document", "order_ubl"),
    "formats.part_list": ("ListReading", "look_through_part_list", "read_part_list"),
    "formats.plan": ("plan_document", "plan_from_document", "read_plan"),
    "formats.price_book": ("price_book_from_document", "read_price_book"),
    "formats.rack": ("rack_from_document", "read_rack"),
    "formats.request": ("read_request", "request_document", "request_from_document"),
    "formats.schema": ("schemas",),
    "formats.set_out": ("set_out_text",),
    "formats.terms": ("read_terms",),
    "formats.toml_lines": ("quote_lines",),
    "formats.wall": ("read_wall", "wall_from_document"),
    "framing.cautions": ("CAUTIONS",),
    "inspection.inspect": ("inspect_frame",),
    "planning.books": ("merged_book",),
    "planning.deliveries": ("plan_deliveries",),
    "planning.easing": ("near_misses",),
    "planning.jobs": (
        "frame_as_planned",
        "job_as_planned",
        "job_of_frame",
        "request_for_jobs",
    ),
    "planning.merchants": ("buy_from",),
    "planning.order": ("order_for",),
    "planning.plan": ("plan_cutting",),
    "planning.progress": ("PlanProgress",),
    "planning.replan": ("replan",),
    "planning.shares": ("compare_batch", "job_shares"),
    "planning.spares": (
        "spares_by_risk",
        "usual_breakage",
    ),
    "planning.walls": ("frame_wall",),
    "units": ("Pence", "metres", "mm", "pence", "pounds", "square_metres", "tenths"),
    "verify.check": ("check_plan",),
    "verify.continuation": ("check_continuation",),
    "verify.easing": ("check_easing",),
}
_HOME_OF = {name: home for home, names in _HOMES.items() for name in names}

__all__ = [
    "CAUTIONS",
    "Access",
    "Breakage",
    "Buying",
    "Comparison",
    "Continuation",
    "CuttingPlan",
    "CuttingRequest",
    "Deliveries",
    "Delivery",
    "Easing",
    "Fault",
    "Finding",
    "Frame",
    "Handling",
    "InvalidInput",
    "Job",
    "JobShare",
    "Keep",
    "LengthPlan",
    "ListReading",
    "Marks",
    "NearMiss",
    "NoPlan",
    "Order",
    "OrderTerms",
    "Outlay",
    "PartList",
    "Pence",
    "PlanProgress",
    "PlanRefused",
    "PriceBook",
    "Problem",
    "Quote",
    "Rack",
    "Severity",
    "SheetPlan",
    "SparesTable",
    "Terms",
    "Wall",
    "buy_from",
    "check_continuation",
    "check_easing",
    "check_plan",
    "compare_batch",
    "continuation_document",
    "draw_boarding",
    "draw_box",
    "draw_elevation",
    "draw_length_layout",
    "draw_length_plan",
    "draw_pictorial",
    "draw_plan_section",
    "draw_sheet_layout",
    "draw_spares",
    "draw_upright_section",
    "frame_as_planned",
    "frame_wall",
    "front_layers",
    "inspect_frame",
    "job_as_planned",
    "job_of_frame",
    "job_shares",
    "look_through_part_list",
    "marks_from_document",
    "merged_book",
    "metres",
    "mm",
    "near_misses",
    "new_wall",
    "order_csv",
    "order_document",
    "order_for",
    "order_from_document",
    "order_table",
    "order_ubl",
    "pence",
    "plan_cutting",
    "plan_deliveries",
    "plan_document",
    "plan_from_document",
    "pounds",
    "price_book_from_document",
    "quote_lines",
    "rack_from_document",
    "read_marks",
    "read_part_list",
    "read_plan",
    "read_price_book",
    "read_rack",
    "read_request",
    "read_terms",
    "read_wall",
    "replan",
    "request_document",
    "request_for_jobs",
    "request_from_document",
    "schemas",
    "set_out_text",
    "spares_by_risk",
    "square_metres",
    "tenths",
    "usual_breakage",
    "wall_from_document",
]


def __getattr__(name: str) -> object:
    home = _HOME_OF.get(name)
    if home is None:
        raise AttributeError(f"module 'optimiser' has no attribute {name!r}")
    return getattr(import_module(f"optimiser.{home}"), name)


def __dir__() -> list[str]:
    return sorted(__all__)
