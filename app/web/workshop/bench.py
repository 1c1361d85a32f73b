"""What is worked out from a plan for the web: checks, trials, overlays, as the bytes that are sent.

Benches made ready are kept by the plan's content, least used out first, so nothing kept can be stale. It knows
nothing of HTTP, and runs in a process of its own.
"""

from __future__ import annotations

from base64 import b64decode
from collections import OrderedDict
from collections.abc import Callable
from functools import cached_property
from typing import Any

from app.documents.files import cable_workbook, file_of
from app.documents.plan_answers import Edition, PlanAnswers
from app.documents.printed_set import set_as_pdf
from app.documents.share.leaving_out import share_contents
from app.drawing.overlay import OverlayMaker
from app.drawing.sheet import sheet_context
from app.drawing.sheets.drawn_sheets import lacking_words
from app.drawing.sheets.underlay.laid import Laid
from app.plan.as_built import as_built_from
from app.plan.faults import Fault, PlanRefused
from app.plan.model import Device, Level, Plan
from app.plan.placement import Placement
from app.plan.reading import read_plan
from app.proposal.draft import contacts_answer, draft_answer, draft_plan
from app.review.as_built import as_built_answer
from app.review.check import check_house
from app.review.comparison.answer import Comparison
from app.review.house import House
from app.review.protection import protection
from app.review.trial import TrialBench
from app.web.json_bytes import as_json
from app.web.pictures import picture_of
from app.web.workshop.compared import FORMS_OF_CHANGES
from app.web.workshop.orders import LevelMissing
from app.wiring.answer import wiring_answer
from app.wiring.schedule.text import schedule_csv
from app.wiring.trial import try_pulls

_MOST_COMPARED = 4
DRAFT_SECONDS = 12.0  # for the solver; a search cut short tells its gap


class KeptBench:
    """One plan made ready: its bench, and the answers that were asked for already."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self._answers: dict[tuple[str, str], bytes] = {}
        self._makers: dict[str, OverlayMaker] = {}
        self._said: dict[str, dict[int, bytes]] = {}
        self._compared: dict[str, Comparison] = {}

    @cached_property
    def bench(self) -> TrialBench:
        """The plan's scenes and proofs."""
        return TrialBench(self.plan)

    @cached_property
    def checked(self) -> dict[str, Any]:
        """The whole check."""
        return check_house(self.bench.house)

    @cached_property
    def worked_out(self) -> PlanAnswers:
        """What files are made of."""
        return PlanAnswers(self.bench.house, lambda: self.checked)

    def check(self) -> bytes:
        """The whole check, as JSON."""
        return self._once(("check", ""), lambda: as_json(self.checked))

    def pulls(self, form: str) -> bytes:
        """The cable schedule as "json", "csv" or "xlsx"."""
        return self._once(("pulls", form), lambda: _CABLE_FORMS[form](self.worked_out))

    def pulls_trial(self, level: str, device: dict[str, Any], scale: float | None = None) -> bytes:
        """The home runs with one device moved, changed or added, as JSON; raises ``LevelMissing``."""
        found, house = self._level(level), self.bench.house
        return as_json(try_pulls(self.plan, house.scenes, found.id, self._tried(level, device)))

    def sheets(self, **choices: Any) -> bytes:
        """What the page of a printed set shows, as JSON; ``choices`` as in ``sheet_context``."""
        return as_json(sheet_context(self.plan, self.checked, **_read(choices)))

    def pdf(self, told: Callable[[bytes], None] | None = None, **choices: Any) -> bytes:
        """A printed set as PDF, page for page what ``sheets`` shows; ``told`` hears of each sheet, as JSON."""
        lacking: list[str] = []

        def say(done: int, count: int, words: str) -> None:
            if told is not None:
                told(as_json({"done": done, "count": count, "words": words, "lacking": lacking}))

        context = sheet_context(self.plan, self.checked, told=say, **_read(choices))
        lacking += map(lacking_words, context["lacking"])
        return set_as_pdf(context, say)

    def handover_file(self, form: str, revision: int, saved_at: str, **choices: Any) -> bytes:
        """A file for other programs; ``form`` and ``choices`` as in ``file_of``; raises ``LevelMissing``."""
        if choices.get("level") is not None:
            self._level(choices["level"])
        return file_of(self.worked_out, Edition(str(revision), saved_at), form, **choices)

    def share_contents(self) -> bytes:
        """What the page to share would show, as JSON."""
        return self._once(("share", ""), lambda: as_json(share_contents(self.worked_out)))

    def draft(self) -> bytes:
        """The first pass over the plan, without the plan itself, as JSON."""
        return self._once(("draft", ""), lambda: as_json(draft_answer(draft_plan(self.plan, seconds=DRAFT_SECONDS))))

    def contacts(self) -> bytes:
        """A contact for each opening that wants one, as JSON."""
        return self._once(("contacts", ""), lambda: as_json(contacts_answer(self.bench.house)))

    def protection(self) -> bytes:
        """Arming states, entry paths, ways in and sound, as JSON."""
        return self._once(("protection", ""), lambda: as_json(protection(self.bench.house)))

    def changes(self, digest: str, before: str, form: str, choices: dict[str, Any] | None = None) -> bytes:
        """What changed since the plan of a digest, ``before`` its JSON; ``form`` is one of those in ``compared``."""
        if digest not in self._compared:
            self._compared[digest] = Comparison(
                House(read_plan(before.encode())), self.bench.house, lambda: self.checked
            )
            while len(self._compared) > _MOST_COMPARED:
                self._compared.pop(next(iter(self._compared)))
        return FORMS_OF_CHANGES[form](self._compared[digest], choices or {})

    def as_built(self, record: dict[str, Any]) -> bytes:
        """Every device as designed beside what was built, as JSON; ``record`` is a read as-built record."""
        return as_json(as_built_answer(self.bench.house, wiring_answer(self.bench.house.wiring), as_built_from(record)))

    def overlay(self, level: str, scale: float | None = None) -> bytes:
        """The overlay of a level as it stands, as SVG; ``scale`` as in ``trial``; raises ``LevelMissing``."""
        found = self._level(level)
        if scale is not None:
            return self._drawn(found, self._standing(found), scale=scale).encode()
        return self._once(("overlay", level), lambda: self._drawn(found, self._standing(found)).encode())

    def picture(self) -> bytes:
        """A small picture of the plan, as SVG."""
        return self._once(("picture", ""), lambda: picture_of(self.plan).encode())

    def trial(self, level: str, device: dict[str, Any], scale: float | None = None) -> bytes:
        """The level's panes and overlay with one device moved, changed or added, as JSON; raises ``LevelMissing``.

        ``scale`` is the zoom, in pixels a foot, that the overlay's words and marks are sized for.
        """
        found, tried = self._level(level), self._tried(level, device)
        answer = self.bench.answer(level, tried)
        overlay = self._drawn(found, answer, tried, scale)
        standing = self._standing_said(level)

        def said(part: object) -> bytes:
            return standing.get(id(part)) or as_json(part)

        panes = b",".join(map(said, answer["panes"]))
        motions, rooms = said(answer["motions"]), said(answer["rooms"])
        return b'{"panes":[%b],"motions":%b,"rooms":%b,"overlay":%b}' % (panes, motions, rooms, as_json(overlay))

    def _standing_said(self, level: str) -> dict[int, bytes]:
        """What stands on a level as JSON, by the identity of each part, all of which the bench keeps.

        A trial leaves most of it alone, and then gives the very same objects.
        """
        if level not in self._said:
            bench = self.bench.level(level)
            parts = (*bench.panes, bench.motions, bench.rooms)
            self._said[level] = {id(part): as_json(part) for part in parts}
        return self._said[level]

    def trial_touched(self, level: str, device: dict[str, Any], scale: float | None = None) -> bytes:
        """Of a trial what differs from the plan as it stands, with the pieces of its overlay, as JSON."""
        found, tried = self._level(level), self._tried(level, device)
        answer, standing = self.bench.touched(level, tried), self.bench.level(level).panes
        pieces = self._maker(found).touched(standing, answer["panes"], answer["motions"], tried, pixels_per_foot=scale)
        return as_json(answer | {"overlay": pieces})

    def _tried(self, level: str, device: dict[str, Any]) -> Device:
        """The device of a trial; raises ``PlanRefused`` where its id is borne by a thing that it cannot stand for."""
        tried = Device.model_validate(device)
        bearer = self._given.get(tried.id)
        if bearer is not None and bearer != level:
            said = "another thing" if bearer == "" else f"a device of level {bearer}"
            raise PlanRefused([Fault("device.id", f"the id {tried.id} is that of {said}; give the device its own")])
        return tried

    @cached_property
    def _given(self) -> dict[str, str]:
        """Every id that is given: the level of a device's, nothing for another thing's."""
        given = {riser.id: "" for riser in self.plan.risers}
        for level in self.plan.levels:
            given[level.id] = ""
            given |= {thing.id: level.id if isinstance(thing, Device) else "" for _, thing in level.things()}
        return given

    def _standing(self, level: Level) -> dict[str, Any]:
        bench = self.bench.level(level.id)
        return {"panes": bench.panes, "motions": bench.motions, "rooms": bench.rooms}

    def _drawn(
        self, level: Level, answer: dict[str, Any], device: Device | None = None, scale: float | None = None
    ) -> str:
        return self._maker(level).drawn(
            answer["panes"], answer["motions"], answer["rooms"], pixels_per_foot=scale, focus=device
        )

    def _maker(self, level: Level) -> OverlayMaker:
        if level.id not in self._makers:
            self._makers[level.id] = OverlayMaker(level, self.plan.practice_in_force, self.plan.units)
        return self._makers[level.id]

    def _level(self, level_id: str) -> Level:
        level = self.plan.level(level_id)
        if level is None:
            known = ", ".join(level.id for level in self.plan.levels)
            raise LevelMissing(f"the plan has no level {level_id[:60]!r}; it has {known}")
        return level

    def _once(self, key: tuple[str, str], work: Callable[[], bytes]) -> bytes:
        if key not in self._answers:
            self._answers[key] = work()
        return self._answers[key]


def _read(choices: dict[str, Any]) -> dict[str, Any]:
    """The choices of a set, with the as-built record and the pictures among them read."""
    read: dict[str, Any] = {"laid": [_laid(**each) for each in choices.get("laid", ())]}
    if choices.get("as_built") is not None:
        read["as_built"] = as_built_from(choices["as_built"])
    return choices | read


def _laid(level: str, content: str, placement: dict[str, Any]) -> Laid:
    return Laid(level, b64decode(content), Placement.model_validate(placement))


class Bench:
    """The plans asked about last, made ready."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._kept: OrderedDict[str, KeptBench] = OrderedDict()

    def put(self, digest: str, content: bytes) -> None:
        """Make a plan ready unless it is; raises ``PlanRefused`` where the content is no plan."""
        if digest not in self._kept:
            self._kept[digest] = KeptBench(read_plan(content))
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)

    def drop(self, digest: str) -> None:
        """Put a plan away."""
        self._kept.pop(digest, None)

    def of(self, digest: str) -> KeptBench | None:
        """A plan made ready, or None where it was not put here or has given way to others."""
        if digest not in self._kept:
            return None
        self._kept.move_to_end(digest)
        return self._kept[digest]


_CABLE_FORMS: dict[str, Callable[[PlanAnswers], bytes]] = {
    "json": lambda answers: as_json(answers.wiring),
    "csv": lambda answers: schedule_csv(answers.house.wiring.schedule).encode(),
    "xlsx": cable_workbook,
}
