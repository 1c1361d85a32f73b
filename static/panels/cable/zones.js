/**
 * The zones of each can: their type, the pulls that share them, the end-of-line resistor and the wire's resistance.
 */

/** @import { Zone } from "../../plan/cable_types.js" */
/** @import { Cable } from "../../server/cable.js" */
/** @import { Desk } from "../../desk.js" */

import { h } from "../html.js";
import { tableTools } from "../table_tools.js";
import { quantity } from "./words.js";

/** @param {Desk} _desk @param {Cable} schedule */
export function zones(_desk, schedule) {
  const place = h("div");
  const details = h("details", {}, h("summary", {}, "Zones"), place);
  schedule.listen(() => {
    const { answer } = schedule;
    details.hidden = !answer?.zones.length;
    place.replaceChildren(...(answer?.supplies ?? []).filter((supply) => supply.zones).map((supply) => h("section", { "aria-label": `Zones of ${supply.can}` },
      h("h3", {}, `Can ${supply.can}: ${supply.zones} of ${supply.inputs} inputs`),
      table((answer?.zones ?? []).filter((zone) => zone.can === supply.can), answer?.zone_types ?? {}))),
    h("p", { class: "quiet" }, "Pulls are grouped at the can only, never looped at the openings. The resistor goes at the last device. Zone types are a proposal: programme them with the owner."));
  });
  return details;
}

/** @param {Zone[]} some @param {Record<string, string>} types */
function table(some, types) {
  const made = h("table", { class: "plain" },
    h("thead", {}, h("tr", {}, ...["Zone", "Type", "Loop"].map((words) => h("th", { scope: "col" }, words)))),
    h("tbody", {}, ...some.map((zone) => h("tr", {},
      h("th", { scope: "row" }, `${zone.number} `, h("small", {}, zone.pulls.length > 1 ? `${zone.words}: ${zone.pulls.join(", ")}` : `${zone.pulls[0] ?? ""} ${zone.words}`)),
      h("td", { title: types[zone.type] }, zone.type),
      h("td", { class: "amount" }, quantity(zone.loop_ohms, "Ω"), h("small", {}, `${zone.eol_ohms} Ω at ${zone.resistor_at}`))))));
  const name = `Zones of ${some[0]?.can ?? "the can"}`;
  const tools = tableTools(made, name);
  return h("div", {}, h("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": name }, made), tools);
}
