"""The pages of a PDF: told with small pictures to choose by, and one of them as a picture to trace over."""

from __future__ import annotations

import io
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

import pypdfium2

from app.intake.picture.limits import MOST_PAGES, MOST_THUMBNAILS, PictureRefused
from app.intake.picture.remaking import MadePicture, encoded, kept_share

POINTS_PER_INCH = 72.0
MOST_PER_INCH = 200.0
_THUMBNAIL = 180  # pixels of its longer side
_SECONDS = 8.0  # for the thumbnails of a file; the pages after that are told without one


@dataclass(frozen=True)
class Page:
    """A page: its number from 1, its size in inches of paper, and a small PNG of it or nothing."""

    number: int
    width: float
    height: float
    thumbnail: bytes | None


def pages_of(source: bytes) -> list[Page]:
    """Every page of a PDF; raises ``PictureRefused``."""
    until = time.monotonic() + _SECONDS
    with _opened(source) as document:
        pages = []
        for number in range(1, len(document) + 1):
            width, height = _size(document[number - 1])
            wanted = number <= MOST_THUMBNAILS and time.monotonic() < until
            small = _thumbnail(document[number - 1], width, height) if wanted else None
            pages.append(Page(number, width, height, small))
        return pages


def page_picture(source: bytes, number: int) -> MadePicture:
    """One page as a picture, as fine as is kept; raises ``PictureRefused``."""
    with _opened(source) as document:
        if not 1 <= number <= len(document):
            raise PictureRefused(
                f"the PDF has {len(document)} page{'s' * (len(document) > 1)}; it has no page {number}"
            )
        page = document[number - 1]
        width, height = _size(page)
        per_inch = MOST_PER_INCH * kept_share(width * MOST_PER_INCH, height * MOST_PER_INCH)
        image = page.render(scale=per_inch / POINTS_PER_INCH).to_pil().convert("RGB")
        return encoded(image, image.size, per_inch=per_inch)


@contextmanager
def _opened(source: bytes) -> Iterator[pypdfium2.PdfDocument]:
    try:
        document = pypdfium2.PdfDocument(source)
    except pypdfium2.PdfiumError as error:
        locked = "password" in str(error).lower()
        words = "the PDF is locked by a password; save it without" if locked else "the PDF is broken; save it again"
        raise PictureRefused(words) from None
    try:
        if not len(document):
            raise PictureRefused("the PDF has no page")
        if len(document) > MOST_PAGES:
            raise PictureRefused(f"the PDF has {len(document)} pages; at most {MOST_PAGES} are read: save fewer", 413)
        yield document
    except pypdfium2.PdfiumError:
        raise PictureRefused("a page of the PDF is broken; save it again") from None
    finally:
        document.close()


def _size(page: pypdfium2.PdfPage) -> tuple[float, float]:
    """Width and height in inches, as the page is shown."""
    width, height = page.get_size()
    if width < 1 or height < 1:
        raise PictureRefused("a page of the PDF has no size; save it again")
    return width / POINTS_PER_INCH, height / POINTS_PER_INCH


def _thumbnail(page: pypdfium2.PdfPage, width: float, height: float) -> bytes:
    scale = _THUMBNAIL / (max(width, height) * POINTS_PER_INCH)
    held = io.BytesIO()
    page.render(scale=scale).to_pil().convert("RGB").quantize(32).save(held, "PNG", optimize=True)
    return held.getvalue()
