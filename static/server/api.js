/**
 * Calls of the server's HTTP interface, and its faults as values that people can act on.
 */

/** @import { Bundle, CableAnswer, Pull } from "../plan/cable_types.js" */
/** @import { ProtectionAnswer } from "../plan/protection_types.js" */
/** @import { CheckAnswer, Device, Pane, Plan, Severity, Tables } from "../plan/types.js" */

/** @typedef {{at: string, message: string}} Fault */
/** @typedef {{id: string, revision: number, plan: Plan}} KeptPlan */

/** @typedef {{panes: Pane[], overlay: string, motions?: {id: string, area_sqft: number}[]}} TrialAnswer */

/** The server answered, and refused. */
export class Refused extends Error {
  /** @param {number} status @param {string} title @param {Fault[]} faults */
  constructor(status, title, faults) {
    super(title);
    this.status = status;
    this.faults = faults;
  }
}

/** The server could not be reached. */
export class Away extends Error {}

/** @param {string} path @param {RequestInit} [init] */
export async function call(path, init) {
  let answer;
  try {
    answer = await fetch(path, init);
  } catch {
    throw new Away("the server does not answer");
  }
  if (answer.ok) return answer;
  const told = await answer.json().catch(() => ({}));
  throw new Refused(answer.status, told.detail ?? told.title ?? `the server answered ${answer.status}`, told.errors ?? []);
}

/** @param {unknown} value @returns {RequestInit} */
const sent = (value) => ({ method: "POST", body: JSON.stringify(value), headers: { "Content-Type": "application/json" } });

/** @param {string} id @returns {Promise<KeptPlan>} */
export const getPlan = async (id) => (await call(`/api/plans/${id}`)).json();

/** The number of the newest revision; the known one where the server is away. @param {string} id @param {number} known */
export async function newestRevision(id, known) {
  const answer = await fetch(`/api/plans/${id}`, { headers: { "If-None-Match": `"${known}"` } }).catch(() => null);
  return answer?.ok ? /** @type {KeptPlan} */ (await answer.json()).revision : known;
}

/** @param {string} id @param {Plan} plan @param {number} madeFrom revision @returns {Promise<number>} the new revision */
export async function putPlan(id, plan, madeFrom) {
  const answer = await call(`/api/plans/${id}`, {
    method: "PUT", body: JSON.stringify(plan), headers: { "Content-Type": "application/json", "If-Match": `"${madeFrom}"` },
  });
  return /** @type {KeptPlan} */ (await answer.json()).revision;
}

/** @param {Plan} plan @returns {Promise<KeptPlan>} */
export const addPlan = async (plan) => (await call("/api/plans", sent(plan))).json();

/** @param {string} id @returns {Promise<CheckAnswer>} */
export const getCheck = async (id) => (await call(`/api/plans/${id}/check`)).json();

/** @param {string} id @returns {Promise<CableAnswer>} */
export const getPulls = async (id) => (await call(`/api/plans/${id}/pulls`)).json();

/** @param {string} id @returns {Promise<ProtectionAnswer>} */
export const getProtection = async (id) => (await call(`/api/plans/${id}/protection`)).json();

/** @param {string} id @param {string} level @param {number} scale px a foot */
export async function getOverlay(id, level, scale) {
  return (await call(`/api/plans/${id}/levels/${encodeURIComponent(level)}/overlay.svg?scale=${scale.toFixed(2)}`)).text();
}

/**
 * @param {string} id @param {string} level @param {Device} device @param {number} scale px a foot
 * @returns {Promise<TrialAnswer>}
 */
export const postTrial = async (id, level, device, scale) => (await call(`/api/plans/${id}/trial`, sent({ level, device, scale }))).json();

/** @param {string} id @param {string} level @param {Device} device @returns {Promise<{pulls: Pull[], bundles: Bundle[]}>} */
export const postPullsTrial = async (id, level, device) => (await call(`/api/plans/${id}/pulls/trial`, sent({ level, device }))).json();

/** @returns {Promise<Tables>} */
export const getTables = async () => (await call("/api/tables")).json();

/** @typedef {{name: string, severity: Severity, words: string, mend: string, source: string}} Rule */

/** @returns {Promise<Rule[]>} */
export const getRules = async () => (await call("/api/rules")).json();
