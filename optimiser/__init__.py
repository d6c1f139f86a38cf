"""Scantling: boarded timber walls to parts, one cutting plan over jobs, stock and rack, one order.

This is the library's front door; whatever stands in `__all__` is promised, nothing else is.
Names are loaded when first used, so that asking for one does not load every solver.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from optimiser.homes import HOMES as _HOMES

if TYPE_CHECKING:
    from optimiser.documents.booklet import booklet_pdf
    from optimiser.documents.dxf import layouts_dxf
    from optimiser.documents.files import cuts_csv, order_xlsx, parts_csv, parts_xlsx, plan_xlsx
    from optimiser.documents.labels import RackLabel, offcut_size, part_labels_pdf, rack_labels_pdf
    from optimiser.documents.orders import delivery_note_pdf, order_pdf
    from optimiser.documents.walls import walls_pdf
    from optimiser.domain.charted import CostBar, RackMoment
    from optimiser.domain.continuation import Continuation
    from optimiser.domain.deliveries import Deliveries, Delivery, Terms
    from optimiser.domain.easing import Easing, EasingRun, NearMiss
    from optimiser.domain.fault import Fault
    from optimiser.domain.finding import Finding, Severity
    from optimiser.domain.frame import Frame, Quantity
    from optimiser.domain.job import Comparison, Job, JobShare, Outlay
    from optimiser.domain.keeping import KeepAdvice, KeepTerms, OffcutLife
    from optimiser.domain.label_sheet import USUAL_SHEET, LabelSheet
    from optimiser.domain.marks import Marks
    from optimiser.domain.merchants import Buying, Quote
    from optimiser.domain.order import Order
    from optimiser.domain.part_list import PartList
    from optimiser.domain.plan import Chosen, CuttingPlan, LengthPlan, SheetPlan
    from optimiser.domain.price_book import OrderTerms, PriceBook
    from optimiser.domain.rack import Rack
    from optimiser.domain.request import Access, CuttingRequest, Keep
    from optimiser.domain.spares import Breakage, Handling, SparesTable
    from optimiser.domain.wall import Wall
    from optimiser.drawing.boarding import boarding_places, draw_boarding, front_layers
    from optimiser.drawing.box_page import draw_box
    from optimiser.drawing.charts import draw_costs, draw_spent
    from optimiser.drawing.elevation import draw_elevation, elevation_places
    from optimiser.drawing.lengths import draw_length_layout, draw_length_plan, length_pages
    from optimiser.drawing.phone import phone_svg
    from optimiser.drawing.pictorial import draw_pictorial
    from optimiser.drawing.places import Place, concerned
    from optimiser.drawing.rack_chart import draw_rack
    from optimiser.drawing.scene import Page, Paper
    from optimiser.drawing.sections import draw_plan_sections, draw_upright_sections
    from optimiser.drawing.sheets import draw_sheet_layout, sheet_pages
    from optimiser.drawing.spares import draw_spares
    from optimiser.drawing.svg import svg_text
    from optimiser.drawing.wall_set import wall_set
    from optimiser.errors import InvalidInput, NoPlan, PlanRefused, Problem
    from optimiser.formats.continuation import continuation_document
    from optimiser.formats.label_sheet import label_sheet_from_document, read_label_sheet
    from optimiser.formats.marks import marks_from_document, read_marks
    from optimiser.formats.new_wall import new_wall
    from optimiser.formats.order import order_csv, order_document, order_table
    from optimiser.formats.order_ubl import order_from_document, order_ubl
    from optimiser.formats.part_list import ListReading, look_through_part_list, read_part_list
    from optimiser.formats.part_list_document import part_list_document, part_list_from_document
    from optimiser.formats.plan import plan_document, plan_from_document, read_plan
    from optimiser.formats.price_book import price_book_from_document, read_price_book
    from optimiser.formats.rack import rack_from_document, read_rack
    from optimiser.formats.rack_history import read_rack_history
    from optimiser.formats.request import read_request, request_document, request_from_document
    from optimiser.formats.saw_document import saw_document
    from optimiser.formats.schema import schemas
    from optimiser.formats.set_out import set_out_text
    from optimiser.formats.terms import read_terms, terms_from_document
    from optimiser.formats.toml_lines import quote_lines
    from optimiser.formats.wall import read_wall, wall_from_document
    from optimiser.framing.cautions import CAUTIONS
    from optimiser.inspection.inspect import inspect_frame
    from optimiser.planning.books import merged_book
    from optimiser.planning.days import day_number, day_text
    from optimiser.planning.deliveries import plan_deliveries
    from optimiser.planning.easing import near_misses
    from optimiser.planning.jobs import (
        frame_as_planned,
        job_as_planned,
        job_of_frame,
        request_for_jobs,
    )
    from optimiser.planning.keeping import keep_advice, with_advice
    from optimiser.planning.merchants import buy_from
    from optimiser.planning.order import order_for, packs_for
    from optimiser.planning.plan import plan_cutting
    from optimiser.planning.progress import PlanProgress
    from optimiser.planning.replan import replan
    from optimiser.planning.shares import compare_batch, job_shares
    from optimiser.planning.spares import spares_by_risk, usual_breakage
    from optimiser.planning.spent import spent_by_job, spent_by_material
    from optimiser.planning.walls import frame_as_proven, frame_wall, look_at_wall
    from optimiser.units import Pence, Tenths, metres, mm, pence, pounds, square_metres, tenths
    from optimiser.verify.check import check_plan
    from optimiser.verify.continuation import check_continuation
    from optimiser.verify.easing import check_easing

_HOME_OF = {name: home for home, names in _HOMES.items() for name in names}

__all__ = [
    "CAUTIONS",
    "USUAL_SHEET",
    "Access",
    "Breakage",
    "Buying",
    "Chosen",
    "Comparison",
    "Continuation",
    "CostBar",
    "CuttingPlan",
    "CuttingRequest",
    "Deliveries",
    "Delivery",
    "Easing",
    "EasingRun",
    "Fault",
    "Finding",
    "Frame",
    "Handling",
    "InvalidInput",
    "Job",
    "JobShare",
    "Keep",
    "KeepAdvice",
    "KeepTerms",
    "LabelSheet",
    "LengthPlan",
    "ListReading",
    "Marks",
    "NearMiss",
    "NoPlan",
    "OffcutLife",
    "Order",
    "OrderTerms",
    "Outlay",
    "Page",
    "Paper",
    "PartList",
    "Pence",
    "Place",
    "PlanProgress",
    "PlanRefused",
    "PriceBook",
    "Problem",
    "Quantity",
    "Quote",
    "Rack",
    "RackLabel",
    "RackMoment",
    "Severity",
    "SheetPlan",
    "SparesTable",
    "Tenths",
    "Terms",
    "Wall",
    "boarding_places",
    "booklet_pdf",
    "buy_from",
    "check_continuation",
    "check_easing",
    "check_plan",
    "compare_batch",
    "concerned",
    "continuation_document",
    "cuts_csv",
    "day_number",
    "day_text",
    "delivery_note_pdf",
    "draw_boarding",
    "draw_box",
    "draw_costs",
    "draw_elevation",
    "draw_length_layout",
    "draw_length_plan",
    "draw_pictorial",
    "draw_plan_sections",
    "draw_rack",
    "draw_sheet_layout",
    "draw_spares",
    "draw_spent",
    "draw_upright_sections",
    "elevation_places",
    "frame_as_planned",
    "frame_as_proven",
    "frame_wall",
    "front_layers",
    "inspect_frame",
    "job_as_planned",
    "job_of_frame",
    "job_shares",
    "keep_advice",
    "label_sheet_from_document",
    "layouts_dxf",
    "length_pages",
    "look_at_wall",
    "look_through_part_list",
    "marks_from_document",
    "merged_book",
    "metres",
    "mm",
    "near_misses",
    "new_wall",
    "offcut_size",
    "order_csv",
    "order_document",
    "order_for",
    "order_from_document",
    "order_pdf",
    "order_table",
    "order_ubl",
    "order_xlsx",
    "packs_for",
    "part_labels_pdf",
    "part_list_document",
    "part_list_from_document",
    "parts_csv",
    "parts_xlsx",
    "pence",
    "phone_svg",
    "plan_cutting",
    "plan_deliveries",
    "plan_document",
    "plan_from_document",
    "plan_xlsx",
    "pounds",
    "price_book_from_document",
    "quote_lines",
    "rack_from_document",
    "rack_labels_pdf",
    "read_label_sheet",
    "read_marks",
    "read_part_list",
    "read_plan",
    "read_price_book",
    "read_rack",
    "read_rack_history",
    "read_request",
    "read_terms",
    "read_wall",
    "replan",
    "request_document",
    "request_for_jobs",
    "request_from_document",
    "saw_document",
    "schemas",
    "set_out_text",
    "sheet_pages",
    "spares_by_risk",
    "spent_by_job",
    "spent_by_material",
    "square_metres",
    "svg_text",
    "tenths",
    "terms_from_document",
    "usual_breakage",
    "wall_from_document",
    "wall_set",
    "walls_pdf",
    "with_advice",
]


def __getattr__(name: str) -> object:
    home = _HOME_OF.get(name)
    if home is None:
        raise AttributeError(f"module 'optimiser' has no attribute {name!r}")
    return getattr(import_module(f"optimiser.{home}"), name)


def __dir__() -> list[str]:
    return sorted(__all__)
