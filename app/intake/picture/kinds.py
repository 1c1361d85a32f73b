"""What kind of file some bytes are, by how they begin and not by their name; other kinds are refused with the why."""

from __future__ import annotations

from typing import Literal

from app.intake.picture.limits import PictureRefused

Kind = Literal["PNG", "JPEG", "WEBP", "PDF"]

_SAVE_AS = "save it as PNG, JPEG, WebP or PDF"
_OTHERS: tuple[tuple[bytes, str], ...] = (
    (b"GIF8", "GIF"),
    (b"BM", "BMP"),
    (b"II*\0", "TIFF"),
    (b"MM\0*", "TIFF"),
    (b"\0\0\1\0", "ICO"),
    (b"8BPS", "a layered picture"),
    (b"PK\3\4", "a zip archive"),
    (b"AC10", "a DWG drawing"),
    (b"ISO-10303-21", "an IFC model"),
)


def kind_of(source: bytes) -> Kind:
    """The kind of a picture; raises ``PictureRefused`` where it is none that is read."""
    head = source[:1024]
    if head.startswith(b"\x89PNG\r\n\x1a\n"):
        return "PNG"
    if head.startswith(b"\xff\xd8\xff"):
        return "JPEG"
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return "WEBP"
    if b"%PDF-" in head:
        return "PDF"
    raise PictureRefused(_why_not(source), 415)


def _why_not(source: bytes) -> str:
    if not source:
        return "the file is empty; choose a picture"
    text = source[:4096].lstrip(b"\xef\xbb\xbf \t\r\n").lower()
    if text.startswith((b"<svg", b"<?xml", b"<!doctype svg")) and b"<svg" in text:
        return f"SVG is a document that can hold scripts and links, and is not kept; {_SAVE_AS}"
    if source[4:8] == b"ftyp":
        return f"this kind of photo (HEIC, AVIF) is not read; {_SAVE_AS}"
    named = next((words for start, words in _OTHERS if source.startswith(start)), None)
    return f"{named} is not read as a picture; {_SAVE_AS}" if named else f"this is no picture that is read; {_SAVE_AS}"
