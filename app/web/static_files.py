"""The page's own files: compressed once, and found under a name that changes with them, so that a browser asks once.

``/static/…`` is asked anew each time by its tag, ``/static/~digest/…`` holds for good. Nothing is built: files go out
as they are written. Style sheets named one after the other, ``page/frame.css,page/drawing.css``, go out as one answer.
"""

from __future__ import annotations

import gzip
import hashlib
import os
import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

_TEXT = {".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml"}
_VERSION = re.compile(r"~[0-9a-f]{12}/(.*)", re.DOTALL)
_FOR_GOOD = "public, max-age=31536000, immutable"
_MOST_SHEETS = 20


def digest_of(folder: Path) -> str:
    """Twelve hex digits that change when a file of the folder does: by names, sizes and times of change."""
    seen = hashlib.sha256()
    for path, state in sorted(_files(str(folder))):
        seen.update(f"{path[len(str(folder)) :]} {state.st_size} {state.st_mtime_ns}\n".encode())
    return seen.hexdigest()[:12]


def _files(folder: str) -> Iterator[tuple[str, os.stat_result]]:
    """Every file below a folder with its state; each page asks, so a directory is read at one go."""
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir():
                yield from _files(entry.path)
            elif entry.is_file():
                yield entry.path, entry.stat()


class PackedFiles(StaticFiles):
    """Serves a folder, its texts gzipped where the browser takes that."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """The file, or 304 where the browser has it; raises ``HTTPException`` 404."""
        versioned = _VERSION.fullmatch(path.replace(os.sep, "/"))
        path = versioned[1] if versioned else path
        kind = _TEXT.get(Path(path).suffix)
        if kind is None or scope["method"] not in ("GET", "HEAD"):
            answer = await super().get_response(path, scope)
        else:
            answer = self._text(path, kind, Headers(scope=scope))
        if versioned and answer.status_code == 200:
            answer.headers["Cache-Control"] = _FOR_GOOD
        return answer

    def _text(self, path: str, kind: str, headers: Headers) -> Response:
        found = tuple(self._found(name) for name in _named(path))
        packs = "gzip" in headers.get("accept-encoding", "")
        content, tag = _content(found, packs)
        told = {"ETag": tag, "Vary": "Accept-Encoding"}
        if tag in headers.get("if-none-match", ""):
            return Response(status_code=304, headers=told)
        if packs:
            told["Content-Encoding"] = "gzip"
        return Response(content, media_type=kind, headers=told)

    def _found(self, path: str) -> tuple[str, int, int]:
        """Where a file is, its time of change and its size; raises ``HTTPException`` 404."""
        full, state = self.lookup_path(path)
        if state is None or not Path(full).is_file():
            raise HTTPException(404)
        return full, state.st_mtime_ns, state.st_size


def _named(path: str) -> list[str]:
    """The files that an address names: one, or several style sheets."""
    names = path.split(",")
    if len(names) > _MOST_SHEETS or (len(names) > 1 and not all(name.endswith(".css") for name in names)):
        raise HTTPException(404)
    return names


@lru_cache(maxsize=1024)
def _content(found: tuple[tuple[str, int, int], ...], packs: bool) -> tuple[bytes, str]:
    """The bytes of files, gzipped or not, and their tag; kept by their times of change and sizes."""
    plain = b"\n".join(Path(full).read_bytes() for full, _changed, _size in found)
    content = gzip.compress(plain, 9, mtime=0) if packs else plain
    return content, f'"{hashlib.sha256(content).hexdigest()[:24]}"'
