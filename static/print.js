// The bar above the printed set: a choice of paper or scale takes effect at once, and the button prints.
// Without this script the form's own button does the first, and the browser's menu the second.

const choices = document.getElementById("print-choices");
if (choices instanceof HTMLFormElement) {
  choices.addEventListener("change", () => choices.requestSubmit());
}
document.getElementById("print-now")?.addEventListener("click", () => window.print());
