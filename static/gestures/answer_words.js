/**
 * The computed answer in the few words that fit beside the pointer: how much glass a detector covers, how far the
 * farthest is, how much floor it watches.
 */

/** @import { Device } from "../plan/types.js" */
/** @import { Proof } from "../server/proof.js" */

import { areaText, lengthText } from "../plan/measures.js";

/**
 * @param {Device} device @param {Proof} proof @param {"imperial" | "metric"} units
 * @returns {{main: string, more: string}}
 */
export function answerWords(device, proof, units) {
  if (!proof.tried) return { main: "", more: "" };
  if (device.kind === "motion") {
    const seen = proof.triedMotions.find((motion) => motion.id === device.id)?.area_sqft;
    return { main: seen === undefined ? "" : `watches ${areaText(seen, units)}`, more: "" };
  }
  if (device.kind !== "glass_break") return { main: "", more: "" };
  const level = proof.panes.filter((pane) => pane.level === proof.store.levelId);
  const full = level.filter((pane) => (pane.fractions[device.id] ?? 0) > 0.9995);
  const part = level.filter((pane) => (pane.fractions[device.id] ?? 0) > 0.0005 && !full.includes(pane));
  const missed = level.filter((pane) => pane.status !== "covered").length;
  const far = Math.max(0, ...full.map((pane) => pane.distances?.[device.id] ?? (pane.best?.device === device.id ? pane.best.farthest_ft : 0)));
  const main = `covers ${full.length} pane${full.length === 1 ? "" : "s"}${part.length ? `, ${part.length} in part` : ""}`;
  const whole = missed ? `${missed} of ${level.length} on this level still open` : "all glass of this level covered";
  return { main, more: far ? `${whole} · farthest ${lengthText(far, units, 1)}` : whole };
}
