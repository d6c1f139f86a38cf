// A wall: its form, and beside it the drawings, redrawn as it is typed.

import { all, busy, call, clear, Fault, get, lost, post, show } from "/web/scripts/api.js";
import { fill, h, the, whenQuiet } from "/web/scripts/dom.js";
import { WallForm } from "/web/scripts/wall-form.js";
import { describe, drawInto, findings, mark, parts } from "/web/scripts/wall-views.js";

const QUIET = 80; // ms without a key before a redraw
let id = location.pathname.endsWith("/new") ? null : location.pathname.split("/")[2];
let version = null;
let book = null;
let view = "elevation";
let asking = null;
let pinned = [];
let form = null;

// What is chosen by key or button stays marked while a pointer passes over other things.
function point(marks, { stays = false } = {}) {
  if (stays) pinned = marks ?? [];
  mark([...(marks ?? []), ...pinned]);
}

/** Ask for drawings; an answer that is overtaken by the next key is dropped. */
async function redraw() {
  asking?.abort();
  asking = new AbortController();
  const { signal } = asking;
  const body = { wall: form.document(), price_book: book };
  const began = performance.now();
  try {
    const found = await post(`/v1/frames?view=${view}`, body, { signal });
    const { frame } = found;
    form.place([]);
    form.showDefaults(frame.defaults);
    clear();
    const shown = (name) => {
      point(name ? [name] : null);
      the("pointed").textContent = name ? describe(frame, name) : "";
    };
    fill(the("main-drawing"), found.drawings.map((drawing) => {
      const part = h("div");
      drawInto(part, drawing, shown);
      return part;
    }));
    the("main-drawing").classList.remove("old");
    fill(the("findings"), findings(frame, point));
    fill(the("parts"), parts(frame, point));
    const stops = frame.findings.filter((finding) => finding.severity === "stop").length;
    the("state").textContent = stops ? "This wall cannot be built like this: see the findings." : `Drawn in ${Math.round(performance.now() - began)} ms.`;
    document.body.dataset.drawn = String(Number(document.body.dataset.drawn ?? 0) + 1);
    const others = await post("/v1/frames?view=section&view=pictorial", body, { signal });
    for (const drawing of others.drawings) drawInto(the(`${drawing.name}-drawing`), drawing, shown);
  } catch (fault) {
    if (fault.name === "AbortError") return;
    for (const name of ["main", "section", "pictorial"]) the(`${name}-drawing`).classList.add("old");
    the("state").textContent = "Not redrawn: see the fields.";
    refuse(fault);
  }
}

function refuse(fault) {
  if (fault instanceof Fault && fault.problems.length) {
    const rest = form.place(fault.problems);
    if (rest.length) show(new Fault(fault.status, { title: fault.message, problems: rest }));
    else clear();
  } else show(fault);
}

async function save(event) {
  event.preventDefault();
  await busy(the("save"), async () => {
    const wall = form.document();
    try {
      const { document: kept, headers } = id
        ? await call("PUT", `/v1/walls/${id}`, { body: wall, headers: { "If-Match": version } })
        : await call("POST", "/v1/walls", { body: wall });
      version = headers.get("etag");
      id = kept.id;
      history.replaceState(null, "", `/walls/${id}`);
      kept_as(kept);
      clear();
      the("said").textContent = `Kept under job ${wall.job}.`;
    } catch (fault) {
      refuse(fault);
      the("said").textContent = "Not kept: see the fields.";
      document.querySelector("[aria-invalid]")?.focus();
    }
  });
}

function kept_as(kept) {
  the("title").textContent = `Wall of job ${kept.wall.job}`;
  document.title = `Wall of job ${kept.wall.job} · Scantling`;
  the("to-batch").href = `/batch?job=${kept.job}`;
  the("to-batch").hidden = false;
  the("remove").hidden = false;
}

function chooseViews() {
  const views = [["elevation", "Frame"], ["boards", "Boards"], ["plan", "Plan"], ["section", "Section"], ["pictorial", "Pictorial"]];
  fill(the("views"), views.map(([name, words]) => h("button", {
    type: "button", "aria-pressed": String(name === view), onclick: () => {
      view = name;
      chooseViews();
      redraw();
    },
  }, words)));
}

/** Choose whose prices and materials the wall is made of; the materials of the form are theirs. */
async function priceBook(books) {
  const names = [...new Set(books.map((item) => item.name))].reverse();
  const select = h("select", { id: "book" }, names.map((name) => h("option", {}, name)));
  const read = async () => (await get(`/v1/price-books/${encodeURIComponent(select.value)}`)).prices;
  const place = () => {
    book = select.value;
    the("wall").prepend(h("label", { for: "book" }, h("span", {}, "Prices and materials of"), select));
  };
  select.addEventListener("change", () => read().then((prices) => {
    form = new WallForm(the("wall"), form.document(), { book: prices, isNew: false, isNamed: Boolean(id) });
    place();
    redraw();
  }).catch(show));
  return { prices: await read(), place };
}

try {
  const books = await all("/v1/price-books");
  if (!books.length) {
    throw new Fault(0, { title: "There is no price book yet", detail: "A wall needs the merchant's materials. Add one on the page of price books, /price-books." });
  }
  const { document: kept, headers } = id ? await call("GET", `/v1/walls/${id}`) : { document: { wall: {} } };
  version = headers?.get("etag") ?? null;
  const { prices, place } = await priceBook(books);
  form = new WallForm(the("wall"), kept.wall, { book: prices, isNew: !id, isNamed: Boolean(id) });
  place();
  if (id) kept_as(kept);
  chooseViews();
  the("wall").addEventListener("input", whenQuiet(QUIET, redraw));
  the("wall").addEventListener("submit", save);
  the("remove").addEventListener("click", () => {
    if (!confirm("Remove this wall? Plans made of it keep their own copy.")) return;
    busy(the("remove"), async () => {
      await call("DELETE", `/v1/walls/${id}`, { headers: { "If-Match": version } });
      location.assign("/jobs");
    });
  });
  if (id) redraw();
  else {
    the("f-job").value = suggest(await all("/v1/jobs"));
    redraw();
  }
} catch (fault) {
  lost(fault);
}

/** The first letter, or letter and number, that no job has. */
function suggest(jobs) {
  const taken = new Set(jobs.map((item) => item.job.name));
  for (let round = 0; ; round += 1) {
    for (const letter of "ABCDEFGHIJKLMNOPQRSTUVWXYZ") {
      const name = round ? `${letter}${round}` : letter;
      if (!taken.has(name)) return name;
    }
  }
}
