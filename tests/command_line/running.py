"""Run the commands as people do: ``python -m app`` in a process of its own."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]


def studbay(*arguments: str, given: bytes = b"", **environment: str) -> subprocess.CompletedProcess[str]:
    """What a command prints and its exit code."""
    run = subprocess.run(
        [sys.executable, "-m", "app", *arguments],
        input=given,
        capture_output=True,
        cwd=TOP,
        env=os.environ | environment,
        timeout=120,
        check=False,
    )
    return subprocess.CompletedProcess(run.args, run.returncode, run.stdout.decode(), run.stderr.decode())


@contextmanager
def served(*arguments: str, **environment: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """A server of its own at a free port, and its address; killed at the end if it still runs."""
    process = subprocess.Popen(
        [sys.executable, "-m", "app", "--port", "0", *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=TOP,
        env=os.environ | environment,
        text=True,
    )
    try:
        assert process.stdout is not None
        for line in process.stdout:
            if found := re.search(r"http://\S+(?=/)", line):
                yield process, found.group()
                break
        else:
            raise AssertionError(f"no server: {process.stderr.read() if process.stderr else ''}")
    finally:
        process.kill()
        process.communicate()
