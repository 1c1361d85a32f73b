"""Serve the page on this machine, or with an access key beyond it."""

from __future__ import annotations

import argparse
import contextlib
import os
import socket

import uvicorn

from app.command_line.data_folder import add_data_argument, opened
from app.command_line.failing import CannotDo
from app.web.doors.passes import SHORTEST_KEY, new_key
from app.web.factory import create_app
from app.web.routes.live import LONGEST_MESSAGE

KEY_NAMED = "STUDBAY_KEY"
_LOOPBACK = ("127.0.0.1", "::1", "localhost")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("--host", default="127.0.0.1", help="address to listen on (127.0.0.1: this machine only)")
    parser.add_argument("--port", type=int, default=8000, help="port to listen on (8000); 0 takes a free one")
    add_data_argument(parser)


def run(chosen: argparse.Namespace) -> int:
    """Serve until stopped."""
    store = opened(chosen.data)
    listening = _listening(chosen.host, chosen.port)
    key = None if chosen.host in _LOOPBACK else _key()
    address = f"[{chosen.host}]" if ":" in chosen.host else chosen.host
    print(f"Studbay serves http://{address}:{listening.getsockname()[1]}/   (Ctrl-C stops it)", flush=True)
    app = create_app(store, hosts=[chosen.host, socket.gethostname()], key=key)
    server = uvicorn.Server(
        uvicorn.Config(
            app,
            log_level="warning",
            access_log=False,
            server_header=False,
            timeout_graceful_shutdown=5,
            ws_max_size=LONGEST_MESSAGE,
            ws_per_message_deflate=False,  # on this machine, or near it, packing takes longer than sending
        )
    )
    with contextlib.suppress(KeyboardInterrupt):  # Ctrl-C is how people stop it
        server.run(sockets=[listening])
    return 0


def _key() -> str:
    """The access key for a server that others reach: the environment's, or a new one that is printed once."""
    key = os.environ.get(KEY_NAMED)
    if key is not None and len(key) < SHORTEST_KEY:
        raise CannotDo(f"{KEY_NAMED} is too short for an access key; give {SHORTEST_KEY} characters or more")
    if key is None:
        key = new_key()
        print(f"access key (asked of everyone; {KEY_NAMED} sets your own): {key}", flush=True)
    print("others can reach this server and nothing is encrypted: trust the network, or put TLS before it", flush=True)
    return key


def _listening(host: str, port: int) -> socket.socket:
    """A socket that listens; raises ``CannotDo`` where the place is taken or is none of this machine's."""
    if not 0 <= port <= 65535:
        raise CannotDo(f"--port {port}: give a port from 0 to 65535")
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    # With its protocol named, asyncio sets TCP_NODELAY; without, each answer on a kept connection waits 40 ms.
    listening = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    try:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind((host, port))
        listening.listen(2048)
    except (OSError, UnicodeError) as error:
        listening.close()
        raise CannotDo(f"{host}:{port} cannot be listened on ({error}); give another --port or --host") from None
    return listening
