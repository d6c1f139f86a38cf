"""The cutting plan as a document (JSON), written and read back without loss."""

from __future__ import annotations

from typing import Any

from optimiser.domain.plan import (
    Chosen,
    CutOutWork,
    CuttingPlan,
    Leftover,
    LengthCut,
    LengthLayout,
    LengthPlan,
    LengthWeights,
    Money,
    PartWeights,
    PlacedBoard,
    PlacedLength,
    SheetCut,
    SheetLayout,
    SheetPlan,
    SheetWeights,
    Stretch,
    Trade,
    Usage,
)
from optimiser.formats.fields import read_document, read_json
from optimiser.formats.plan_documents import (
    ChosenDocument,
    CutOutWorkDocument,
    LeftoverDocument,
    LengthCutDocument,
    LengthLayoutDocument,
    LengthPlanDocument,
    LengthUsageDocument,
    LengthWeightsDocument,
    MoneyFields,
    PartWeightsDocument,
    PlacedBoardDocument,
    PlacedLengthDocument,
    PlanDocument,
    SheetCutDocument,
    SheetLayoutDocument,
    SheetPlanDocument,
    SheetUsageDocument,
    SheetWeightsDocument,
    StretchDocument,
    TradeDocument,
)
from optimiser.units import Pence, Tenths


def plan_document(plan: CuttingPlan) -> dict[str, Any]:
    """Write a plan as a document of plain values, ready for JSON."""
    return PlanDocument.model_construct(
        **_money_fields(plan),
        seed=plan.seed,
        lengths=tuple(_length_plan_document(item) for item in plan.lengths),
        sheets=tuple(_sheet_plan_document(item) for item in plan.sheets),
        chosen=tuple(
            ChosenDocument.model_construct(choice=item.choice, option=item.option)
            for item in plan.chosen
        ),
        choices_saved=plan.choices_saved,
    ).model_dump(mode="json")


def _money_fields(plan: CuttingPlan | LengthPlan | SheetPlan) -> dict[str, Any]:
    return {
        "purchase": plan.money.purchase,
        "offcuts_used": plan.money.offcuts_used,
        "credit": plan.money.credit,
        "net_cost": plan.money.net,
        "lower_bound": plan.bound,
        "proven": plan.proven,
        "seconds": plan.seconds,
    }


def _length_plan_document(plan: LengthPlan) -> LengthPlanDocument:
    usage = plan.usage
    return LengthPlanDocument.model_construct(
        **_money_fields(plan),
        material=plan.material,
        method=plan.method,
        trade=None
        if plan.trade is None
        else TradeDocument.model_construct(layouts=plan.trade.layouts, extra=plan.trade.extra),
        layouts=tuple(
            LengthLayoutDocument.model_construct(
                stock=layout.stock,
                offcut=layout.offcut,
                count=layout.count,
                cuts=tuple(
                    LengthCutDocument.model_construct(n=cut.n, at_mm=cut.at) for cut in layout.cuts
                ),
                parts=tuple(
                    PlacedLengthDocument.model_construct(
                        part=placed.part,
                        job=placed.job,
                        start_mm=placed.start,
                        length_mm=placed.length,
                    )
                    for placed in layout.parts
                ),
                offcuts=tuple(map(_stretch_document, layout.offcuts)),
                scrap=tuple(map(_stretch_document, layout.scrap)),
            )
            for layout in plan.layouts
        ),
        usage=LengthUsageDocument.model_construct(
            part_mm=usage.part,
            offcut_mm=usage.offcut,
            scrap_mm=usage.scrap,
            kerf_mm=usage.kerf,
            trim_mm=usage.trim,
        ),
        certificate=tuple(
            LengthWeightsDocument.model_construct(weights=reason.weights, scale=reason.scale)
            for reason in plan.certificate
        ),
    )


def _stretch_document(stretch: Stretch) -> StretchDocument:
    return StretchDocument.model_construct(start_mm=stretch.start, length_mm=stretch.length)


def _sheet_plan_document(plan: SheetPlan) -> SheetPlanDocument:
    usage = plan.usage
    return SheetPlanDocument.model_construct(
        **_money_fields(plan),
        material=plan.material,
        method=plan.method,
        layouts=tuple(map(_sheet_layout_document, plan.layouts)),
        usage=SheetUsageDocument.model_construct(
            part_mm2=usage.part,
            offcut_mm2=usage.offcut,
            scrap_mm2=usage.scrap,
            kerf_mm2=usage.kerf,
            trim_mm2=usage.trim,
        ),
        certificate=tuple(map(_reason_document, plan.certificate)),
    )


def _reason_document(
    reason: SheetWeights | PartWeights,
) -> SheetWeightsDocument | PartWeightsDocument:
    if isinstance(reason, PartWeights):
        return PartWeightsDocument.model_construct(
            weights=reason.weights, once=reason.once, scale=reason.scale, below=reason.below
        )
    return SheetWeightsDocument.model_construct(across=reason.across, along=reason.along)


def _sheet_layout_document(layout: SheetLayout) -> SheetLayoutDocument:
    return SheetLayoutDocument.model_construct(
        stock=layout.stock,
        offcut=layout.offcut,
        count=layout.count,
        cuts=tuple(
            SheetCutDocument.model_construct(
                n=cut.n,
                of=cut.of,
                direction=cut.direction,
                at_mm=cut.at,
                edge=cut.edge,
                tool=cut.tool,
            )
            for cut in layout.cuts
        ),
        parts=tuple(
            PlacedBoardDocument.model_construct(
                part=placed.part,
                job=placed.job,
                piece=placed.piece,
                x_mm=placed.x,
                y_mm=placed.y,
                width_mm=placed.width,
                height_mm=placed.height,
                turned=placed.turned,
            )
            for placed in layout.parts
        ),
        offcuts=tuple(map(_leftover_document, layout.offcuts)),
        scrap=tuple(map(_leftover_document, layout.scrap)),
        cut_outs=tuple(
            CutOutWorkDocument.model_construct(
                part=work.part,
                cut_out=work.cut_out,
                shape=work.shape,
                saw=work.saw,
                snap=work.snap,
            )
            for work in layout.cut_outs
        ),
        cut_out=layout.cut_out,
    )


def _leftover_document(left: Leftover) -> LeftoverDocument:
    return LeftoverDocument.model_construct(
        piece=left.piece, x_mm=left.x, y_mm=left.y, width_mm=left.width, height_mm=left.height
    )


def read_plan(text: str | bytes, *, name: str = "plan") -> CuttingPlan:
    """Read a plan from JSON text; it is not checked here. Raises InvalidInput with every fault."""
    return _plan_of(read_json(text, PlanDocument, name=name))


def plan_from_document(content: object, *, name: str = "plan") -> CuttingPlan:
    """Read a plan from plain values; it is not checked here. Raises InvalidInput."""
    return _plan_of(read_document(content, PlanDocument, name=name))


def _plan_of(document: PlanDocument) -> CuttingPlan:
    return CuttingPlan(
        seed=document.seed,
        lengths=tuple(map(_length_plan_of, document.lengths)),
        sheets=tuple(map(_sheet_plan_of, document.sheets)),
        chosen=tuple(Chosen(choice=item.choice, option=item.option) for item in document.chosen),
        choices_saved=Pence(document.choices_saved),
        money=_money_of(document),
        bound=Pence(document.lower_bound),
        proven=document.proven,
        seconds=document.seconds,
    )


def _money_of(document: MoneyFields) -> Money:
    return Money(
        purchase=Pence(document.purchase),
        offcuts_used=Pence(document.offcuts_used),
        credit=Pence(document.credit),
        net=Pence(document.net_cost),
    )


def _length_plan_of(document: LengthPlanDocument) -> LengthPlan:
    usage = document.usage
    return LengthPlan(
        material=document.material,
        layouts=tuple(
            LengthLayout(
                stock=layout.stock,
                offcut=layout.offcut,
                count=layout.count,
                parts=tuple(
                    PlacedLength(
                        part=placed.part,
                        job=placed.job,
                        start=Tenths(placed.start_mm),
                        length=Tenths(placed.length_mm),
                    )
                    for placed in layout.parts
                ),
                cuts=tuple(LengthCut(n=cut.n, at=Tenths(cut.at_mm)) for cut in layout.cuts),
                offcuts=tuple(map(_stretch_of, layout.offcuts)),
                scrap=tuple(map(_stretch_of, layout.scrap)),
            )
            for layout in document.layouts
        ),
        money=_money_of(document),
        usage=Usage(
            part=usage.part_mm,
            offcut=usage.offcut_mm,
            scrap=usage.scrap_mm,
            kerf=usage.kerf_mm,
            trim=usage.trim_mm,
        ),
        bound=Pence(document.lower_bound),
        proven=document.proven,
        certificate=tuple(
            LengthWeights(weights=reason.weights, scale=reason.scale)
            for reason in document.certificate
        ),
        seconds=document.seconds,
        method=document.method,
        trade=None
        if document.trade is None
        else Trade(layouts=document.trade.layouts, extra=Pence(document.trade.extra)),
    )


def _stretch_of(document: StretchDocument) -> Stretch:
    return Stretch(start=Tenths(document.start_mm), length=Tenths(document.length_mm))


def _sheet_plan_of(document: SheetPlanDocument) -> SheetPlan:
    usage = document.usage
    return SheetPlan(
        material=document.material,
        layouts=tuple(map(_sheet_layout_of, document.layouts)),
        money=_money_of(document),
        usage=Usage(
            part=usage.part_mm2,
            offcut=usage.offcut_mm2,
            scrap=usage.scrap_mm2,
            kerf=usage.kerf_mm2,
            trim=usage.trim_mm2,
        ),
        bound=Pence(document.lower_bound),
        proven=document.proven,
        certificate=tuple(map(_reason_of, document.certificate)),
        seconds=document.seconds,
        method=document.method,
    )


def _reason_of(document: SheetWeightsDocument | PartWeightsDocument) -> SheetWeights | PartWeights:
    if isinstance(document, PartWeightsDocument):
        return PartWeights(
            weights=document.weights,
            once=document.once,
            scale=document.scale,
            below=Pence(document.below),
        )
    return SheetWeights(across=document.across, along=document.along)


def _sheet_layout_of(document: SheetLayoutDocument) -> SheetLayout:
    return SheetLayout(
        stock=document.stock,
        offcut=document.offcut,
        count=document.count,
        cuts=tuple(
            SheetCut(
                n=cut.n,
                of=cut.of,
                direction=cut.direction,
                at=Tenths(cut.at_mm),
                edge=cut.edge,
                tool=cut.tool,
            )
            for cut in document.cuts
        ),
        parts=tuple(
            PlacedBoard(
                part=placed.part,
                job=placed.job,
                piece=placed.piece,
                x=Tenths(placed.x_mm),
                y=Tenths(placed.y_mm),
                width=Tenths(placed.width_mm),
                height=Tenths(placed.height_mm),
                turned=placed.turned,
            )
            for placed in document.parts
        ),
        offcuts=tuple(map(_leftover_of, document.offcuts)),
        scrap=tuple(map(_leftover_of, document.scrap)),
        cut_outs=tuple(
            CutOutWork(
                part=work.part,
                cut_out=work.cut_out,
                shape=work.shape,
                saw=work.saw,
                snap=work.snap,
            )
            for work in document.cut_outs
        ),
        cut_out=document.cut_out,
    )


def _leftover_of(document: LeftoverDocument) -> Leftover:
    return Leftover(
        piece=document.piece,
        x=Tenths(document.x_mm),
        y=Tenths(document.y_mm),
        width=Tenths(document.width_mm),
        height=Tenths(document.height_mm),
    )
