"""Pictures kept with a plan, and how each lies under a level; every change names the edition it was made from.

A picture is kept by its digest and never changed, so a placement that was undone finds it again; of those that lie
under no level the last few are kept. They stay with a removed plan. Nothing here looks into a picture.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from datetime import UTC, datetime

from sqlalchemy import Connection, Engine, delete, insert, select, update

from app.plan.placement import Placement
from app.storage import tables
from app.storage.engine import changing, reading
from app.storage.made_from import MadeFrom, admits
from app.storage.plans import head_of
from app.storage.troubles import PlanMissing, StoreDamaged, StoreForbids, UnderlayMoved

MOST_PRINTED = 96 * 2**20  # bytes of pictures that one set prints
LAID_ASIDE = 8  # pictures of a plan that lie under no level, kept for whoever undoes


@dataclass(frozen=True)
class Picture:
    """What is known of a kept picture; ``per_inch`` are its pixels to an inch of paper, where it came from a PDF."""

    digest: str
    name: str
    media: str
    width: int
    height: int
    per_inch: float | None


@dataclass(frozen=True)
class Underlay:
    """What lies under a level, in its ``edition``."""

    level: str
    edition: int
    placement: Placement
    picture: Picture


class UnderlayStore:
    """The underlays of all plans of a store, on its database."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine

    def of(self, plan_id: str) -> list[Underlay]:
        """Every underlay of a plan in use; raises ``PlanMissing``."""
        with reading(self.engine) as connection:
            head_of(connection, plan_id)
            return _underlays(connection, plan_id)

    def under(self, plan_id: str, level: str) -> Underlay:
        """What lies under a level; raises ``PlanMissing`` where there is no such plan, or nothing."""
        with reading(self.engine) as connection:
            head_of(connection, plan_id)
            return _under(connection, plan_id, level)

    def content(self, plan_id: str, digest: str) -> tuple[Picture, bytes]:
        """A kept picture and its bytes; raises ``PlanMissing`` or ``StoreDamaged``."""
        rows = tables.pictures.c
        with reading(self.engine) as connection:
            head_of(connection, plan_id)
            row = connection.execute(
                select(rows.name, rows.media, rows.width, rows.height, rows.per_inch, rows.content).where(
                    rows.plan_id == plan_id, rows.digest == digest
                )
            ).one_or_none()
        if row is None:
            raise PlanMissing(f"the plan {plan_id} has no such picture")
        if hashlib.sha256(row.content).hexdigest() != digest:
            raise StoreDamaged(f"the picture {row.name} of the plan {plan_id} is damaged; choose its file again")
        return Picture(digest, *row[:5]), row.content

    def shown(self, plan_id: str) -> list[tuple[Underlay, bytes]]:
        """What is shown under the levels, with its bytes, to be printed.

        Raises ``PlanMissing``, ``StoreDamaged``, or ``StoreForbids`` where it is more than a set may print.
        """
        found: list[tuple[Underlay, bytes]] = []
        for underlay in self.of(plan_id):
            if underlay.placement.shown:
                found.append((underlay, self.content(plan_id, underlay.picture.digest)[1]))
            if sum(len(content) for _, content in found) > MOST_PRINTED:
                words = (
                    f"the pictures under the levels have more than {MOST_PRINTED // 2**20} MiB, too much for one set"
                )
                raise StoreForbids(f"{words}; hide some of them on the page, or print without")
        return found

    def lay(self, plan_id: str, level: str, picture: Picture, content: bytes, placement: Placement) -> Underlay:
        """Keep a picture and put it under a level, in place of what lies there; raises ``PlanMissing``."""
        with changing(self.engine) as connection:
            head_of(connection, plan_id)
            _keep(connection, plan_id, picture, content)
            edition = _write(connection, plan_id, level, placement)
            _drop_old(connection, plan_id)
        return Underlay(level, edition, placement, picture)

    def place(self, plan_id: str, level: str, placement: Placement, made_from: MadeFrom) -> Underlay:
        """Place a picture that is kept; also one that was taken away, or lies under another level.

        ``made_from`` 0 says that nothing lay there, None is content with whatever does. Raises ``PlanMissing``, or
        ``UnderlayMoved`` where another change came first.
        """
        with changing(self.engine) as connection:
            head_of(connection, plan_id)
            _refuse_other(connection, plan_id, level, made_from)
            picture = _picture(connection, plan_id, placement.picture)
            return Underlay(level, _write(connection, plan_id, level, placement), placement, picture)

    def take_away(self, plan_id: str, level: str, made_from: MadeFrom) -> None:
        """Leave a level without; the picture stays for a while. Raises as ``place`` does."""
        with changing(self.engine) as connection:
            head_of(connection, plan_id)
            _under(connection, plan_id, level)
            _refuse_other(connection, plan_id, level, made_from)
            _write(connection, plan_id, level, None)


def _underlays(connection: Connection, plan_id: str) -> list[Underlay]:
    rows, pictures = tables.underlays.c, tables.pictures.c
    joined = tables.underlays.join(
        tables.pictures, (pictures.plan_id == rows.plan_id) & (pictures.digest == rows.digest)
    )
    found = connection.execute(
        select(
            rows.level,
            rows.edition,
            rows.placement,
            pictures.digest,
            pictures.name,
            pictures.media,
            pictures.width,
            pictures.height,
            pictures.per_inch,
        )
        .select_from(joined)
        .where(rows.plan_id == plan_id)
        .order_by(rows.level)
    )
    return [Underlay(row[0], row[1], Placement.model_validate_json(row[2]), Picture(*row[3:])) for row in found]


def _under(connection: Connection, plan_id: str, level: str) -> Underlay:
    found = next((each for each in _underlays(connection, plan_id) if each.level == level), None)
    if found is None:
        raise PlanMissing(f"no picture lies under level {level[:60]} of the plan {plan_id}")
    return found


def _edition(connection: Connection, plan_id: str, level: str) -> tuple[int, bool]:
    """The edition of what lies under a level (0: nothing ever did), and whether something does."""
    rows = tables.underlays.c
    row = connection.execute(
        select(rows.edition, rows.digest).where(rows.plan_id == plan_id, rows.level == level).with_for_update()
    ).one_or_none()
    return (0, False) if row is None else (row.edition, row.digest is not None)


def _refuse_other(connection: Connection, plan_id: str, level: str, made_from: MadeFrom) -> None:
    edition, lies = _edition(connection, plan_id, level)
    if not admits(made_from, edition if lies else 0):
        raise UnderlayMoved(edition if lies else 0)


def _write(connection: Connection, plan_id: str, level: str, placement: Placement | None) -> int:
    edition, _ = _edition(connection, plan_id, level)
    values = {
        "edition": edition + 1,
        "digest": placement and placement.picture,
        "placement": placement and placement.model_dump_json(),
    }
    rows = tables.underlays.c
    if edition:
        chosen = (rows.plan_id == plan_id) & (rows.level == level)
        connection.execute(update(tables.underlays).where(chosen).values(values))
    else:
        connection.execute(insert(tables.underlays).values(plan_id=plan_id, level=level, **values))
    return edition + 1


def _picture(connection: Connection, plan_id: str, digest: str) -> Picture:
    rows = tables.pictures.c
    row = connection.execute(
        select(rows.digest, rows.name, rows.media, rows.width, rows.height, rows.per_inch).where(
            rows.plan_id == plan_id, rows.digest == digest
        )
    ).one_or_none()
    if row is None:
        raise PlanMissing(f"the plan {plan_id} keeps that picture no longer; choose its file again")
    return Picture(*row)


def _keep(connection: Connection, plan_id: str, picture: Picture, content: bytes) -> None:
    rows, now = tables.pictures.c, datetime.now(UTC)
    chosen = (rows.plan_id == plan_id) & (rows.digest == picture.digest)
    changed = connection.execute(update(tables.pictures).where(chosen).values(kept=now, name=picture.name))
    if not changed.rowcount:
        connection.execute(insert(tables.pictures).values(plan_id=plan_id, kept=now, content=content, **vars(picture)))


def _drop_old(connection: Connection, plan_id: str) -> None:
    """Of the pictures that lie under no level, the oldest go."""
    rows, laid = tables.pictures.c, tables.underlays.c
    lying = select(laid.digest).where(laid.plan_id == plan_id, laid.digest.is_not(None))
    aside = connection.execute(
        select(rows.digest).where(rows.plan_id == plan_id, rows.digest.not_in(lying)).order_by(rows.kept.desc())
    ).scalars()
    for digest in list(aside)[LAID_ASIDE:]:
        connection.execute(delete(tables.pictures).where(rows.plan_id == plan_id, rows.digest == digest))
