/**
 * How a picture comes to the page: chosen, dropped on the drawing or pasted; of a PDF one page is chosen.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Page } from "../server/underlays.js" */

import { pictureBehind } from "../drawing/underlay.js";
import { holdsCopies } from "../gestures/alterations.js";
import { pagesOf } from "../server/underlays.js";
import { h } from "./html.js";

const KINDS = ["image/png", "image/jpeg", "image/webp", "application/pdf"];
const MOST = 32 * 2 ** 20; // bytes, as the server's

/** Ask for a file, and lay it under the level in view. @param {Desk} desk */
export function chooseFile(desk) {
  const input = h("input", { type: "file", accept: [...KINDS, ".png", ".jpg", ".jpeg", ".webp", ".pdf"].join(","), onchange: () => {
    const file = input.files?.[0];
    if (file) void lay(desk, file);
  } });
  input.click();
}

/** Take what is dropped on the drawing, and what is pasted where nothing was copied from a plan. @param {Desk} desk */
export function takesFiles(desk) {
  const sheet = /** @type {HTMLElement} */ (desk.drawing.board.parentElement);
  const takes = (/** @type {DragEvent} */ event) => [...(event.dataTransfer?.items ?? [])].some((item) => item.kind === "file" && (item.type.startsWith("image/") || item.type === "application/pdf"));
  sheet.addEventListener("dragover", (event) => {
    if (!takes(event)) return;
    event.preventDefault();
    sheet.classList.add("takes-file");
  });
  sheet.addEventListener("dragleave", () => sheet.classList.remove("takes-file"));
  sheet.addEventListener("drop", (event) => {
    sheet.classList.remove("takes-file");
    const file = takes(event) ? event.dataTransfer?.files[0] : undefined;
    if (!file) return;
    event.preventDefault();
    void lay(desk, file);
  });
  // The page's own keys come after this: where nothing was copied from a plan, Ctrl+V is the browser's, which brings the picture.
  addEventListener("keydown", (event) => (event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "v" && !holdsCopies() && event.stopPropagation(), { capture: true });
  addEventListener("paste", (event) => {
    const file = [...(event.clipboardData?.files ?? [])].find((each) => each.type.startsWith("image/") || each.type === "application/pdf");
    if (file && !holdsCopies()) void lay(desk, file);
  });
}

/** @param {Desk} desk @param {File} file */
async function lay(desk, file) {
  try {
    if (file.size > MOST) throw new Error(`${file.name} has ${Math.round(file.size / 2 ** 20)} MiB; a picture has at most ${MOST / 2 ** 20} MiB: save it smaller`);
    desk.say(`Reading ${file.name}…`, true);
    const isPdf = file.type === "application/pdf" || /\.pdf$/i.test(file.name);
    const page = isPdf ? await choosePage(file) : 1;
    if (page === null) return desk.say("", true);
    await desk.autosave.now(); // the level must be known to the server
    pictureBehind(desk); // an empty level is fitted to it
    const laid = await desk.underlays.lay(file, page);
    if (!(desk.store.level.walls ?? []).length) desk.drawing.fit();
    const smaller = laid.read && laid.read[0] * laid.read[1] > laid.width * laid.height * 1.01 && !isPdf ? `; it is kept at ${laid.width} × ${laid.height} pixels` : "";
    desk.say(`${laid.name} lies under ${desk.store.level.name}${smaller}. Now set its scale`, true);
  } catch (error) {
    desk.say(error instanceof Error ? sentence(error.message) : String(error), true);
  }
}

/** @param {string} words */
const sentence = (words) => words.charAt(0).toUpperCase() + words.slice(1);

/** Which page of a PDF; null where none is wanted. @param {File} file @returns {Promise<number | null>} */
async function choosePage(file) {
  const pages = await pagesOf(file);
  if (pages.length === 1) return 1;
  return new Promise((resolve) => {
    /** @type {number | null} */
    let chosen = null;
    const dialog = h("dialog", { class: "pages", "aria-label": `Pages of ${file.name}`, onclose: () => {
      dialog.remove();
      resolve(chosen);
    } },
      h("div", { class: "dialog-head" }, h("h2", {}, "Which page?"), h("button", { type: "button", class: "icon", "aria-label": "None of them", onclick: () => dialog.close() }, "×")),
      h("ul", { class: "page-list" }, ...pages.map((page) => h("li", {}, h("button", { type: "button", class: "page-choice", onclick: () => {
        chosen = page.number;
        dialog.close();
      } }, thumbnail(page), `Page ${page.number}`, h("small", {}, `${size(page.width)} × ${size(page.height)} in`))))));
    document.body.append(dialog);
    dialog.showModal();
  });
}

/** @param {Page} page */
const thumbnail = (page) => (page.thumbnail ? h("img", { src: page.thumbnail, alt: "" }) : h("span", { class: "no-picture" }, "no picture"));

/** @param {number} inches */
const size = (inches) => String(Math.round(inches * 100) / 100);
