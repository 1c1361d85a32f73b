/**
 * Rulers along the top and left edges of the drawing: feet and inches or metres from the plan's origin, at a step that
 * suits the zoom, with the pointer's place marked on both.
 */

/** @import { View } from "./view.js" */

import { FEET_PER_METRE } from "../plan/measures.js";
import { stepFor } from "./grid.js";
import { make } from "./svg.js";

export const WIDE = 20; // px
const [FINE, TOLD] = [6, 58]; // px between ticks, and between ticks with their number
const RESTS = 100; // ms without a move

export class Rulers {
  /** @param {HTMLElement} board @param {View} view @param {() => "imperial" | "metric"} units */
  constructor(board, view, units) {
    this.board = board;
    this.view = view;
    this.units = units;
    this.shown = false;
    this.group = make("g", { class: "rulers", "aria-hidden": "true", display: "none" });
    this.scale = make("g");
    this.group.append(this.scale);
    // Marks of the pointer are boxes that the compositor moves: one drawn anew would lay out and paint in every move.
    this.across = Object.assign(document.createElement("div"), { className: "ruler-pointer across", hidden: true });
    this.down = Object.assign(document.createElement("div"), { className: "ruler-pointer down", hidden: true });
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.resting = undefined;
    board.append(make("svg", { class: "plane" }, [this.group]), this.across, this.down);
    view.listen(() => this.draw());
    board.addEventListener("pointermove", (event) => this.#point(event));
    board.addEventListener("pointerleave", () => this.#leave());
  }

  /** @param {boolean} shown */
  show(shown) {
    this.shown = shown;
    this.group.setAttribute("display", shown ? "inline" : "none");
    this.board.parentElement?.classList.toggle("has-rulers", shown);
    if (!shown) this.#leave();
    this.draw();
  }

  draw() {
    if (!this.shown) return;
    const { width, height } = this.view.size;
    const units = this.units();
    const [fine, told] = [FINE, TOLD].map((least) => stepFor(this.view.scale, units, least));
    const [left, top] = this.view.toPlan(0, 0);
    const [right, bottom] = this.view.toPlan(width, height);
    const step = /** @type {{fine: number, told: number, units: "imperial" | "metric"}} */ ({ fine, told, units });
    this.scale.replaceChildren(
      make("path", { class: "ruler-back", d: `M0 0H${width}V${WIDE}H${WIDE}V${height}H0Z` }),
      ...this.#ticks(left, right, step, (feet) => this.view.toScreen([feet, 0]).x, false),
      ...this.#ticks(bottom, top, step, (feet) => this.view.toScreen([0, feet]).y, true),
      make("rect", { class: "ruler-corner", width: WIDE, height: WIDE }),
      make("path", { class: "ruler-ring", d: `M1 ${height}V1H${width}` })); // of the board's focus, which they cover
  }

  /** @param {number} from @param {number} to feet @param {{fine: number, told: number, units: "imperial" | "metric"}} step @param {(feet: number) => number} place @param {boolean} upright */
  #ticks(from, to, { fine, told, units }, place, upright) {
    let d = "";
    /** @type {SVGElement[]} */
    const words = [];
    for (let i = Math.ceil(from / fine); i * fine <= to; i++) {
      const feet = i * fine;
      const at = Math.round(place(feet)) + 0.5;
      const isTold = Math.abs(feet / told - Math.round(feet / told)) < 1e-6;
      const long = isTold ? WIDE : Math.abs((2 * feet) / told - Math.round((2 * feet) / told)) < 1e-6 ? 8 : 5;
      d += upright ? `M${WIDE} ${at}h${-long}` : `M${at} ${WIDE}v${-long}`;
      if (isTold) words.push(make("text", { class: "ruler-word", x: upright ? 3 - at : at + 3, y: 9 }, [tickWords(feet, units)]));
    }
    return [make("path", { class: "ruler-ticks", d }), make("g", upright ? { transform: "rotate(-90)" } : {}, words)];
  }

  /**
   * Marks at two edges have the browser compose all between them anew: in a drag they come when the pointer rests.
   * @param {PointerEvent} event
   */
  #point(event) {
    if (!this.shown) return;
    clearTimeout(this.resting);
    if (!("drag" in this.board.dataset)) return this.#put(event);
    this.#mark(false);
    this.resting = setTimeout(() => this.#put(event), RESTS);
  }

  /** @param {PointerEvent} event */
  #put(event) {
    const box = this.board.getBoundingClientRect();
    this.across.style.transform = `translateX(${Math.round(event.clientX - box.left)}px)`;
    this.down.style.transform = `translateY(${Math.round(event.clientY - box.top)}px)`;
    this.#mark(true);
  }

  #leave() {
    clearTimeout(this.resting);
    this.#mark(false);
  }

  /** @param {boolean} marked whether the pointer's place is */
  #mark(marked) {
    for (const mark of [this.across, this.down]) if (mark.hidden === marked) mark.hidden = !marked;
  }
}

/** 12' or 12'-6" ; 3.5 m. @param {number} feet @param {"imperial" | "metric"} units */
function tickWords(feet, units) {
  if (units === "metric") return `${Math.round((feet / FEET_PER_METRE) * 100) / 100}`;
  const inches = Math.round(Math.abs(feet) * 24) / 2;
  const [whole, rest] = [Math.floor(inches / 12), inches % 12];
  return `${feet < -1e-9 ? "-" : ""}${whole}'${rest ? `-${rest === Math.floor(rest) ? rest : `${Math.floor(rest)} 1/2`}"` : ""}`;
}
