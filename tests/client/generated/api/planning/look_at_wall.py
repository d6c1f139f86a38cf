from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.frame import Frame
from ...models.look_at_wall_response_200 import LookAtWallResponse200
from ...models.look_at_wall_view_type_0_item import LookAtWallViewType0Item
from ...models.problem import Problem
from ...types import UNSET, Unset
from typing import cast



def _get_kwargs(
    *,
    body: Frame,
    view: list[LookAtWallViewType0Item] | None | Unset = UNSET,

) -> dict[str, Any]:
    headers: dict[str, Any] = {}


    

    params: dict[str, Any] = {}

    json_view: list[str] | None | Unset
    if isinstance(view, Unset):
        json_view = UNSET
    elif isinstance(view, list):
        json_view = []
        for view_type_0_item_data in view:
            view_type_0_item = view_type_0_item_data.value
            json_view.append(view_type_0_item)


    else:
        json_view = view
    params["view"] = json_view


    params = {k: v for k, v in params.items() if v is not UNSET and v is not None}


    _kwargs: dict[str, Any] = {
        "method": "post",
        "url": "/v1/frames",
        "params": params,
    }

    _kwargs["json"] = body.to_dict()

    headers["Content-Type"] = "application/json"

    _kwargs["headers"] = headers
    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> LookAtWallResponse200 | Problem | None:
    if response.status_code == 200:
        response_200 = LookAtWallResponse200.from_dict(response.json())



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

    if response.status_code == 409:
        response_409 = Problem.from_dict(response.json())



        return response_409

    if response.status_code == 413:
        response_413 = Problem.from_dict(response.json())



        return response_413

    if response.status_code == 422:
        response_422 = Problem.from_dict(response.json())



        return response_422

    if response.status_code == 429:
        response_429 = Problem.from_dict(response.json())



        return response_429

    if response.status_code == 500:
        response_500 = Problem.from_dict(response.json())



        return response_500

    if response.status_code == 503:
        response_503 = Problem.from_dict(response.json())



        return response_503

    if client.raise_on_unexpected_status:
        raise errors.UnexpectedStatus(response.status_code, response.content)
    else:
        return None


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[LookAtWallResponse200 | Problem]:
    return Response(
        status_code=HTTPStatus(response.status_code),
        content=response.content,
        headers=response.headers,
        parsed=_parse_response(client=client, response=response),
    )


def sync_detailed(
    *,
    client: AuthenticatedClient,
    body: Frame,
    view: list[LookAtWallViewType0Item] | None | Unset = UNSET,

) -> Response[LookAtWallResponse200 | Problem]:
    """ 
    Args:
        view (list[LookAtWallViewType0Item] | None | Unset):
        body (Frame):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[LookAtWallResponse200 | Problem]
     """


    kwargs = _get_kwargs(
        body=body,
view=view,

    )

    response = client.get_httpx_client().request(
        **kwargs,
    )

    return _build_response(client=client, response=response)

def sync(
    *,
    client: AuthenticatedClient,
    body: Frame,
    view: list[LookAtWallViewType0Item] | None | Unset = UNSET,

) -> LookAtWallResponse200 | Problem | None:
    """ 
    Args:
        view (list[LookAtWallViewType0Item] | None | Unset):
        body (Frame):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        LookAtWallResponse200 | Problem
     """


    return sync_detailed(
        client=client,
body=body,
view=view,

    ).parsed

async def asyncio_detailed(
    *,
    client: AuthenticatedClient,
    body: Frame,
    view: list[LookAtWallViewType0Item] | None | Unset = UNSET,

) -> Response[LookAtWallResponse200 | Problem]:
    """ 
    Args:
        view (list[LookAtWallViewType0Item] | None | Unset):
        body (Frame):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[LookAtWallResponse200 | Problem]
     """


    kwargs = _get_kwargs(
        body=body,
view=view,

    )

    response = await client.get_async_httpx_client().request(
        **kwargs
    )

    return _build_response(client=client, response=response)

async def asyncio(
    *,
    client: AuthenticatedClient,
    body: Frame,
    view: list[LookAtWallViewType0Item] | None | Unset = UNSET,

) -> LookAtWallResponse200 | Problem | None:
    """ 
    Args:
        view (list[LookAtWallViewType0Item] | None | Unset):
        body (Frame):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        LookAtWallResponse200 | Problem
     """


    return (await asyncio_detailed(
        client=client,
body=body,
view=view,

    )).parsed
