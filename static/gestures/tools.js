/**
 * The tools by name, each with its key and its gesture, and what they draw with: thickness, width, sill and so on.
 * A new tool is one more line of the table.
 */

/** @import { Fixture, Opening } from "../plan/types.js" */
/** @import { BayShape } from "../plan/bay.js" */
/** @import { Piece } from "../plan/furniture.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { Listened } from "../plan/listened.js";
import { select } from "./select.js";

/** @typedef {{name: string, words: string, key: string, group: "any" | "shell" | "fixture" | "device" | "cable" | "underlay", gesture: (desk: Desk) => Gesture | Promise<Gesture>}} Tool */

/** @type {Set<() => Promise<unknown>>} */
const fetches = new Set();

/** Fetch all gestures that have not come yet; a page that has nothing else to do calls it, so that no tool waits. */
export const fetchGestures = () => Promise.all([...fetches].map((fetch) => fetch()));

/**
 * A gesture whose module is fetched when it is first wanted, and is there at once from then on.
 * @template M @param {() => Promise<M>} fetch @param {(part: M, desk: Desk) => Gesture} make @returns {Tool["gesture"]}
 */
function fetched(fetch, make) {
  /** @type {M | null} */
  let part = null;
  const load = () => fetch().then((came) => (part = came));
  fetches.add(load);
  return (desk) => (part ? make(part, desk) : load().then((came) => make(came, desk)));
}

/** How a tool's key is written: a capital letter is struck with Shift. @param {string} key */
export const keyWords = (key) => (/[A-Z]/.test(key) ? `Shift+${key}` : key.toUpperCase());

/** @type {Record<string, string>} keys of the device kinds that are placed most */
const DEVICE_KEYS = { glass_break: "g", motion: "m", keypad: "k", can: "p", siren: "s", door_contact: "t", window_contact: "y", flood: "F" };

/** @param {Opening["kind"]} kind */
const openingGesture = (kind) => fetched(() => import("./place_opening.js"), (part, desk) => part.placeOpening(desk, kind));

/** @param {"light_switch" | "chime" | "supply_register" | "bed" | "outlet"} kind */
const fixtureGesture = (kind) => fetched(() => import("./place_sign.js"), (part, desk) => part.placeFixture(desk, kind));

/** @type {Tool[]} */
const DRAWN = [
  { name: "select", words: "Select", key: "v", group: "any", gesture: select },
  { name: "wall", words: "Wall", key: "w", group: "shell", gesture: fetched(() => import("./draw_wall.js"), (part, desk) => part.drawWall(desk)) },
  { name: "partition", words: "Partition", key: "j", group: "shell", gesture: fetched(() => import("./draw_partition.js"), (part, desk) => part.drawPartition(desk)) },
  { name: "room", words: "Room box", key: "r", group: "shell", gesture: fetched(() => import("./draw_room.js"), (part, desk) => part.drawRoom(desk)) },
  { name: "window", words: "Window", key: "n", group: "shell", gesture: openingGesture("window") },
  { name: "door", words: "Door", key: "d", group: "shell", gesture: openingGesture("door") },
  { name: "cased", words: "Cased opening", key: "c", group: "shell", gesture: openingGesture("cased") },
  { name: "obstruction", words: "Obstruction", key: "o", group: "shell", gesture: fetched(() => import("./draw_obstruction.js"), (part, desk) => part.drawObstruction(desk)) },
  { name: "name", words: "Room name", key: "l", group: "shell", gesture: fetched(() => import("./place_sign.js"), (part, desk) => part.nameRoom(desk)) },
  { name: "piece", words: "Furniture", key: "i", group: "shell", gesture: fetched(() => import("./place_piece.js"), (part, desk) => part.placePiece(desk)) },
  { name: "bay", words: "Bay", key: "b", group: "shell", gesture: fetched(() => import("./place_bay.js"), (part, desk) => part.placeBay(desk)) },
  { name: "arc", words: "Curved wall", key: "a", group: "shell", gesture: fetched(() => import("./draw_arc.js"), (part, desk) => part.drawArc(desk)) },
  { name: "cut", words: "Cut a wall", key: "x", group: "shell", gesture: fetched(() => import("./split_wall.js"), (part, desk) => part.cutWall(desk)) },
  { name: "measure", words: "Measure", key: "u", group: "any", gesture: fetched(() => import("./measure.js"), (part, desk) => part.measure(desk)) },
  { name: "light_switch", words: "Light switch", key: "L", group: "fixture", gesture: fixtureGesture("light_switch") },
  { name: "chime", words: "Doorbell chime", key: "C", group: "fixture", gesture: fixtureGesture("chime") },
  { name: "supply_register", words: "Supply register", key: "R", group: "fixture", gesture: fixtureGesture("supply_register") },
  { name: "bed", words: "Bed", key: "B", group: "fixture", gesture: fixtureGesture("bed") },
  { name: "outlet", words: "Outlet", key: "O", group: "fixture", gesture: fixtureGesture("outlet") },
  { name: "riser", words: "Riser", key: "z", group: "cable", gesture: fetched(() => import("./place_riser.js"), (part, desk) => part.placeRiser(desk)) },
  { name: "underlay_scale", words: "Scale of the picture", key: "", group: "underlay", gesture: fetched(() => import("./place_underlay.js"), (part, desk) => part.scaleUnderlay(desk)) },
  { name: "underlay_level", words: "Level the picture", key: "", group: "underlay", gesture: fetched(() => import("./place_underlay.js"), (part, desk) => part.levelUnderlay(desk)) },
  { name: "underlay_move", words: "Move the picture", key: "", group: "underlay", gesture: fetched(() => import("./place_underlay.js"), (part, desk) => part.moveUnderlay(desk)) },
];

/** @typedef {Omit<Opening, "id" | "wall" | "offset" | "kind">} OpeningShape */

/** Tells of a new tool (null), or of a field to be filled in now. @extends {Listened<string | null>} */
export class Tools extends Listened {
  /** @param {Desk} desk */
  constructor(desk) {
    super();
    this.desk = desk;
    /** @type {Tool[]} */
    this.list = [...DRAWN, ...desk.tables.device_kinds.map((kind) => /** @type {Tool} */ ({
      name: kind.kind, words: kind.name, key: DEVICE_KEYS[kind.kind] ?? "", group: "device", gesture: fetched(() => import("./place_device.js"), (part, own) => part.placeDevice(own, kind.kind)),
    }))];
    this.current = "select";
    /** @type {Promise<unknown> | null} the gesture of the tool in force, while it is on its way */
    this.coming = null;
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
  }

  /** A step is left, and with it what draws in that step. */
  layDown() {
    if (this.list.find(({ name }) => name === this.current)?.group !== "any") this.use("select");
  }

  /** @param {string} name */
  use(name) {
    const tool = this.list.find((entry) => entry.name === name);
    if (!tool) return;
    this.current = name;
    this.coming = null;
    if (name !== "select") this.desk.selection.set([]);
    this.desk.pointer.fingerPans = name === "select";
    const gesture = tool.gesture(this.desk);
    if (gesture instanceof Promise) this.#await(tool, gesture);
    else this.#begin(tool, gesture);
    this.tell(null);
  }

  /** @param {Tool} tool @param {Gesture} gesture */
  #begin(tool, gesture) {
    this.desk.pointer.use(gesture);
    this.desk.drawing.board.dataset.tool = tool.name;
    if (tool.name !== "select") this.desk.say(`${tool.words}: ${gesture.hint}`);
  }

  /** Until its gesture is here a tool keeps what it is told. @param {Tool} tool @param {Promise<Gesture>} fetching */
  #await(tool, fetching) {
    const waiting = waitingGesture(`${tool.words} is coming.`);
    const inForce = () => this.desk.pointer.gesture === waiting;
    this.desk.pointer.use(waiting);
    const coming = fetching.then((gesture) => {
      if (!inForce()) return;
      this.#begin(tool, gesture);
      waiting.repeat(gesture);
    }, () => {
      this.desk.say(`${tool.words} has not come: the server does not answer. Choose it again to try once more.`, true);
      if (inForce()) this.use("select");
    }).finally(() => this.coming === coming && (this.coming = null));
    this.coming = coming;
  }

  /** Lead to a field of the properties; "" to the first. @param {string} field */
  askFor(field) {
    this.tell(field);
  }

  /** What the tool in force draws with was changed by what was typed at the drawing. */
  reshaped() {
    this.tell(null);
  }
}

/** Stands for a gesture that is still on its way, and repeats to it what it was told. @param {string} hint */
function waitingGesture(hint) {
  /** @type {["press" | "move" | "release" | "twice", Spot][]} */
  let told = [];
  const keep = (/** @type {"press" | "move" | "release" | "twice"} */ what) => (/** @type {Spot} */ spot) => void told.push([what, spot]);
  return {
    hint, press: keep("press"), move: keep("move"), release: keep("release"), twice: keep("twice"),
    escape() {
      const pressed = told.some(([what]) => what === "press");
      told = [];
      return pressed;
    },
    repeat: (/** @type {Gesture} */ gesture) => told.forEach(([what, spot]) => gesture[what]?.(spot)),
  };
}
