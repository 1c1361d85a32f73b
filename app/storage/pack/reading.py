"""Read a pack: all of it is judged before anything is kept, within limits, and no file is unpacked to disk.

A name that is no part of a pack, a checksum that is not met, a plan that cannot be used: the whole pack is refused.
"""

from __future__ import annotations

import hashlib
import io
import zipfile
import zlib
from collections.abc import Callable
from dataclasses import dataclass
from typing import IO, Any, TypeVar

from PIL import Image
from pydantic import BaseModel, ValidationError

from app.plan.as_built import read_as_built
from app.plan.faults import PlanRefused
from app.plan.reading import LARGEST_FILE, faults_of, json_value, read_plan
from app.plan.template import Template, template_from
from app.storage.pack import layout
from app.storage.troubles import PackRefused

MOST_BYTES = 2**30  # of the zip file
MOST_UNPACKED = 4 * 2**30  # of all that is in it
MOST_ENTRIES = 200_000
LARGEST_PICTURE = 64 * 2**20
_MOST_RATIO, _RATIO_FROM = 300, 2**20  # deflated so tightly, a file that large is made to burst
_MOST_PIXELS = 30_000_000

_Part = TypeVar("_Part", bound=BaseModel)


@dataclass(frozen=True)
class Pack:
    """A pack that was judged; contents are read from the file when they are asked for."""

    manifest: layout.Manifest
    plans: tuple[layout.PackedPlan, ...]
    templates: tuple[tuple[layout.PackedTemplate, Template], ...]
    _archive: zipfile.ZipFile

    def content(self, name: str) -> bytes:
        """A file of the pack."""
        return _read(self._archive, name)


def read_pack(file: IO[bytes]) -> Pack:
    """The pack in an open file; raises ``PackRefused`` with one line that says what is wrong."""
    archive = _opened(file)
    manifest = _part(archive, layout.MANIFEST, layout.Manifest)
    plans = tuple(_plan(archive, plan_id) for plan_id in manifest.plans)
    templates = tuple(_template(archive, template_id) for template_id in manifest.templates)
    named = {layout.MANIFEST, *(layout.template_file(each) for each in manifest.templates)}
    named = named.union(*(plan.files() for plan in plans))
    _refuse_twice([*manifest.plans], "plan")
    _refuse_twice([*manifest.templates], "template")
    if extra := sorted(set(archive.namelist()) - named):
        raise PackRefused(f"{_shown(extra[0])} is in the pack, but nothing in it speaks of it; the pack was changed")
    for plan in plans:
        _judge_contents(archive, plan)
    return Pack(manifest, plans, templates, archive)


def _opened(file: IO[bytes]) -> zipfile.ZipFile:
    if file.seek(0, io.SEEK_END) > MOST_BYTES:
        raise PackRefused(f"the file is over {MOST_BYTES // 2**20} MiB; export fewer plans at a time")
    try:
        archive = zipfile.ZipFile(file)
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError, EOFError) as error:
        raise PackRefused(f"this is no pack, or it is damaged ({error}); choose a file that Studbay exported") from None
    entries = archive.infolist()
    if len(entries) > MOST_ENTRIES:
        raise PackRefused(f"the pack holds {len(entries)} files; at most {MOST_ENTRIES} are read")
    if sum(entry.file_size for entry in entries) > MOST_UNPACKED:
        raise PackRefused(f"the pack would unpack to more than {MOST_UNPACKED // 2**30} GiB")
    _refuse_twice([entry.filename for entry in entries], "file")
    for entry in entries:
        _judge_entry(entry)
    return archive


def _judge_entry(entry: zipfile.ZipInfo) -> None:
    name = _shown(entry.filename)
    if not layout.FIT_NAME.fullmatch(entry.filename):
        raise PackRefused(f"{name} is no part of a pack; choose a file that Studbay exported")
    if entry.flag_bits & 1:
        raise PackRefused(f"{name} is locked by a password; export without one")
    if entry.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        raise PackRefused(f"{name} is packed in a way that is not read")
    most = LARGEST_PICTURE if "/pictures/" in entry.filename else LARGEST_FILE
    if entry.file_size > most:
        raise PackRefused(f"{name} is over {most // 2**20} MiB")
    if entry.file_size > _RATIO_FROM and entry.file_size > _MOST_RATIO * max(1, entry.compress_size):
        raise PackRefused(f"{name} unpacks to {entry.file_size // max(1, entry.compress_size)} times its size")


def _plan(archive: zipfile.ZipFile, plan_id: str) -> layout.PackedPlan:
    name = layout.plan_file(plan_id)
    plan = _part(archive, name, layout.PackedPlan)
    digests = {each.number: each.digest for each in plan.revisions}
    if plan.id != plan_id:
        raise PackRefused(f"{name}: speaks of the plan {plan.id}; the pack was changed")
    if plan.revision != max(digests):
        raise PackRefused(f"{name}: revision {plan.revision} is said to be in force, but is not the newest")
    for entry in plan.history:
        if digests.get(entry.number) != entry.digest:
            raise PackRefused(f"{name}: the history speaks of another revision {entry.number} than the pack has")
    if any(record.number not in digests for record in plan.as_built):
        raise PackRefused(f"{name}: something was built of a revision that the pack has not")
    pictures = {each.digest for each in plan.pictures}
    if any(underlay.placement.picture not in pictures for underlay in plan.underlays):
        raise PackRefused(f"{name}: a picture under a level is not in the pack")
    for what, keys in (
        ("revision", [each.number for each in plan.revisions]),
        ("entry of the history", [each.turn for each in plan.history]),
        ("edition of what was built", [each.edition for each in plan.as_built]),
        ("picture", [each.digest for each in plan.pictures]),
        ("underlay", [each.level for each in plan.underlays]),
    ):
        _refuse_twice(keys, f"{what} of {name}")
    return plan


def _template(archive: zipfile.ZipFile, template_id: str) -> tuple[layout.PackedTemplate, Template]:
    name = layout.template_file(template_id)
    packed = _part(archive, name, layout.PackedTemplate)
    if packed.id != template_id:
        raise PackRefused(f"{name}: speaks of the template {packed.id}; the pack was changed")
    return packed, _judged(name, template_from, packed.template)


def _judge_contents(archive: zipfile.ZipFile, plan: layout.PackedPlan) -> None:
    seen: set[str] = set()
    for revision in plan.revisions:
        name = plan.revision_file(revision.number)
        content = _confirmed(archive, name, revision.digest)
        if revision.digest not in seen:
            seen.add(revision.digest)
            read = _judged(name, read_plan, content)
            if read.name != revision.name:
                raise PackRefused(f"{name}: the plan is named {_shown(read.name)}, but {_shown(revision.name)} is said")
    for record in plan.as_built:
        name = plan.record_file(record.edition)
        _judged(name, read_as_built, _confirmed(archive, name, record.digest))
    for picture in plan.pictures:
        name = plan.picture_file(picture.digest)
        _judge_picture(name, picture, _confirmed(archive, name, picture.digest))


def _judge_picture(name: str, picture: layout.PackedPicture, content: bytes) -> None:
    """By its header alone: the browser is the one that decodes it."""
    try:
        with Image.open(io.BytesIO(content), formats=["PNG", "JPEG"]) as image:
            found = (f"image/{str(image.format).lower()}", *image.size)
    except Exception:
        raise PackRefused(f"{name}: is no picture") from None
    if found != (picture.media, picture.width, picture.height) or picture.width * picture.height > _MOST_PIXELS:
        raise PackRefused(f"{name}: is another picture than is said, or too large")


def _confirmed(archive: zipfile.ZipFile, name: str, digest: str) -> bytes:
    content = _read(archive, name)
    if hashlib.sha256(content).hexdigest() != digest:
        raise PackRefused(f"{name}: its checksum is not met; the pack is damaged")
    return content


def _part(archive: zipfile.ZipFile, name: str, kind: type[_Part]) -> _Part:
    value = _judged(name, json_value, _read(archive, name))
    if kind is layout.Manifest and isinstance(value, dict) and value.get("format") != layout.FORMAT:
        raise PackRefused(f'{name}: the format is not known; Studbay reads "{layout.FORMAT}"')
    try:
        return kind.model_validate(value)
    except ValidationError as error:
        raise PackRefused(f"{name}: {faults_of(error)[0]}") from None


_Value = TypeVar("_Value")


def _judged(name: str, judge: Callable[[Any], _Value], value: Any) -> _Value:
    try:
        return judge(value)
    except PlanRefused as refused:
        raise PackRefused(f"{name}: {refused.faults[0]}") from None


def _read(archive: zipfile.ZipFile, name: str) -> bytes:
    try:
        return archive.read(name)
    except KeyError:
        raise PackRefused(f"{name} is missing; the pack is not whole") from None
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, RuntimeError, NotImplementedError) as error:
        raise PackRefused(f"{name} cannot be read ({error}); the pack is damaged") from None


def _refuse_twice(keys: list[Any], what: str) -> None:
    seen: set[Any] = set()
    for key in keys:
        if key in seen:
            raise PackRefused(f"the {what} {_shown(str(key))} is in the pack twice; the pack was changed")
        seen.add(key)


def _shown(name: str) -> str:
    return "".join(letter if letter.isprintable() else "?" for letter in name)[:120]
