"""Read what a caller sends: bytes with a limit, then JSON by the plan's own reader (no key twice, no NaN).

A body over the limit is not kept; a little of it is read on, so that the caller comes to read the refusal.
"""

from __future__ import annotations

import asyncio
import io
from typing import IO, Any

from fastapi import Request
from starlette.requests import ClientDisconnect

from app.plan.faults import Fault
from app.plan.reading import LARGEST_FILE, json_value
from app.web.problems import Refusal

_READ_ON = 4  # times the limit
_SECONDS = 60.0
_SLOWEST = 2**20  # bytes a second, of bodies that are large
_SMALL = 2**15  # bytes that are read sooner than a thread takes them over
_OTHER_THAN_JSON = ("application/x-www-form-urlencoded", "multipart/", "text/", "application/xml", "image/", "audio/")


async def body_of(request: Request, limit: int = LARGEST_FILE, mend: str = "split the plan or shorten it") -> bytes:
    """The body's bytes; refused with 413 when longer than ``limit``, with 408 when it does not arrive in time."""
    kept = io.BytesIO()
    await body_into(request, kept, limit, mend)
    return kept.getvalue()


async def body_into(request: Request, file: IO[bytes], limit: int, mend: str) -> None:
    """Write the body into a file; refused as ``body_of`` says, a large body has more time."""
    declared = request.headers.get("content-length", "")
    if declared.isdigit() and int(declared) > _READ_ON * limit:
        raise _too_large(limit, mend)
    read = 0
    try:
        async with asyncio.timeout(_SECONDS + limit / _SLOWEST):
            async for piece in request.stream():
                read += len(piece)
                if read <= limit:
                    file.write(piece)
                elif read > min(_READ_ON * limit, limit + LARGEST_FILE):
                    break
    except TimeoutError:
        raise Refusal(408, "it did not arrive in time; send it again") from None
    except ClientDisconnect:
        raise Refusal(400, "the caller left before all had arrived") from None
    if read > limit:
        raise _too_large(limit, mend)


async def json_of(request: Request) -> Any:
    """The JSON value of the body; refused with 415 where it says that it is something else."""
    refuse_other_than_json(request)
    source = await body_of(request)
    return json_value(source) if len(source) < _SMALL else await asyncio.to_thread(json_value, source)


def refuse_other_than_json(request: Request) -> None:
    """Refuse with 415 a body that says it is something else than JSON; one that says nothing is taken for it."""
    said = request.headers.get("content-type", "").lower()
    if said.startswith(_OTHER_THAN_JSON):
        raise Refusal(415, f"{said.split(';')[0]} is not read here; send JSON with Content-Type: application/json")


def _too_large(limit: int, mend: str) -> Refusal:
    words = f"the body is over {limit // 2**20} MiB; {mend}"
    return Refusal(413, words, [Fault("", words)], headers={"Connection": "close"})
