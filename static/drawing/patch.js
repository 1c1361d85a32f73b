/**
 * The fast path of drawing again: what has not changed stays on the page as it is, so that the browser styles, lays
 * out and paints only what has. The clear path is replaceChildren, with the same outcome.
 */

/**
 * Let an element hold new children; those that stand at their place become like them where they can.
 * @param {Element} parent @param {Element[]} children
 */
export function patchChildren(parent, children) {
  const standing = [...parent.children];
  children.forEach((child, i) => {
    const old = standing[i];
    if (!old) parent.append(child);
    else if (old !== child && !old.isEqualNode(child) && !become(old, child)) old.replaceWith(child);
  });
  for (const left of standing.slice(children.length)) left.remove();
}

/**
 * Let a standing element become like another: only what differs is changed, so that the browser keeps what it has laid
 * out and painted of the rest.
 * @param {Element} old @param {Element} wanted @returns {boolean} false, and nothing changed, where they are of two kinds
 */
export function become(old, wanted) {
  if (old.tagName !== wanted.tagName) return false;
  for (const { name } of [...old.attributes]) if (!wanted.hasAttribute(name)) old.removeAttribute(name);
  for (const { name, value } of wanted.attributes) {
    if (old.getAttribute(name) === value) continue;
    if (name === "style") /** @type {SVGElement} */ (old).style.cssText = value; // as an attribute the page's policy forbids it
    else old.setAttribute(name, value);
  }
  const standing = [...old.childNodes];
  const coming = [...wanted.childNodes];
  coming.forEach((child, i) => becomeChild(old, standing[i], child));
  for (const left of standing.slice(coming.length)) left.remove();
  return true;
}

/** @param {Element} parent @param {ChildNode | undefined} old @param {ChildNode} wanted */
function becomeChild(parent, old, wanted) {
  if (!old) parent.append(wanted);
  else if (old instanceof Element && wanted instanceof Element && become(old, wanted)) return;
  else if (old instanceof Text && wanted instanceof Text) {
    if (old.data !== wanted.data) old.data = wanted.data;
  } else old.replaceWith(wanted);
}

/**
 * Let an element hold children of which most are those that it holds: these are not even compared.
 * @param {Element} parent @param {Element[]} children
 */
export function keepChildren(parent, children) {
  const wanted = new Set(children);
  for (const old of [...parent.children]) if (!wanted.has(old)) old.remove();
  let at = parent.firstElementChild;
  for (const child of children) {
    if (child === at) at = at.nextElementSibling;
    else parent.insertBefore(child, at);
  }
}
