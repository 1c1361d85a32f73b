/**
 * Sound: what reaches each bed and each room of the sirens and keypad sounders, and what that says and does not say.
 */

/** @import { Band, LevelHeard, ProtectionAnswer } from "../../plan/protection_types.js" */
/** @import { Desk } from "../../desk.js" */
/** @import { Redraw, View } from "./view.js" */

import { drawSound, drawSoundFloors } from "../../drawing/protection/sound_rings.js";
import { practiceOf } from "../../plan/lookup.js";
import { h } from "../html.js";
import { feetIn, link, nameIn, namesIn, point, quiet, table } from "./words.js";

/** @param {Desk} desk @param {Redraw} _redraw @returns {View} */
export function sound(desk, _redraw) {
  const element = h("div");
  const chosen = () => desk.selection.only;
  return {
    name: "sound",
    title: "Sound",
    words: "What reaches beds and rooms of the sirens",
    element,
    fill(answer) {
      const { beds, rooms, rings } = answer.sound;
      const most = Number(practiceOf(desk.store.plan, desk.tables, "sound.most"));
      const loud = beds.filter((bed) => (bed.dba ?? 0) > most);
      element.replaceChildren(
        ...(rings.length ? [] : [h("p", {}, "Nothing sounds yet: place a siren in step Devices.")]),
        bandWords(answer),
        h("h3", {}, "At the beds"), beds.length ? levels(desk, beds, "Levels at the beds") : quiet("No bed is marked yet: place beds in step Shell."),
        h("h3", {}, "In the middle of rooms"), levels(desk, rooms, "Levels in rooms"),
        h("p", { class: "caution" }, h("b", {}, "Hearing: "), loud.length ? `above ${most} dBA at ${namesIn(desk, loud.map((bed) => bed.thing))}. ` : "", `Sirens are loud enough to harm hearing near by: 110 dBA is borne for about a minute and a half (NIOSH). Warn people, and wear protection when testing.`),
        h("p", { class: "quiet" }, answer.sound.words), quiet("Smoke and CO alarms, and how loud they must be, are for your local code and licensed practice."));
    },
    under: (answer) => drawSoundFloors(answer.sound, desk.proof.answer, desk.store.level),
    over: (answer) => drawSound(answer.sound, desk.proof.answer, desk.store.level, desk.view, chosen()),
  };
}

/** @param {ProtectionAnswer} answer */
function bandWords(answer) {
  const from = (/** @type {Band} */ name) => answer.sound.bands.find((band) => band.name === name)?.from_dba;
  return quiet(`Wakes from ${from("wakes")} dBA at the pillow (a yardstick of the practice), heard awake from ${from("heard awake")} dBA, below that faint: on the drawing △ is heard awake only, ✕ faint. Levels are rounded down. Rings are of open air in steps of 5 dBA; walls and doors take off, as the table has it.`);
}

/** @param {Desk} desk @param {LevelHeard[]} list @param {string} label */
function levels(desk, list, label) {
  const sorted = list.slice().sort((one, two) => (one.dba ?? -Infinity) - (two.dba ?? -Infinity));
  return table(label, ["Where", "Level", "Loudest"], sorted.map((heard) => {
    const [loudest] = heard.from;
    return h("tr", { class: desk.selection.ids.has(heard.thing) ? "chosen" : "" },
      h("th", { scope: "row" }, link(nameIn(desk, heard.thing), () => point(desk, heard.thing)), h("small", {}, desk.store.plan.levels.length > 1 ? desk.store.plan.levels.find((level) => level.id === heard.level)?.name ?? "" : "")),
      h("td", {}, heard.dba === null ? "not heard" : h("b", {}, `${Math.floor(heard.dba)} dBA`), h("small", {}, heard.dba === null ? "no sounder" : BANDS[heard.band])),
      h("td", {}, loudest ? nameIn(desk, loudest.device) : "—", loudest ? h("small", {}, `${feetIn(desk, loudest.feet)}${loudest.loss_db > 0.05 ? `, −${loudest.loss_db.toFixed(0)} dB by ${loudest.through.length ? namesIn(desk, loudest.through) : "floors"}` : ", nothing between"}`) : null));
  }));
}

/** @type {Record<Band, string>} */
const BANDS = { wakes: "✓ wakes", "heard awake": "△ heard awake only", faint: "✕ faint", silent: "✕ silent" };
