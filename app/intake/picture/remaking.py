"""A picture made anew from its pixels: turned upright, reduced where it is too large, and nothing else kept.

Whatever a file says beside its pixels (place and time of a photo, names, profiles, text) is left behind.
"""

from __future__ import annotations

import io
import math
from dataclasses import dataclass

from PIL import Image, ImageChops, ImageOps

from app.intake.picture.limits import KEPT_PIXELS, LARGEST_LOSSLESS, LONGEST_SIDE, MOST_PIXELS, PictureRefused

_QUALITY = 88
Image.MAX_IMAGE_PIXELS = None  # the size is judged here, by the header, with words that tell it


@dataclass(frozen=True)
class MadePicture:
    """A picture as it is kept; ``read`` is the size in pixels that its file had, ``per_inch`` of a PDF page alone."""

    content: bytes
    media: str
    width: int
    height: int
    read: tuple[int, int]
    per_inch: float | None = None


def remade(source: bytes, kind: str) -> MadePicture:
    """A picture of kind PNG, JPEG or WEBP made anew; raises ``PictureRefused``."""
    try:
        with Image.open(io.BytesIO(source), formats=[kind]) as image:
            read = image.size
            _refuse_many_pixels(read)
            upright = ImageOps.exif_transpose(_plain(image))
        return encoded(reduced(upright), read, lossy=kind == "JPEG")
    except PictureRefused:
        raise
    except Exception:
        # A broken file fails in as many ways as there are places in it.
        words = f"the {kind} file is broken; open it in a picture program and save it again"
        raise PictureRefused(words) from None


def kept_share(width: float, height: float) -> float:
    """By what share a picture of that size is reduced to be kept; 1 where it is not."""
    return min(1.0, math.sqrt(KEPT_PIXELS / (width * height)), LONGEST_SIDE / max(width, height))


def reduced(image: Image.Image) -> Image.Image:
    """The picture at the size that is kept."""
    share = kept_share(*image.size)
    if share >= 1:
        return image
    size = (max(1, int(image.width * share)), max(1, int(image.height * share)))
    return image.resize(size, Image.Resampling.BILINEAR, reducing_gap=2.0)


def encoded(
    image: Image.Image, read: tuple[int, int], *, lossy: bool = False, per_inch: float | None = None
) -> MadePicture:
    """The picture as bytes: PNG, or JPEG where it came as one or PNG would be very large."""
    image = _grey_where_grey(image)
    if not lossy:
        content = _saved(image, "PNG", compress_level=5)
        if len(content) <= LARGEST_LOSSLESS:
            return MadePicture(content, "image/png", *image.size, read, per_inch)
    content = _saved(_on_white(image), "JPEG", quality=_QUALITY, optimize=True)
    return MadePicture(content, "image/jpeg", *image.size, read, per_inch)


def _refuse_many_pixels(size: tuple[int, int]) -> None:
    if size[0] * size[1] > MOST_PIXELS:
        words = f"the picture has {size[0]} × {size[1]} pixels; at most {MOST_PIXELS // 10**6} million are read"
        raise PictureRefused(f"{words}: save it smaller", 413)


def _plain(image: Image.Image) -> Image.Image:
    """The first frame in grey, colour, or colour with transparency; orientation stays with it."""
    image.seek(0)
    orientation = image.getexif().get(0x0112)
    if image.mode.startswith("I") or image.mode == "F":
        low, high = image.getextrema()
        span = max(float(high) - float(low), 1e-9)  # type: ignore[arg-type]
        plain = image.convert("F").point(lambda value: (value - float(low)) * (255.0 / span)).convert("L")  # type: ignore[arg-type]
    elif "transparency" in image.info or image.mode in ("LA", "PA", "RGBA", "La", "RGBa"):
        plain = image.convert("RGBA")
    elif image.mode in ("1", "L"):
        plain = image.convert("L")
    else:
        plain = image.convert("RGB")
    bare = Image.frombytes(plain.mode, plain.size, plain.tobytes())
    if orientation:
        bare.getexif()[0x0112] = orientation
    return bare


def _grey_where_grey(image: Image.Image) -> Image.Image:
    if image.mode != "RGB":
        return image
    red, green, blue = image.split()
    coloured = ImageChops.difference(red, green).getbbox() or ImageChops.difference(green, blue).getbbox()
    return image if coloured else red


def _on_white(image: Image.Image) -> Image.Image:
    if image.mode != "RGBA":
        return image
    white = Image.new("RGB", image.size, "white")
    white.paste(image, mask=image.getchannel("A"))
    return white


def _saved(image: Image.Image, form: str, **settings: int | bool) -> bytes:
    held = io.BytesIO()
    image.save(held, form, exif=b"", **settings)
    return held.getvalue()
