/**
 * The tools by name, each with its key and its gesture, and what they draw with: thickness, width, sill and so on.
 * A new tool is one more line of the table.
 */

/** @import { Fixture, Opening } from "../plan/types.js" */
/** @import { BayShape } from "../plan/bay.js" */
/** @import { Piece } from "../plan/furniture.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture } from "./gesture.js" */

import { drawObstruction } from "./draw_obstruction.js";
import { drawRoom } from "./draw_room.js";
import { drawWall } from "./draw_wall.js";
import { placeDevice } from "./place_device.js";
import { placeOpening } from "./place_opening.js";
import { nameRoom, placeFixture } from "./place_sign.js";
import { levelUnderlay, moveUnderlay, scaleUnderlay } from "./place_underlay.js";
import { select } from "./select.js";

/** A tool that is used now and then is fetched when it is first used. */
/** @typedef {{name: string, words: string, key: string, group: "any" | "shell" | "fixture" | "device" | "underlay", gesture: (desk: Desk) => Gesture | Promise<Gesture>}} Tool */

/** @type {Record<string, string>} keys of the device kinds that are placed most */
const DEVICE_KEYS = { glass_break: "g", motion: "m", keypad: "k", can: "p", siren: "s", door_contact: "t", window_contact: "y" };

/** @type {Tool[]} */
const DRAWN = [
  { name: "select", words: "Select", key: "v", group: "any", gesture: select },
  { name: "wall", words: "Wall", key: "w", group: "shell", gesture: drawWall },
  { name: "room", words: "Room box", key: "r", group: "shell", gesture: drawRoom },
  { name: "window", words: "Window", key: "n", group: "shell", gesture: (desk) => placeOpening(desk, "window") },
  { name: "door", words: "Door", key: "d", group: "shell", gesture: (desk) => placeOpening(desk, "door") },
  { name: "cased", words: "Cased opening", key: "c", group: "shell", gesture: (desk) => placeOpening(desk, "cased") },
  { name: "obstruction", words: "Obstruction", key: "o", group: "shell", gesture: drawObstruction },
  { name: "name", words: "Room name", key: "l", group: "shell", gesture: nameRoom },
  { name: "piece", words: "Furniture", key: "i", group: "shell", gesture: async (desk) => (await import("./place_piece.js")).placePiece(desk) },
  { name: "bay", words: "Bay", key: "b", group: "shell", gesture: async (desk) => (await import("./place_bay.js")).placeBay(desk) },
  { name: "arc", words: "Curved wall", key: "a", group: "shell", gesture: async (desk) => (await import("./draw_arc.js")).drawArc(desk) },
  { name: "cut", words: "Cut a wall", key: "x", group: "shell", gesture: async (desk) => (await import("./split_wall.js")).cutWall(desk) },
  { name: "measure", words: "Measure", key: "u", group: "any", gesture: async (desk) => (await import("./measure.js")).measure(desk) },
  { name: "light_switch", words: "Light switch", key: "", group: "fixture", gesture: (desk) => placeFixture(desk, "light_switch") },
  { name: "chime", words: "Doorbell chime", key: "", group: "fixture", gesture: (desk) => placeFixture(desk, "chime") },
  { name: "supply_register", words: "Supply register", key: "", group: "fixture", gesture: (desk) => placeFixture(desk, "supply_register") },
  { name: "bed", words: "Bed", key: "", group: "fixture", gesture: (desk) => placeFixture(desk, "bed") },
  { name: "outlet", words: "Outlet", key: "", group: "fixture", gesture: (desk) => placeFixture(desk, "outlet") },
  { name: "underlay_scale", words: "Scale of the picture", key: "", group: "underlay", gesture: scaleUnderlay },
  { name: "underlay_level", words: "Level the picture", key: "", group: "underlay", gesture: levelUnderlay },
  { name: "underlay_move", words: "Move the picture", key: "", group: "underlay", gesture: moveUnderlay },
];

/** @typedef {Omit<Opening, "id" | "wall" | "offset" | "kind">} OpeningShape */

export class Tools {
  /** @param {Desk} desk */
  constructor(desk) {
    this.desk = desk;
    /** @type {Tool[]} */
    this.list = [...DRAWN, ...desk.tables.device_kinds.map((kind) => /** @type {Tool} */ ({
      name: kind.kind, words: kind.name, key: DEVICE_KEYS[kind.kind] ?? "", group: "device", gesture: (/** @type {Desk} */ own) => placeDevice(own, kind.kind),
    }))];
    this.current = "select";
    /** @type {{thickness: number, height: number | null}} of the next walls */
    this.wall = { thickness: 0.375, height: null };
    /** @type {Record<Opening["kind"], OpeningShape>} */
    this.openings = {
      window: { width: 3, sill: 3, head: 6.667, panes: 1 },
      door: { width: 3, sill: 0, head: 6.667, hinge: "a", leaf: "swing" },
      cased: { width: 4, sill: 0, head: 7 },
    };
    /** @type {{shape: "box" | "outline", base: number, top: number | null, label: string} & Partial<Fixture>} */
    this.obstruction = { shape: "box", base: 0, top: 3, label: "" };
    /** @type {Piece | null} the piece of furniture chosen last */
    this.piece = null;
    /** @type {BayShape} */
    this.bay = { width: 8, projection: 2, angle: 45, windows: true, sill: 1.5, head: 6.667 };
    this.arc = { within: 1 / 24 }; // ft that the chords of a curved wall may lie off it
    /** Use of the rooms named next; "" asks for each. */
    this.roomUse = "";
    this.facing = 270;
    // What a tool holds belongs to the level that it was taken up on.
    desk.store.listen((topic) => topic === "level" && this.current !== "select" && this.use(this.current));
    /** @type {Set<(field: string | null) => void>} told of a new tool, or of a field to be filled in now */
    this.listeners = new Set();
  }

  /** @param {(field: string | null) => void} listener */
  listen(listener) {
    this.listeners.add(listener);
  }

  /** @param {string} name */
  use(name) {
    const tool = this.list.find((entry) => entry.name === name);
    if (!tool) return;
    this.current = name;
    if (name !== "select") this.desk.selection.set([]);
    this.desk.pointer.fingerPans = name === "select";
    const gesture = tool.gesture(this.desk);
    if (gesture instanceof Promise) this.#await(tool, gesture);
    else this.#begin(tool, gesture);
    this.#tell(null);
  }

  /** @param {Tool} tool @param {Gesture} gesture */
  #begin(tool, gesture) {
    this.desk.pointer.use(gesture);
    this.desk.drawing.svg.dataset.tool = tool.name;
    if (tool.name !== "select") this.desk.say(`${tool.words}: ${gesture.hint}`);
  }

  /** @param {Tool} tool @param {Promise<Gesture>} coming */
  #await(tool, coming) {
    this.desk.pointer.use({ hint: `${tool.words} is coming.` });
    coming.then((gesture) => this.current === tool.name && this.#begin(tool, gesture)).catch(() => {
      this.desk.say(`${tool.words} has not come: the server does not answer. Choose it again to try once more.`, true);
      if (this.current === tool.name) this.use("select");
    });
  }

  /** Lead to a field of the properties; "" to the first. @param {string} field */
  askFor(field) {
    this.#tell(field);
  }

  /** @param {string | null} field */
  #tell(field) {
    for (const listener of this.listeners) listener(field);
  }
}
