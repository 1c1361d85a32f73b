/**
 * The boxes to buy: which pulls come from each, in pulling order, and what is left.
 */

/** @import { Cable } from "../../server/cable.js" */
/** @import { Desk } from "../../desk.js" */

import { h } from "../html.js";
import { cableLength } from "./words.js";

/** @param {Desk} desk @param {Cable} schedule */
export function boxes(desk, schedule) {
  const place = h("div");
  const details = h("details", {}, h("summary", {}, "Boxes, in pulling order"), place);
  schedule.listen(() => {
    const { answer } = schedule;
    details.hidden = !answer?.boxes.length;
    place.replaceChildren(
      ...Object.entries(answer?.packing ?? {}).map(([cable, packing]) => h("p", { class: "quiet" }, packing.proven
        ? `${cable}: no plan buys fewer feet or, for as many, fewer boxes.`
        : `${cable}: no plan buys fewer than ${cableLength(desk, packing.bound_ft)}; this one is not proven best.`)),
      h("ul", { class: "boxes" }, ...(answer?.boxes ?? []).map((box) => h("li", {},
        h("b", {}, `${box.box}, ${cableLength(desk, box.size_ft)}`), ` ${box.pulls.join(", ")} `,
        h("meter", { min: "0", max: String(box.size_ft), value: String(box.used_ft), "aria-label": `Used of box ${box.box}` }),
        h("small", {}, ` ${cableLength(desk, box.left_ft)} left`)))));
  });
  return details;
}
