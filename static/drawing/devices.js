/**
 * Devices by the symbols of the table, each with its tag; those that face a way show it.
 * Symbols keep their size on the screen.
 */

/** @import { Device, DeviceKind, Shape, Tables } from "../plan/types.js" */
/** @import { TagPlace } from "./tags.js" */

import { kindOf, tagOf } from "../plan/lookup.js";
import { make, onPaper } from "./svg.js";

const SIZE = 9; // px: half the symbol's box

/** @param {Device} device @param {Tables} tables @param {TagPlace} [place] of its tag */
export function drawDevice(device, tables, place = { dx: 0, dy: SIZE + 14, anchor: "middle" }) {
  const kind = kindOf(tables, device.kind);
  const tag = tagOf(device, tables);
  return onPaper(device.at, [
    make("circle", { class: "reach-area" }),
    ...(device.facing != null && kind.faces ? [facingMark(device.facing)] : []),
    make("circle", { class: "back", r: SIZE + 1.5 }),
    symbolOf(kind),
    make("text", { class: place.crowded ? "tag crowded" : "tag", x: place.dx, y: place.dy, "text-anchor": place.anchor }, [tag]),
  ], { class: `device ${device.kind}`, "data-id": device.id, "data-family": "devices", role: "img", "aria-label": `${kind.name} ${tag}` });
}

/** @param {number} facing degrees */
function facingMark(facing) {
  return make("path", { class: "facing", d: "M11 -4.5L19 0L11 4.5Z", transform: `rotate(${-facing})` });
}

/** A kind's symbol about the origin, in pixels. @param {DeviceKind} kind @param {number} [size] */
export function symbolOf(kind, size = SIZE) {
  return make("g", { class: "symbol" }, kind.symbol.map((shape) => drawShape(shape, size)));
}

/** @param {Shape} shape @param {number} size */
function drawShape(shape, size) {
  const name = String(shape[0]);
  const n = shape.slice(1).map((value) => Number(value) * size);
  const at = (/** @type {number} */ i) => n[i] ?? 0;
  const fill = name.endsWith("!") ? "currentColor" : "none";
  switch (name.replace("!", "")) {
    case "circle": return make("circle", { cx: at(0), cy: -at(1), r: at(2), fill });
    case "line": return make("path", { d: `M${at(0)} ${-at(1)}L${at(2)} ${-at(3)}` });
    case "arc": {
      const [from, to] = [Number(shape[4]), Number(shape[5])].map((degrees) => (degrees * Math.PI) / 180);
      const spot = (/** @type {number} */ angle) => `${at(0) + at(2) * Math.cos(angle)} ${-at(1) - at(2) * Math.sin(angle)}`;
      return make("path", { d: `M${spot(from ?? 0)}A${at(2)} ${at(2)} 0 ${Math.abs((to ?? 0) - (from ?? 0)) > Math.PI ? 1 : 0} 0 ${spot(to ?? 0)}`, fill });
    }
    default: {
      const corners = [];
      for (let i = 0; i + 1 < n.length; i += 2) corners.push(`${at(i)} ${-at(i + 1)}`);
      return make("path", { d: `M${corners.join("L")}Z`, fill });
    }
  }
}
