"""Write a pack: every plan with all its revisions, and what is kept beside it, as one state of the store.

A revision that is damaged is left out and told; everything else goes in as it is kept, byte for byte.
"""

from __future__ import annotations

import hashlib
import zipfile
import zlib
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import IO, Any

from pydantic import BaseModel
from pydantic_core import from_json
from sqlalchemy import Connection, Engine, Row, select

from app.plan.letterhead import Stationery
from app.plan.placement import Placement
from app.storage import tables
from app.storage.engine import reading
from app.storage.pack import layout
from app.storage.plans import in_utc


@dataclass
class PackWritten:
    """What went in, and a line for each thing that could not."""

    plans: int = 0
    revisions: int = 0
    pictures: int = 0
    templates: int = 0
    left_out: list[str] = field(default_factory=list)


def write_pack(engine: Engine, out: IO[bytes], *, removed: bool = True) -> PackWritten:
    """Write a pack into an open file; ``removed`` says whether removed plans go in too."""
    told = PackWritten()
    with reading(engine) as connection, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as pack:
        rows = tables.plans.c
        chosen = select(tables.plans).order_by(rows.id)
        found = connection.execute(chosen if removed else chosen.where(rows.removed.is_(None))).all()
        packed = [plan_id for row in found if (plan_id := _plan(connection, pack, row, told)) is not None]
        templates = _templates(connection, pack)
        told.plans, told.templates = len(packed), len(templates)
        manifest = layout.Manifest(
            format="studbay-pack/1", made=datetime.now(UTC), plans=tuple(packed), templates=tuple(templates)
        )
        _write(pack, layout.MANIFEST, manifest)
    return told


def _plan(connection: Connection, pack: zipfile.ZipFile, row: Row[Any], told: PackWritten) -> str | None:
    """Write a plan with all that belongs to it; its id, or None where nothing of it can be read."""
    revisions = _revisions(connection, pack, row.id, told)
    if not revisions:
        return None
    numbers = {each.number for each in revisions}
    packed = layout.PackedPlan(
        id=row.id,
        name=row.name,
        revision=max(numbers),
        updated=in_utc(row.updated),
        removed=row.removed and in_utc(row.removed),
        revisions=tuple(revisions),
        history=tuple(each for each in _history(connection, row.id) if each.number in numbers),
        as_built=tuple(_records(connection, pack, row.id, numbers, told)),
        pictures=tuple(_pictures(connection, pack, row.id, told)),
        underlays=tuple(_underlays(connection, row.id)),
        letterhead=_letterhead(connection, row.id),
    )
    lying = {each.digest for each in packed.pictures}
    kept = tuple(each for each in packed.underlays if each.placement.picture in lying)
    _write(pack, layout.plan_file(row.id), packed.model_copy(update={"underlays": kept}))
    return str(row.id)


def _revisions(
    connection: Connection, pack: zipfile.ZipFile, plan_id: str, told: PackWritten
) -> list[layout.PackedRevision]:
    rows = tables.revisions.c
    packed = []
    for row in connection.execute(select(tables.revisions).where(rows.plan_id == plan_id).order_by(rows.number)):
        content = _whole(row.content, row.digest)
        if content is None:
            told.left_out.append(f"revision {row.number} of {row.name} ({plan_id}) is damaged and was left out")
            continue
        pack.writestr(f"plans/{plan_id}/revisions/{row.number}.json", content)
        packed.append(
            layout.PackedRevision(
                number=row.number, name=row.name, saved=in_utc(row.saved), things=row.things, digest=row.digest
            )
        )
        told.revisions += 1
    return packed


def _history(connection: Connection, plan_id: str) -> list[layout.PackedEntry]:
    rows = tables.history.c
    found = connection.execute(select(tables.history).where(rows.plan_id == plan_id).order_by(rows.turn)).mappings()
    return [
        layout.PackedEntry(**{**_without_plan(row), "recorded": in_utc(row["recorded"])})  # type: ignore[arg-type]
        for row in found
    ]


def _records(
    connection: Connection, pack: zipfile.ZipFile, plan_id: str, numbers: set[int], told: PackWritten
) -> list[layout.PackedRecord]:
    rows = tables.as_built.c
    packed = []
    for row in connection.execute(select(tables.as_built).where(rows.plan_id == plan_id).order_by(rows.edition)):
        content = _whole(row.content, row.digest)
        if content is None or row.number not in numbers:
            why = "is damaged" if content is None else f"speaks of revision {row.number}"
            told.left_out.append(f"edition {row.edition} of what was built of {plan_id} {why} and was left out")
            continue
        pack.writestr(f"plans/{plan_id}/as-built/{row.edition}.json", content)
        packed.append(
            layout.PackedRecord(
                edition=row.edition,
                number=row.number,
                saved=in_utc(row.saved),
                entries=row.entries,
                digest=row.digest,
            )
        )
    return packed


def _pictures(
    connection: Connection, pack: zipfile.ZipFile, plan_id: str, told: PackWritten
) -> list[layout.PackedPicture]:
    """The pictures that lie under a level; those laid aside stay behind."""
    rows, laid = tables.pictures.c, tables.underlays.c
    lying = select(laid.digest).where(laid.plan_id == plan_id, laid.digest.is_not(None))
    chosen = select(tables.pictures).where(rows.plan_id == plan_id, rows.digest.in_(lying)).order_by(rows.digest)
    packed = []
    for row in connection.execute(chosen).mappings():
        if hashlib.sha256(row["content"]).hexdigest() != row["digest"]:
            told.left_out.append(f"the picture {row['name']} of {plan_id} is damaged and was left out")
            continue
        pack.writestr(f"plans/{plan_id}/pictures/{row['digest']}", row["content"], zipfile.ZIP_STORED)
        known = {key: value for key, value in _without_plan(row).items() if key != "content"}
        packed.append(layout.PackedPicture(**{**known, "kept": in_utc(row["kept"])}))  # type: ignore[arg-type]
        told.pictures += 1
    return packed


def _underlays(connection: Connection, plan_id: str) -> list[layout.PackedUnderlay]:
    rows = tables.underlays.c
    found = connection.execute(
        select(rows.level, rows.edition, rows.placement)
        .where(rows.plan_id == plan_id, rows.digest.is_not(None))
        .order_by(rows.level)
    )
    return [
        layout.PackedUnderlay(level=level, edition=edition, placement=Placement.model_validate_json(placement))
        for level, edition, placement in found
    ]


def _letterhead(connection: Connection, plan_id: str) -> layout.PackedLetterhead | None:
    rows = tables.letterheads.c
    row = connection.execute(select(rows.edition, rows.content).where(rows.plan_id == plan_id)).one_or_none()
    if row is None:
        return None
    return layout.PackedLetterhead(edition=row.edition, stationery=Stationery.model_validate_json(row.content))


def _templates(connection: Connection, pack: zipfile.ZipFile) -> Sequence[str]:
    rows = tables.templates.c
    ids = []
    for row in connection.execute(select(tables.templates).order_by(rows.id)):
        packed = layout.PackedTemplate(
            id=row.id, edition=row.edition, saved=in_utc(row.saved), template=from_json(row.content)
        )
        _write(pack, layout.template_file(row.id), packed)
        ids.append(row.id)
    return ids


def _whole(kept: bytes, digest: str) -> bytes | None:
    """The inflated content where its checksum confirms it."""
    try:
        content = zlib.decompress(kept)
    except zlib.error:
        return None
    return content if hashlib.sha256(content).hexdigest() == digest else None


def _without_plan(row: Any) -> dict[str, object]:
    return {key: value for key, value in row.items() if key != "plan_id"}


def _write(pack: zipfile.ZipFile, name: str, part: BaseModel) -> None:
    pack.writestr(name, part.model_dump_json(indent=1))
