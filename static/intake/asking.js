/** Calls of the server about a foreign file: its survey, the plan that choices give, and keeping that plan. */

/** @import { DrawnPlan, Survey } from "./types.js" */

/** A call that was refused, in words for people. */
export class Refused extends Error {}

/** @param {string} path @param {RequestInit} init @returns {Promise<any>} */
async function call(path, init) {
  let answer;
  try {
    answer = await fetch(path, { method: "POST", ...init });
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new Refused("the server is away; start it again and repeat this");
  }
  const said = await answer.json().catch(() => ({ detail: answer.statusText }));
  if (!answer.ok) throw new Refused(said.errors?.[0]?.message ?? said.detail ?? answer.statusText);
  return said;
}

/** @param {File} file @returns {Promise<Survey>} */
export const askSurvey = (file) => call("/api/intake/survey", { body: file });

/**
 * @param {File} file @param {URLSearchParams} choices @param {AbortSignal} signal
 * @returns {Promise<DrawnPlan>}
 */
export const askPlan = (file, choices, signal) => call(`/api/intake/plan?${choices}`, { body: file, signal });

/** @param {any} plan @returns {Promise<{id: string}>} */
export const keepPlan = (plan) => call("/api/plans", { body: JSON.stringify(plan), headers: { "Content-Type": "application/json" } });
