/**
 * A plan from a drawing by others: the file chosen, its layers told apart, the plan shown beside at every change.
 * Nothing is kept before the designer takes the plan.
 */

/** @import { Drawing, DrawnPlan, Survey } from "./types.js" */

import { byId } from "../panels/html.js";
import { HOW_TO_TYPE, parseLength } from "../plan/measures.js";
import { tellCounts, tellNotes, tellUnread } from "./account.js";
import { Refused, askPlan, askSurvey, keepPlan } from "./asking.js";
import { frameDrawings, pickedSpot } from "./boxes.js";
import { DrawingsTable } from "./drawings.js";
import { chosenRoles, chosenStoreys, fillLayers, fillStoreys } from "./layers.js";
import { liftLayer, markRoles, showPicture } from "./pictures.js";

const PAUSE = 250; // ms after a change, so that a typed length is not asked digit by digit

const form = byId("choices", HTMLFormElement);
const told = byId("told", HTMLElement);
const rows = byId("layers", HTMLElement);
const board = byId("drawing", HTMLElement);
const units = byId("units", HTMLSelectElement);
const take = byId("take", HTMLButtonElement);

/** @type {{file: File, survey: Survey} | null} */
let opened = null;
/** @type {DrawnPlan | null} */
let drawn = null;
let asked = new AbortController();
let pause = 0;
let found = ""; // the layers and unit that the drawings in the table were found with
/** @type {Drawing | null} */
let picking = null;

const sheet = new DrawingsTable(byId("storeys", HTMLElement), byId("drawings", HTMLElement), {
  changed: later,
  pick: (drawing) => {
    picking = drawing;
    board.classList.add("picking");
    told.textContent = `Press the shared point of drawing ${drawing.number} in the picture; Esc leaves it.`;
    board.scrollIntoView({ block: "nearest" });
  },
});

/** @param {string} name */
const field = (name) => /** @type {HTMLInputElement} */ (form.elements.namedItem(name));

/** @param {string} what @param {unknown} error */
function tellFault(what, error) {
  const place = byId("faults", HTMLElement);
  const [title, words] = [place.querySelector("h2"), place.querySelector("p")];
  if (title) title.textContent = what;
  if (words) words.textContent = error instanceof Refused ? error.message : String(error);
  place.hidden = false;
}

const clearFault = () => void (byId("faults", HTMLElement).hidden = true);

/** @param {File} file */
async function open(file) {
  clearFault();
  asked.abort();
  form.hidden = true;
  opened = drawn = null;
  found = "";
  sheet.fill([]);
  told.textContent = `Reading ${file.name} …`;
  try {
    opened = { file, survey: await askSurvey(file) };
  } catch (error) {
    told.textContent = "";
    tellFault(`${file.name} cannot be read`, error);
    return;
  }
  showSurvey(file, opened.survey);
  await draw();
}

/** @param {File} file @param {Survey} survey */
function showSurvey(file, survey) {
  const isDxf = survey.kind === "dxf";
  field("name").value = file.name.replace(/\.[^.]*$/, "").slice(0, 120);
  byId("layers-title", HTMLElement).textContent = isDxf ? "Layers" : "Storeys";
  byId("layers-words", HTMLElement).hidden = !isDxf;
  for (const part of form.querySelectorAll("[data-dxf]")) /** @type {HTMLElement} */ (part).hidden = !isDxf;
  if (isDxf) {
    fillLayers(rows, survey.layers, byId("role-options", HTMLTemplateElement), {
      changed: () => {
        markRoles(board, chosenRoles(rows));
        later();
      },
      lifted: (layer) => liftLayer(board, layer),
    });
  } else fillStoreys(rows, survey.storeys, later);
  byId("unit-row", HTMLElement).hidden = !isDxf;
  /** @type {HTMLElement} */ (form.querySelector(".drawn")).hidden = !isDxf;
  if (isDxf) showUnits(survey);
  if (isDxf) showPicture(board, survey.picture);
  if (isDxf) markRoles(board, chosenRoles(rows));
  form.hidden = false;
}

/** @param {Survey} survey every unit with the size that the house would have */
function showUnits(survey) {
  const { said, proposed, ask, sizes_ft: sizes } = survey.units;
  for (const option of units.options) {
    const [wide, deep] = sizes[option.value];
    option.textContent = `${option.dataset.words}: ${size(wide)} × ${size(deep)} ft`;
  }
  units.value = proposed ?? said ?? "in";
  const words = !ask
    ? "As the drawing’s header says."
    : said === null
      ? "The drawing does not tell its unit. Look which size is the house’s."
      : "The header’s unit would give a house of unlikely size. Look which size is right.";
  const place = byId("unit-words", HTMLElement);
  place.textContent = words;
  place.className = ask ? "fault" : "quiet";
}

/** @param {number} feet */
const size = (feet) => (feet >= 10 ? Math.round(feet).toLocaleString("en") : feet.toPrecision(2));

function leavePicking() {
  picking = null;
  board.classList.remove("picking");
  told.textContent = "";
}

function later() {
  clearTimeout(pause);
  take.disabled = true;
  pause = window.setTimeout(() => void draw(), PAUSE);
}

/** @returns {URLSearchParams | null} the choices, or null where a length cannot be read */
function choices() {
  if (!opened) return null;
  const said = new URLSearchParams();
  const isDxf = opened.survey.kind === "dxf";
  if (isDxf) {
    said.set("units", units.value);
    chosenRoles(rows).forEach((role, index) => role !== "ignore" && said.append(role, String(opened?.survey.layers[index].name)));
    if (found === layersAndUnit()) sheet.tell(said);
  } else for (const storey of chosenStoreys(rows)) said.append("storey", storey);
  for (const name of ["name", "level_name"]) said.set(name, field(name).value);
  const fault = byId("length-fault", HTMLElement);
  fault.textContent = "";
  for (const input of /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll("[data-length]"))) {
    input.removeAttribute("aria-invalid");
    const feet = parseLength(input.value, "imperial");
    if (feet === null) {
      input.setAttribute("aria-invalid", "true");
      fault.textContent = `“${input.value}” is not a length: ${HOW_TO_TYPE}`;
      return null;
    }
    if (input.name !== "floor_to_floor" || said.getAll("level").length > 1) said.set(input.name, String(feet));
  }
  fault.textContent = isDxf && found === layersAndUnit() ? sheet.fault() : "";
  return fault.textContent ? null : said;
}

/** The layers and the unit as they stand: other ones may find other drawings. */
const layersAndUnit = () => JSON.stringify([units.value, chosenRoles(rows)]);

/** Ask for the plan of the choices as they stand, and show it. */
async function draw() {
  const said = choices();
  asked.abort();
  drawn = null;
  take.disabled = true;
  if (!opened || !said) return;
  if (opened.survey.kind === "dxf" && !said.has("walls") && !said.has("centrelines")) {
    told.textContent = "";
    tellFault("No walls yet", new Refused("choose the layer that the walls are drawn on"));
    return;
  }
  asked = new AbortController();
  told.textContent = "Reading the walls …";
  form.setAttribute("aria-busy", "true");
  try {
    drawn = await askPlan(opened.file, said, asked.signal);
  } catch (error) {
    if (error instanceof DOMException) return; // a newer choice is being read
    told.textContent = "";
    tellFault("These choices give no plan", error);
    byId("result", HTMLElement).replaceChildren();
    return;
  } finally {
    form.removeAttribute("aria-busy");
  }
  clearFault();
  const before = found;
  found = layersAndUnit();
  if (before !== found && !sheet.holds(drawn.report.drawings)) sheet.fill(drawn.report.drawings);
  else if (before !== found && sheet.isEdited) {
    await draw();
    return;
  }
  show(drawn);
}

/** @param {DrawnPlan} answer */
function show(answer) {
  frameDrawings(board, opened?.survey.frame ?? [0, 0, 1], answer.report.drawings, sheet.points());
  showPicture(byId("result", HTMLElement), answer.picture);
  tellCounts(byId("counts", HTMLElement), answer.report, answer.plan.units);
  tellNotes(byId("notes", HTMLElement), answer.report.notes);
  tellUnread(byId("unread", HTMLElement), answer.report.unread);
  told.textContent = `Read: ${answer.report.read.walls} walls, ${answer.report.read.rooms} rooms. Compare the two pictures, then take the plan.`;
  take.disabled = false;
}

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  if (!drawn) return;
  take.disabled = true;
  try {
    const kept = await keepPlan(drawn.plan);
    location.assign(`/plans/${kept.id}`);
  } catch (error) {
    take.disabled = false;
    tellFault("The plan could not be kept", error);
  }
});
form.addEventListener("input", (event) => {
  if (!/** @type {HTMLElement} */ (event.target).closest("tbody")) later();
});
byId("file", HTMLInputElement).addEventListener("change", (event) => {
  const file = /** @type {HTMLInputElement} */ (event.target).files?.[0];
  if (file) void open(file);
});
board.addEventListener("click", (event) => {
  if (!picking || !opened) return;
  const spot = pickedSpot(board, opened.survey.frame, event);
  if (spot) sheet.setPoint(picking, spot);
  leavePicking();
});
document.addEventListener("keydown", (event) => {
  if (event.key === "Escape" && picking) leavePicking();
});
document.addEventListener("dragover", (event) => {
  if (event.dataTransfer?.types.includes("Files")) event.preventDefault();
});
document.addEventListener("drop", (event) => {
  const file = event.dataTransfer?.files[0];
  if (!file) return;
  event.preventDefault();
  void open(file);
});
