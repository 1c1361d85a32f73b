/**
 * Contacts on every opening outdoors of a room, or of the house, in one press: those of the first pass, placed as it
 * places them, on openings that open and have none.
 */

/** @import { Desk } from "../desk.js" */

import { kindOf, nextLabel } from "../plan/lookup.js";
import { askContacts } from "../server/first_pass.js";
import { withProposal } from "./first_pass.js";
import { h } from "./html.js";

const HOUSE = ""; // the choice that stands for the whole house

/** @param {Desk} desk */
export function allContacts(desk) {
  const where = h("select", { "aria-label": "Where contacts are put" });
  const told = h("p", { class: "quiet", role: "status" });
  const press = h("button", { type: "button", onclick: () => put() }, "Put contacts");

  const draw = () => {
    const held = where.value;
    const { levels } = desk.store.plan;
    const rooms = levels.flatMap((level) => (level.rooms ?? []).map((room) => ({ id: room.id, words: levels.length > 1 ? `${room.name || room.id}, ${level.name}` : room.name || room.id })));
    where.replaceChildren(h("option", { value: HOUSE }, "Every opening of the house"), ...rooms.map((room) => h("option", { value: room.id }, room.words)));
    if (rooms.some((room) => room.id === held)) where.value = held;
  };

  const put = async () => {
    press.disabled = true;
    told.textContent = "Looking for openings without a contact…";
    try {
      await desk.autosave.now();
      const { proposals } = await askContacts(desk.planId);
      const taken = proposals.filter((proposal) => where.value === HOUSE || proposal.room === where.value);
      const place = where.selectedOptions[0]?.textContent ?? "";
      told.textContent = taken.length ? `${taken.length} ${taken.length === 1 ? "contact" : "contacts"} put: ${place}. Undo takes them back.` : "Nothing to put: every opening there that opens outdoors has its contact, or is accepted without.";
      if (!taken.length) return;
      let plan = desk.store.plan;
      for (const { level, device } of taken) plan = withProposal(plan, { level, device: { ...device, label: nextLabel(plan, kindOf(desk.tables, device.kind).abbreviation) } });
      desk.store.commit(`Put ${taken.length} contacts`, plan);
    } catch (trouble) {
      told.textContent = `No contacts put: ${trouble instanceof Error ? trouble.message : "something went wrong"}.`;
    } finally {
      press.disabled = false;
    }
  };

  desk.store.listen((topic) => topic === "plan" && draw());
  draw();
  return h("section", { "aria-label": "Contacts on every opening" }, h("h3", {}, "Contacts on every opening"), h("div", { class: "contacts-row" }, where, press), told);
}
