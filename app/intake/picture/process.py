"""One file read in a process of its own, bounded in memory and time: the file on standard input, one answer on output.

The answer is a line of JSON and, for a picture, its bytes after it. A hostile file can end this process, no other.
"""

from __future__ import annotations

import base64
import contextlib
import os
import sys
from typing import Any

from pydantic_core import to_json

from app.intake.picture.kinds import kind_of
from app.intake.picture.limits import PictureRefused, refuse_long

MOST_MEMORY = 3 * 2**29  # bytes
MOST_SECONDS = 40  # of the processor


def main() -> None:
    """Arguments: ``picture`` and a page's number, or ``pages``."""
    _bound()
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())  # nothing printed by a library comes into the answer
    source = sys.stdin.buffer.read()
    body = b""
    try:
        refuse_long(source)
        if sys.argv[1] == "pages":
            head = _pages(source)
        else:
            head, body = _picture(source, int(sys.argv[2]))
    except PictureRefused as refused:
        head = {"refused": str(refused), "status": refused.status}
    except MemoryError:
        head = {"refused": "the file takes more memory than it may; save it smaller", "status": 413}
    answers.write(to_json(head) + b"\n" + body)
    answers.flush()


def _pages(source: bytes) -> dict[str, Any]:
    if kind_of(source) != "PDF":
        raise PictureRefused("only a PDF has pages to choose from; a picture is laid under the plan as it is", 415)
    from app.intake.picture.pages import pages_of

    pages = [vars(page) | {"thumbnail": _data_url(page.thumbnail)} for page in pages_of(source)]
    return {"pages": pages}


def _picture(source: bytes, page: int) -> tuple[dict[str, Any], bytes]:
    kind = kind_of(source)
    if kind == "PDF":
        from app.intake.picture.pages import page_picture

        made = page_picture(source, page)
    else:
        from app.intake.picture.remaking import remade

        made = remade(source, kind)
    return {key: value for key, value in vars(made).items() if key != "content"}, made.content


def _data_url(picture: bytes | None) -> str | None:
    return f"data:image/png;base64,{base64.b64encode(picture).decode()}" if picture else None


def _bound() -> None:
    with contextlib.suppress(ImportError, ValueError, OSError):  # where the system knows no such bound
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
        resource.setrlimit(resource.RLIMIT_CPU, (MOST_SECONDS, MOST_SECONDS + 1))


if __name__ == "__main__":
    main()
