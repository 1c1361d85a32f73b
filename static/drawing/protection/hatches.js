/**
 * Hatches of floors, in feet: lines for floor that is watched, crossed lines for rooms that nothing watches, dots for
 * rooms where the siren is faint.
 */

import { make } from "../svg.js";

export const hatches = () => make("defs", {}, [
  make("pattern", { id: "floor-watched", width: 0.9, height: 0.9, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" }, [make("path", { d: "M0 0V.9", class: "hatch-watched" })]),
  make("pattern", { id: "floor-lost", width: 1.2, height: 1.2, patternUnits: "userSpaceOnUse" }, [make("path", { d: "M0 0L1.2 1.2M0 1.2L1.2 0", class: "hatch-lost" })]),
  make("pattern", { id: "sound-awake", width: 1.4, height: 1.4, patternUnits: "userSpaceOnUse" }, [make("circle", { cx: 0.7, cy: 0.7, r: 0.1, class: "hatch-sound" })]),
  make("pattern", { id: "sound-faint", width: 0.7, height: 0.7, patternUnits: "userSpaceOnUse" }, [make("circle", { cx: 0.35, cy: 0.35, r: 0.11, class: "hatch-sound" })]),
]);
