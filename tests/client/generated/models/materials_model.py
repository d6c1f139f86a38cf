from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast






T = TypeVar("T", bound="MaterialsModel")



@_attrs_define
class MaterialsModel:
    """ 
        Attributes:
            timber (None | str | Unset):
            board (None | str | Unset):
            backboard (None | str | Unset):
            corner_bead (None | str | Unset):
            stop_bead (None | str | Unset):
            layers (int | None | Unset):
            centres_mm (float | None | Unset):
            skim (bool | None | Unset):
            fit_mm (float | None | Unset):
     """

    timber: None | str | Unset = UNSET
    board: None | str | Unset = UNSET
    backboard: None | str | Unset = UNSET
    corner_bead: None | str | Unset = UNSET
    stop_bead: None | str | Unset = UNSET
    layers: int | None | Unset = UNSET
    centres_mm: float | None | Unset = UNSET
    skim: bool | None | Unset = UNSET
    fit_mm: float | None | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        timber: None | str | Unset
        if isinstance(self.timber, Unset):
            timber = UNSET
        else:
            timber = self.timber

        board: None | str | Unset
        if isinstance(self.board, Unset):
            board = UNSET
        else:
            board = self.board

        backboard: None | str | Unset
        if isinstance(self.backboard, Unset):
            backboard = UNSET
        else:
            backboard = self.backboard

        corner_bead: None | str | Unset
        if isinstance(self.corner_bead, Unset):
            corner_bead = UNSET
        else:
            corner_bead = self.corner_bead

        stop_bead: None | str | Unset
        if isinstance(self.stop_bead, Unset):
            stop_bead = UNSET
        else:
            stop_bead = self.stop_bead

        layers: int | None | Unset
        if isinstance(self.layers, Unset):
            layers = UNSET
        else:
            layers = self.layers

        centres_mm: float | None | Unset
        if isinstance(self.centres_mm, Unset):
            centres_mm = UNSET
        else:
            centres_mm = self.centres_mm

        skim: bool | None | Unset
        if isinstance(self.skim, Unset):
            skim = UNSET
        else:
            skim = self.skim

        fit_mm: float | None | Unset
        if isinstance(self.fit_mm, Unset):
            fit_mm = UNSET
        else:
            fit_mm = self.fit_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
        })
        if timber is not UNSET:
            field_dict["timber"] = timber
        if board is not UNSET:
            field_dict["board"] = board
        if backboard is not UNSET:
            field_dict["backboard"] = backboard
        if corner_bead is not UNSET:
            field_dict["corner_bead"] = corner_bead
        if stop_bead is not UNSET:
            field_dict["stop_bead"] = stop_bead
        if layers is not UNSET:
            field_dict["layers"] = layers
        if centres_mm is not UNSET:
            field_dict["centres_mm"] = centres_mm
        if skim is not UNSET:
            field_dict["skim"] = skim
        if fit_mm is not UNSET:
            field_dict["fit_mm"] = fit_mm

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        def _parse_timber(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        timber = _parse_timber(d.pop("timber", UNSET))


        def _parse_board(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        board = _parse_board(d.pop("board", UNSET))


        def _parse_backboard(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        backboard = _parse_backboard(d.pop("backboard", UNSET))


        def _parse_corner_bead(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        corner_bead = _parse_corner_bead(d.pop("corner_bead", UNSET))


        def _parse_stop_bead(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        stop_bead = _parse_stop_bead(d.pop("stop_bead", UNSET))


        def _parse_layers(data: object) -> int | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(int | None | Unset, data)

        layers = _parse_layers(d.pop("layers", UNSET))


        def _parse_centres_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        centres_mm = _parse_centres_mm(d.pop("centres_mm", UNSET))


        def _parse_skim(data: object) -> bool | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(bool | None | Unset, data)

        skim = _parse_skim(d.pop("skim", UNSET))


        def _parse_fit_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        fit_mm = _parse_fit_mm(d.pop("fit_mm", UNSET))


        materials_model = cls(
            timber=timber,
            board=board,
            backboard=backboard,
            corner_bead=corner_bead,
            stop_bead=stop_bead,
            layers=layers,
            centres_mm=centres_mm,
            skim=skim,
            fit_mm=fit_mm,
        )

        return materials_model

