"""How long one order may take, in seconds of the processor, so that a busy machine is not held against a plan."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType


class OutOfTime(BaseException):
    """The order has used up its time; no error of its own, so that nothing on the way takes it for one."""


@contextmanager
def patience(seconds: float) -> Iterator[None]:
    """Break off with ``OutOfTime`` after so many processor seconds, where the system has such a clock."""
    if not hasattr(signal, "setitimer"):
        yield
        return
    before = signal.signal(signal.SIGPROF, _break_off)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def _break_off(_number: int, _frame: FrameType | None) -> None:
    raise OutOfTime
