"""Jinja2 pages from the folder ``templates``: every value escaped, an unknown name an error."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from fastapi.responses import HTMLResponse
from jinja2 import Environment, FileSystemLoader, StrictUndefined

from app.web.modules import needed_by
from app.web.static_files import digest_of

_TOP = Path(__file__).resolve().parents[2]
TEMPLATES = _TOP / "templates"
STATIC = _TOP / "static"

_pages = Environment(
    loader=FileSystemLoader(TEMPLATES), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
)


def page(template: str, **values: object) -> HTMLResponse:
    """A page of HTML from a template and its values.

    Templates find their files by ``static``, a name that changes with them, by ``joined(…)``, the address of several
    style sheets as one, and by ``modules(…)``, the addresses of all script modules that some modules need at first.
    """
    digest = digest_of(STATIC)
    static = f"/static/~{digest}"

    def modules(*entries: str) -> list[str]:
        return [f"{static}/{module}" for module in _modules(digest, *entries)]

    def joined(*sheets: str) -> str:
        return f"{static}/{','.join(sheets)}"

    return HTMLResponse(_pages.get_template(template).render(**values, static=static, modules=modules, joined=joined))


@lru_cache(maxsize=16)
def _modules(_digest: str, *entries: str) -> list[str]:
    """The modules that some need; kept as long as no file changes."""
    return needed_by(STATIC, *entries)
