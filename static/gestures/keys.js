/**
 * The keyboard: one table of keys that the help shows and the page obeys, a cursor that any gesture can be driven by,
 * and digits that open the field for a typed length.
 */

/** @import { Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */

import { onPaper, make } from "../drawing/svg.js";
import { plus } from "../geometry/points.js";
import { unitsOf, upward } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import * as actions from "./actions.js";
import { keyWords } from "./tools.js";

/** @import { Way } from "../plan/aligning.js" */

/** @typedef {{keys: string, words: string, group: string, matches: (event: KeyboardEvent) => boolean, act: (event: KeyboardEvent) => void}} Key */

/** @typedef {typeof import("./alterations.js")} Alterations */

const INCH = 1 / 12;
/** @type {Record<string, Point>} */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/** @type {Record<string, Way>} with Ctrl: the side on which the selection is aligned */
const ALIGNS = { ArrowLeft: "left", ArrowRight: "right", ArrowUp: "top", ArrowDown: "bottom" };

export class Keys {
  /** @param {Desk} desk @param {{help: () => void, find: () => void, length: (first: string) => void, step: (by: number) => void}} opens */
  constructor(desk, opens) {
    this.desk = desk;
    /** @type {Point | null} the keyboard's cursor */
    this.cursor = null;
    /** @type {Alterations | null} what changes the selected things, once it has come */
    this.alterations = null;
    /** @type {Promise<unknown> | null} what keys wait for, in their order */
    this.fetching = null;
    this.cursorMark = make("g", { class: "layer cursor" });
    desk.view.planes.addOnTop(this.cursorMark);
    this.table = this.#table(opens);
    this.openLength = opens.length;
    addEventListener("keydown", (event) => this.#down(event));
    addEventListener("keyup", (event) => event.key === " " && (desk.pointer.space = false));
    desk.drawing.board.addEventListener("pointermove", () => this.#hide());
    desk.drawing.board.addEventListener("blur", () => this.#hide());
  }

  /** @param {{help: () => void, find: () => void, step: (by: number) => void}} opens @returns {Key[]} */
  #table(opens) {
    const { desk } = this;
    /** @param {string} letter @param {boolean} [shift] */
    const ctrl = (letter, shift = false) => (/** @type {KeyboardEvent} */ event) => (event.ctrlKey || event.metaKey) && event.shiftKey === shift && event.key.toLowerCase() === letter;
    /** @param {string[]} names */
    const plain = (...names) => (/** @type {KeyboardEvent} */ event) => !event.ctrlKey && !event.metaKey && !event.altKey && names.includes(event.key);
    const finds = [plain("/"), ctrl("k")];
    const redoes = [ctrl("y"), ctrl("z", true)];
    /** @type {Key[]} */
    const table = [
      { group: "Edit", keys: "Ctrl+Z", words: "Undo", matches: ctrl("z"), act: () => actions.undo(desk) },
      { group: "Edit", keys: "Ctrl+Y or Ctrl+Shift+Z", words: "Do again", matches: (event) => redoes.some((is) => is(event)), act: () => actions.redo(desk) },
      { group: "Edit", keys: "Ctrl+A", words: "Select all on the level", matches: ctrl("a"), act: () => actions.selectAll(desk) },
      { group: "Edit", keys: "Ctrl+C", words: "Copy", matches: ctrl("c"), act: () => this.#alter((parts) => parts.copy(desk)) },
      { group: "Edit", keys: "Ctrl+V", words: "Paste on the level in view", matches: ctrl("v"), act: () => this.#alter((parts) => parts.paste(desk)) },
      { group: "Edit", keys: "Ctrl+D", words: "Duplicate", matches: ctrl("d"), act: () => this.#alter((parts) => parts.duplicate(desk)) },
      { group: "Edit", keys: "Q and E", words: "Turn the selection, or the piece to be placed, by 90° to the left and to the right", matches: plain("q", "e"), act: (event) => this.#turn(event.key === "q" ? 90 : -90) },
      { group: "Edit", keys: "H and Shift+H", words: "Mirror the selection left to right, top to bottom", matches: plain("h", "H"), act: (event) => this.#alter((parts) => parts.mirror(desk, event.shiftKey ? "level" : "upright")) },
      { group: "Edit", keys: "Delete", words: "Delete the selection", matches: plain("Delete", "Backspace"), act: () => this.#alter((parts) => parts.remove(desk)) },
      { group: "Edit", keys: "Arrows", words: "Nudge the selection by 1 in (Shift: 1 ft); with a tool, move its cursor by a grid step (Shift: 1 in, Ctrl: 5 ft)", matches: (event) => event.key in ARROWS, act: (event) => this.#arrow(event) },
      { group: "Edit", keys: "Ctrl+Arrows", words: "Align the selection on its left, right, upper or lower side", matches: () => false, act: () => {} },
      { group: "Edit", keys: ".", words: "Go to all ways to align the selection: lines, equal gaps, off a wall, middle of the room's wall, over the openings below", matches: (event) => plain(".")(event) && desk.tools.current === "select" && desk.selection.ids.size > 0, act: () => desk.tools.askFor("align") },
      { group: "Edit", keys: "Enter", words: "With a tool: press at the cursor. With a selection: go to its properties. With openings or furniture: type a size or a piece's name; with room names: name all rooms in turn", matches: plain("Enter"), act: () => this.#enter() },
      { group: "Edit", keys: "Esc", words: "Leave what is under way, then the selection, then the tool", matches: plain("Escape"), act: () => this.#escape() },
      { group: "Edit", keys: "Digits", words: "While drawing or placing: type a length; with an opening a size as well (3'0 x 5'0, 2868, 3 panes, sill 2', fixed) or a row (2 @ 6'); with furniture its size (7' x 3' x 2'9)", matches: () => false, act: () => {} },
      { group: "Edit", keys: "Alt or Shift, held", words: "Suspend snapping", matches: () => false, act: () => {} },
      { group: "View", keys: "F", words: "Fit the level in the window", matches: plain("f"), act: () => desk.drawing.fit() },
      { group: "View", keys: "+ and −", words: "Zoom in and out", matches: plain("+", "=", "-", "_"), act: (event) => desk.view.zoomMiddle(event.key === "+" || event.key === "=" ? 1.25 : 0.8) },
      { group: "View", keys: "Space or middle button, held", words: "Drag the view", matches: plain(" "), act: () => void (desk.pointer.space = true) },
      { group: "View", keys: "Page Up and Page Down", words: "Level above, level below", matches: plain("PageUp", "PageDown"), act: (event) => this.#level(event.key === "PageUp" ? 1 : -1) },
      { group: "View", keys: "[ and ]", words: "Step before, step after", matches: plain("[", "]"), act: (event) => opens.step(event.key === "]" ? 1 : -1) },
      { group: "View", keys: "/ or Ctrl+K", words: "Find anything", matches: (event) => finds.some((is) => is(event)), act: () => opens.find() },
      { group: "View", keys: "?", words: "This help", matches: plain("?", "F1"), act: () => opens.help() },
    ];
    for (const tool of desk.tools.list) {
      if (tool.key) table.push({ group: "Tools", keys: keyWords(tool.key), words: tool.words, matches: (event) => event.shiftKey === /[A-Z]/.test(tool.key) && plain(tool.key)(event), act: () => desk.tools.use(tool.name) });
    }
    return table;
  }

  /** @param {KeyboardEvent} event */
  #down(event) {
    const target = /** @type {HTMLElement} */ (event.target);
    if (document.querySelector("dialog[open]")) return;
    const typing = target.matches("input, select, textarea, [contenteditable]");
    if (typing) {
      const steps = (event.ctrlKey || event.metaKey) && "zy".includes(event.key.toLowerCase()) && !target.matches("input[type=text], textarea, input:not([type])");
      if (!steps) return;
    }
    // Keys that a button or link has a use for are its own.
    const onControl = target.matches("button, a, summary, [role=row]") && ["Enter", " ", "ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight"].includes(event.key);
    if (onControl) return;
    this.#obey(event);
  }

  /** Do what a key says; while something that was asked for is on its way, after that. @param {KeyboardEvent} event */
  #obey(event) {
    const wait = event.key === "Escape" ? null : this.desk.tools.coming ?? this.fetching;
    const known = this.table.some((entry) => entry.matches(event)) || /^[\d.]$/.test(event.key);
    if (wait && known) {
      event.preventDefault();
      return void wait.then(() => this.#obey(event));
    }
    const { gesture } = this.desk.pointer;
    if (gesture.asks && /^[\d.]$/.test(event.key) && !event.ctrlKey && !event.metaKey && !event.altKey) {
      event.preventDefault();
      return this.openLength(event.key);
    }
    const key = this.table.find((entry) => entry.matches(event));
    if (!key) return;
    event.preventDefault();
    key.act(event);
  }

  /** Fetch what changes the selected things; a page that has nothing else to do calls it. */
  fetch() {
    return import("./alterations.js").then((came) => (this.alterations = came));
  }

  /** @param {(parts: Alterations) => void} act */
  #alter(act) {
    if (this.alterations) return act(this.alterations);
    const fetching = this.fetch().then(act, () => this.desk.say("That has not come: the server does not answer. Press the key again to try once more.", true))
      .finally(() => this.fetching === fetching && (this.fetching = null));
    this.fetching = fetching;
  }

  /** @param {KeyboardEvent} event */
  #arrow(event) {
    const way = ARROWS[event.key];
    if (!way) return;
    const { desk } = this;
    if (desk.tools.current === "select" && desk.selection.ids.size) {
      if (event.ctrlKey || event.metaKey) return void import("./align.js").then((parts) => parts.align(desk, /** @type {Way} */ (ALIGNS[event.key])), () => desk.say("Aligning has not come: the server does not answer. Press the keys again to try once more.", true));
      const step = event.shiftKey ? 1 : INCH;
      return this.#alter((parts) => parts.nudge(desk, [way[0] * step, way[1] * step]));
    }
    const { width, height } = desk.view.size;
    const step = event.ctrlKey ? 5 : event.shiftKey ? INCH : 0.5;
    this.cursor = plus(this.cursor ?? desk.pointer.last?.at ?? snapTo(desk.view.toPlan(width / 2, height / 2), 0.5), [way[0] * step, way[1] * step]);
    const { x, y } = desk.view.toScreen(this.cursor);
    if (x < 20 || y < 20 || x > width - 20 || y > height - 20) desk.view.centre(this.cursor);
    this.cursorMark.replaceChildren(onPaper(this.cursor, [make("path", { class: "crosshair", d: "M-14 0H-4M4 0H14M0 -14V-4M0 4V14" }), make("circle", { class: "crosshair", r: 4 })]));
    desk.pointer.gesture.move?.(this.#spot());
    const units = unitsOf(desk.store.plan);
    desk.say(`Cursor ${lengthText(this.cursor[0], units)} east, ${lengthText(this.cursor[1], units)} north`);
  }

  #spot() {
    const at = this.cursor ?? /** @type {Point} */ ([0, 0]);
    const { x, y } = this.desk.view.toScreen(at);
    const box = this.desk.drawing.board.getBoundingClientRect();
    return this.desk.pointer.spotAt(at, document.elementFromPoint(box.left + x, box.top + y));
  }

  #enter() {
    const { desk } = this;
    if (desk.pointer.gesture.enter && !this.cursor) return desk.pointer.gesture.enter();
    if (!this.cursor) return desk.selection.ids.size ? desk.tools.askFor("") : undefined;
    const spot = this.#spot();
    desk.pointer.gesture.press?.(spot);
    desk.pointer.gesture.release?.(spot);
  }

  #escape() {
    const { desk } = this;
    const left = desk.pointer.gesture.escape?.() ?? false;
    this.#hide();
    if (!left && desk.tools.current !== "select") desk.tools.use("select");
  }

  /** @param {number} degrees */
  #turn(degrees) {
    const { gesture } = this.desk.pointer;
    if (gesture.turn) gesture.turn(degrees);
    else this.#alter((parts) => parts.turn(this.desk, degrees));
  }

  /** @param {number} by */
  #level(by) {
    const { store } = this.desk;
    const sorted = upward(store.plan.levels);
    const next = sorted[sorted.findIndex((level) => level.id === store.levelId) + by];
    if (!next) return this.desk.say(by > 0 ? "This is the highest level" : "This is the lowest level");
    store.showLevel(next.id);
    this.desk.say(`Level ${next.name}`);
  }

  #hide() {
    this.cursor = null;
    this.cursorMark.replaceChildren();
  }
}

/** @param {Point} p @param {number} step @returns {Point} */
const snapTo = (p, step) => [Math.round(p[0] / step) * step, Math.round(p[1] / step) * step];
