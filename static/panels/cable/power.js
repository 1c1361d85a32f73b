/**
 * Power: what each can's outputs carry, its battery with basis and edition, and the voltage that reaches each device.
 */

/** @import { Feed, Supply } from "../../plan/cable_types.js" */
/** @import { Cable } from "../../server/cable.js" */
/** @import { Desk } from "../../desk.js" */

import { leadTo } from "../../gestures/actions.js";
import { practiceOf } from "../../plan/lookup.js";
import { h } from "../html.js";
import { tableTools } from "../table_tools.js";
import { quantity } from "./words.js";

/** @param {Desk} desk @param {Cable} schedule */
export function power(desk, schedule) {
  const place = h("div");
  const details = h("details", {}, h("summary", {}, "Power and battery"), place);
  schedule.listen(() => {
    const { answer } = schedule;
    details.hidden = !answer?.supplies.length;
    place.replaceChildren(...(answer?.supplies ?? []).map(supplyLines), feedTable(desk, answer?.feeds ?? []),
      h("p", { class: "quiet" }, "Currents are round numbers until the equipment's listings are entered below. This sizes; it does not say that any code is met: the adopted code, the listing and the licensed installer decide."));
  });
  return details;
}

/** @param {Supply} supply */
function supplyLines(supply) {
  const { battery } = supply;
  return h("section", { "aria-label": `Supply of ${supply.can}` },
    h("h3", {}, `Can ${supply.can}`),
    load("Auxiliary output", supply.auxiliary_alarm_ma, supply.auxiliary_limit_ma),
    load("Siren output", supply.siren_alarm_ma, supply.siren_limit_ma),
    h("p", {}, `Battery: ${battery.size_ah === null ? "larger than any size entered" : `${battery.size_ah} Ah`} for ${battery.standby_hours} h standby and ${battery.alarm_minutes} min alarm `,
      h("small", {}, `(${battery.needed_ah.toFixed(2)} Ah, with margin ${battery.with_margin_ah.toFixed(2)} Ah; ${battery.edition}; ${battery.source})`)));
}

/** @param {string} name @param {number} drawn @param {number} limit mA */
function load(name, drawn, limit) {
  return h("p", { class: drawn > limit ? "over" : "" }, `${name}: ${drawn} of ${limit} mA${drawn > limit ? ", too much" : ""} `,
    h("meter", { min: "0", max: String(Math.max(limit, drawn, 1)), value: String(drawn), "aria-label": name }));
}

/** @param {Desk} desk @param {Feed[]} feeds */
function feedTable(desk, feeds) {
  const least = Number(practiceOf(desk.store.plan, desk.tables, "power.least_volts"));
  const volts = (/** @type {number | null} */ value) => h("td", { class: value !== null && value < least ? "amount over" : "amount" }, value !== null && value < least ? "low " : "", quantity(value, "V", 2));
  const table = h("table", { class: "plain" },
    h("caption", {}, `Volts at the device, cable one way as cut; least ${least} V`),
    h("thead", {}, h("tr", {}, ...["Device", "mA", "20 °C", "75 °C", "Battery low"].map((words, i) => h("th", { scope: "col", class: i ? "amount" : null }, words)))),
    h("tbody", {}, ...feeds.map((feed) => h("tr", {},
      h("th", { scope: "row" }, h("button", { type: "button", class: "link", onclick: () => leadTo(desk, feed.device) }, feed.label)),
      h("td", { class: "amount" }, String(feed.milliamperes)), volts(feed.cool_volts), volts(feed.hot_volts), volts(feed.battery_volts)))));
  const tools = tableTools(table, "Voltage at each device");
  return h("div", {}, h("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Voltage at each device" }, table), tools);
}
