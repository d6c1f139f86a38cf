// Elements from text that is never read as markup: a name with a script in it stays a name.

/** Make an element. Properties: on… are listeners, dataset and class as said, true sets an empty
 * attribute, false and null none. Children: nodes, texts, numbers; null and false are left out. */
export function h(tag, properties = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(properties ?? {})) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else if (name === "dataset") Object.assign(made.dataset, value);
    else if (name === "style") Object.assign(made.style, value);
    else if (name === "value") made.value = value;
    else made.setAttribute(name, value === true ? "" : String(value));
  }
  made.append(...children.flat(Infinity).filter((child) => child !== null && child !== false && child !== undefined)
    .map((child) => (child instanceof Node ? child : String(child))));
  return made;
}

/** Put children in the place of what an element holds. */
export function fill(element, ...children) {
  element.replaceChildren(...children.flat(Infinity).filter((child) => child !== null && child !== false && child !== undefined)
    .map((child) => (child instanceof Node ? child : String(child))));
  return element;
}

/** Return the element of an id; a page without it is a fault of ours. */
export function the(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no element ${id}`);
  return found;
}

/** Read SVG text of the service into an element of this document. Scripts in it would not run. */
export function svgFrom(text) {
  const read = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  if (read.nodeName !== "svg") throw new Error("the drawing is not SVG");
  return document.importNode(read, true);
}

/** Make a table: heads are [text, kind], kind "n" for numbers; rows are lists of children.
 * `stacks`: on a narrow screen each row is a block of labelled lines. */
export function table(heads, rows, { caption = null, feet = [], stacks = false } = {}) {
  const line = (cells, tag) => h("tr", {}, cells.map((cell, at) => {
    const [label, kind = null] = heads[at] ?? [];
    return h(tag, tag === "th" ? { class: kind, scope: "col" } : { class: kind, "data-label": label }, cell);
  }));
  return h("div", { class: "wide", tabindex: 0, role: "region", "aria-label": caption ?? "Table" },
    h("table", { class: stacks ? "stacks" : null },
      caption && h("caption", { class: "unseen" }, caption),
      h("thead", {}, line(heads.map(([text]) => text), "th")),
      h("tbody", {}, rows.map((row) => (row instanceof Node ? row : line(row, "td")))),
      feet.length > 0 && h("tfoot", {}, feet.map((row) => line(row, "td")))));
}

/** Call a function once its caller has been quiet for so many milliseconds. */
export function whenQuiet(milliseconds, act) {
  let waiting = 0;
  return (...given) => {
    clearTimeout(waiting);
    waiting = setTimeout(() => act(...given), milliseconds);
  };
}
