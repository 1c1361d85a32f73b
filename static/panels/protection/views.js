/**
 * The views of step Proof, one at a time: glass and findings, stay and away, entry, ways in, sound, the practice.
 * The protection is asked for only while one of its views is in sight; leaving it clears the drawing.
 */

/** @import { Desk } from "../../desk.js" */
/** @import { View } from "./view.js" */

import { signShare } from "../../drawing/protection/labels.js";
import { make } from "../../drawing/svg.js";
import { Protection } from "../../server/protection.js";
import { h } from "../html.js";
import { entry } from "./entry.js";
import { guards } from "./guards.js";
import { sound } from "./sound.js";
import { waysIn } from "./ways_in.js";

/**
 * @param {Desk} desk @param {HTMLElement} place the step's panel
 * @param {{name: string, title: string, words: string, element: HTMLElement}} glass the view that comes first
 * @param {{name: string, title: string, words: string, element: HTMLElement, opened: () => void}} practice the view that comes last
 */
export function proofViews(desk, place, glass, practice) {
  const protection = new Protection(desk.planId, desk.autosave);
  const [under, over] = ["under", "over"].map((name) => make("g", { class: `layer protection-${name}` }));
  desk.drawing.layer("fixtures").before(/** @type {SVGElement} */ (under));
  desk.drawing.layer("devices").before(/** @type {SVGElement} */ (over));
  const state = h("p", { class: "quiet protection-state", role: "status" });
  /** @type {View[]} */
  const views = [];
  let open = 0;
  const all = () => [glass, ...views, practice];
  const view = () => (place.hidden ? undefined : views.find((one) => one === all()[open]));

  /** Signs go where the drawing's own words leave room: they are drawn a frame after it. */
  let waiting = false;
  const draw = () => {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => requestAnimationFrame(() => {
      waiting = false;
      paint();
    }));
  };
  const paint = () => {
    const shown = view();
    const { answer } = protection;
    const some = shown && answer && desk.store.draft === null ? answer : null;
    under?.replaceChildren(...(some && shown ? shown.under(some) : []));
    over?.replaceChildren(...(some && shown ? shown.over(some) : []));
    over?.style.setProperty("--sign", String(signShare(desk.view.scale)));
    for (const layer of [under, over]) layer?.classList.toggle("out-of-date", !protection.isCurrent);
  };
  const fill = () => {
    const shown = view();
    state.textContent = shown ? stateWords(protection) : "";
    state.hidden = !state.textContent;
    if (shown && protection.answer) keepFocus(shown.element, () => shown.fill(/** @type {NonNullable<typeof protection.answer>} */ (protection.answer)));
    draw();
  };
  views.push(...[guards, entry, waysIn, sound].map((make) => make(desk, fill)));

  const tabs = all().map((one, i) => h("button", { type: "button", role: "tab", id: `view-${one.name}`, "aria-controls": `view-${one.name}-panel`, title: one.words, onclick: () => show(i), onkeydown: (/** @type {KeyboardEvent} */ event) => step(event) }, one.title));
  const panels = all().map((one) => h("div", { role: "tabpanel", id: `view-${one.name}-panel`, "aria-labelledby": `view-${one.name}` }, one.element));
  const show = (/** @type {number} */ number) => {
    open = number;
    tabs.forEach((tab, i) => {
      tab.setAttribute("aria-selected", String(i === open));
      tab.tabIndex = i === open ? 0 : -1;
    });
    panels.forEach((panel, i) => (panel.hidden = i !== open));
    if (all()[open] === practice) practice.opened();
    follow();
  };
  /** @param {KeyboardEvent} event */
  const step = (event) => {
    const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (!by) return;
    event.preventDefault();
    event.stopPropagation();
    show((open + by + tabs.length) % tabs.length);
    tabs[open]?.focus();
  };
  /** The page's styles know the view in sight by its name. */
  const follow = () => {
    const shown = view();
    if (shown) document.body.dataset.view = shown.name;
    else delete document.body.dataset.view;
    protection.watch(Boolean(shown));
    fill();
  };

  place.append(h("div", { class: "view-tabs", role: "tablist", "aria-label": "Views of the proof" }, ...tabs), state, ...panels);
  protection.listen(fill);
  desk.selection.listen(fill);
  desk.proof.listen((topic) => topic === "answer" && view() && draw());
  desk.store.listen((topic) => view() && (topic === "draft" ? draw() : fill()));
  followZoom(desk, () => view() && draw());
  new MutationObserver(follow).observe(place, { attributeFilter: ["hidden"] });
  show(0);
}

/** @param {Protection} protection */
function stateWords(protection) {
  if (protection.trouble) return `This could not be worked out: ${protection.trouble}`;
  if (!protection.answer) return "Working it out…";
  if (protection.isCurrent) return "";
  return protection.asking ? "Out of date: the plan has changed. Working it out anew…" : "Out of date: of the plan as last saved.";
}

/** Make a part anew and give the focus back to what stands where it was. @param {HTMLElement} element @param {() => void} fill */
function keepFocus(element, fill) {
  const parts = () => [.../** @type {NodeListOf<HTMLElement>} */ (element.querySelectorAll("button, select, input, [tabindex]"))];
  const held = parts().indexOf(/** @type {HTMLElement} */ (document.activeElement));
  const scrolled = [...element.querySelectorAll(".scroll")].map((part) => part.scrollTop);
  fill();
  [...element.querySelectorAll(".scroll")].forEach((part, i) => (part.scrollTop = scrolled[i] ?? 0));
  if (held >= 0 && !element.contains(document.activeElement)) parts()[held]?.focus({ preventScroll: true });
}

/** Signs are laid out anew when the zoom has changed by a fifth of an octave. @param {Desk} desk @param {() => void} draw */
function followZoom(desk, draw) {
  let scale = desk.view.scale;
  desk.view.listen(() => {
    if (Math.abs(Math.log2(desk.view.scale / scale)) < 0.2) return;
    scale = desk.view.scale;
    draw();
  });
}
