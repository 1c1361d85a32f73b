/** Calls of the API from the list of plans: JSON in and out, a refusal as an error that carries its faults. */

/** @typedef {{at: string, message: string}} Fault */

/** A call that was refused. */
export class Refused extends Error {
  /**
   * @param {string} message
   * @param {Fault[]} faults
   */
  constructor(message, faults) {
    super(message);
    this.faults = faults;
  }
}

/**
 * @param {string} method
 * @param {string} path
 * @param {{body?: string, revision?: string}} given
 * @returns {Promise<any>} the answer's JSON, or null where it has none
 */
export async function ask(method, path, given = {}) {
  /** @type {Record<string, string>} */
  const headers = { Accept: "application/json" };
  if (given.body !== undefined) headers["Content-Type"] = "application/json";
  if (given.revision !== undefined) headers["If-Match"] = `"${given.revision}"`;
  /** @type {Response} */
  let answer;
  try {
    answer = await fetch(path, { method, headers, body: given.body });
  } catch {
    throw new Refused("the server is away; start it again and repeat this", []);
  }
  if (answer.status === 204) return null;
  const said = await answer.json().catch(() => ({ detail: answer.statusText }));
  if (!answer.ok) throw new Refused(said.detail ?? answer.statusText, said.errors ?? []);
  return said;
}
