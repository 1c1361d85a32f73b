/**
 * Pointer events of the drawing, given to the gesture in force as spots of the plan. Panning and zooming are handled
 * here for every gesture: wheel, pinch, middle button, held space.
 */

/** @import { Family, Point } from "../plan/types.js" */
/** @import { View } from "../drawing/view.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { Listened } from "../plan/listened.js";

const MOVED = 4; // px before a press becomes a drag of the view

/** Tells when the hint or what is asked for has changed. */
export class Pointer extends Listened {
  /** @param {HTMLElement} board @param {View} view */
  constructor(board, view) {
    super();
    this.board = board;
    this.view = view;
    /** @type {Gesture} */
    this.gesture = { hint: "" };
    /** @type {Map<number, {x: number, y: number}>} */
    this.down = new Map();
    /** @type {Spot | null} where the pointer was last */
    this.last = null;
    this.space = false;
    this.pans = false;
    /** Whether one finger on empty ground moves the view. */
    this.fingerPans = true;
    board.addEventListener("pointerdown", (event) => this.#press(event));
    board.addEventListener("pointermove", (event) => this.#move(event));
    // Browsers that have it tell of a move by it at once, and by pointermove with the next frame.
    this.tellAhead = (/** @type {Event} */ event) => event instanceof PointerEvent && !this.pans && this.gesture.ahead?.(this.spot(event, false));
    board.addEventListener("pointerup", (event) => this.#release(event));
    board.addEventListener("pointercancel", (event) => this.#cancel(event));
    board.addEventListener("dblclick", (event) => this.gesture.twice?.(this.spot(event)));
    board.addEventListener("wheel", (event) => this.#wheel(event), { passive: false });
    board.addEventListener("contextmenu", (event) => event.preventDefault());
  }

  /** @param {Gesture} gesture */
  use(gesture) {
    this.gesture.off?.();
    this.gesture = gesture;
    gesture.on?.();
    this.tell();
  }

  /** What the pointer is at; what lies under it is asked for only where it matters. @param {MouseEvent} event @param {boolean} [grips] @returns {Spot} */
  spot(event, grips = true) {
    const box = this.board.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    // While captured, the event's target is the drawing itself.
    const under = grips ? document.elementFromPoint(event.clientX, event.clientY) : null;
    return this.spotAt(this.view.toPlan(x, y), under, {
      free: event.altKey || event.shiftKey, add: event.shiftKey || event.ctrlKey || event.metaKey, since: event.timeStamp,
      touch: "pointerType" in event && event.pointerType === "touch",
    });
  }

  /** @param {Point} at @param {Element | null} under @param {{free?: boolean, add?: boolean, touch?: boolean, since?: number}} [held] @returns {Spot} */
  spotAt(at, under, held = {}) {
    const { x, y } = this.view.toScreen(at);
    const thing = this.board.contains(under) ? under?.closest("[data-id]") : null;
    const pane = under?.closest("[data-pane]")?.getAttribute("data-pane") ?? null;
    // A pane is named after its opening, and lies over it: what grips the one grips the other.
    const opening = pane?.slice(0, pane.lastIndexOf("/")) ?? null;
    return {
      at, x, y, since: held.since ?? performance.now(), free: held.free ?? false, add: held.add ?? false, touch: held.touch ?? false,
      id: thing?.getAttribute("data-id") ?? opening,
      family: /** @type {Family | null} */ (thing?.getAttribute("data-family") ?? (opening && "openings")),
      handle: thing?.getAttribute("data-handle") ?? null,
      pane,
    };
  }

  /** @param {PointerEvent} event */
  #press(event) {
    this.board.focus({ preventScroll: true });
    this.board.setPointerCapture(event.pointerId);
    this.down.set(event.pointerId, { x: event.clientX, y: event.clientY });
    const spot = this.spot(event);
    const pinches = this.down.size === 2;
    if (pinches) this.gesture.escape?.();
    const onEmpty = spot.touch && this.fingerPans && !spot.id;
    this.pans = pinches || event.button === 1 || this.space || onEmpty;
    if (this.pans) {
      this.panned = 0;
      event.preventDefault();
    } else if (event.button === 0 && this.down.size === 1) {
      this.last = spot;
      this.gesture.press?.(spot);
    } else if (event.button === 2) this.gesture.escape?.();
  }

  panned = 0;

  /** Tell the gesture of moves ahead of their frame, or no longer: few need it, and it costs each move. @param {boolean} wanted */
  aheadOfFrames(wanted) {
    if (wanted) this.board.addEventListener("pointerrawupdate", this.tellAhead);
    else this.board.removeEventListener("pointerrawupdate", this.tellAhead);
  }

  /** @param {PointerEvent} event */
  #move(event) {
    const before = this.down.get(event.pointerId);
    if (this.pans && before) {
      this.#drag(event, before);
      return;
    }
    this.last = this.spot(event, false);
    this.gesture.move?.(this.last);
  }

  /** Pan with one pointer, pinch with two. @param {PointerEvent} event @param {{x: number, y: number}} before */
  #drag(event, before) {
    const now = { x: event.clientX, y: event.clientY };
    this.down.set(event.pointerId, now);
    const other = [...this.down].find(([id]) => id !== event.pointerId)?.[1];
    const share = other ? 0.5 : 1;
    this.panned += Math.abs(now.x - before.x) + Math.abs(now.y - before.y);
    this.view.pan((now.x - before.x) * share, (now.y - before.y) * share);
    if (!other) return;
    const box = this.board.getBoundingClientRect();
    const factor = Math.hypot(now.x - other.x, now.y - other.y) / Math.max(1, Math.hypot(before.x - other.x, before.y - other.y));
    this.view.zoom(factor, (now.x + other.x) / 2 - box.left, (now.y + other.y) / 2 - box.top);
  }

  /** @param {PointerEvent} event */
  #release(event) {
    const pans = this.pans;
    this.down.delete(event.pointerId);
    if (!this.down.size) this.pans = false;
    const spot = this.spot(event);
    // A finger that touched empty ground and did not move meant a press there.
    if (pans && spot.touch && this.panned < MOVED && !this.down.size) this.gesture.press?.(spot);
    if (!pans || (spot.touch && this.panned < MOVED)) this.gesture.release?.(spot);
  }

  /** @param {PointerEvent} event */
  #cancel(event) {
    this.down.delete(event.pointerId);
    this.pans = false;
    this.gesture.escape?.();
  }

  /** @param {WheelEvent} event */
  #wheel(event) {
    event.preventDefault();
    const box = this.board.getBoundingClientRect();
    const unit = event.deltaMode === 1 ? 16 : 1;
    if (event.shiftKey && !event.ctrlKey) return this.view.pan(-(event.deltaX || event.deltaY) * unit, 0);
    const factor = Math.exp((-event.deltaY * unit * (event.ctrlKey ? 8 : 1)) / 700);
    this.view.zoom(factor, event.clientX - box.left, event.clientY - box.top);
  }
}
