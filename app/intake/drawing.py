"""A DXF drawing ready to be chosen from: what its layers hold, in which unit, and the plan that choices give."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from functools import cached_property
from typing import Any

from app.intake.choices import Choices
from app.intake.dxf.picture import layers_picture
from app.intake.dxf.reading import open_dxf
from app.intake.dxf.unfolding import Unfolding
from app.intake.house import plan_of
from app.intake.refused import DrawingRefused
from app.intake.report import Report, Unread
from app.intake.roles import Role, guessed_roles, role_by_name
from app.intake.storeys.levels import levels_told, points_told
from app.intake.storeys.reading import SheetOfDrawings, read_storeys
from app.intake.strokes import Sheet, Spot, Stroke
from app.intake.tracing.floor import Floor
from app.intake.tracing.pairs import paired_bands
from app.intake.units import FEET, METRIC, NAMES, Scale, likeliest, unit_of_header
from app.intake.wording import told
from app.plan.measures import length_text
from app.plan.model import Plan

_MOST_JUDGED = 4_000  # strokes, when unit and layers are guessed


class DxfDrawing:
    """One DXF file, opened once; raises ``DrawingRefused`` where it cannot be used."""

    def __init__(self, source: bytes) -> None:
        document, self._notes = open_dxf(source)
        unfolding = Unfolding(document).whole()
        self.sheet, self._unread = unfolding.sheet, unfolding.unread
        self._said = unit_of_header(document.header.get("$INSUNITS", 0))
        measures = document.header.get("$MEASUREMENT", None)
        self._metric = bool(measures) if self._said is not None and measures in (0, 1) else None
        if not self.sheet.strokes and not self.sheet.arcs:
            kinds = sorted({line["kind"] for line in self._unread.lines()})
            if any("printed sheet" in line["reason"] for line in self._unread.lines()):
                raise DrawingRefused(
                    "the DXF has its lines on a printed sheet and none in its model space; save the plan in the model"
                )
            told = f" (it holds {', '.join(kinds[:6])})" if kinds else ""
            raise DrawingRefused(f"the DXF has no lines in its model space{told}; save the floor plan's lines")

    @cached_property
    def scale(self) -> Scale:
        """What is known of the unit."""
        strokes = self._judged
        extent = _extent(strokes)
        return Scale(self._said, likeliest(extent, self._usual_thickness(extent), self._metric), extent)

    @cached_property
    def roles(self) -> dict[str, Role]:
        """The role that each layer is proposed to have."""
        unit = self.scale.proposed or "ft"
        paired: dict[str, float] = {}
        for layer in self.sheet.counts:
            strokes = self._in_feet([one for one in self.sheet.strokes if one.layer == layer][:_MOST_JUDGED], unit)
            paired[layer] = paired_bands(strokes)[1] if len(strokes) > 3 else 0.0
        return guessed_roles(self.sheet.counts, self.sheet.hidden, paired)

    def survey(self) -> dict[str, Any]:
        """What there is to choose from: layers with their counts and proposed roles, units, a picture."""
        layers = [
            {
                "name": layer,
                "role": self.roles[layer],
                "hidden": layer in self.sheet.hidden,
                "counts": {
                    kind: counts.get(kind, 0) for kind in ("lines", "arcs", "areas", "texts", "blocks", "other")
                },
            }
            for layer, counts in sorted(self.sheet.counts.items(), key=lambda entry: entry[0].lower())
        ]
        return {
            "kind": "dxf",
            "layers": layers,
            "units": self.scale.value(),
            "drawings": self._drawings(),
            **layers_picture(self.sheet, sorted(self.sheet.counts, key=str.lower)),
            "notes": self._notes,
            "unread": self._unread.lines(),
        }

    def converted(self, choices: Choices) -> tuple[Plan, Report]:
        """The plan that the choices give, and the account of it; raises ``DrawingRefused``."""
        roles = dict(self.roles if choices.roles is None else choices.roles)
        unknown = [layer for layer in roles if layer not in self.sheet.counts]
        if unknown:
            raise DrawingRefused(f"the drawing has no layer {unknown[0][:60]!r}; it has {_listed(self.sheet.counts)}")
        if not {"walls", "centrelines"} & set(roles.values()):
            raise DrawingRefused(f"no layer is chosen for walls; the drawing has {_listed(self.sheet.counts)}")
        unit = choices.units or self._unit_without_asking()
        feet, origin = FEET[unit], self._origin(roles)
        on = SheetOfDrawings(self.sheet.placed(feet, origin), roles)
        levels = on.chosen(levels_told(choices.levels))
        points = {number: _placed(spot, feet, origin) for number, spot in points_told(choices.common).items()}
        storeys = read_storeys(on, levels, points, choices, "metric" if unit in METRIC else "imperial")
        notes = [*self._notes, *storeys.notes]
        plan = plan_of(storeys.values, choices, unit in METRIC, notes)
        report = self._account(plan, unit, roles, storeys.unread, [*notes, *_doubts(storeys.floors, choices)])
        report.drawings, report.levels = on.lines(storeys.used, feet, origin), storeys.levels
        return plan, report

    def _drawings(self) -> list[dict[str, Any]]:
        """The drawings on the sheet under the proposed roles and unit; none where these are not told."""
        unit = self.scale.proposed
        if unit is None or not {"walls", "centrelines"} & set(self.roles.values()):
            return []
        origin = self._origin(self.roles)
        on = SheetOfDrawings(self.sheet.placed(FEET[unit], origin), self.roles)
        return on.lines(on.chosen(()), FEET[unit], origin)

    def _unit_without_asking(self) -> str:
        if self.scale.proposed is None or (self.scale.must_ask and self.scale.likely is None):
            sizes = [f"{unit} {_size(self.scale.extent, unit)}" for unit in FEET]
            raise DrawingRefused(f"the drawing does not tell its unit; choose one: {', '.join(sizes)}")
        return self.scale.proposed

    def _account(self, plan: Plan, unit: str, roles: dict[str, Role], unused: Unread, notes: list[str]) -> Report:
        if self._said is None:
            notes = [f"The drawing tells no unit: it was read in {NAMES[unit]}.", *notes]
        elif self._said != unit:
            notes = [f"The drawing says {NAMES[self._said]}; it was read in {NAMES[unit]}.", *notes]
        kinds = Counter(opening.kind for level in plan.levels for opening in level.openings)
        walls = [wall for level in plan.levels for wall in level.walls]
        read = {"levels": len(plan.levels)} if len(plan.levels) > 1 else {}
        read |= {"walls": len(walls), "doors": kinds["door"], "windows": kinds["window"]}
        read |= {"cased openings": kinds["cased"], "rooms": sum(len(level.rooms) for level in plan.levels)}
        xs = [x for wall in walls for x, _ in (wall.a, wall.b)]
        ys = [y for wall in walls for _, y in (wall.a, wall.b)]
        left_out = Unread()
        for layer, counts in self.sheet.counts.items():
            if roles.get(layer, "ignore") == "ignore":
                for kind in counts:
                    if kind not in ("other", "blocks"):
                        left_out.add(layer, kind, "the layer is left out", counts[kind])
            elif counts.get("texts") and roles[layer] != "names":
                left_out.add(layer, "texts", "the layer is not chosen for names", counts["texts"])
        unread = self._unread.merged(unused).merged(left_out)
        return Report(unit, (max(xs) - min(xs), max(ys) - min(ys)), read, notes, unread)

    # --- guesses ---

    @cached_property
    def _judged(self) -> list[Stroke]:
        """The strokes that size and thickness are judged by: of layers named for walls, else all that is shown."""
        shown = [stroke for stroke in self.sheet.strokes if stroke.layer not in self.sheet.hidden]
        named = [stroke for stroke in shown if role_by_name(stroke.layer) == "walls"]
        strokes = named or [stroke for stroke in shown if role_by_name(stroke.layer) != "ignore"] or self.sheet.strokes
        return strokes or [chord for arc in self.sheet.arcs for chord in arc.chords()]

    def _usual_thickness(self, extent: tuple[float, float]) -> float | None:
        """The commonest thickness, in drawing units, under the first unit that pairs most of the strokes."""
        strokes = self._judged[:_MOST_JUDGED]
        whole = sum(stroke.length for stroke in strokes)
        for unit in FEET:
            if not Scale(None, None, extent).is_plausible(unit):
                continue
            bands, used = paired_bands(self._in_feet(strokes, unit))
            if used > 0.3 * whole * FEET[unit]:
                lengths: dict[float, float] = {}
                for band in bands:
                    run = sum(end - start for start, end in band.solid)
                    lengths[round(band.thickness, 2)] = lengths.get(round(band.thickness, 2), 0.0) + run
                return max(lengths, key=lambda width: lengths[width]) / FEET[unit]
        return None

    def _in_feet(self, strokes: list[Stroke], unit: str) -> list[Stroke]:
        origin = _lowest(strokes)
        return Sheet(strokes=strokes).placed(FEET[unit], origin).strokes

    def _origin(self, roles: dict[str, Role]) -> Spot:
        return _lowest([one for one in self.sheet.strokes if roles.get(one.layer) in ("walls", "centrelines")])


def _placed(spot: Spot, feet: float, origin: Spot) -> Spot:
    return (spot[0] - origin[0]) * feet, (spot[1] - origin[1]) * feet


def _doubts(floors: Sequence[Floor], choices: Choices) -> list[str]:
    """What of the traced floors rests on weak grounds."""
    notes = []
    free = sum(floor.free_ends for floor in floors)
    bare, parted = sum(floor.found.bare for floor in floors), sum(floor.found.parted for floor in floors)
    if free:
        notes.append(f"{told(free, 'wall end meets', 'wall ends meet')} no other wall: see if a room stays open.")
    if bare:
        notes.append(f"{told(bare, 'opening is a bare gap', 'openings are bare gaps')}, cased unless to the outside.")
    if parted:
        notes.append(f"{told(parted, 'gap is', 'gaps are')} too wide for an opening: the wall ends on both sides.")
    if any(opening.kind == "window" for floor in floors for piece in floor.pieces for opening in piece.openings):
        notes.append(
            f"A drawing in plan tells no heights: windows have their sill at {length_text(choices.sill)} and every "
            f"head at {length_text(choices.head)}. Set each as it is to be built, since coverage depends on it."
        )
    return notes


def _extent(strokes: Iterable[Stroke]) -> tuple[float, float]:
    ends = [end for stroke in strokes for end in (stroke.a, stroke.b)]
    if not ends:
        return 1.0, 1.0
    xs, ys = [x for x, _ in ends], [y for _, y in ends]
    return max(xs) - min(xs), max(ys) - min(ys)


def _lowest(strokes: Iterable[Stroke]) -> Spot:
    ends = [end for stroke in strokes for end in (stroke.a, stroke.b)]
    return (min(x for x, _ in ends), min(y for _, y in ends)) if ends else (0.0, 0.0)


def _size(extent: tuple[float, float], unit: str) -> str:
    return " x ".join(f"{side * FEET[unit]:.4g}" for side in extent) + " ft"


def _listed(layers: Iterable[str]) -> str:
    names = sorted(layers)
    return ", ".join(name[:40] for name in names[:12]) + (f" and {len(names) - 12} more" if len(names) > 12 else "")
