"""Picture files for tests: drawn here, none from elsewhere."""

from __future__ import annotations

import io

import pypdfium2
from PIL import Image, ImageDraw


def drawing(width: int = 400, height: int = 300) -> Image.Image:
    """A room's outline with a red door, on white."""
    image = Image.new("RGB", (width, height), "white")
    pen = ImageDraw.Draw(image)
    pen.rectangle((width // 10, height // 10, width * 9 // 10, height * 9 // 10), outline="black", width=3)
    pen.line((width // 2, height // 10, width // 2, height // 4), fill="red", width=3)
    return image


def file_of(image: Image.Image, form: str = "PNG", **settings: object) -> bytes:
    """The picture as a file."""
    held = io.BytesIO()
    image.save(held, form, **settings)
    return held.getvalue()


def photo_with_secrets() -> bytes:
    """A JPEG 400 × 300 that says it lies on its side, where it was taken, and by whom."""
    exif = Image.Exif()
    exif[0x0112] = 6  # turned a quarter to the right
    exif[0x010E] = "the Larches' new house"
    exif[0x8825] = {1: "N", 2: (51.0, 30.0, 12.0), 3: "W", 4: (0.0, 7.0, 39.0)}
    return file_of(drawing(), "JPEG", exif=exif, comment=b"taken by a neighbour")


def pdf(*sizes: tuple[float, float]) -> bytes:
    """A PDF of bare pages, each of a size in inches."""
    document = pypdfium2.PdfDocument.new()
    for width, height in sizes:
        document.new_page(width * 72, height * 72)
    held = io.BytesIO()
    document.save(held)
    return held.getvalue()
