"""A plan that a data folder keeps, with what is printed of it: letterhead, approval, as-built record, pictures."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from app.command_line.data_folder import opened, store_troubles
from app.command_line.failing import CannotDo
from app.drawing.sheets.underlay.laid import Laid
from app.plan.as_built import NOTHING_BUILT, AsBuilt, read_as_built
from app.plan.letterhead import Stationery
from app.plan.model import Plan
from app.storage.as_built import AsBuiltStore
from app.storage.history import History
from app.storage.letterheads import LetterheadStore
from app.storage.plans import PlanStore
from app.storage.underlays import UnderlayStore
from app.web.revision_words import printed_revision


@dataclass(frozen=True)
class KeptForPrint:
    """A plan as last saved; ``revision`` are the words of its title blocks, ``saved_at`` the time in ISO 8601."""

    plan: Plan
    revision: str
    saved_at: str
    stationery: Stationery
    as_built: AsBuilt
    laid: tuple[Laid, ...]


def kept_for_print(name: str, data: Path | None, *, pictures: bool) -> KeptForPrint:
    """The kept plan of an id or a name, its pictures only where they are asked for; raises ``CannotDo``."""
    store = opened(data)
    try:
        with store_troubles():
            return _gathered(store, _id_of(store, name), pictures)
    finally:
        store.close()


def _id_of(store: PlanStore, name: str) -> str:
    entries = store.listed()
    if any(entry.id == name for entry in entries):
        return name
    found = [entry.id for entry in entries if entry.name.casefold() == name.strip().casefold()]
    if len(found) == 1:
        return found[0]
    if found:
        raise CannotDo(f"--kept: {len(found)} plans are named {name[:60]!r}; give an id: {', '.join(found[:12])}")
    raise CannotDo(f"--kept: no plan in use has the id or the name {name[:60]!r}; the id stands in its page's address")


def _gathered(store: PlanStore, plan_id: str, pictures: bool) -> KeptForPrint:
    head, kept = store.head(plan_id), store.newest(plan_id)
    built = AsBuiltStore(store.engine).newest(plan_id)
    shown = UnderlayStore(store.engine).shown(plan_id) if pictures else []
    return KeptForPrint(
        kept.plan(),
        printed_revision(head, History(store.engine).of(plan_id)),
        head.saved.isoformat(timespec="minutes"),
        LetterheadStore(store.engine).of(plan_id)[1],
        NOTHING_BUILT if built is None else read_as_built(built.content),
        tuple(Laid(underlay.level, content, underlay.placement) for underlay, content in shown),
    )
