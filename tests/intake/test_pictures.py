"""Pictures to trace over are read within limits and made anew; everything else is refused with one line."""

from __future__ import annotations

import io
import zlib

import pytest
from PIL import Image

from app.intake.picture.kinds import kind_of
from app.intake.picture.limits import KEPT_PIXELS, MOST_PIXELS, PictureRefused, refuse_long
from app.intake.picture.pages import page_picture, pages_of
from app.intake.picture.remaking import remade
from tests.web.picture_files import drawing, file_of, pdf, photo_with_secrets


def test_a_photo_is_turned_upright_and_keeps_nothing_but_its_pixels() -> None:
    photo = photo_with_secrets()
    made = remade(photo, kind_of(photo))
    assert (made.width, made.height, made.media) == (300, 400, "image/jpeg")
    assert b"Larches" in photo
    for secret in (b"Larches", b"Exif", b"GPS", b"neighbour"):
        assert secret not in made.content
    assert not Image.open(io.BytesIO(made.content)).getexif()


def test_text_beside_the_pixels_of_a_png_is_left_behind() -> None:
    from PIL.PngImagePlugin import PngInfo

    said = PngInfo()
    said.add_text("Author", "somebody")
    made = remade(file_of(drawing(), "PNG", pnginfo=said), "PNG")
    assert b"somebody" not in made.content


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA", "I;16"])
def test_every_kind_of_pixel_comes_out_as_what_a_browser_shows(mode: str) -> None:
    image = Image.new(mode, (30, 20)) if mode == "I;16" else drawing(30, 20).convert(mode)
    made = remade(file_of(image), "PNG")
    assert (made.width, made.height, made.media) == (30, 20, "image/png")
    assert Image.open(io.BytesIO(made.content)).mode in ("L", "RGB", "RGBA")


def test_colour_stays_and_what_is_grey_is_kept_as_grey() -> None:
    coloured = Image.open(io.BytesIO(remade(file_of(drawing(), "WEBP", lossless=True), "WEBP").content))
    assert coloured.convert("RGB").getpixel((200, 50)) == (255, 0, 0)
    grey = Image.open(io.BytesIO(remade(file_of(drawing().convert("L").convert("RGB")), "PNG").content))
    assert grey.mode == "L"


def test_a_print_in_four_inks_is_read() -> None:
    assert remade(file_of(drawing().convert("CMYK"), "JPEG"), "JPEG").media == "image/jpeg"


def test_a_large_picture_is_reduced_and_tells_its_size() -> None:
    made = remade(file_of(Image.new("1", (8000, 5000))), "PNG")
    assert made.read == (8000, 5000)
    assert made.width * made.height <= KEPT_PIXELS
    assert made.width / made.height == pytest.approx(1.6, abs=0.001)


def png_header(width: int, height: int) -> bytes:
    """A PNG that says it is that large, with a few bytes of pixels: a bomb of pixels would be as short."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return len(data).to_bytes(4, "big") + kind + data + zlib.crc32(kind + data).to_bytes(4, "big")

    head = width.to_bytes(4, "big") + height.to_bytes(4, "big") + bytes([8, 2, 0, 0, 0])
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0" * 99)) + chunk(b"IEND", b"")


def test_a_picture_of_too_many_pixels_is_refused_by_its_header() -> None:
    with pytest.raises(PictureRefused, match=rf"60000 × 60000 pixels; at most {MOST_PIXELS // 10**6} million") as told:
        remade(png_header(60_000, 60_000), "PNG")
    assert told.value.status == 413


def test_a_file_of_too_many_bytes_is_refused() -> None:
    with pytest.raises(PictureRefused, match="33 MiB; a picture to trace over has at most 32 MiB"):
        refuse_long(b"\0" * (33 * 2**20))


@pytest.mark.parametrize(
    ("source", "words"),
    [
        (b"", "empty"),
        (b'<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"><script/></svg>', "SVG .* scripts"),
        (b"GIF89a\1\0\1\0", "GIF is not read"),
        (b"\0\0\0\x18ftypheic", "HEIC"),
        (b"MZ\x90\0", "no picture"),
    ],
)
def test_other_kinds_are_refused_with_the_reason(source: bytes, words: str) -> None:
    with pytest.raises(PictureRefused, match=words) as told:
        kind_of(source)
    assert "save it as PNG" in str(told.value) or not source
    assert told.value.status == 415


@pytest.mark.parametrize("form", ["PNG", "JPEG", "WEBP"])
def test_a_broken_file_is_refused_wherever_it_is_broken(form: str) -> None:
    whole = file_of(drawing(), form)
    for cut in (20, len(whole) // 3, len(whole) * 2 // 3):
        with pytest.raises(PictureRefused, match=f"the {form} file is broken"):
            remade(whole[:cut], form)


def test_a_page_is_read_as_fine_as_is_kept() -> None:
    pages = pages_of(pdf((8.5, 11), (36, 24)))
    assert [(page.number, page.width, page.height) for page in pages] == [(1, 8.5, 11), (2, 36, 24)]
    assert all(page.thumbnail and page.thumbnail.startswith(b"\x89PNG") for page in pages)
    small, large = (page_picture(pdf((8.5, 11), (36, 24)), number) for number in (1, 2))
    assert (small.width, small.height, small.per_inch) == (1700, 2200, 200)
    assert large.width * large.height <= KEPT_PIXELS
    assert large.per_inch == pytest.approx(large.width / 36, rel=1e-3)


def test_a_page_that_is_not_there_and_a_broken_pdf_are_refused() -> None:
    with pytest.raises(PictureRefused, match="has 1 page; it has no page 2"):
        page_picture(pdf((8.5, 11)), 2)
    with pytest.raises(PictureRefused, match="the PDF is broken"):
        pages_of(b"%PDF-1.7\nnothing of a PDF")
