/**
 * The first pass as the server proposes it: devices with their reasons, how few could do, what no place covers.
 */

/** @import { Device } from "../plan/types.js" */

import { Away, Refused } from "./api.js";

/** @typedef {{level: string, device: Device, reason: string, covers: string[]}} Proposal */
/** @typedef {{riser: {id: string, at: [number, number], from: string, to: string}, reason: string}} RiserProposal */
/** @typedef {{pane: string, level: string, why: string, instead: string | null}} Unreachable */
/** @typedef {{proposals: Proposal[], risers: RiserProposal[], proof: {words: string}, unreachable: Unreachable[], untried: string[]}} FirstPass */

/** @param {string} planId @param {AbortSignal} stop @returns {Promise<FirstPass | null>} null where it was stopped */
export async function askFirstPass(planId, stop) {
  let answer;
  try {
    answer = await fetch(`/api/plans/${planId}/draft`, { method: "POST", signal: stop });
  } catch {
    if (stop.aborted) return null;
    throw new Away("the server does not answer");
  }
  const told = await answer.json().catch(() => ({}));
  if (!answer.ok) throw new Refused(answer.status, told.detail ?? `the server answered ${answer.status}`, told.errors ?? []);
  return told;
}
