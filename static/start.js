/**
 * The page of a plan: puts the parts together about the plan that came with it, and opens on the whole level.
 */

/** @import { Desk } from "./desk.js" */
/** @import { Tables } from "./plan/types.js" */
/** @import { KeptPlan } from "./server/api.js" */
/** @import { Underlay } from "./server/underlays.js" */

import { Drawing } from "./drawing/drawing.js";
import { inNextFrame } from "./drawing/next_frame.js";
import { patchChildren } from "./drawing/patch.js";
import { Planes } from "./drawing/planes.js";
import { make, segment } from "./drawing/svg.js";
import { View } from "./drawing/view.js";
import * as actions from "./gestures/actions.js";
import { Keys } from "./gestures/keys.js";
import { Pointer } from "./gestures/pointer.js";
import { Tools } from "./gestures/tools.js";
import { Latecomers } from "./latecomers.js";
import { byId } from "./panels/html.js";
import { once } from "./panels/late.js";
import { levelSwitch } from "./panels/level_switch.js";
import { showFaults, showSaved } from "./panels/saved.js";
import { Steps } from "./panels/steps.js";
import { showStrip } from "./panels/strip.js";
import { find } from "./plan/lookup.js";
import { Selection } from "./plan/selection.js";
import { PlanStore } from "./plan/store.js";
import { Autosave } from "./server/autosave.js";
import { checked } from "./server/early_check.js";
import { Proof } from "./server/proof.js";
import { Underlays } from "./server/underlays.js";

const SETTLE = 180; // ms after a zoom until the overlay's words are fetched anew
const GRACE = 120; // ms that the page waits for the proof, so that all of it is filled, drawn and painted once

/**
 * What the page begins from: it came with it.
 * @returns {{kept: KeptPlan, tables: Tables, underlays: Underlay[]}}
 */
const given = () => JSON.parse(byId("given", HTMLTemplateElement).content.textContent ?? "");

/** @param {string} planId @param {Promise<void>} opened @returns {Desk} */
function makeDesk(planId, opened) {
  const { kept, tables, underlays } = given();
  const planes = new Planes(byId("drawing", HTMLElement));
  const store = new PlanStore(kept.plan);
  const selection = new Selection(store);
  const view = new View(planes);
  const autosave = new Autosave(planId, store, kept.revision);
  const proof = new Proof(planId, store, autosave, () => Math.round(view.scale * 10) / 10);
  const drawing = new Drawing(planes, view, store, selection, proof, tables);
  const desk = /** @type {Desk} */ ({
    planId, tables, store, selection, autosave, proof, view, drawing, opened,
    pointer: new Pointer(planes.board, view), say,
  });
  desk.tools = new Tools(desk);
  desk.underlays = new Underlays(planId, store, underlays);
  drawing.others = () => desk.picture?.corners ?? [];
  return desk;
}

/** @param {number} wait ms @returns {Promise<void>} */
const pause = (wait) => new Promise((resolve) => setTimeout(resolve, wait));

/** @param {string} words @param {boolean} [urgent] */
function say(words, urgent = false) {
  const place = byId(urgent ? "said-urgent" : "said", HTMLElement);
  place.textContent = words;
  if (urgent) setTimeout(() => place.textContent === words && (place.textContent = ""), 9000);
}

/** @param {Desk} desk @returns {Latecomers} */
function fillPage(desk) {
  const steps = new Steps(desk, byId("steps", HTMLElement), byId("panel", HTMLElement));
  const late = new Latecomers(desk, steps);
  desk.askLength = () => byId("length-box", HTMLFormElement).hidden && late.length("");
  late.keys = new Keys(desk, { help: () => late.help(), find: () => late.find(), length: (first) => late.length(first), step: (by) => steps.move(by) });
  showStrip(desk, byId("strip", HTMLElement), (step) => steps.showNamed(step));
  showSaved(desk, byId("saved", HTMLButtonElement));
  showFaults(desk, byId("faults", HTMLElement));
  levelSwitch(desk, byId("levels", HTMLElement));
  byId("saved", HTMLButtonElement).addEventListener("click", () => (desk.autosave.state === "conflict" ? late.conflict() : desk.autosave.now()));
  byId("help-button", HTMLButtonElement).addEventListener("click", () => late.help());
  byId("find-button", HTMLButtonElement).addEventListener("click", () => late.find());
  stepButtons(desk);
  planName(desk);
  hints(desk);
  return late;
}

/** @param {Desk} desk */
function stepButtons(desk) {
  const [back, again] = [byId("undo", HTMLButtonElement), byId("redo", HTMLButtonElement)];
  back.addEventListener("click", () => actions.undo(desk));
  again.addEventListener("click", () => actions.redo(desk));
  const draw = () => {
    back.disabled = !desk.store.done.length;
    again.disabled = !desk.store.undone.length;
    back.title = `Undo ${desk.store.done.at(-1)?.words ?? ""} (Ctrl+Z)`;
    again.title = `Do again ${desk.store.undone.at(-1)?.words ?? ""} (Ctrl+Y)`;
  };
  desk.store.listen((topic) => topic === "plan" && draw());
  draw();
}

/** @param {Desk} desk */
function planName(desk) {
  const input = byId("plan-name", HTMLInputElement);
  const draw = () => {
    if (document.activeElement !== input) input.value = desk.store.plan.name;
    byId("heading", HTMLElement).textContent = desk.store.plan.name;
    document.title = `${desk.store.plan.name} · Studbay`;
  };
  input.addEventListener("change", () => {
    const name = input.value.trim();
    if (!name) input.value = desk.store.plan.name;
    else if (name !== desk.store.plan.name) desk.store.commit("Rename the plan", { ...desk.store.plan, name });
  });
  input.addEventListener("keydown", (event) => event.key === "Enter" && input.blur());
  desk.store.listen((topic) => topic === "plan" && draw());
  draw();
}

/** What to do now, the first step of an empty plan, and the handles of the selection. @param {Desk} desk */
function hints(desk) {
  const [hint, empty] = [byId("hint", HTMLElement), byId("empty", HTMLElement)];
  const tell = () => (hint.textContent = desk.pointer.gesture.hint);
  desk.pointer.listen(tell);
  empty.querySelector("button")?.addEventListener("click", () => {
    desk.tools.use("room");
    desk.drawing.board.focus();
  });
  /** @type {typeof import("./gestures/handles.js") | null} */
  let handles = null;
  const fetchHandles = once(async () => {
    handles = await import("./gestures/handles.js");
    if (desk.selection.only) ask();
  });
  desk.opened.then(fetchHandles).catch(() => {}); // asked for again with the next selection
  const draw = () => {
    if (desk.selection.only && !handles) fetchHandles().catch(() => {});
    const isEmpty = !desk.store.plan.levels.some((level) => (level.walls ?? []).length > 0) && desk.tools.current === "select" && desk.underlays.committed === null;
    if (empty.hidden === isEmpty) empty.hidden = !isEmpty;
    patchChildren(desk.drawing.layer("handles"), [...chosenPane(desk), ...(handles?.handlesOf(desk) ?? [])]);
  };
  const ask = inNextFrame(draw);
  desk.store.listen(ask);
  desk.selection.listen(ask);
  desk.tools.listen(ask);
  desk.underlays.listen(ask);
  desk.view.listen(ask);
  desk.proof.listen((topic) => topic === "answer" && ask());
  draw();
}

/** A broad mark along the pane that the elevation shows. @param {Desk} desk */
function chosenPane(desk) {
  const pane = desk.proof.panes.find((entry) => entry.id === desk.selection.pane && entry.level === desk.store.levelId);
  return pane ? [make("path", { class: "chosen-pane", d: segment(...pane.segment) })] : [];
}

/** What draws the picture behind the drawing is fetched for the plans that have one. @param {Desk} desk @returns {Promise<unknown>} settles when it is here */
function followUnderlays(desk) {
  const fetchPicture = once(async () => (await import("./drawing/underlay.js")).pictureBehind(desk));
  const want = async () => desk.underlays.committed && fetchPicture().catch(() => {}); // asked for again with the next change
  desk.underlays.listen(want);
  return want();
}

/** Leaders are drawn for the one detector selected. @param {Desk} desk */
function followSelection(desk) {
  desk.selection.listen(() => {
    const found = desk.selection.only ? find(desk.store.plan, desk.selection.only) : undefined;
    desk.proof.focusOn(found?.family === "devices" ? found.thing : null);
  });
}

/** @param {Desk} desk */
function followZoom(desk) {
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let timer;
  let scale = desk.view.scale;
  desk.view.listen(() => {
    if (desk.view.scale === scale) return;
    scale = desk.view.scale;
    clearTimeout(timer);
    timer = setTimeout(() => desk.proof.tried || desk.proof.redraw(), SETTLE);
  });
  new ResizeObserver(() => {
    desk.view.measure();
    desk.drawing.ask();
  }).observe(desk.drawing.board);
}

async function start() {
  let tellOpened = () => {};
  const planId = document.body.dataset.plan ?? "";
  const desk = makeDesk(planId, new Promise((resolve) => (tellOpened = resolve)));
  const { drawing, view, autosave, proof } = desk;
  drawing.fit(); // the overlay is asked for at the zoom that will be
  const [{ revision }, { scale }] = [autosave, view];
  let proved = proof.refresh(checked);
  await Promise.race([proved, pause(GRACE)]);
  const late = fillPage(desk);
  followSelection(desk);
  desk.tools.use("select");
  await followUnderlays(desk);
  view.measure();
  drawing.fit();
  view.apply();
  followZoom(desk);
  if (view.scale !== scale) proof.redraw();
  await autosave.begin();
  if (autosave.revision !== revision) proved = proof.refresh();
  drawing.begin();
  await proved;
  drawing.draw();
  document.body.dataset.ready = "yes";
  performance.mark("usable");
  requestAnimationFrame(() => setTimeout(tellOpened)); // what stands is painted first
  await late.welcome();
}

start().catch((error) => {
  say(`The plan could not be opened: ${error instanceof Error ? error.message : error}. Reload the page to try again.`, true);
  throw error;
});
