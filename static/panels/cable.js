/**
 * The step Cable: which devices need a home run and where the cans are; the schedule itself is worked out by the server.
 */

/** @import { Panel } from "./steps.js" */

import { kindOf, tagOf } from "../plan/lookup.js";
import { leadTo } from "../gestures/actions.js";
import { h } from "./html.js";

/** @type {Panel} */
export const cable = {
  name: "Cable",
  words: "Home runs from every device to its can",
  fill(desk, place) {
    const list = h("div");
    place.append(h("p", { class: "quiet" }, "Every device but the can gets one home run, unlooped. Runs, boxes of cable, power and zones are told among the findings of Proof."), list);
    const draw = () => {
      const all = desk.store.plan.levels.flatMap((level) => level.devices ?? []);
      const cans = all.filter((device) => device.kind === "can");
      /** @type {Map<string, number>} */
      const cables = new Map();
      for (const device of all) {
        const type = device.cable || kindOf(desk.tables, device.kind).cable;
        if (type) cables.set(type, (cables.get(type) ?? 0) + 1);
      }
      list.replaceChildren(
        h("h3", {}, "Cans"),
        cans.length ? h("ul", { class: "things" }, ...cans.map((can) => h("li", {}, h("button", { type: "button", class: "link", onclick: () => leadTo(desk, can.id) }, tagOf(can, desk.tables))))) : h("p", {}, "No can yet: place one in a closet or utility room (step Devices, key P)."),
        h("h3", {}, "Home runs by cable"),
        cables.size ? h("table", { class: "plain" }, h("tbody", {}, ...[...cables].map(([type, count]) => h("tr", {}, h("th", { scope: "row" }, type), h("td", {}, `${count} run${count === 1 ? "" : "s"}`))))) : h("p", {}, "No device needs cable yet."));
    };
    desk.store.listen((topic) => topic === "plan" && draw());
    draw();
  },
};
