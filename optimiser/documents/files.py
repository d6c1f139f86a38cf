"""A plan, its parts and its order as files for a spreadsheet, each by one call."""

from __future__ import annotations

from optimiser.documents.sheets import cuts_sheet, order_sheet, parts_sheet, plan_sheets
from optimiser.documents.spreadsheets import csv_text, xlsx_bytes
from optimiser.domain.order import Order
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import CuttingRequest


def parts_csv(request: CuttingRequest, plan: CuttingPlan) -> str:
    """Return the parts that a plan cuts as CSV, a part list that can be read back."""
    return csv_text(parts_sheet(request, plan))


def parts_xlsx(request: CuttingRequest, plan: CuttingPlan) -> bytes:
    """Return the parts that a plan cuts as XLSX, a part list that can be read back."""
    return xlsx_bytes([parts_sheet(request, plan)], title="Parts")


def cuts_csv(plan: CuttingPlan) -> str:
    """Return every cut of a plan in the order of work as CSV; sizes in mm."""
    return csv_text(cuts_sheet(plan))


def plan_xlsx(request: CuttingRequest, plan: CuttingPlan) -> bytes:
    """Return a plan as XLSX: materials with money, layouts, cuts in their order, parts."""
    return xlsx_bytes(plan_sheets(request, plan), title="Cutting plan")


def order_xlsx(order: Order) -> bytes:
    """Return an order as XLSX: its lines, net sum, VAT and total."""
    return xlsx_bytes([order_sheet(order)], title="Order")
