/**
 * Practice templates on the server, and the letterhead of a plan: kept beside the plan in the store, so that it is
 * undone with it; every change is sent on.
 */

/** @import { PlanStore } from "../plan/store.js" */
/** @import { Stationery, Template } from "../plan/template.js" */

import { BARE, NO_HABIT } from "../plan/template.js";
import { Refused, call } from "./api.js";

/** @typedef {{id: string, edition: number, saved: string, template: Template}} KeptTemplate */

const KEEPER = "stationery";

/** @param {string} method @param {unknown} body @param {number} [edition] @returns {RequestInit} */
const sent = (method, body, edition) => ({ method, body: body === undefined ? undefined : JSON.stringify(body), headers: { "Content-Type": "application/json", ...(edition === undefined ? {} : { "If-Match": `"${edition}"` }) } });

/** @returns {Promise<KeptTemplate[]>} the usual one first */
export const getTemplates = async () => (await call("/api/templates")).json();
/** @param {Template} template @returns {Promise<KeptTemplate>} */
export const addTemplate = async (template) => (await call("/api/templates", sent("POST", template))).json();
/** @param {KeptTemplate} kept @param {Template} template @returns {Promise<KeptTemplate>} */
export const putTemplate = async (kept, template) => (await call(`/api/templates/${kept.id}`, sent("PUT", template, kept.edition))).json();
/** @param {KeptTemplate} kept */
export const deleteTemplate = async (kept) => void (await call(`/api/templates/${kept.id}`, sent("DELETE", undefined, kept.edition)));
/** @param {string} planId @param {Stationery} stationery @param {number} edition @returns {Promise<{edition: number, stationery: Stationery}>} */
export const putLetterhead = async (planId, stationery, edition) => (await call(`/api/plans/${planId}/letterhead`, sent("PUT", stationery, edition))).json();

export class PlanStationery {
  /** @param {string} planId @param {PlanStore} store @param {(words: string, urgent?: boolean) => void} say */
  constructor(planId, store, say) {
    this.planId = planId;
    this.store = store;
    this.say = say;
    this.edition = 0;
    /** @type {Stationery} */
    this.first = { letterhead: BARE, habit: NO_HABIT };
    this.sent = this.first;
    this.sending = false;
    store.listen((topic) => topic === "beside" && void this.#send());
  }

  /** Fetch what the server has. */
  async begin() {
    const told = await (await call(`/api/plans/${this.planId}/letterhead`)).json();
    this.edition = told.edition;
    this.first = this.sent = told.stationery;
  }

  /** @returns {Stationery} */
  get now() {
    return this.store.beside[KEEPER] ?? this.first;
  }

  /** What stands beside the plan with another letterhead. @param {Stationery} stationery */
  besideWith(stationery) {
    return this.store.besideWith(KEEPER, stationery);
  }

  async #send() {
    if (this.sending) return;
    this.sending = true;
    try {
      while (this.now !== this.sent) {
        const stationery = this.now;
        this.edition = (await putLetterhead(this.planId, stationery, this.edition)).edition;
        this.sent = stationery;
      }
    } catch (error) {
      this.say(`The letterhead is not saved: ${error instanceof Error ? error.message : error}`, true);
      if (error instanceof Refused) {
        await this.begin();
        this.store.replaceBeside(KEEPER, this.first);
      }
    } finally {
      this.sending = false;
    }
  }
}
