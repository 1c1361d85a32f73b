"""Choose the command that the arguments name, load its module alone, and turn its troubles into lines and exit codes.

Exit codes: 0 done, 1 done and something must be mended, 2 it cannot be done as asked.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from importlib import import_module

from app.command_line.failing import CannotDo

COMMANDS = {
    "serve": "serve the page on this machine (also when no command is named)",
    "check": "coverage and findings of a plan",
    "protection": "stay and away, entry paths, ways in and sound of a plan",
    "pulls": "the cable schedule of a plan: every home run, the boxes to buy, the totals",
    "draft": "a first pass: the plan with a proposed set of devices",
    "compare": "two plan files compared: what changed, and what that does; as change sheets in a file",
    "intake": "read a DXF or IFC file into a new plan file, and tell what was not read",
    "sheets": "the printed set of a plan as a PDF file",
    "export": "files for other programs: tables, SVG, DXF, or one page to share",
    "audit": "check every plan of a folder, a line each",
    "schema": "print the JSON Schema of the plan file",
    "backup": "copy all kept plans into one file, also while serving",
    "restore": "put a backup back in place of the kept plans",
    "pack": "write every plan, underlay and template into one zip file, for another Studbay",
    "unpack": "bring a pack in beside the kept plans; nothing that is there is changed",
    "rescue": "write out every plan that a damaged plans file still gives",
}
USUAL = "serve"
TRACE_NAMED = "STUDBAY_TRACE"


def run(arguments: Sequence[str]) -> int:
    """Run a command line; the exit code."""
    try:
        code = _done(arguments)
        sys.stdout.flush()
        return code
    except CannotDo as refusal:
        for line in refusal.lines:
            print(line, file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print("stopped", file=sys.stderr)
        return 130
    except BrokenPipeError:
        # The reader has left, as `| head` does; nothing more can be said to it.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 141
    except MemoryError:
        print("this takes more memory than there is; split the plan", file=sys.stderr)
        return 2
    except Exception as error:
        if TRACE_NAMED in os.environ:
            raise
        print(
            f"Studbay made a mistake of its own ({error!r}); please report it. {TRACE_NAMED}=1 tells more",
            file=sys.stderr,
        )
        return 2


def _done(arguments: Sequence[str]) -> int:
    """Do what the arguments say; only the module of the command named is loaded."""
    if arguments and (arguments[0] in ("-h", "--help") or _is_unknown(arguments[0])):
        return _overview(arguments[0])
    named = bool(arguments) and arguments[0] in COMMANDS
    name = arguments[0] if named else USUAL
    module = import_module(f"app.command_line.{name}")
    parser = argparse.ArgumentParser(prog=f"studbay {name}", description=COMMANDS[name], allow_abbrev=False)
    module.add_arguments(parser)
    code: int = module.run(parser.parse_args(arguments[1:] if named else arguments))
    return code


def _is_unknown(word: str) -> bool:
    return not word.startswith("-") and word not in COMMANDS


def _overview(word: str) -> int:
    width = max(map(len, COMMANDS))
    lines = ["usage: studbay COMMAND …   (python -m app COMMAND … is the same)", ""]
    lines += [f"  {name:<{width}}  {words}" for name, words in COMMANDS.items()]
    lines += ["", "studbay COMMAND --help tells what a command takes."]
    if _is_unknown(word):
        print(f"{word}: no such command; give one of {', '.join(COMMANDS)}", file=sys.stderr)
        return 2
    print("\n".join(lines))
    return 0
