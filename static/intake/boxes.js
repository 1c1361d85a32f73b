/** The drawings framed and numbered in the picture, and points picked in it. */

/** @import { Drawing } from "./types.js" */

const SVG = "http://www.w3.org/2000/svg";
const NEAR = 14; // px: so near the end of a line is taken

/** @param {string} name @param {Record<string, string | number>} attributes */
function shape(name, attributes) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  return made;
}

/**
 * @param {HTMLElement} place @param {[number, number, number]} frame west, north and the picture's units to one of the drawing's
 * @param {Drawing[]} drawings @param {{drawing: Drawing, spot: [number, number]}[]} points
 */
export function frameDrawings(place, [west, north, scale], drawings, points) {
  const picture = place.querySelector("svg");
  picture?.querySelector("g.drawings")?.remove();
  if (!picture || drawings.length < 2) return;
  const { x: across, y: down, width: wide, height: deep } = picture.viewBox.baseVal;
  if (down > -60) picture.setAttribute("viewBox", `${across} -60 ${wide} ${deep + down + 60}`); // room for the words above
  const group = shape("g", { class: "drawings" });
  for (const { number, box, level } of drawings) {
    const [left, bottom, right, top] = [(box[0] - west) * scale, (north - box[1]) * scale, (box[2] - west) * scale, (north - box[3]) * scale];
    group.append(shape("rect", { class: level === null ? "out" : "taken", x: left - 6, y: top - 6, width: right - left + 12, height: bottom - top + 12 }));
    const atEdge = left > across + 0.8 * wide; // words that would leave the picture end where the drawing does
    const words = shape("text", { x: atEdge ? right : left, y: top - 14, "font-size": 34, "text-anchor": atEdge ? "end" : "start" });
    words.textContent = level === null ? `${number}: left out` : `${number}: level ${level + 1}`;
    group.append(words);
  }
  for (const { spot } of points) {
    const [x, y] = [(spot[0] - west) * scale, (north - spot[1]) * scale];
    group.append(shape("path", { class: "shared", d: `M${x - 14} ${y}h28M${x} ${y - 14}v28` }), shape("circle", { class: "shared", cx: x, cy: y, r: 8 }));
  }
  picture.append(group);
}

/**
 * The place of a press in the drawing's unit, at the nearest end of a line where one is near.
 * @param {HTMLElement} place @param {[number, number, number]} frame @param {MouseEvent} press
 * @returns {[number, number] | null}
 */
export function pickedSpot(place, [west, north, scale], press) {
  const picture = place.querySelector("svg");
  const turned = picture?.getScreenCTM();
  if (!picture || !turned) return null;
  const at = new DOMPoint(press.clientX, press.clientY).matrixTransform(turned.inverse());
  let [x, y, best] = [at.x, at.y, NEAR / turned.a];
  for (const path of picture.querySelectorAll("g[data-layer] path")) {
    for (const [, u, v] of (path.getAttribute("d") ?? "").matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)) {
      const far = Math.hypot(Number(u) - at.x, Number(v) - at.y);
      if (far < best) [x, y, best] = [Number(u), Number(v), far];
    }
  }
  return [west + x / scale, north - y / scale];
}
