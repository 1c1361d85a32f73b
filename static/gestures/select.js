/**
 * Select and move: a press selects, with Shift it adds; a drag moves what was pressed, on empty ground it draws a box.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Drag } from "./drags.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

const [STARTS, STARTS_TOUCH] = [4, 9]; // px

/** @type {typeof import("./begin_drag.js") | null} what a drag is made by, once it has come */
let drags = null;

/** Fetch what drags need; a page that has nothing else to do calls it, so that no drag waits. */
export const fetchDrags = () => import("./begin_drag.js").then((came) => (drags = came));

/** @param {Desk} desk @returns {Gesture} */
export function select(desk) {
  /** @type {Spot | null} */
  let pressed = null;
  /** @type {Drag | null} */
  let drag = null;

  function done() {
    [drag, pressed] = [null, null];
    desk.pointer.aheadOfFrames(false);
    delete desk.drawing.board.dataset.drag;
  }

  return {
    hint: "Press a thing to select it; drag to move it. Drag empty ground to select by a box.",
    press(spot) {
      pressed = spot;
    },
    move(spot) {
      if (!pressed) return;
      if (!drag && Math.hypot(spot.x - pressed.x, spot.y - pressed.y) > (spot.touch ? STARTS_TOUCH : STARTS)) {
        drag = begun(desk, pressed);
        desk.drawing.board.dataset.drag = pressed.family ?? "box";
        desk.pointer.aheadOfFrames(pressed.family === "devices");
      }
      drag?.move(spot);
    },
    ahead(spot) {
      drag?.ahead?.(spot);
    },
    release() {
      if (drag) drag.end();
      else if (pressed) choose(desk, pressed);
      done();
    },
    twice(spot) {
      if (spot.id) desk.tools.askFor("");
    },
    escape() {
      const was = drag !== null || desk.selection.ids.size > 0;
      if (drag) drag.cancel();
      else desk.selection.set([]);
      done();
      return was;
    },
    off() {
      drag?.cancel();
      done();
    },
  };
}

/** @param {Desk} desk @param {Spot} spot */
function choose(desk, spot) {
  const { id } = spot;
  if (!id) return spot.add ? undefined : desk.selection.set([]);
  if (spot.add) desk.selection.toggle(id);
  else desk.selection.set([id], spot.pane ?? desk.proof.panes.find((pane) => pane.opening === id)?.id ?? null);
}

/** The drag from a spot. @param {Desk} desk @param {Spot} spot @returns {Drag} */
const begun = (desk, spot) => (drags ? drags.dragFrom(desk, spot) : coming(desk, spot));

/** A drag whose module is still on its way: it does then what it was told meanwhile. @param {Desk} desk @param {Spot} spot @returns {Drag} */
function coming(desk, spot) {
  /** @type {Drag | null} */
  let drag = null;
  /** @type {Spot | null} */
  let last = null;
  let left = "";
  fetchDrags().then(({ dragFrom }) => {
    if (left === "cancelled") return;
    drag = dragFrom(desk, spot);
    if (last) drag.move(last);
    if (left === "ended") drag.end();
  }, () => desk.say("Dragging has not come: the server does not answer. Drag again to try once more.", true));
  return {
    move: (now) => (drag ? drag.move(now) : void (last = now)),
    ahead: (now) => drag?.ahead?.(now),
    end: () => (drag ? drag.end() : void (left = "ended")),
    cancel: () => (drag ? drag.cancel() : void (left = "cancelled")),
  };
}
