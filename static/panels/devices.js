/**
 * The step Devices: the palette of kinds, from the table of kinds, with what each is for.
 */

/** @import { Panel } from "./steps.js" */

import { kindOf } from "../plan/lookup.js";
import { allContacts } from "./all_contacts.js";
import { firstPass } from "./first_pass.js";
import { h } from "./html.js";
import { palette } from "./palette.js";

/** @type {Panel} */
export const devices = {
  fill(desk, place) {
    const words = h("p", { class: "kind-words quiet" });
    const caution = h("p", { class: "caution" }, "Smoke and CO alarms are recorded where others place them: their number and location are set by local code and licensed practice.");
    place.append(palette(desk, ["any", "device"], "Place a device"), words, caution, allContacts(desk), h("h3", {}, "First pass"), firstPass(desk));
    const tell = () => {
      const tool = desk.tools.list.find((entry) => entry.name === desk.tools.current);
      const kind = tool?.group === "device" ? kindOf(desk.tables, tool.name) : null;
      words.textContent = kind ? `${kind.name}. ${kind.words}` : "Choose a kind, then point at the drawing. Glass breaks and motions show their answer while they move.";
      caution.hidden = !kind?.located_by_others;
    };
    desk.tools.listen(tell);
    tell();
  },
};
