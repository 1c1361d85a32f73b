/**
 * Fit the picture under the level: its scale by two places and their true distance, level by a line that should be,
 * and moved. A place is taken where the pointer is let go, so that a finger can seek it in the lens. Nothing snaps to
 * walls while a place of the picture is picked; a locked picture stays as it is.
 */

/** @import { Point } from "../plan/types.js" */
/** @import { Placement } from "../plan/placing.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { marksOf } from "../drawing/marks.js";
import { make, onPaper, segment } from "../drawing/svg.js";
import { pictureBehind } from "../drawing/underlay.js";
import { bearing, direction, distance, minus } from "../geometry/points.js";
import { unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { levelled, movedBy, withDistance } from "../plan/placing.js";
import { snapMarks, snapped } from "./field.js";

const CLOSEST = 12; // px between two picked places
const CROSS = "M-9 0H-3M3 0H9M0 -9V-3M0 3V9";

/** @param {Point} at */
const cross = (at) => onPaper(at, [make("path", { class: "pick", d: CROSS }), make("path", { class: "pick-core", d: CROSS })]);
/** @param {Point} p @param {Point} q */
const line = (p, q) => [make("path", { class: "pick", d: segment(p, q) }), make("path", { class: "pick-core", d: segment(p, q) })];

/** The placement that may be changed; none where there is no picture or it is locked. @param {Desk} desk @returns {Placement | null} */
function free(desk) {
  const { committed } = desk.underlays;
  return committed && committed.shown && !committed.locked ? committed : null;
}

/** @param {Desk} desk */
const refuse = (desk) => {
  desk.say(desk.underlays.committed ? "The picture is locked or hidden: unlock and show it first" : "No picture lies under this level", true);
  desk.tools.use("select");
};

/**
 * Two places of the picture, picked one after the other.
 * @param {Desk} desk @param {{words: (p: Point, q: Point) => string, first: string, second: string, after?: string, asks?: string, both: (p: Point, q: Point) => void, typed?: (p: Point, q: Point, feet: number) => void}} part
 * @returns {Gesture}
 */
function twoPlaces(desk, part) {
  /** @type {Point[]} */
  let places = [];

  /** @param {Point | null} at */
  function show(at) {
    const [p, q = at] = places;
    marksOf(desk).show([...(p && q ? line(p, q) : []), ...places.map(cross), ...(at && places.length < 2 ? [cross(at)] : [])]);
    if (p && q) marksOf(desk).say(q, part.words(p, q));
    pictureBehind(desk).look(places.length < 2 ? at : null);
  }

  /** @param {Point} at */
  function pick(at) {
    const first = places[0];
    if (first && distance(first, at) * desk.view.scale < CLOSEST) return desk.say("The two places lie too close together: pick them far apart", true);
    places = [...places, at];
    if (first) part.both(first, at);
    desk.pointer.tell();
  }

  function leave() {
    const was = places.length > 0;
    places = [];
    marksOf(desk).clear();
    pictureBehind(desk).look(null);
    desk.pointer.tell();
    return was;
  }

  return {
    get hint() {
      return [part.first, part.second, part.after ?? ""][places.length] ?? "";
    },
    get asks() {
      return places.length === 2 ? part.asks : undefined;
    },
    on: () => void (free(desk) ?? queueMicrotask(() => refuse(desk))),
    move: ({ at }) => show(at),
    release({ at }) {
      if (!free(desk)) return refuse(desk);
      if (places.length === 2) places = [];
      pick(at);
      show(at);
    },
    enter: () => (places.length === 2 && part.asks ? desk.askLength() : undefined),
    typed(feet) {
      const [p, q] = places;
      if (p && q) part.typed?.(p, q, feet);
    },
    escape: leave,
    off: () => void leave(),
  };
}

/** @param {Desk} desk @returns {Gesture} */
export function scaleUnderlay(desk) {
  return twoPlaces(desk, {
    first: "Press one end of a length that you know, such as a dimension line.",
    second: "Press its other end.",
    after: "Type the true distance between the two places and Enter; a press begins anew.",
    asks: "True distance",
    words: (p, q) => `now ${lengthText(distance(p, q), unitsOf(desk.store.plan))}`,
    both: () => desk.askLength(),
    typed(p, q, feet) {
      const placement = free(desk);
      if (!placement) return refuse(desk);
      if (feet <= 0) return desk.say("A distance is more than nothing: type it again", true);
      desk.underlays.commit("Set the picture's scale", withDistance(placement, p, q, feet));
      desk.tools.use("select");
      if (!(desk.store.level.walls ?? []).length) desk.drawing.fit();
      desk.say(`The picture is to scale: the two places are ${lengthText(feet, unitsOf(desk.store.plan))} apart`);
    },
  });
}

/** @param {Desk} desk @returns {Gesture} */
export function levelUnderlay(desk) {
  return twoPlaces(desk, {
    first: "Press one end of a line of the picture that should be level or plumb.",
    second: "Press its other end: the picture turns.",
    words: (p, q) => `${Math.round(bearing(direction(p, q)) * 100) / 100}°`,
    both(p, q) {
      const placement = free(desk);
      if (!placement) return refuse(desk);
      desk.underlays.commit("Level the picture", levelled(placement, p, q));
      desk.tools.use("select");
      desk.say("The picture is turned: that line is level or plumb");
    },
  });
}

/** @param {Desk} desk @returns {Gesture} */
export function moveUnderlay(desk) {
  /** @type {Point | null} the place of the picture that is held */
  let held = null;
  let pressed = { x: 0, y: 0 };

  /** @param {Spot} spot @returns {Placement | null} */
  function movedTo(spot) {
    const placement = free(desk);
    if (!placement || !held) return placement;
    const to = snapped(desk, spot);
    marksOf(desk).show([...snapMarks(to), cross(to.at)]);
    return movedBy(placement, minus(to.at, held));
  }

  function leave() {
    const was = held !== null;
    held = null;
    desk.underlays.sketch(null);
    marksOf(desk).clear();
    pictureBehind(desk).look(null);
    desk.pointer.tell();
    return was;
  }

  return {
    get hint() {
      return held ? "Press where it belongs; ends and walls catch it." : "Press a place of the picture, then where it belongs; or drag the picture.";
    },
    on: () => void (free(desk) ?? queueMicrotask(() => refuse(desk))),
    press(spot) {
      if (!free(desk)) return refuse(desk);
      if (held) return;
      held = spot.at;
      pressed = { x: spot.x, y: spot.y };
    },
    move(spot) {
      if (held) desk.underlays.sketch(movedTo(spot));
      else pictureBehind(desk).look(spot.at);
    },
    release(spot) {
      pictureBehind(desk).look(null);
      desk.pointer.tell();
      const stays = Math.hypot(spot.x - pressed.x, spot.y - pressed.y) < 5;
      if (!held || stays) return;
      const placement = movedTo(spot);
      leave();
      if (!placement) return refuse(desk);
      desk.underlays.commit("Move the picture", placement);
      desk.say("The picture is moved");
    },
    escape: leave,
    off: () => void leave(),
  };
}
