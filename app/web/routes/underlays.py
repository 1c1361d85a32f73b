"""Pictures to trace over, by HTTP: laid under a level, placed, taken away; a picture's bytes, and the pages of a PDF.

What lies under a level has an edition of its own, its ``ETag``; a change names the one it was made from, ``"0"``
where nothing lay there. A picture never leaves the machine, and is served as nothing but a picture.
"""

from __future__ import annotations

import asyncio
import hashlib
from typing import Annotated, Any

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import Response

from app.intake.picture.limits import MOST_BYTES, MOST_PAGES
from app.plan.model import Level
from app.plan.placement import Placement
from app.storage.troubles import PlanMissing
from app.storage.underlays import Picture, Underlay, UnderlayStore
from app.web.answers import LaidAnswer, PagesAnswer, UnderlayAnswer, described, file_body, of_type, refusals, said_body
from app.web.bodies import body_of
from app.web.entity_tags import is_known, revision_to_match, tag_of
from app.web.history_bodies import said_in
from app.web.picture_process import PictureReader
from app.web.routes.plans import PlanId
from app.web.routes.proof import LevelId
from app.web.serving import json_answer, store_of

router = APIRouter(tags=["underlays"])
PictureId = Annotated[str, Path(pattern="^[0-9a-f]{64}$", description="the picture's SHA-256")]
_PLACE = "/api/plans/{plan_id}/levels/{level_id}/underlay"
_SMALLER = "save the picture smaller"
_USUAL_WIDTH = 40.0  # ft, where there are no walls to go by


@router.get("/api/plans/{plan_id}/underlays", responses=described(200, list[UnderlayAnswer], "by level"))
def list_underlays(request: Request, plan_id: PlanId) -> Response:
    """List what lies under the levels of a plan."""
    return json_answer(underlays_of(request, plan_id))


@router.get(_PLACE, responses=described(200, UnderlayAnswer, "ETag is its edition") | refusals(404))
def read_underlay(request: Request, plan_id: PlanId, level_id: LevelId) -> Response:
    """Read what lies under a level."""
    return _answer(plan_id, _underlays(request).under(plan_id, level_id))


@router.post(
    _PLACE,
    status_code=201,
    responses=described(201, LaidAnswer, "kept and laid under the level") | refusals(404, 413, 415, 422, 503, 507),
    openapi_extra=file_body("image/png", "image/jpeg", "image/webp", "application/pdf"),
)
async def lay_underlay(
    request: Request,
    plan_id: PlanId,
    level_id: LevelId,
    name: Annotated[str, Query(max_length=400, description="the file's name, for people")] = "",
    page: Annotated[int, Query(ge=1, le=MOST_PAGES, description="which page of a PDF")] = 1,
) -> Response:
    """Lay a PNG, JPEG or WebP picture or a page of a PDF under a level, in place of what lies there.

    It is made anew from its pixels: nothing else that the file says is kept. A first placement is made up.
    """
    level = await asyncio.to_thread(_level, request, plan_id, level_id)
    source = await body_of(request, MOST_BYTES, _SMALLER)
    known, content = await _reader(request).picture(source, page)
    picture = Picture(
        hashlib.sha256(content).hexdigest(),
        _fit_name(name),
        known["media"],
        known["width"],
        known["height"],
        known["per_inch"],
    )
    laid = await asyncio.to_thread(
        _underlays(request).lay, plan_id, level_id, picture, content, _first_placement(picture, level)
    )
    return _answer(plan_id, laid, 201, read=known["read"])


@router.put(
    _PLACE,
    responses=described(200, UnderlayAnswer, "placed anew") | refusals(404, 412, 413, 415, 422, 428, 507),
    openapi_extra=said_body("Placement"),
)
async def place_underlay(request: Request, plan_id: PlanId, level_id: LevelId) -> Response:
    """Place a kept picture: its scale, origin, turn, fade, lock; one that was taken away comes back."""
    made_from = revision_to_match(request)
    placement = await said_in(request, Placement)
    await asyncio.to_thread(_level, request, plan_id, level_id)
    place = _underlays(request).place
    return _answer(plan_id, await asyncio.to_thread(place, plan_id, level_id, placement, made_from))


@router.delete(_PLACE, status_code=204, responses=refusals(404, 412, 428))
def take_underlay_away(request: Request, plan_id: PlanId, level_id: LevelId) -> Response:
    """Leave a level without a picture; placing it again brings it back."""
    _underlays(request).take_away(plan_id, level_id, revision_to_match(request))
    return Response(status_code=204)


@router.get(
    "/api/plans/{plan_id}/pictures/{picture_id}", responses=of_type("image/*", "the picture") | refusals(404, 422)
)
def send_picture(request: Request, plan_id: PlanId, picture_id: PictureId) -> Response:
    """Send a picture of a plan; 304 where If-None-Match names it."""
    headers = {
        "ETag": f'"{picture_id}"',
        "Cache-Control": "private, no-cache",
        "Content-Security-Policy": "default-src 'none'; sandbox; frame-ancestors 'none'",
        "Content-Disposition": "inline",
    }
    picture, content = _underlays(request).content(plan_id, picture_id)
    if is_known(request, headers["ETag"]):
        return Response(status_code=304, headers=headers)
    return Response(content, media_type=picture.media, headers=headers)


@router.post(
    "/api/pages",
    responses=described(200, PagesAnswer, "its pages, the first with small pictures") | refusals(413, 415, 422, 503),
    openapi_extra=file_body("application/pdf"),
)
async def tell_pages(request: Request) -> Response:
    """Tell the pages of a PDF, to choose one by; nothing is stored."""
    return json_answer({"pages": await _reader(request).pages(await body_of(request, MOST_BYTES, _SMALLER))})


def underlays_of(request: Request, plan_id: str) -> list[dict[str, Any]]:
    """What lies under the levels of a plan, as it is told."""
    return [_value(plan_id, each) for each in _underlays(request).of(plan_id)]


def _underlays(request: Request) -> UnderlayStore:
    return UnderlayStore(store_of(request).engine)


def _reader(request: Request) -> PictureReader:
    reader: PictureReader = request.app.state.pictures
    return reader


def _level(request: Request, plan_id: str, level_id: str) -> Level:
    plan = store_of(request).newest(plan_id).plan()
    level = plan.level(level_id)
    if level is None:
        known = ", ".join(each.id for each in plan.levels)
        raise PlanMissing(f"the plan has no level {level_id[:60]!r}; it has {known}")
    return level


def _fit_name(name: str) -> str:
    """The file's name alone, of letters that show."""
    plain = "".join(letter for letter in name.replace("\\", "/").rpartition("/")[2] if letter.isprintable())
    return plain.strip()[:120] or "picture"


def _first_placement(picture: Picture, level: Level) -> Placement:
    """As broad as the walls that are drawn, over their middle; else of a usual breadth about the origin."""
    ends = [end for wall in level.walls for end in (wall.a, wall.b)] or [(0.0, 0.0)]
    (west, east), (south, north) = ((min(axis), max(axis)) for axis in zip(*ends, strict=True))
    scale = max(east - west, _USUAL_WIDTH) / picture.width
    middle = ((west + east) / 2, (south + north) / 2) if level.walls else (_USUAL_WIDTH / 2, 15.0)
    origin = (middle[0] - scale * picture.width / 2, middle[1] + scale * picture.height / 2)
    clipped = tuple(max(-10_000.0, min(10_000.0, place)) for place in origin)
    return Placement(picture=picture.digest, scale=max(1e-5, min(100.0, scale)), origin=(clipped[0], clipped[1]))


def _value(plan_id: str, underlay: Underlay) -> dict[str, Any]:
    picture = {key: value for key, value in vars(underlay.picture).items() if key != "digest"}
    return {
        "level": underlay.level,
        "edition": underlay.edition,
        "placement": underlay.placement.model_dump(mode="json"),
        "address": f"/api/plans/{plan_id}/pictures/{underlay.picture.digest}",
        **picture,
    }


def _answer(plan_id: str, underlay: Underlay, status: int = 200, **more: object) -> Response:
    answer = json_answer(_value(plan_id, underlay) | more, status)
    answer.headers["ETag"] = tag_of(underlay.edition)
    if status == 201:
        answer.headers["Location"] = _PLACE.format(plan_id=plan_id, level_id=underlay.level)
    return answer
