"""The bench process: takes one order after another from its standard input, until that is closed.

Started by ``pool``; its memory is bounded, and it ends with the server that started it.
"""

from __future__ import annotations

import contextlib
import os
import sys
import traceback
from functools import partial
from typing import Any, BinaryIO

from app.collector import collect_rarely
from app.intake.refused import DrawingRefused
from app.plan.faults import PlanRefused
from app.web.json_bytes import as_json
from app.web.workshop.orders import LENGTHS, LevelMissing, Order, Outcome, Reply, order_from, packed
from app.web.workshop.patience import OutOfTime, Patience

MOST_BYTES = 3 * 2**30
_PIPE_BYTES = 2**20


def main() -> None:
    """Serve orders on plans; the arguments say how many are kept ready, and how many seconds an order may take."""
    from app.web.workshop.bench import Bench  # a process that reads drawings need not load what plans need

    serve(Bench(most=int(sys.argv[1])), float(sys.argv[2]))


def serve(bench: Any, seconds: float) -> None:
    """Serve orders on what a bench keeps (``put``, ``of``, ``drop``), each within so many processor seconds."""
    orders, replies = sys.stdin.buffer, os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())  # nothing printed by a library comes between the replies
    _widen(replies)
    _bound_memory()
    collect_rarely()
    patience = Patience(seconds)
    _send(replies, "done", b"")
    while lengths := orders.read(LENGTHS.size):
        head, body = LENGTHS.unpack(lengths)
        order, content = order_from(orders.read(head)), orders.read(body)
        if order.is_followed:
            order.arguments["told"] = partial(_send, replies, "under way")
        _send(replies, *_in_time(bench, order, content, patience))


def _in_time(bench: Any, order: Order, content: bytes, patience: Patience) -> tuple[Outcome, bytes]:
    try:
        with patience:
            return _done(bench, order, content)
    except OutOfTime:
        bench.drop(order.digest)
        return "out of time", b""


def _done(bench: Any, order: Order, content: bytes) -> tuple[Outcome, bytes]:
    try:
        if order.has_plan:
            bench.put(order.digest, content)
        kept = bench.of(order.digest)
        if kept is None:
            return "plan wanted", b""
        answer: bytes = getattr(kept, order.work)(**order.arguments)
        return "done", answer
    except PlanRefused as refused:
        return "plan refused", as_json([[fault.at, fault.message] for fault in refused.faults])
    except DrawingRefused as refused:
        return "drawing refused", str(refused).encode()
    except LevelMissing as missing:
        return "level missing", str(missing).encode()
    except MemoryError:
        return "out of memory", b""
    except Exception:
        traceback.print_exc()
        return "mistake", b""


def _send(replies: BinaryIO, outcome: Outcome, answer: bytes) -> None:
    replies.write(packed(Reply(outcome), answer))
    replies.flush()


def _widen(replies: BinaryIO) -> None:
    """Let a whole answer lie in the pipe, so that this process need not wait while the server reads it in pieces."""
    with contextlib.suppress(ImportError, AttributeError, OSError):  # where the system knows no such width
        import fcntl

        fcntl.fcntl(replies, fcntl.F_SETPIPE_SZ, _PIPE_BYTES)


def _bound_memory() -> None:
    with contextlib.suppress(ImportError, ValueError, OSError):  # where the system knows no such bound
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))


if __name__ == "__main__":
    with contextlib.suppress(KeyboardInterrupt, BrokenPipeError):
        main()
