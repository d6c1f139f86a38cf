// A part list from a file: looked through first, with row and column of whatever was not understood.

import { busy, clear, Fault, placeProblems, post, show } from "/web/scripts/api.js";
import { fill, h, table, the } from "/web/scripts/dom.js";
import { plural } from "/web/scripts/words.js";

let file = null; // { name, content } as the service takes it

async function base64(chosen) {
  const bytes = new Uint8Array(await chosen.arrayBuffer());
  let text = "";
  for (let at = 0; at < bytes.length; at += 32_768) text += String.fromCharCode(...bytes.subarray(at, at + 32_768));
  return btoa(text);
}

const where = (item) => [item.row ? `row ${item.row}` : "", item.column ? `column ${item.column}` : ""].filter(Boolean).join(", ");

function problems(found) {
  const lines = (items) => items.map((item) => h("li", {}, h("b", {}, where(item) || item.field), ` ${item.trouble}. `, h("span", { class: "remedy" }, `${item.remedy}.`)));
  if (found.faults === 0) fill(the("faults"), h("p", {}, h("span", { class: "tag good" }, "all understood"), ` ${plural(found.rows, "row")}.`));
  else {
    fill(the("faults"), h("p", {}, h("span", { class: "tag stop" }, plural(found.faults, "fault")), " Nothing is kept until the file is right."),
      h("ul", {}, lines(found.problems)), found.faults > found.problems.length && h("p", { class: "quiet" }, `and ${found.faults - found.problems.length} more`));
  }
  if (found.notes.length) the("faults").append(h("h3", {}, "Also seen"), h("ul", {}, lines(found.notes)));
}

function understood(found) {
  const left = found.columns.filter((column) => !column.read_as).map((column) => `${column.header || "no header"} (${column.column})`);
  const heads = [["row", "n"], ["part"], ["job"], ["material"], ["size, mm", "n"], ["qty", "n"], ["what for"]];
  const rows = found.parts.map((part) => [part.row, part.id, part.job, part.material,
    part.length_mm ?? `${part.width_mm} × ${part.height_mm}${part.cut_outs ? `, ${plural(part.cut_outs, "cut-out")}` : ""}`, part.quantity, part.name]);
  fill(the("parts"),
    h("p", {}, "Columns: ", found.columns.filter((column) => column.read_as).map((column) => `${column.column} is ${column.read_as}${column.unit ? ` in ${column.unit}` : ""}`).join("; "), ".",
      left.length > 0 && ` Not used: ${left.join(", ")}.`),
    rows.length ? table(heads, rows, { caption: "Parts as understood" }) : h("p", { class: "quiet" }, "No part."),
    found.understood > rows.length && h("p", { class: "quiet" }, `The first ${rows.length} of ${found.understood}.`));
}

async function look() {
  const chosen = the("file").files[0];
  the("keep").disabled = true;
  file = null;
  clear();
  if (!chosen) return;
  if (!the("job").value.trim()) the("job").value = chosen.name.replace(/\.[^.]+$/, "").slice(0, 120);
  the("said").textContent = "Looking through the file…";
  try {
    const content = await base64(chosen);
    const found = await post("/v1/part-lists/preview", { name: chosen.name, job: the("job").value.trim(), content });
    problems(found);
    understood(found);
    file = { name: chosen.name, content };
    the("keep").disabled = !found.sound;
    the("said").textContent = found.sound ? `${plural(found.understood, "part")} understood.` : "Put the file right and choose it again.";
  } catch (fault) {
    the("said").textContent = "";
    if (fault instanceof Fault && fault.problems.length) {
      problems({ faults: fault.problems.length, problems: fault.problems, notes: [], rows: 0 });
      the("parts").replaceChildren(h("p", { class: "quiet" }, "Nothing."));
    } else show(fault);
  }
}

async function keep(event) {
  event.preventDefault();
  if (!file) return;
  await busy(the("keep"), async () => {
    const body = { ...file, job: the("job").value.trim(), client: the("client").value.trim(), needed: the("needed").value };
    try {
      const made = await post("/v1/part-lists", body);
      location.assign(`/batch?${new URLSearchParams(made.jobs.map((job) => ["job", job.id]))}`);
    } catch (fault) {
      if (!(fault instanceof Fault)) throw fault;
      const rest = placeProblems(the("list"), fault.problems, ({ field }) => (/(^|\.)(job|client|needed)$/.test(field) ? the(field.split(".").at(-1)) : null));
      if (rest.length || !fault.problems.length) show(new Fault(fault.status, { title: fault.message, detail: fault.detail, problems: rest }));
    }
  });
}

// A file put right and chosen again has the same name: without this the browser says nothing.
the("file").addEventListener("click", () => { the("file").value = ""; });
the("file").addEventListener("change", look);
the("job").addEventListener("change", look);
the("list").addEventListener("submit", keep);
