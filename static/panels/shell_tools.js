/**
 * The step Shell: tools for walls, openings, rooms and fixtures. It is the step that a plan opens on, so what stands
 * below the tools is fetched once the page is usable.
 */

/** @import { Panel } from "./steps.js" */

import { h } from "./html.js";
import { once, tellMissing } from "./late.js";
import { palette } from "./palette.js";

/** @type {Panel} */
export const shell = {
  fill(desk, place) {
    const options = h("div", { class: "options" });
    const missing = h("div", { hidden: true });
    const load = once(() => import("./shell.js"));
    const fill = () => load().then(({ fillShell }) => {
      missing.remove();
      fillShell(desk, place, options);
    }, () => tellMissing(missing, fill));
    place.append(
      palette(desk, ["any", "shell"], "Draw"),
      options,
      h("details", {}, h("summary", {}, "Points that the rules look at"), palette(desk, ["fixture"], "Fixtures")),
      missing,
    );
    desk.opened.then(fill);
  },
};
