// The bar above the printed set: a choice of paper or scale takes effect at once and keeps the focus; buttons show the
// sheets at true size instead of as wide as the window, and print.
// Without this script the form's own button does the first, and the browser's menu the second.

const FOCUS = "print-focus";
const choices = document.getElementById("print-choices");

if (choices instanceof HTMLFormElement) {
  choices.querySelector("button")?.setAttribute("hidden", "");
  choices.addEventListener("change", (event) => {
    if (event.target instanceof HTMLSelectElement) sessionStorage.setItem(FOCUS, event.target.name);
    choices.requestSubmit();
  });
  const last = choices.elements.namedItem(sessionStorage.getItem(FOCUS) ?? "");
  if (last instanceof HTMLSelectElement) last.focus();
  sessionStorage.removeItem(FOCUS);
}

const trueSize = document.getElementById("print-size");
trueSize?.removeAttribute("hidden");
trueSize?.addEventListener("click", () => {
  const pressed = document.body.classList.toggle("true-size");
  trueSize.setAttribute("aria-pressed", String(pressed));
});

document.getElementById("print-now")?.addEventListener("click", () => window.print());
