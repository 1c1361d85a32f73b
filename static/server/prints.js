/**
 * A set being made as PDF by the server: begun, followed while it is under way, stopped, fetched when it is whole.
 */

import { Away, Refused } from "./api.js";

/**
 * @typedef {{id: string, state: "under way" | "done" | "stopped" | "failed", done: number, count: number, words: string,
 *   lacking: string[], file: string | null}} Print
 */

const EVERY = 300; // ms between two looks at how far it is

/** The arguments of a set's address. @param {Record<string, string>} choices those that are empty are left out */
export const chosenAs = (choices) => new URLSearchParams(Object.entries(choices).filter(([, value]) => value)).toString();

/**
 * Make a set and tell of it on the way; it ends when it is done, stopped or failed.
 * @param {string} planId @param {Record<string, string>} choices @param {(print: Print) => void} told
 * @param {AbortSignal} stop @returns {Promise<Print>}
 */
export async function makePrint(planId, choices, told, stop) {
  let print = await asked(`/api/plans/${planId}/prints?${chosenAs(choices)}`, "POST");
  while (print.state === "under way") {
    told(print);
    await pause(EVERY, stop);
    print = await asked(`/api/prints/${print.id}`, stop.aborted ? "DELETE" : "GET");
  }
  return print;
}

/** @param {string} path @param {string} method @returns {Promise<Print>} */
async function asked(path, method) {
  const answer = await fetch(path, { method }).catch(() => {
    throw new Away("the server does not answer");
  });
  const told = await answer.json().catch(() => ({}));
  if (!answer.ok) throw new Refused(answer.status, told.detail ?? `the server answered ${answer.status}`, told.errors ?? []);
  return told;
}

/** @param {number} time ms @param {AbortSignal} stop ends the pause @returns {Promise<void>} */
const pause = (time, stop) => new Promise((resolve) => {
  const end = () => {
    clearTimeout(timer);
    stop.removeEventListener("abort", end);
    resolve();
  };
  const timer = setTimeout(end, time);
  stop.addEventListener("abort", end);
  if (stop.aborted) end();
});
