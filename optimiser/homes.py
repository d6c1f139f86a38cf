"""Where each promised name lives: read by the front door alone, which loads it when first used."""

from __future__ import annotations

HOMES = {
    "documents.booklet": ("booklet_pdf",),
    "documents.dxf": ("layouts_dxf",),
    "documents.files": (
        "cuts_csv",
        "order_xlsx",
        "parts_csv",
        "parts_xlsx",
        "plan_xlsx",
    ),
    "documents.labels": (
        "RackLabel",
        "offcut_size",
        "part_labels_pdf",
        "rack_labels_pdf",
    ),
    "documents.orders": (
        "delivery_note_pdf",
        "order_pdf",
    ),
    "documents.walls": ("walls_pdf",),
    "domain.charted": (
        "CostBar",
        "RackMoment",
    ),
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
    "domain.finding": (
        "Finding",
        "Severity",
    ),
    "domain.frame": ("Frame",),
    "domain.job": (
        "Comparison",
        "Job",
        "JobShare",
        "Outlay",
    ),
    "domain.label_sheet": (
        "USUAL_SHEET",
        "LabelSheet",
    ),
    "domain.marks": ("Marks",),
    "domain.merchants": (
        "Buying",
        "Quote",
    ),
    "domain.order": ("Order",),
    "domain.part_list": ("PartList",),
    "domain.plan": (
        "Chosen",
        "CuttingPlan",
        "LengthPlan",
        "SheetPlan",
    ),
    "domain.price_book": (
        "OrderTerms",
        "PriceBook",
    ),
    "domain.rack": ("Rack",),
    "domain.request": (
        "Access",
        "CuttingRequest",
        "Keep",
    ),
    "domain.spares": (
        "Breakage",
        "Handling",
        "SparesTable",
    ),
    "domain.wall": ("Wall",),
    "drawing.boarding": (
        "draw_boarding",
        "front_layers",
    ),
    "drawing.charts": (
        "draw_costs",
        "draw_spent",
    ),
    "drawing.elevation": ("draw_elevation",),
    "drawing.lengths": (
        "draw_length_layout",
        "draw_length_plan",
    ),
    "drawing.pictorial": (
        "draw_box",
        "draw_pictorial",
    ),
    "drawing.rack_chart": ("draw_rack",),
    "drawing.scene": ("Paper",),
    "drawing.sections": (
        "draw_plan_section",
        "draw_upright_section",
    ),
    "drawing.sheets": ("draw_sheet_layout",),
    "drawing.spares": ("draw_spares",),
    "drawing.wall_set": ("wall_set",),
    "errors": (
        "InvalidInput",
        "NoPlan",
        "PlanRefused",
        "Problem",
    ),
    "formats.continuation": ("continuation_document",),
    "formats.label_sheet": (
        "label_sheet_from_document",
        "read_label_sheet",
    ),
    "formats.marks": (
        "marks_from_document",
        "read_marks",
    ),
    "formats.new_wall": ("new_wall",),
    "formats.order": (
        "order_csv",
        "order_document",
        "order_table",
    ),
    "formats.order_ubl": (
        "order_from_document",
        "order_ubl",
    ),
    "formats.part_list": (
        "ListReading",
        "look_through_part_list",
        "read_part_list",
    ),
    "formats.plan": (
        "plan_document",
        "plan_from_document",
        "read_plan",
    ),
    "formats.price_book": (
        "price_book_from_document",
        "read_price_book",
    ),
    "formats.rack": (
        "rack_from_document",
        "read_rack",
    ),
    "formats.request": (
        "read_request",
        "request_document",
        "request_from_document",
    ),
    "formats.schema": ("schemas",),
    "formats.set_out": ("set_out_text",),
    "formats.terms": ("read_terms",),
    "formats.toml_lines": ("quote_lines",),
    "formats.wall": (
        "read_wall",
        "wall_from_document",
    ),
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
    "planning.shares": (
        "compare_batch",
        "job_shares",
    ),
    "planning.spares": (
        "spares_by_risk",
        "usual_breakage",
    ),
    "planning.spent": (
        "spent_by_job",
        "spent_by_material",
    ),
    "planning.walls": ("frame_wall",),
    "units": (
        "metres",
        "mm",
        "Pence",
        "pence",
        "pounds",
        "square_metres",
        "tenths",
    ),
    "verify.check": ("check_plan",),
    "verify.continuation": ("check_continuation",),
    "verify.easing": ("check_easing",),
}
