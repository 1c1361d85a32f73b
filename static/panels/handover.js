/**
 * The step Handover: the printed set, the plan file, and what is printed about the job.
 */

/** @import { Panel } from "./steps.js" */

import { unitsOf } from "../plan/lookup.js";
import { asBuilt } from "./as_built.js";
import { fieldOf, section } from "./fields.js";
import { handoverFiles } from "./handover_files.js";
import { h } from "./html.js";
import { printSet } from "./print_set.js";
import { revisions } from "./revisions.js";
import { templatesPart } from "./templates.js";

/** @type {Panel} */
export const handover = {
  fill(desk, place) {
    const job = h("div", { class: "fields" });
    place.append(
      printSet(desk, place),
      section("Take away",
        h("p", {}, h("a", { class: "big-link", href: `/api/plans/${desk.planId}/file`, download: true }, "Plan file (JSON)"))),
      ...handoverFiles(desk),
      ...revisions(desk, place),
      asBuilt(desk, place),
      section("About the job", job),
      templatesPart(desk),
      h("p", { class: "caution" }, "Verify on site. Local codes govern; smoke and CO alarms are located by others."));
    let drawn = "";
    const draw = () => {
      const { plan } = desk.store;
      const key = JSON.stringify([plan.site, plan.units, plan.name]);
      if (key === drawn) return;
      drawn = key;
      const units = unitsOf(plan);
      const site = (/** @type {string} */ name) => (/** @type {string} */ value) => desk.store.commit("Change the job's words", { ...desk.store.plan, site: { ...desk.store.plan.site, [name]: value } });
      job.replaceChildren(
        ...["client", "address", "designer"].map((name) => fieldOf({ key: name, label: name[0]?.toUpperCase() + name.slice(1), type: "text", most: 2000, value: plan.site?.[name] ?? "" }, units, site(name))),
        fieldOf({ key: "notes", label: "Notes", type: "long", value: plan.site?.notes ?? "" }, units, site("notes")),
        fieldOf({ key: "units", label: "Lengths in", type: "choice", value: units, choices: [["imperial", "Feet and inches"], ["metric", "Metres"]] }, units, (value) => desk.store.commit("Change the units", { ...desk.store.plan, units: value })));
    };
    desk.store.listen((topic) => topic === "plan" && draw());
    draw();
  },
};
