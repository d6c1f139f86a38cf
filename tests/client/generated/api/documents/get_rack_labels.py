from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.problem import Problem
from ...types import File, FileTypes
from ...types import UNSET, Unset
from io import BytesIO
from typing import cast



def _get_kwargs(
    *,
    first_label: int | Unset = 1,
    offcut: list[str] | None | Unset = UNSET,
    plan: None | str | Unset = UNSET,
    columns: int | None | Unset = UNSET,
    rows: int | None | Unset = UNSET,
    label_width_mm: float | None | Unset = UNSET,
    label_height_mm: float | None | Unset = UNSET,
    left_mm: float | None | Unset = UNSET,
    top_mm: float | None | Unset = UNSET,
    gap_across_mm: float | None | Unset = UNSET,
    gap_down_mm: float | None | Unset = UNSET,
    page_width_mm: float | None | Unset = UNSET,
    page_height_mm: float | None | Unset = UNSET,

) -> dict[str, Any]:
    

    

    params: dict[str, Any] = {}

    params["first_label"] = first_label

    json_offcut: list[str] | None | Unset
    if isinstance(offcut, Unset):
        json_offcut = UNSET
    elif isinstance(offcut, list):
        json_offcut = offcut


    else:
        json_offcut = offcut
    params["offcut"] = json_offcut

    json_plan: None | str | Unset
    if isinstance(plan, Unset):
        json_plan = UNSET
    else:
        json_plan = plan
    params["plan"] = json_plan

    json_columns: int | None | Unset
    if isinstance(columns, Unset):
        json_columns = UNSET
    else:
        json_columns = columns
    params["columns"] = json_columns

    json_rows: int | None | Unset
    if isinstance(rows, Unset):
        json_rows = UNSET
    else:
        json_rows = rows
    params["rows"] = json_rows

    json_label_width_mm: float | None | Unset
    if isinstance(label_width_mm, Unset):
        json_label_width_mm = UNSET
    else:
        json_label_width_mm = label_width_mm
    params["label_width_mm"] = json_label_width_mm

    json_label_height_mm: float | None | Unset
    if isinstance(label_height_mm, Unset):
        json_label_height_mm = UNSET
    else:
        json_label_height_mm = label_height_mm
    params["label_height_mm"] = json_label_height_mm

    json_left_mm: float | None | Unset
    if isinstance(left_mm, Unset):
        json_left_mm = UNSET
    else:
        json_left_mm = left_mm
    params["left_mm"] = json_left_mm

    json_top_mm: float | None | Unset
    if isinstance(top_mm, Unset):
        json_top_mm = UNSET
    else:
        json_top_mm = top_mm
    params["top_mm"] = json_top_mm

    json_gap_across_mm: float | None | Unset
    if isinstance(gap_across_mm, Unset):
        json_gap_across_mm = UNSET
    else:
        json_gap_across_mm = gap_across_mm
    params["gap_across_mm"] = json_gap_across_mm

    json_gap_down_mm: float | None | Unset
    if isinstance(gap_down_mm, Unset):
        json_gap_down_mm = UNSET
    else:
        json_gap_down_mm = gap_down_mm
    params["gap_down_mm"] = json_gap_down_mm

    json_page_width_mm: float | None | Unset
    if isinstance(page_width_mm, Unset):
        json_page_width_mm = UNSET
    else:
        json_page_width_mm = page_width_mm
    params["page_width_mm"] = json_page_width_mm

    json_page_height_mm: float | None | Unset
    if isinstance(page_height_mm, Unset):
        json_page_height_mm = UNSET
    else:
        json_page_height_mm = page_height_mm
    params["page_height_mm"] = json_page_height_mm


    params = {k: v for k, v in params.items() if v is not UNSET and v is not None}


    _kwargs: dict[str, Any] = {
        "method": "get",
        "url": "/v1/rack/labels.pdf",
        "params": params,
    }


    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> File | Problem | None:
    if response.status_code == 200:
        response_200 = File(
             payload = BytesIO(response.content)
        )



        return response_200

    if response.status_code == 401:
        response_401 = Problem.from_dict(response.json())



        return response_401

    if response.status_code == 403:
        response_403 = Problem.from_dict(response.json())



        return response_403

    if response.status_code == 404:
        response_404 = Problem.from_dict(response.json())



        return response_404

    if response.status_code == 422:
        response_422 = Problem.from_dict(response.json())



        return response_422

    if response.status_code == 429:
        response_429 = Problem.from_dict(response.json())



        return response_429

    if response.status_code == 503:
        response_503 = Problem.from_dict(response.json())



        return response_503

    if client.raise_on_unexpected_status:
        raise errors.UnexpectedStatus(response.status_code, response.content)
    else:
        return None


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[File | Problem]:
    return Response(
        status_code=HTTPStatus(response.status_code),
        content=response.content,
        headers=response.headers,
        parsed=_parse_response(client=client, response=response),
    )


def sync_detailed(
    *,
    client: AuthenticatedClient,
    first_label: int | Unset = 1,
    offcut: list[str] | None | Unset = UNSET,
    plan: None | str | Unset = UNSET,
    columns: int | None | Unset = UNSET,
    rows: int | None | Unset = UNSET,
    label_width_mm: float | None | Unset = UNSET,
    label_height_mm: float | None | Unset = UNSET,
    left_mm: float | None | Unset = UNSET,
    top_mm: float | None | Unset = UNSET,
    gap_across_mm: float | None | Unset = UNSET,
    gap_down_mm: float | None | Unset = UNSET,
    page_width_mm: float | None | Unset = UNSET,
    page_height_mm: float | None | Unset = UNSET,

) -> Response[File | Problem]:
    """ 
    Args:
        first_label (int | Unset):  Default: 1.
        offcut (list[str] | None | Unset):
        plan (None | str | Unset):
        columns (int | None | Unset):
        rows (int | None | Unset):
        label_width_mm (float | None | Unset):
        label_height_mm (float | None | Unset):
        left_mm (float | None | Unset):
        top_mm (float | None | Unset):
        gap_across_mm (float | None | Unset):
        gap_down_mm (float | None | Unset):
        page_width_mm (float | None | Unset):
        page_height_mm (float | None | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[File | Problem]
     """


    kwargs = _get_kwargs(
        first_label=first_label,
offcut=offcut,
plan=plan,
columns=columns,
rows=rows,
label_width_mm=label_width_mm,
label_height_mm=label_height_mm,
left_mm=left_mm,
top_mm=top_mm,
gap_across_mm=gap_across_mm,
gap_down_mm=gap_down_mm,
page_width_mm=page_width_mm,
page_height_mm=page_height_mm,

    )

    response = client.get_httpx_client().request(
        **kwargs,
    )

    return _build_response(client=client, response=response)

def sync(
    *,
    client: AuthenticatedClient,
    first_label: int | Unset = 1,
    offcut: list[str] | None | Unset = UNSET,
    plan: None | str | Unset = UNSET,
    columns: int | None | Unset = UNSET,
    rows: int | None | Unset = UNSET,
    label_width_mm: float | None | Unset = UNSET,
    label_height_mm: float | None | Unset = UNSET,
    left_mm: float | None | Unset = UNSET,
    top_mm: float | None | Unset = UNSET,
    gap_across_mm: float | None | Unset = UNSET,
    gap_down_mm: float | None | Unset = UNSET,
    page_width_mm: float | None | Unset = UNSET,
    page_height_mm: float | None | Unset = UNSET,

) -> File | Problem | None:
    """ 
    Args:
        first_label (int | Unset):  Default: 1.
        offcut (list[str] | None | Unset):
        plan (None | str | Unset):
        columns (int | None | Unset):
        rows (int | None | Unset):
        label_width_mm (float | None | Unset):
        label_height_mm (float | None | Unset):
        left_mm (float | None | Unset):
        top_mm (float | None | Unset):
        gap_across_mm (float | None | Unset):
        gap_down_mm (float | None | Unset):
        page_width_mm (float | None | Unset):
        page_height_mm (float | None | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        File | Problem
     """


    return sync_detailed(
        client=client,
first_label=first_label,
offcut=offcut,
plan=plan,
columns=columns,
rows=rows,
label_width_mm=label_width_mm,
label_height_mm=label_height_mm,
left_mm=left_mm,
top_mm=top_mm,
gap_across_mm=gap_across_mm,
gap_down_mm=gap_down_mm,
page_width_mm=page_width_mm,
page_height_mm=page_height_mm,

    ).parsed

async def asyncio_detailed(
    *,
    client: AuthenticatedClient,
    first_label: int | Unset = 1,
    offcut: list[str] | None | Unset = UNSET,
    plan: None | str | Unset = UNSET,
    columns: int | None | Unset = UNSET,
    rows: int | None | Unset = UNSET,
    label_width_mm: float | None | Unset = UNSET,
    label_height_mm: float | None | Unset = UNSET,
    left_mm: float | None | Unset = UNSET,
    top_mm: float | None | Unset = UNSET,
    gap_across_mm: float | None | Unset = UNSET,
    gap_down_mm: float | None | Unset = UNSET,
    page_width_mm: float | None | Unset = UNSET,
    page_height_mm: float | None | Unset = UNSET,

) -> Response[File | Problem]:
    """ 
    Args:
        first_label (int | Unset):  Default: 1.
        offcut (list[str] | None | Unset):
        plan (None | str | Unset):
        columns (int | None | Unset):
        rows (int | None | Unset):
        label_width_mm (float | None | Unset):
        label_height_mm (float | None | Unset):
        left_mm (float | None | Unset):
        top_mm (float | None | Unset):
        gap_across_mm (float | None | Unset):
        gap_down_mm (float | None | Unset):
        page_width_mm (float | None | Unset):
        page_height_mm (float | None | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[File | Problem]
     """


    kwargs = _get_kwargs(
        first_label=first_label,
offcut=offcut,
plan=plan,
columns=columns,
rows=rows,
label_width_mm=label_width_mm,
label_height_mm=label_height_mm,
left_mm=left_mm,
top_mm=top_mm,
gap_across_mm=gap_across_mm,
gap_down_mm=gap_down_mm,
page_width_mm=page_width_mm,
page_height_mm=page_height_mm,

    )

    response = await client.get_async_httpx_client().request(
        **kwargs
    )

    return _build_response(client=client, response=response)

async def asyncio(
    *,
    client: AuthenticatedClient,
    first_label: int | Unset = 1,
    offcut: list[str] | None | Unset = UNSET,
    plan: None | str | Unset = UNSET,
    columns: int | None | Unset = UNSET,
    rows: int | None | Unset = UNSET,
    label_width_mm: float | None | Unset = UNSET,
    label_height_mm: float | None | Unset = UNSET,
    left_mm: float | None | Unset = UNSET,
    top_mm: float | None | Unset = UNSET,
    gap_across_mm: float | None | Unset = UNSET,
    gap_down_mm: float | None | Unset = UNSET,
    page_width_mm: float | None | Unset = UNSET,
    page_height_mm: float | None | Unset = UNSET,

) -> File | Problem | None:
    """ 
    Args:
        first_label (int | Unset):  Default: 1.
        offcut (list[str] | None | Unset):
        plan (None | str | Unset):
        columns (int | None | Unset):
        rows (int | None | Unset):
        label_width_mm (float | None | Unset):
        label_height_mm (float | None | Unset):
        left_mm (float | None | Unset):
        top_mm (float | None | Unset):
        gap_across_mm (float | None | Unset):
        gap_down_mm (float | None | Unset):
        page_width_mm (float | None | Unset):
        page_height_mm (float | None | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        File | Problem
     """


    return (await asyncio_detailed(
        client=client,
first_label=first_label,
offcut=offcut,
plan=plan,
columns=columns,
rows=rows,
label_width_mm=label_width_mm,
label_height_mm=label_height_mm,
left_mm=left_mm,
top_mm=top_mm,
gap_across_mm=gap_across_mm,
gap_down_mm=gap_down_mm,
page_width_mm=page_width_mm,
page_height_mm=page_height_mm,

    )).parsed
