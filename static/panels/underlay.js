/**
 * The part of the step Shell in which a picture is laid under the level to be traced: chosen, scaled, turned, moved,
 * faded, locked, hidden and taken away. Everything that the pointer does can be typed here too.
 */

/** @import { Placement } from "../plan/placing.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Field } from "./fields.js" */

import { unitsOf } from "../plan/lookup.js";
import { middleOf, scaledAbout, turnedAbout } from "../plan/placing.js";
import { fieldOf, section } from "./fields.js";
import { h } from "./html.js";
import { chooseFile, takesFiles } from "./underlay_files.js";

/** @type {[string, string, number][]} what a drawing on paper says of its scale, and feet an inch of paper */
const PAPER_SCALES = [
  ["1/8\" = 1'-0\"", "eighth", 8], ["3/16\" = 1'-0\"", "three_sixteenths", 16 / 3], ["1/4\" = 1'-0\"", "quarter", 4], ["3/8\" = 1'-0\"", "three_eighths", 8 / 3],
  ["1/2\" = 1'-0\"", "half", 2], ["1:50", "50", 50 / 12], ["1:100", "100", 100 / 12], ["1:200", "200", 200 / 12],
];
/** @type {[string, string, string][]} tool, words, what it does */
const TOOLS = [
  ["underlay_scale", "Set scale", "Press two places of the picture and type their true distance"],
  ["underlay_level", "Level", "Press two places on a line that should be level or plumb"],
  ["underlay_move", "Move", "Drag the picture, or press a place of it and where it belongs"],
];

/** @param {Desk} desk */
export function underlayPart(desk) {
  const place = section("Picture under this level");
  const body = h("div");
  place.classList.add("underlay-part");
  place.append(body);
  takesFiles(desk);
  let drawn = "";
  const draw = () => {
    const { committed, trouble } = desk.underlays;
    place.dataset.state = desk.underlays.sending ? "sending" : "saved";
    const key = JSON.stringify([committed, desk.underlays.picture?.name, trouble, unitsOf(desk.store.plan), desk.store.levelId]);
    if (key === drawn) return;
    drawn = key;
    const held = document.activeElement instanceof HTMLElement && body.contains(document.activeElement) ? document.activeElement.dataset.key : undefined;
    body.replaceChildren(...(committed ? placedParts(desk, committed) : emptyParts(desk)));
    if (trouble) body.append(h("p", { class: "fault", role: "alert" }, trouble));
    if (held) /** @type {HTMLElement | null} */ (body.querySelector(`[data-key="${held}"]`))?.focus({ preventScroll: true });
    mark();
  };
  const mark = () => {
    for (const button of body.querySelectorAll("[data-tool]")) button.setAttribute("aria-pressed", String(button.getAttribute("data-tool") === desk.tools.current));
  };
  desk.underlays.listen(draw);
  desk.store.listen((topic) => topic === "plan" && draw());
  desk.tools.listen(mark);
  draw();
  return place;
}

/** @param {Desk} desk */
function emptyParts(desk) {
  return [h("div", { class: "underlay-drop" },
    h("p", { class: "buttons" }, h("button", { type: "button", "data-key": "choose", onclick: () => chooseFile(desk) }, "Choose a picture or PDF…")),
    "PNG, JPEG, WebP or a page of a PDF, to trace over. Or drop it on the drawing, or paste it. It stays on this machine, and is printed only where Handover is asked to.")];
}

/** @param {Desk} desk @param {Placement} placement */
function placedParts(desk, placement) {
  const { underlays } = desk;
  const known = underlays.pictures.get(placement.picture);
  if (!known) return [h("p", { class: "quiet" }, "Reading the picture…")];
  const [middle, units] = [middleOf(placement, known), unitsOf(desk.store.plan)];
  const { locked } = placement;
  /** @param {string} words @param {Partial<Placement>} change */
  const set = (words, change) => underlays.commit(words, { ...placement, ...change });
  /** @param {Field} field @param {(value: any) => void} change */
  const field = (field, change) => {
    const element = fieldOf(field, units, change);
    if (locked) element.querySelector("input, select")?.setAttribute("disabled", "");
    return element;
  };
  return [
    h("p", { class: "underlay-name" }, h("b", {}, known.name), h("small", {}, `${known.width} × ${known.height} pixels`)),
    h("div", { class: "buttons", role: "group", "aria-label": "Fit the picture" }, ...TOOLS.map(([tool, words, title]) =>
      h("button", { type: "button", title, disabled: locked, "data-tool": tool, "data-key": tool, "aria-pressed": "false", onclick: () => desk.tools.use(tool) }, words))),
    h("div", { class: "fields" },
      ...(known.per_inch ? [field(paperScale(placement, known.per_inch), (value) => drawnAt(desk, placement, value))] : []),
      field({ key: "width", label: "Its whole width is", type: "length", value: placement.scale * known.width, low: 0.1, high: 10000 }, (width) => underlays.commit("Set the picture's scale", scaledAbout(placement, middle, width / (placement.scale * known.width)))),
      field({ key: "turn", label: "Turned", unit: "°", type: "number", value: placement.turn, low: -360, high: 360 }, (turn) => underlays.commit("Turn the picture", turnedAbout(placement, middle, turn - placement.turn))),
      field({ key: "east", label: "Top left, east", type: "length", value: placement.origin[0], low: -10000, high: 10000 }, (east) => set("Move the picture", { origin: [east, placement.origin[1]] })),
      field({ key: "north", label: "Top left, north", type: "length", value: placement.origin[1], low: -10000, high: 10000 }, (north) => set("Move the picture", { origin: [placement.origin[0], north] }))),
    fade(desk, placement),
    h("div", { class: "underlay-flags" },
      flag("locked", "Locked", locked, (on) => set(on ? "Lock the picture" : "Unlock the picture", { locked: on })),
      flag("shown", "Shown", placement.shown, (on) => set(on ? "Show the picture" : "Hide the picture", { shown: on }))),
    h("p", { class: "buttons" },
      h("button", { type: "button", "data-key": "choose", onclick: () => chooseFile(desk) }, "Another…"),
      h("button", { type: "button", class: "danger", "data-key": "away", onclick: () => takeAway(desk) }, "Take away")),
  ];
}

/** @param {string} key @param {string} words @param {boolean} on @param {(on: boolean) => void} change */
function flag(key, words, on, change) {
  const box = h("input", { type: "checkbox", "data-key": key, checked: on, onchange: () => change(box.checked) });
  return h("label", {}, box, words);
}

/** @param {Desk} desk @param {Placement} placement */
function fade(desk, placement) {
  const told = h("output", {}, percent(placement.fade));
  const slider = h("input", {
    type: "range", min: 0, max: 90, step: 5, value: Math.round(placement.fade * 100), "data-key": "fade",
    oninput: () => {
      told.textContent = percent(Number(slider.value) / 100);
      desk.underlays.sketch({ ...placement, fade: Number(slider.value) / 100 });
    },
    onchange: () => desk.underlays.commit("Fade the picture", { ...placement, fade: Number(slider.value) / 100 }),
  });
  return h("div", { class: "fade" }, h("label", {}, "Faded", slider, told));
}

/** @param {number} share */
const percent = (share) => `${Math.round(share * 100)} %`;

/** A PDF knows its paper: what the drawing says of its scale is enough. @param {Placement} placement @param {number} perInch px an inch of paper @returns {Field} */
function paperScale(placement, perInch) {
  const feet = placement.scale * perInch;
  const found = PAPER_SCALES.find((entry) => Math.abs(entry[2] / feet - 1) < 1e-4);
  /** @type {[string, string][]} */
  const choices = PAPER_SCALES.map(([words, key]) => [key, words]);
  return { key: "paper", label: "The sheet is drawn at", type: "choice", value: found?.[1] ?? "", choices: [["", "another scale"], ...choices] };
}

/** @param {Desk} desk @param {Placement} placement @param {string} key */
function drawnAt(desk, placement, key) {
  const known = desk.underlays.pictures.get(placement.picture);
  const chosen = PAPER_SCALES.find((entry) => entry[1] === key);
  if (!known?.per_inch || !chosen) return;
  const factor = chosen[2] / known.per_inch / placement.scale;
  desk.underlays.commit("Set the picture's scale", scaledAbout(placement, middleOf(placement, known), factor));
  if (!(desk.store.level.walls ?? []).length) desk.drawing.fit();
  desk.say(`The picture is at ${chosen[0]}; check it against a dimension`);
}

/** @param {Desk} desk */
function takeAway(desk) {
  desk.underlays.commit("Take the picture away", null);
  desk.say("The picture is taken away; undo brings it back");
}
