/**
 * A new plan: empty, from a bare shell, from a plan that is kept or from a sample, and under a practice template.
 */
/** @import { Template } from "./plan/template.js" */

import { ask } from "./home-asking.js";
import { hasStationery, stationeryOf, withTemplate } from "./plan/template.js";

const FORMAT = "studbay-plan/1";

/** Make what the form says, and open it. @param {HTMLFormElement} form */
export async function makePlan(form) {
  const given = new FormData(form);
  const [name, from, units, templateId] = ["name", "from", "units", "template"].map((key) => String(given.get(key) ?? ""));
  const begun = { ...(await source(from ?? "", units ?? "")), name };
  const place = from?.startsWith("plan:") ? `/api/plans?pictures_of=${encodeURIComponent(from.slice(5))}` : "/api/plans";
  if (!templateId) return open(await ask("POST", place, { body: JSON.stringify(begun) }));
  /** @type {Template} */
  const template = (await ask("GET", `/api/templates/${encodeURIComponent(templateId)}`)).template;
  const kept = await ask("POST", place, { body: JSON.stringify(withTemplate(/** @type {any} */ (begun), template)) });
  if (hasStationery(template)) await ask("PUT", `/api/plans/${kept.id}/letterhead`, { body: JSON.stringify(stationeryOf(template)), revision: "0" });
  open(kept);
}

/** @param {{id: string}} kept */
const open = (kept) => location.assign(`/plans/${kept.id}`);

/** The plan to begin with; of a kept plan, the house without its client; its pictures come along. @param {string} from @param {string} units */
async function source(from, units) {
  if (!from) return { format: FORMAT, units, levels: [{ id: "L1", name: "Ground floor" }] };
  const [kind, id] = from.includes(":") ? from.split(":") : ["sample", from];
  const path = encodeURIComponent(id ?? "");
  if (kind === "shell") return ask("GET", `/api/shells/${path}`);
  if (kind === "sample") return ask("GET", `/api/samples/${path}`);
  const { plan } = await ask("GET", `/api/plans/${path}`);
  return { ...plan, site: { designer: plan.site?.designer ?? "" } };
}

/** A source brings its own units, and so does a template that has some. @param {HTMLFormElement} form */
export function settleUnits(form) {
  const [from, template, units] = ["from", "template", "units"].map((name) => /** @type {HTMLSelectElement} */ (form.elements.namedItem(name)));
  if (!from || !units) return;
  const settle = () => {
    const own = template?.selectedOptions[0]?.dataset.units;
    if (own) units.value = own;
    units.disabled = from.value !== "" || Boolean(own);
  };
  from.addEventListener("change", settle);
  template?.addEventListener("change", settle);
  settle();
}
