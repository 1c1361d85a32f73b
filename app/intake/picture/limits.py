"""How large a picture may be, and how a picture that cannot be used is refused: one line that says how to mend it."""

from __future__ import annotations

MOST_BYTES = 32 * 2**20
MOST_PIXELS = 50_000_000  # of what is read; told by its header, before anything is decoded
KEPT_PIXELS = 24_000_000  # of what is kept: a larger picture is reduced
LONGEST_SIDE = 12_000  # pixels of what is kept
LARGEST_LOSSLESS = 8 * 2**20  # bytes; what would be larger is kept as JPEG
MOST_PAGES = 1_000
MOST_THUMBNAILS = 60


class PictureRefused(ValueError):
    """A picture that cannot be used: ``status`` is what HTTP says of it (413, 415 or 422)."""

    def __init__(self, words: str, status: int = 422) -> None:
        self.status = status
        super().__init__(words)


def refuse_long(source: bytes) -> None:
    """Refuse a file over the limit of bytes."""
    if len(source) > MOST_BYTES:
        raise PictureRefused(
            f"the file has {len(source) / 2**20:.0f} MiB; a picture to trace over has at most "
            f"{MOST_BYTES // 2**20} MiB: save it smaller",
            413,
        )
