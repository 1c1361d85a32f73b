"""The access key of a server that listens beyond this machine, and the passes given out for it.

A pass is a time and its keyed hash, so that nothing need be kept; another key makes every pass void.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
import time
from collections import deque

SHORTEST_KEY = 12
PASS_DAYS = 30
_TRIES, _TRIES_OF_ALL, _SECONDS = 5, 40, 60.0


class Passes:
    """Judges keys and passes in constant time."""

    def __init__(self, key: str) -> None:
        assert len(key) >= SHORTEST_KEY, f"an access key has {SHORTEST_KEY} characters or more"
        self._key = key.encode()

    def is_key(self, tried: str) -> bool:
        """Whether a text is the key."""
        return hmac.compare_digest(self._mac(tried.encode("utf-8", "surrogatepass")), self._mac(self._key))

    def issue(self) -> str:
        """A new pass."""
        until = str(int(time.time()) + PASS_DAYS * 86_400)
        return f"{until}.{self._mac(until.encode()).hex()}"

    def holds(self, shown: str) -> bool:
        """Whether a pass is one of ours and still good."""
        until, _, mark = shown.partition(".")
        ours = hmac.compare_digest(mark.encode("utf-8", "surrogatepass"), self._mac(until.encode()).hex().encode())
        return ours and int(until) > time.time()

    def _mac(self, text: bytes) -> bytes:
        return hmac.digest(self._key, text, hashlib.sha256)


class Tries:
    """Counts wrong keys of the last minute, by address and of all; too many of either shut the door for a while."""

    def __init__(self) -> None:
        self._wrong: deque[tuple[float, str]] = deque(maxlen=_TRIES_OF_ALL)

    def seconds_shut(self, address: str) -> int:
        """How long an address must wait before it may try again; 0 where it may."""
        now = time.monotonic()
        times = [when for when, other in self._wrong if other == address and now - when < _SECONDS]
        everyone = [when for when, _ in self._wrong if now - when < _SECONDS]
        shut = len(times) >= _TRIES or len(everyone) >= _TRIES_OF_ALL
        return max(1, round(_SECONDS - (now - (times or everyone)[0]))) if shut else 0

    def wrong(self, address: str) -> None:
        """Note a wrong key."""
        self._wrong.append((time.monotonic(), address))


def new_key() -> str:
    """A key that cannot be guessed."""
    return secrets.token_urlsafe(18)
