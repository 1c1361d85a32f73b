/**
 * The fast path of drawing again: what has not changed stays on the page as it is, so that the browser styles, lays
 * out and paints only what has. The clear path is replaceChildren, with the same outcome.
 */

/**
 * Let an element hold new children; those equal to the ones that stand at their place are not put in.
 * @param {Element} parent @param {Element[]} children
 */
export function patchChildren(parent, children) {
  const standing = [...parent.children];
  children.forEach((child, i) => {
    const old = standing[i];
    if (!old) parent.append(child);
    else if (old !== child && !old.isEqualNode(child)) old.replaceWith(child);
  });
  for (const left of standing.slice(children.length)) left.remove();
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
