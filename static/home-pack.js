/**
 * Everything as one file: a pack that is chosen is brought in beside what is here, and what became of each thing told.
 */
import { Refused } from "./home-asking.js";

/** @param {HTMLInputElement} input @param {(what: string, error: unknown) => void} showFaults */
export function takesPacks(input, showFaults) {
  const told = /** @type {HTMLElement} */ (document.getElementById("came"));
  input.addEventListener("change", async () => {
    const file = input.files?.[0];
    input.value = "";
    if (!file) return;
    told.replaceChildren(line(`Reading ${file.name}…`));
    try {
      const came = await bring(file);
      const count = came.filter((each) => each.how !== "here").length;
      told.replaceChildren(line(`${count} of ${came.length} came in from ${file.name}; nothing that was here was changed.`), list(came));
      if (count) told.append(again());
    } catch (error) {
      told.replaceChildren();
      showFaults(file.name, error);
    }
  });
}

/** @param {File} file @returns {Promise<{how: string, words: string}[]>} */
async function bring(file) {
  const answer = await fetch("/api/pack", { method: "POST", headers: { "Content-Type": "application/zip", Accept: "application/json" }, body: file }).catch(() => null);
  if (!answer) throw new Refused("the server is away; start it again and repeat this", []);
  const said = await answer.json().catch(() => ({ detail: answer.statusText }));
  if (!answer.ok) throw new Refused(said.detail, []);
  return said;
}

/** @param {string} words */
function line(words) {
  const paragraph = document.createElement("p");
  paragraph.textContent = words;
  return paragraph;
}

/** @param {{words: string}[]} came */
function list(came) {
  const all = document.createElement("ul");
  all.append(...came.map(({ words }) => Object.assign(document.createElement("li"), { textContent: words })));
  return all;
}

function again() {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "Show the plans";
  button.addEventListener("click", () => location.reload());
  return button;
}
