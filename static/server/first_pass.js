/**
 * The first pass as the server proposes it: devices with their reasons, how few could do, what no place covers.
 */

/** @import { Device } from "../plan/types.js" */

import { Away, Refused } from "./api.js";

/** @typedef {{level: string, device: Device, reason: string, covers: string[]}} Proposal */
/** @typedef {{riser: {id: string, at: [number, number], from: string, to: string}, reason: string}} RiserProposal */
/** @typedef {{pane: string, level: string, why: string, instead: string | null}} Unreachable */
/** @typedef {{proposals: Proposal[], risers: RiserProposal[], proof: {words: string}, unreachable: Unreachable[], untried: string[]}} FirstPass */

/** @typedef {{level: string, room: string | null, device: Device, reason: string}} ContactProposal */

/** @param {string} planId @param {AbortSignal} stop @returns {Promise<FirstPass | null>} null where it was stopped */
export async function askFirstPass(planId, stop) {
  try {
    return await asked(`/api/plans/${planId}/draft`, stop);
  } catch (trouble) {
    if (stop.aborted) return null;
    throw trouble;
  }
}

/** The contacts of the first pass alone, which are there at once. @param {string} planId @returns {Promise<{proposals: ContactProposal[]}>} */
export const askContacts = (planId) => asked(`/api/plans/${planId}/draft/contacts`);

/** @param {string} path @param {AbortSignal} [stop] */
async function asked(path, stop) {
  const answer = await fetch(path, { method: "POST", signal: stop ?? null }).catch(() => {
    throw new Away("the server does not answer");
  });
  const told = await answer.json().catch(() => ({}));
  if (!answer.ok) throw new Refused(answer.status, told.detail ?? `the server answered ${answer.status}`, told.errors ?? []);
  return told;
}
