"""How long one order may take, in seconds of the processor, so that a busy machine is not held against a plan."""

from __future__ import annotations

import signal
from types import FrameType


class OutOfTime(BaseException):
    """The order has used up its time; no error of its own, so that nothing on the way takes it for one."""


class Patience:
    """Breaks off what is done within it with ``OutOfTime`` after so many processor seconds, where the system has such
    a clock. The process has it for as long as it runs: to take up a signal costs more than the answer of a drag may.
    """

    def __init__(self, seconds: float) -> None:
        self._seconds = seconds
        self._has_clock = hasattr(signal, "setitimer")
        if self._has_clock:
            signal.signal(signal.SIGPROF, _break_off)

    def __enter__(self) -> None:
        if self._has_clock:
            signal.setitimer(signal.ITIMER_PROF, self._seconds)

    def __exit__(self, *_: object) -> None:
        if self._has_clock:
            signal.setitimer(signal.ITIMER_PROF, 0)


def _break_off(_number: int, _frame: FrameType | None) -> None:
    raise OutOfTime
