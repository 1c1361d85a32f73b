/**
 * Making HTML elements with their attributes, listeners and children in one call.
 */

/** @typedef {Record<string, string | number | boolean | null | undefined | ((event: any) => void)>} Attributes */
/** @typedef {Node | string | null | false | undefined} Child */

/**
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} name @param {Attributes} [attributes] functions become listeners by their name without "on"; true stands alone; null, false are left out
 * @param {...Child} children
 * @returns {HTMLElementTagNameMap[T]}
 */
export function h(name, attributes = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(key.slice(2), value);
    else if (value === true) element.setAttribute(key, "");
    else if (value != null && value !== false) element.setAttribute(key, String(value));
  }
  element.append(...children.filter((child) => child !== null && child !== false && child !== undefined));
  return element;
}

/** @template {HTMLElement} E @param {string} id @param {new () => E} kind @returns {E} an element that the page has */
export function byId(id, kind) {
  const element = document.getElementById(id);
  if (!(element instanceof kind)) throw new Error(`the page has no ${kind.name} named ${id}`);
  return element;
}
