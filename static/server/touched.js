/**
 * The drag call of a page that has the proof of the stored plan already: what one device touches, and nothing else.
 */

/** @import { Device, Pane } from "../plan/types.js" */

import { call } from "./api.js";

/**
 * @typedef {object} Pieces SVG text that takes the place of a part of the overlay; empty text takes the part away
 * @property {Record<string, string>} panes @property {Record<string, string>} marks of panes
 * @property {Record<string, string>} reach by detector @property {Record<string, string>} motion by detector
 * @property {string} leaders
 */
/** @typedef {{panes: Pane[], motions?: {id: string, area_sqft: number}[], overlay: Pieces}} TouchedAnswer */

/**
 * @param {string} id @param {string} level @param {Device} device @param {number} scale px a foot
 * @returns {Promise<{answer: TouchedAnswer, revision: number}>} with the revision that it differs from
 */
export async function postTouched(id, level, device, scale) {
  const answer = await call(`/api/plans/${id}/trial/touched`, {
    method: "POST", body: JSON.stringify({ level, device, scale }), headers: { "Content-Type": "application/json" },
  });
  return { answer: await answer.json(), revision: Number(answer.headers.get("ETag")?.replaceAll('"', "")) };
}
