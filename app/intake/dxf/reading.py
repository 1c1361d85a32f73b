"""Opening a DXF file: counted before it is read, mended where it is damaged, refused with one line where it cannot be.

Reading is ezdxf's, in its recovering mode; how long and in how much memory it may work is bounded by whoever calls.
"""

from __future__ import annotations

import io
import logging
import re

from ezdxf import recover
from ezdxf.audit import Auditor
from ezdxf.document import Drawing
from ezdxf.filemanagement import read as read_strictly
from ezdxf.lldxf.const import DXFError
from ezdxf.lldxf.tagger import binary_tags_loader
from ezdxf.tools.codepage import toencoding

from app.intake.refused import DrawingRefused
from app.intake.wording import told

MOST_ENTITIES = 200_000
_RECORD = re.compile(rb"\n[ \t]*0[ \t]*\r?\n[ \t]*([A-Z][A-Z0-9_]*)")
_PARTS = frozenset((b"VERTEX", b"SEQEND", b"ATTRIB", b"ENDSEC", b"SECTION", b"ENDTAB", b"DICTIONARY", b"XRECORD"))
_RELEASE = re.compile(rb"\$ACADVER\s+1\s+(AC\d{4})")
_CODE_PAGE = re.compile(rb"\$DWGCODEPAGE\s+3\s+(\w+)")
_BINARY = b"AutoCAD Binary"
_END = re.compile(rb"\n[ \t]*EOF\s*$")

logging.getLogger("ezdxf").addHandler(logging.NullHandler())


def open_dxf(source: bytes) -> tuple[Drawing, list[str]]:
    """The document in some bytes, and notes on what had to be mended; raises ``DrawingRefused``."""
    source = source.removeprefix(b"\xef\xbb\xbf")
    is_binary = source.startswith(_BINARY)
    if not is_binary and b"\n" not in source:
        source = source.replace(b"\r", b"\n")  # lines as programs ended them before 2001
    _refuse_huge(source)
    try:
        document, audit = _binary(source) if is_binary else (_whole(source) or recover.read(io.BytesIO(source)))
    except DXFError as error:
        raise DrawingRefused(f"the DXF cannot be read ({_short(error)}); save it again from its program") from None
    except (MemoryError, RecursionError):
        raise DrawingRefused("the DXF takes more memory than it may; save only the floor plan's layers") from None
    except Exception as error:  # a damaged file may trip the library anywhere
        raise DrawingRefused(
            f"the DXF is damaged beyond reading ({type(error).__name__}); save it again from its program"
        ) from None
    notes = []
    if not is_binary and not _END.search(source[-400:]):
        notes.append("The file ends early: what stood after its last whole entity is lost. Ask for it again.")
    if flaws := len(audit.errors) + len(audit.fixes):
        first = (audit.errors or audit.fixes)[0].message
        notes.append(f"{told(flaws, 'flaw', 'flaws')} of the file mended or left out, the first: {_short(first)}")
    return document, notes


def _binary(source: bytes) -> tuple[Drawing, Auditor]:
    document = Drawing.load(binary_tags_loader(source, errors="surrogateescape"))
    return document, document.audit()


def _whole(source: bytes) -> tuple[Drawing, Auditor] | None:
    """The document read the strict way, which takes half as long as recovering; None where the file has flaws."""
    head = source[:65536]
    release, page = _RELEASE.search(head), _CODE_PAGE.search(head)
    old = release is not None and release[1] < b"AC1021"  # up to the release of 2004 texts are in a code page
    paged = toencoding(page[1].decode("ascii", "replace")) if page is not None else "cp1252"
    try:
        text = source.decode(paged if old and page is not None else "utf-8")
    except UnicodeDecodeError:  # newer releases are in UTF-8, but some programs write their code page still
        text = source.decode(paged, "replace")
    try:
        document = read_strictly(io.StringIO(text.replace("\r\n", "\n")))
        return document, document.audit()
    except MemoryError:
        raise
    except Exception:  # whatever is wrong, recovering is tried next and says what it is
        return None


def _refuse_huge(source: bytes) -> None:
    if source.startswith(_BINARY):
        return
    count = 0
    for found in _RECORD.finditer(source):
        count += found[1] not in _PARTS
        if count > MOST_ENTITIES:
            words = f"the DXF holds over {MOST_ENTITIES:,} entities; save only the floor plan's layers"
            raise DrawingRefused(words, too_large=True)


def _short(words: object) -> str:
    text = " ".join("".join(letter if letter.isprintable() else " " for letter in str(words)).split())
    return text if len(text) <= 120 else text[:119] + "…"
