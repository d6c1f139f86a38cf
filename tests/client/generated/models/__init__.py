""" Contains all the data models used in inputs/outputs """

from .access_document import AccessDocument
from .accessory_model import AccessoryModel
from .add_price_book_response_201 import AddPriceBookResponse201
from .add_price_file_response_201 import AddPriceFileResponse201
from .batch import Batch
from .batch_coming import BatchComing
from .batch_coming_jobs_item import BatchComingJobsItem
from .batch_jobs_item import BatchJobsItem
from .board_part_document import BoardPartDocument
from .board_part_document_dimension_from import BoardPartDocumentDimensionFrom
from .came_line import CameLine
from .check import Check
from .check_response_200 import CheckResponse200
from .check_response_200_faults_item import CheckResponse200FaultsItem
from .choice_document import ChoiceDocument
from .chosen_document import ChosenDocument
from .confirm_plan_response_200 import ConfirmPlanResponse200
from .correction import Correction
from .correction_kind import CorrectionKind
from .cut_out_document import CutOutDocument
from .cut_out_work_document import CutOutWorkDocument
from .cut_out_work_document_saw_item import CutOutWorkDocumentSawItem
from .cut_out_work_document_shape import CutOutWorkDocumentShape
from .cut_out_work_document_snap_item import CutOutWorkDocumentSnapItem
from .cutting import Cutting
from .cutting_marks import CuttingMarks
from .cutting_plan import CuttingPlan
from .cutting_request import CuttingRequest
from .deal import Deal
from .deal_jobs_item import DealJobsItem
from .dealt import Dealt
from .dealt_deliveries_item import DealtDeliveriesItem
from .delivery_body import DeliveryBody
from .delivery_terms import DeliveryTerms
from .delivery_terms_needed import DeliveryTermsNeeded
from .delivery_terms_weekdays_item import DeliveryTermsWeekdaysItem
from .direction import Direction
from .drop_plan_response_200 import DropPlanResponse200
from .ease_body import EaseBody
from .ease_body_ease import EaseBodyEase
from .end import End
from .existing_wall import ExistingWall
from .extent_model import ExtentModel
from .fire_model import FireModel
from .floor import Floor
from .frame import Frame
from .get_booklet_paper import GetBookletPaper
from .get_delivery_note_paper import GetDeliveryNotePaper
from .get_one_order_pdf_paper import GetOneOrderPdfPaper
from .get_order_pdf_paper import GetOrderPdfPaper
from .get_walls_paper import GetWallsPaper
from .glass import Glass
from .health_response_200 import HealthResponse200
from .http_validation_error import HTTPValidationError
from .instead import Instead
from .job_body import JobBody
from .job_body_parts_type_0 import JobBodyPartsType0
from .keep_document import KeepDocument
from .keep_part_list_response_201 import KeepPartListResponse201
from .keep_part_list_response_201_jobs_item import KeepPartListResponse201JobsItem
from .kept_delivery import KeptDelivery
from .kept_delivery_lines_item import KeptDeliveryLinesItem
from .kept_delivery_lines_item_instead_item import KeptDeliveryLinesItemInsteadItem
from .kept_delivery_promised_item import KeptDeliveryPromisedItem
from .kept_delivery_touches_item import KeptDeliveryTouchesItem
from .kept_delivery_touches_item_kind import KeptDeliveryTouchesItemKind
from .kept_job import KeptJob
from .kept_job_job import KeptJobJob
from .kept_job_state import KeptJobState
from .kept_order import KeptOrder
from .kept_order_state import KeptOrderState
from .kept_wall import KeptWall
from .label_sheet import LabelSheet
from .ledger_line import LedgerLine
from .ledger_line_kind import LedgerLineKind
from .leftover_document import LeftoverDocument
from .length_cut_document import LengthCutDocument
from .length_item_model import LengthItemModel
from .length_layout_document import LengthLayoutDocument
from .length_material_document import LengthMaterialDocument
from .length_offcut_document import LengthOffcutDocument
from .length_part_document import LengthPartDocument
from .length_part_document_dimension_from import LengthPartDocumentDimensionFrom
from .length_plan_document import LengthPlanDocument
from .length_usage_document import LengthUsageDocument
from .length_weights_document import LengthWeightsDocument
from .list_audit_response_200 import ListAuditResponse200
from .list_audit_response_200_items_item import ListAuditResponse200ItemsItem
from .list_batches_response_200 import ListBatchesResponse200
from .list_batches_response_200_items_item import ListBatchesResponse200ItemsItem
from .list_body import ListBody
from .list_deliveries_response_200 import ListDeliveriesResponse200
from .list_deliveries_response_200_state import ListDeliveriesResponse200State
from .list_diagrams_response_200 import ListDiagramsResponse200
from .list_diagrams_response_200_diagrams_item import ListDiagramsResponse200DiagramsItem
from .list_events_response_200 import ListEventsResponse200
from .list_jobs_response_200 import ListJobsResponse200
from .list_ledger_response_200 import ListLedgerResponse200
from .list_orders_response_200 import ListOrdersResponse200
from .list_orders_state_type_0 import ListOrdersStateType0
from .list_plans_response_200 import ListPlansResponse200
from .list_plans_state_type_0 import ListPlansStateType0
from .list_price_books_response_200 import ListPriceBooksResponse200
from .list_rack_response_200 import ListRackResponse200
from .list_runs_response_200 import ListRunsResponse200
from .list_runs_state_type_0 import ListRunsStateType0
from .list_walls_response_200 import ListWallsResponse200
from .long_item_model import LongItemModel
from .look_at_wall_response_200 import LookAtWallResponse200
from .look_at_wall_response_200_drawings_item import LookAtWallResponse200DrawingsItem
from .look_at_wall_response_200_drawings_item_places_item import LookAtWallResponse200DrawingsItemPlacesItem
from .look_at_wall_response_200_frame import LookAtWallResponse200Frame
from .look_at_wall_view_type_0_item import LookAtWallViewType0Item
from .made_plan import MadePlan
from .made_plan_comparison_type_0 import MadePlanComparisonType0
from .made_plan_finished_item import MadePlanFinishedItem
from .made_plan_floor_item import MadePlanFloorItem
from .made_plan_in_hand_item import MadePlanInHandItem
from .made_plan_leaves_item import MadePlanLeavesItem
from .made_plan_merchants_type_0 import MadePlanMerchantsType0
from .made_plan_pieces import MadePlanPieces
from .made_plan_shares_item import MadePlanSharesItem
from .made_plan_state import MadePlanState
from .made_plan_walls_item import MadePlanWallsItem
from .mark_model import MarkModel
from .marks import Marks
from .marks_contradictions_item import MarksContradictionsItem
from .marks_pieces_item import MarksPiecesItem
from .marks_pieces_item_lost import MarksPiecesItemLost
from .marks_state import MarksState
from .marks_taken import MarksTaken
from .marks_taken_contradictions_item import MarksTakenContradictionsItem
from .marks_taken_pieces_item import MarksTakenPiecesItem
from .marks_taken_pieces_item_lost import MarksTakenPiecesItemLost
from .marks_taken_state import MarksTakenState
from .marks_taken_ticks_item import MarksTakenTicksItem
from .marks_taken_ticks_item_kind import MarksTakenTicksItemKind
from .marks_ticks_item import MarksTicksItem
from .marks_ticks_item_kind import MarksTicksItemKind
from .materials_model import MaterialsModel
from .near_misses import NearMisses
from .near_misses_items_item import NearMissesItemsItem
from .near_misses_items_item_easings_item import NearMissesItemsItemEasingsItem
from .near_misses_items_item_easings_item_dimension import NearMissesItemsItemEasingsItemDimension
from .niche_model import NicheModel
from .order import Order
from .order_line_received import OrderLineReceived
from .order_lines_item import OrderLinesItem
from .order_summary import OrderSummary
from .order_summary_state import OrderSummaryState
from .order_terms_model import OrderTermsModel
from .pack_item_model import PackItemModel
from .pack_item_model_unit import PackItemModelUnit
from .pack_model import PackModel
from .part_weights_document import PartWeightsDocument
from .placed_board_document import PlacedBoardDocument
from .placed_length_document import PlacedLengthDocument
from .plan_summary import PlanSummary
from .plan_summary_state import PlanSummaryState
from .preview_body import PreviewBody
from .preview_part_list_response_200 import PreviewPartListResponse200
from .preview_part_list_response_200_columns_item import PreviewPartListResponse200ColumnsItem
from .preview_part_list_response_200_notes_item import PreviewPartListResponse200NotesItem
from .preview_part_list_response_200_parts_item import PreviewPartListResponse200PartsItem
from .preview_part_list_response_200_problems_item import PreviewPartListResponse200ProblemsItem
from .price_book import PriceBook
from .price_book_version import PriceBookVersion
from .price_break_model import PriceBreakModel
from .price_file_body import PriceFileBody
from .problem import Problem
from .problem_problems_item import ProblemProblemsItem
from .projection_model import ProjectionModel
from .put_up_response_201 import PutUpResponse201
from .rack_offcut import RackOffcut
from .rack_offcut_model import RackOffcutModel
from .rack_piece import RackPiece
from .ready_response_200 import ReadyResponse200
from .receive_delivery_response_201 import ReceiveDeliveryResponse201
from .receive_delivery_response_201_state import ReceiveDeliveryResponse201State
from .replan_body import ReplanBody
from .run import Run
from .run_problems_item import RunProblemsItem
from .run_state import RunState
from .saw_document import SawDocument
from .saw_document_layouts_item import SawDocumentLayoutsItem
from .saw_document_layouts_item_cuts_item import SawDocumentLayoutsItemCutsItem
from .saw_document_layouts_item_cuts_item_line import SawDocumentLayoutsItemCutsItemLine
from .saw_document_layouts_item_cuts_item_piece import SawDocumentLayoutsItemCutsItemPiece
from .saw_document_layouts_item_cuts_item_way import SawDocumentLayoutsItemCutsItemWay
from .saw_document_layouts_item_kind import SawDocumentLayoutsItemKind
from .saw_document_layouts_item_left_item import SawDocumentLayoutsItemLeftItem
from .saw_document_layouts_item_parts_item import SawDocumentLayoutsItemPartsItem
from .sheet_cut_document import SheetCutDocument
from .sheet_cut_document_direction import SheetCutDocumentDirection
from .sheet_cut_document_tool import SheetCutDocumentTool
from .sheet_item_model import SheetItemModel
from .sheet_item_model_edge_trim_mm_type_1 import SheetItemModelEdgeTrimMmType1
from .sheet_layout_document import SheetLayoutDocument
from .sheet_material_document import SheetMaterialDocument
from .sheet_material_document_edge_trim_mm_type_1 import SheetMaterialDocumentEdgeTrimMmType1
from .sheet_offcut_document import SheetOffcutDocument
from .sheet_offcut_document_edge_trim_mm_type_1 import SheetOffcutDocumentEdgeTrimMmType1
from .sheet_plan_document import SheetPlanDocument
from .sheet_usage_document import SheetUsageDocument
from .sheet_weights_document import SheetWeightsDocument
from .site_model import SiteModel
from .socket_model import SocketModel
from .sold_length_model import SoldLengthModel
from .sold_sheet_model import SoldSheetModel
from .soundbar_model import SoundbarModel
from .spares import Spares
from .spares_body import SparesBody
from .spares_body_handling import SparesBodyHandling
from .spares_body_rates_percent import SparesBodyRatesPercent
from .spares_exposures_item import SparesExposuresItem
from .spares_levels_item import SparesLevelsItem
from .spares_levels_item_spares_item import SparesLevelsItemSparesItem
from .state import State
from .step_model import StepModel
from .stock_length_document import StockLengthDocument
from .stock_sheet_document import StockSheetDocument
from .stretch_document import StretchDocument
from .survey_point_model import SurveyPointModel
from .tick import Tick
from .tick_kind import TickKind
from .ticks_body import TicksBody
from .trade_document import TradeDocument
from .tv_model import TvModel
from .undo_plan_response_200 import UndoPlanResponse200
from .validation_error import ValidationError
from .validation_error_ctx import ValidationErrorCtx
from .wall import Wall

__all__ = (
    "AccessDocument",
    "AccessoryModel",
    "AddPriceBookResponse201",
    "AddPriceFileResponse201",
    "Batch",
    "BatchComing",
    "BatchComingJobsItem",
    "BatchJobsItem",
    "BoardPartDocument",
    "BoardPartDocumentDimensionFrom",
    "CameLine",
    "Check",
    "CheckResponse200",
    "CheckResponse200FaultsItem",
    "ChoiceDocument",
    "ChosenDocument",
    "ConfirmPlanResponse200",
    "Correction",
    "CorrectionKind",
    "CutOutDocument",
    "CutOutWorkDocument",
    "CutOutWorkDocumentSawItem",
    "CutOutWorkDocumentShape",
    "CutOutWorkDocumentSnapItem",
    "Cutting",
    "CuttingMarks",
    "CuttingPlan",
    "CuttingRequest",
    "Deal",
    "DealJobsItem",
    "Dealt",
    "DealtDeliveriesItem",
    "DeliveryBody",
    "DeliveryTerms",
    "DeliveryTermsNeeded",
    "DeliveryTermsWeekdaysItem",
    "Direction",
    "DropPlanResponse200",
    "EaseBody",
    "EaseBodyEase",
    "End",
    "ExistingWall",
    "ExtentModel",
    "FireModel",
    "Floor",
    "Frame",
    "GetBookletPaper",
    "GetDeliveryNotePaper",
    "GetOneOrderPdfPaper",
    "GetOrderPdfPaper",
    "GetWallsPaper",
    "Glass",
    "HealthResponse200",
    "HTTPValidationError",
    "Instead",
    "JobBody",
    "JobBodyPartsType0",
    "KeepDocument",
    "KeepPartListResponse201",
    "KeepPartListResponse201JobsItem",
    "KeptDelivery",
    "KeptDeliveryLinesItem",
    "KeptDeliveryLinesItemInsteadItem",
    "KeptDeliveryPromisedItem",
    "KeptDeliveryTouchesItem",
    "KeptDeliveryTouchesItemKind",
    "KeptJob",
    "KeptJobJob",
    "KeptJobState",
    "KeptOrder",
    "KeptOrderState",
    "KeptWall",
    "LabelSheet",
    "LedgerLine",
    "LedgerLineKind",
    "LeftoverDocument",
    "LengthCutDocument",
    "LengthItemModel",
    "LengthLayoutDocument",
    "LengthMaterialDocument",
    "LengthOffcutDocument",
    "LengthPartDocument",
    "LengthPartDocumentDimensionFrom",
    "LengthPlanDocument",
    "LengthUsageDocument",
    "LengthWeightsDocument",
    "ListAuditResponse200",
    "ListAuditResponse200ItemsItem",
    "ListBatchesResponse200",
    "ListBatchesResponse200ItemsItem",
    "ListBody",
    "ListDeliveriesResponse200",
    "ListDeliveriesResponse200State",
    "ListDiagramsResponse200",
    "ListDiagramsResponse200DiagramsItem",
    "ListEventsResponse200",
    "ListJobsResponse200",
    "ListLedgerResponse200",
    "ListOrdersResponse200",
    "ListOrdersStateType0",
    "ListPlansResponse200",
    "ListPlansStateType0",
    "ListPriceBooksResponse200",
    "ListRackResponse200",
    "ListRunsResponse200",
    "ListRunsStateType0",
    "ListWallsResponse200",
    "LongItemModel",
    "LookAtWallResponse200",
    "LookAtWallResponse200DrawingsItem",
    "LookAtWallResponse200DrawingsItemPlacesItem",
    "LookAtWallResponse200Frame",
    "LookAtWallViewType0Item",
    "MadePlan",
    "MadePlanComparisonType0",
    "MadePlanFinishedItem",
    "MadePlanFloorItem",
    "MadePlanInHandItem",
    "MadePlanLeavesItem",
    "MadePlanMerchantsType0",
    "MadePlanPieces",
    "MadePlanSharesItem",
    "MadePlanState",
    "MadePlanWallsItem",
    "MarkModel",
    "Marks",
    "MarksContradictionsItem",
    "MarksPiecesItem",
    "MarksPiecesItemLost",
    "MarksState",
    "MarksTaken",
    "MarksTakenContradictionsItem",
    "MarksTakenPiecesItem",
    "MarksTakenPiecesItemLost",
    "MarksTakenState",
    "MarksTakenTicksItem",
    "MarksTakenTicksItemKind",
    "MarksTicksItem",
    "MarksTicksItemKind",
    "MaterialsModel",
    "NearMisses",
    "NearMissesItemsItem",
    "NearMissesItemsItemEasingsItem",
    "NearMissesItemsItemEasingsItemDimension",
    "NicheModel",
    "Order",
    "OrderLineReceived",
    "OrderLinesItem",
    "OrderSummary",
    "OrderSummaryState",
    "OrderTermsModel",
    "PackItemModel",
    "PackItemModelUnit",
    "PackModel",
    "PartWeightsDocument",
    "PlacedBoardDocument",
    "PlacedLengthDocument",
    "PlanSummary",
    "PlanSummaryState",
    "PreviewBody",
    "PreviewPartListResponse200",
    "PreviewPartListResponse200ColumnsItem",
    "PreviewPartListResponse200NotesItem",
    "PreviewPartListResponse200PartsItem",
    "PreviewPartListResponse200ProblemsItem",
    "PriceBook",
    "PriceBookVersion",
    "PriceBreakModel",
    "PriceFileBody",
    "Problem",
    "ProblemProblemsItem",
    "ProjectionModel",
    "PutUpResponse201",
    "RackOffcut",
    "RackOffcutModel",
    "RackPiece",
    "ReadyResponse200",
    "ReceiveDeliveryResponse201",
    "ReceiveDeliveryResponse201State",
    "ReplanBody",
    "Run",
    "RunProblemsItem",
    "RunState",
    "SawDocument",
    "SawDocumentLayoutsItem",
    "SawDocumentLayoutsItemCutsItem",
    "SawDocumentLayoutsItemCutsItemLine",
    "SawDocumentLayoutsItemCutsItemPiece",
    "SawDocumentLayoutsItemCutsItemWay",
    "SawDocumentLayoutsItemKind",
    "SawDocumentLayoutsItemLeftItem",
    "SawDocumentLayoutsItemPartsItem",
    "SheetCutDocument",
    "SheetCutDocumentDirection",
    "SheetCutDocumentTool",
    "SheetItemModel",
    "SheetItemModelEdgeTrimMmType1",
    "SheetLayoutDocument",
    "SheetMaterialDocument",
    "SheetMaterialDocumentEdgeTrimMmType1",
    "SheetOffcutDocument",
    "SheetOffcutDocumentEdgeTrimMmType1",
    "SheetPlanDocument",
    "SheetUsageDocument",
    "SheetWeightsDocument",
    "SiteModel",
    "SocketModel",
    "SoldLengthModel",
    "SoldSheetModel",
    "SoundbarModel",
    "Spares",
    "SparesBody",
    "SparesBodyHandling",
    "SparesBodyRatesPercent",
    "SparesExposuresItem",
    "SparesLevelsItem",
    "SparesLevelsItemSparesItem",
    "State",
    "StepModel",
    "StockLengthDocument",
    "StockSheetDocument",
    "StretchDocument",
    "SurveyPointModel",
    "Tick",
    "TickKind",
    "TicksBody",
    "TradeDocument",
    "TvModel",
    "UndoPlanResponse200",
    "ValidationError",
    "ValidationErrorCtx",
    "Wall",
)
