// The drawings of a wall, and pointing: from a part to its row, from a row or finding to its places.

import { fill, h, svgFrom, table } from "/web/scripts/dom.js";

const SVG = "http://www.w3.org/2000/svg";

/** Put a drawing into a figure; over it, a rectangle for each place that can be pointed at. */
export function drawInto(figure, drawing, onPoint) {
  const svg = svgFrom(drawing.svg);
  svg.dataset.whole = svg.getAttribute("viewBox");
  const over = document.createElementNS(SVG, "g");
  for (const place of drawing.places) {
    const rect = document.createElementNS(SVG, "rect");
    for (const name of ["x", "y", "width", "height"]) rect.setAttribute(name, place[name]);
    rect.dataset.mark = place.mark;
    rect.setAttribute("class", "place");
    rect.addEventListener("pointerenter", () => onPoint(place.mark));
    rect.addEventListener("pointerleave", () => onPoint(null));
    over.append(rect);
  }
  svg.append(over);
  if (drawing.places.length) crop(svg, drawing.places);
  figure.classList.remove("old");
  fill(figure, svg, h("figcaption", { class: "unseen" }, drawing.title));
}

/** Show the wall with its sizes round it; the page's title, legend and lists stand beside it here. */
function crop(svg, places) {
  const [, , wide, high] = svg.getAttribute("viewBox").split(" ").map(Number);
  const left = Math.max(0, Math.min(...places.map((place) => place.x)) - 24);
  const top = Math.max(0, Math.min(...places.map((place) => place.y)) - 21);
  const right = Math.min(wide, Math.max(...places.map((place) => place.x + place.width)) + 24);
  const bottom = Math.min(high, Math.max(...places.map((place) => place.y + place.height)) + 22);
  svg.setAttribute("viewBox", `${left} ${top} ${right - left} ${bottom - top}`);
  svg.removeAttribute("width");
  svg.removeAttribute("height");
}

/** Mark places on all drawings and rows of the page. */
export function mark(marks) {
  const wanted = new Set(marks);
  for (const found of document.querySelectorAll("[data-mark]")) {
    found.classList.toggle("marked", wanted.has(found.dataset.mark));
  }
}

/** What a part is, in words. */
export function describe(frame, name) {
  const member = frame.members.find((item) => item.mark === name);
  if (member) return `${name}: ${member.kind}, ${member.length_mm} mm long, ${member.material}`;
  const board = frame.boards.find((item) => item.mark === name);
  if (board) return `${name}: board on the ${board.face}, ${board.width_mm} × ${board.height_mm} mm, ${board.material}`;
  const opening = frame.openings.find((item) => item.name === name);
  return opening ? `${name}: ${opening.width_mm} × ${opening.height_mm} mm clear, ${opening.depth_mm} mm deep` : "";
}

const ORDER = { stop: 0, warning: 1, note: 2 };

/** The findings, stops first, each with its remedy; pointing at one marks what it concerns. */
export function findings(frame, point) {
  const sorted = [...frame.findings].sort((a, b) => ORDER[a.severity] - ORDER[b.severity]);
  if (!sorted.length) return h("p", {}, "None.");
  return h("ul", { class: "findings" }, sorted.map((finding) => {
    const shows = finding.concerns.length > 0;
    const button = shows && h("button", { type: "button", class: "plain", "aria-pressed": "false" },
      "Show", h("span", { class: "unseen" }, ` what ${finding.rule} concerns`));
    const item = h("li", { class: finding.severity },
      h("p", {}, h("span", { class: `tag ${finding.severity}` }, finding.severity), " ", finding.trouble, ". "),
      h("p", { class: "remedy" }, `${finding.remedy}. `, h("span", { class: "small" }, finding.source)), button);
    if (shows) {
      item.addEventListener("pointerenter", () => point(finding.concerns));
      item.addEventListener("pointerleave", () => point(null));
      button.addEventListener("click", () => {
        const on = button.getAttribute("aria-pressed") !== "true";
        for (const other of document.querySelectorAll(".findings [aria-pressed]")) other.setAttribute("aria-pressed", "false");
        button.setAttribute("aria-pressed", String(on));
        point(on ? finding.concerns : null, { stays: true });
      });
    }
    return item;
  }));
}

const natural = new Intl.Collator("en", { numeric: true });

/** Every part, equal ones once with their number; a row marks its part on the drawings. */
export function parts(frame, point) {
  const rows = new Map();
  const add = (mark, what, size, material) => {
    const row = rows.get(mark) ?? { mark, what, size, material, count: 0 };
    row.count += 1;
    rows.set(mark, row);
  };
  for (const item of frame.members) add(item.mark, item.kind, String(item.length_mm), item.material);
  for (const item of frame.boards) add(item.mark, `board, ${item.face}`, `${item.width_mm} × ${item.height_mm}`, item.material);
  for (const item of frame.beads) add(item.mark, item.kind, String(item.length_mm), item.material);
  const sorted = [...rows.values()].sort((a, b) => natural.compare(a.mark, b.mark));
  const made = table([["part"], ["qty", "n"], ["what for"], ["size, mm", "n"], ["material"]], sorted.map((row) => {
    const line = h("tr", { dataset: { mark: row.mark } },
      h("td", {}, h("button", { type: "button", class: "plain mark", onfocus: () => point([row.mark], { stays: true }), onblur: () => point(null, { stays: true }) }, row.mark)),
      h("td", { class: "n" }, row.count), h("td", {}, row.what), h("td", { class: "n" }, row.size), h("td", {}, row.material));
    line.addEventListener("pointerenter", () => point([row.mark]));
    line.addEventListener("pointerleave", () => point(null));
    return line;
  }), { caption: "Parts and boards" });
  return made;
}
