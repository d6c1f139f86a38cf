from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.delivery_body import DeliveryBody
from ...models.problem import Problem
from ...models.receive_delivery_response_201 import ReceiveDeliveryResponse201
from ...types import UNSET, Unset
from typing import cast



def _get_kwargs(
    order_id: str,
    *,
    body: DeliveryBody,
    if_match: None | str | Unset = UNSET,
    idempotency_key: None | str | Unset = UNSET,

) -> dict[str, Any]:
    headers: dict[str, Any] = {}
    if not isinstance(if_match, Unset):
        headers["if-match"] = if_match

    if not isinstance(idempotency_key, Unset):
        headers["idempotency-key"] = idempotency_key



    

    

    _kwargs: dict[str, Any] = {
        "method": "post",
        "url": "/v1/orders/{order_id}/deliveries".format(order_id=quote(str(order_id), safe=""),),
    }

    _kwargs["json"] = body.to_dict()

    headers["Content-Type"] = "application/json"

    _kwargs["headers"] = headers
    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Problem | ReceiveDeliveryResponse201 | None:
    if response.status_code == 201:
        response_201 = ReceiveDeliveryResponse201.from_dict(response.json())



        return response_201

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

    if response.status_code == 412:
        response_412 = Problem.from_dict(response.json())



        return response_412

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


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[Problem | ReceiveDeliveryResponse201]:
    return Response(
        status_code=HTTPStatus(response.status_code),
        content=response.content,
        headers=response.headers,
        parsed=_parse_response(client=client, response=response),
    )


def sync_detailed(
    order_id: str,
    *,
    client: AuthenticatedClient,
    body: DeliveryBody,
    if_match: None | str | Unset = UNSET,
    idempotency_key: None | str | Unset = UNSET,

) -> Response[Problem | ReceiveDeliveryResponse201]:
    """ 
    Args:
        order_id (str):
        if_match (None | str | Unset):
        idempotency_key (None | str | Unset):
        body (DeliveryBody):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[Problem | ReceiveDeliveryResponse201]
     """


    kwargs = _get_kwargs(
        order_id=order_id,
body=body,
if_match=if_match,
idempotency_key=idempotency_key,

    )

    response = client.get_httpx_client().request(
        **kwargs,
    )

    return _build_response(client=client, response=response)

def sync(
    order_id: str,
    *,
    client: AuthenticatedClient,
    body: DeliveryBody,
    if_match: None | str | Unset = UNSET,
    idempotency_key: None | str | Unset = UNSET,

) -> Problem | ReceiveDeliveryResponse201 | None:
    """ 
    Args:
        order_id (str):
        if_match (None | str | Unset):
        idempotency_key (None | str | Unset):
        body (DeliveryBody):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Problem | ReceiveDeliveryResponse201
     """


    return sync_detailed(
        order_id=order_id,
client=client,
body=body,
if_match=if_match,
idempotency_key=idempotency_key,

    ).parsed

async def asyncio_detailed(
    order_id: str,
    *,
    client: AuthenticatedClient,
    body: DeliveryBody,
    if_match: None | str | Unset = UNSET,
    idempotency_key: None | str | Unset = UNSET,

) -> Response[Problem | ReceiveDeliveryResponse201]:
    """ 
    Args:
        order_id (str):
        if_match (None | str | Unset):
        idempotency_key (None | str | Unset):
        body (DeliveryBody):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[Problem | ReceiveDeliveryResponse201]
     """


    kwargs = _get_kwargs(
        order_id=order_id,
body=body,
if_match=if_match,
idempotency_key=idempotency_key,

    )

    response = await client.get_async_httpx_client().request(
        **kwargs
    )

    return _build_response(client=client, response=response)

async def asyncio(
    order_id: str,
    *,
    client: AuthenticatedClient,
    body: DeliveryBody,
    if_match: None | str | Unset = UNSET,
    idempotency_key: None | str | Unset = UNSET,

) -> Problem | ReceiveDeliveryResponse201 | None:
    """ 
    Args:
        order_id (str):
        if_match (None | str | Unset):
        idempotency_key (None | str | Unset):
        body (DeliveryBody):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Problem | ReceiveDeliveryResponse201
     """


    return (await asyncio_detailed(
        order_id=order_id,
client=client,
body=body,
if_match=if_match,
idempotency_key=idempotency_key,

    )).parsed
