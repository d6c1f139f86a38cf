// The saw view: one piece at a time, the next cut and its figure, ticks that outlive a lost signal.

import { busy, call, clear, get, post, show } from "/web/scripts/api.js";
import { fill, h, the } from "/web/scripts/dom.js";
import { keep, kept, phone, unwait, wait, waiting } from "/web/scripts/saw-store.js";

const SVG = "http://www.w3.org/2000/svg";
const plan = decodeURIComponent(location.pathname.split("/")[2] ?? "");
const me = phone();
const state = { layouts: [], ticks: [], mine: [], at: 0, pieces: [], roles: [], contradictions: [], continued: null };

navigator.serviceWorker?.register("/saw/worker.js", { scope: "/saw/" }).catch(() => {});

function standing() {
  const all = [...state.ticks, ...state.mine.filter((own) => !state.ticks.some((tick) => tick.tick === own.tick))];
  const undone = new Set(all.filter((tick) => tick.kind === "undo").map((tick) => tick.undoes));
  return all.filter((tick) => tick.kind !== "undo" && !undone.has(tick.tick));
}

function here() {
  const { layout, piece } = state.pieces[state.at];
  const own = standing().filter((tick) => tick.material === layout.material && tick.layout === layout.layout && tick.piece === piece);
  const lost = own.find((tick) => tick.kind === "damaged" || tick.kind === "short");
  const made = new Set(own.filter((tick) => tick.kind === "cut").map((tick) => tick.cut));
  let cuts = 0;
  while (made.has(cuts + 1)) cuts += 1;
  const done = own.some((tick) => tick.kind === "done") || (layout.cuts.length > 0 && cuts === layout.cuts.length);
  const spoiled = new Set(own.filter((tick) => tick.kind === "spoiled").map((tick) => tick.part));
  return { layout, piece, lost, done, cuts: done ? layout.cuts.length : cuts, spoiled };
}

function shape(name, properties, ...children) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(properties)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

function draw(now) {
  const { layout } = now;
  const isLength = layout.kind === "length";
  const wide = layout.width_mm, high = isLength ? wide / 9 : layout.height_mm;
  const box = (item) => ({ x: item.x, y: isLength ? 0 : high - item.y - item.height, width: item.width, height: isLength ? high : item.height });
  const pad = Math.max(wide, high) / 60;
  const next = now.done || now.lost ? null : layout.cuts[now.cuts];
  const off = new Set(layout.cuts.slice(0, now.cuts).flatMap((cut) => cut.parts_off));
  if (now.done) layout.parts.forEach((_, at) => off.add(at + 1));
  const items = [shape("rect", { class: "stock", x: 0, y: 0, width: wide, height: high })];
  for (const left of layout.left) items.push(shape("rect", { class: "left", ...box(left) }));
  layout.parts.forEach((part, at) => {
    const words = now.spoiled.has(at + 1) ? " spoiled" : off.has(at + 1) ? " off" : next?.parts_off.includes(at + 1) ? " comes" : "";
    const area = box(part);
    items.push(shape("rect", { class: `part${words}`, "data-part": at + 1, ...area }));
    const size = Math.min(area.height * 0.6, (area.width / Math.max(part.part.length, 4)) * 1.5, Math.max(wide, high) / 18);
    if (size > Math.max(wide, high) / 90) items.push(shape("text", { x: area.x + area.width / 2, y: area.y + area.height / 2 + size / 3, "font-size": size, "text-anchor": "middle" }, part.part));
  });
  for (const cut of layout.cuts) {
    const line = box(cut.line);
    const upright = isLength || cut.way === "rip";
    const words = cut.n <= now.cuts ? " made" : cut === next ? " next" : "";
    items.push(shape("line", upright
      ? { class: `cut${words}`, "data-cut": cut.n, x1: line.x + line.width / 2, x2: line.x + line.width / 2, y1: line.y, y2: line.y + line.height }
      : { class: `cut${words}`, "data-cut": cut.n, y1: line.y + line.height / 2, y2: line.y + line.height / 2, x1: line.x, x2: line.x + line.width }));
  }
  const words = next ? `Layout ${layout.layout} of ${layout.material}; cut ${next.n} is set to ${next.set_mm} mm` : `Layout ${layout.layout} of ${layout.material}`;
  return shape("svg", { viewBox: `${-pad} ${-pad} ${wide + 2 * pad} ${high + 2 * pad}`, role: "img", "aria-label": words }, ...items);
}

function render() {
  const now = here();
  const { layout, piece } = now;
  const next = now.done || now.lost ? null : layout.cuts[now.cuts];
  const of = layout.count > 1 ? `, piece ${piece} of ${layout.count}` : "";
  the("saw-where").textContent = `${layout.material} · layout ${layout.layout}${of} · ${layout.offcut ? "rack " : ""}${layout.stock}`;
  const what = now.lost ? `This piece is ${now.lost.kind}` : now.done ? "This piece is cut"
    : next ? `Cut ${next.n} of ${layout.cuts.length}: ${next.way === "cross" ? "crosscut" : next.way}${next.tool === "snap" ? ", score and snap" : ""}` : "Take it whole, no cut";
  the("saw-what").textContent = what;
  the("saw-figure").textContent = next ? `${next.set_mm} mm` : "";
  const from = next?.from === "factory" ? "the factory edge" : next?.from === "trimmed" ? "the trimmed edge" : next?.from === "offcut" ? "the offcut's edge" : next?.from === "part" ? "the part's edge" : `the ${next?.from}`;
  the("saw-how").textContent = next ? `Set from ${from.replace("the cut", "cut")}${next.piece ? ` · on the piece ${next.piece.width} × ${next.piece.height} mm` : ""}` : "";
  const off = (next?.parts_off ?? []).map((at) => layout.parts[at - 1]);
  the("saw-off").textContent = off.length ? `Comes off: ${off.map((part) => `${part.part}${part.name ? ` ${part.name}` : ""}, ${part.height ? `${part.width} × ${part.height}` : part.width} mm`).join("; ")}` : "";
  fill(the("saw-drawing"), draw(now));
  the("saw-tick").disabled = now.done || Boolean(now.lost);
  the("saw-tick").textContent = next ? `Cut ${next.n} made` : now.done ? "Cut" : now.lost ? "No use" : "Taken whole";
  the("saw-undo").disabled = !lastOwn();
  the("saw-before").disabled = state.at === 0;
  the("saw-after").disabled = state.at === state.pieces.length - 1;
  fill(the("saw-warn"), state.contradictions.length > 0 && h("div", { class: "fault" }, h("p", {}, h("strong", {}, "Ticks contradict")),
    h("ul", {}, state.contradictions.map((one) => h("li", {}, `${one.material} layout ${one.layout}, piece ${one.piece}: ${one.trouble}. ${one.remedy}.`)))));
  const place = the("saw-next-plan");
  place.hidden = !state.continued && !state.draft && !state.gone;
  if (state.draft) fill(place, "This plan is a draft. Whoever orders confirms it first: ", h("a", { href: `/plans/${plan}` }, "open the plan"));
  if (state.continued) fill(place, "This plan goes on as another one. ", h("a", { href: `/saw/${state.continued}` }, "Open the new plan"),
    state.late > 0 && `. ${state.late === 1 ? "1 tick here came after it was made and does not count there: tick it" : `${state.late} ticks here came after it was made and do not count there: tick them`} there as well, or drop it and plan anew.`);
  if (state.gone) fill(place, `This plan was ${state.gone}: do not cut from it. `, h("a", { href: "/plans" }, "Find the plan that is cut"));
  history.replaceState(null, "", `#${encodeURIComponent(`${layout.material}-${layout.layout}-${piece}`)}`);
}

function lastOwn() {
  return standing().filter((tick) => tick.phone === me).sort((a, b) => (a.number ?? 0) - (b.number ?? 0)).at(-1);
}

async function add(kind, more) {
  const number = Math.max(Date.now(), ...state.mine.map((tick) => (tick.number ?? 0) + 1));
  const tick = { tick: `${me.slice(0, 20)}-${number}`, phone: me, kind, at: new Date().toISOString(), number, plan, ...more };
  // On the phone first: only then does the screen say that it is ticked.
  await wait(tick);
  state.mine.push(tick);
  render();
  sync();
}

function place() {
  const { layout, piece } = state.pieces[state.at];
  return { material: layout.material, layout: layout.layout, piece };
}

async function tickNext() {
  const now = here();
  if (now.layout.cuts.length) await add("cut", { ...place(), cut: now.cuts + 1 });
  else await add("done", place());
  if (here().done && state.at < state.pieces.length - 1) {
    state.at += 1;
    render();
  }
}

// The fault on the page, by what could not be done: it goes when that was done, or is tried again.
const told = {};

function tell(fault, what) {
  show(fault);
  told[what] = the("fault").firstElementChild;
}

function mended(what) {
  if (told[what]?.isConnected) clear();
  delete told[what];
}

const act = (work) => {
  mended("act");
  return work().catch((fault) => tell(fault, "act"));
};

let syncing = false;
async function sync() {
  if (syncing) return;
  syncing = true;
  try {
    for (let open = await waiting(plan); open.length; open = await waiting(plan)) {
      const some = open.slice(0, 500);
      const sent = some.map(({ plan: _, number: __, ...tick }) => tick);
      take(await post(`/v1/plans/${plan}/marks`, { ticks: sent }));
      for (const tick of some) await unwait(tick.tick);
      state.mine = state.mine.filter((tick) => !some.includes(tick) && !state.ticks.some((known) => known.tick === tick.tick));
    }
    take(await get(`/v1/plans/${plan}/marks`));
    await said("all sent", "good");
    mended("sync");
  } catch (fault) {
    if (fault.status) tell(fault, "sync");
    await said(`${(await waiting(plan)).length} to send`, "warning");
  } finally {
    syncing = false;
  }
  if (state.pieces.length) render();
}

async function said(words, kind) {
  const tag = the("saw-sync");
  tag.textContent = words;
  tag.className = `tag ${kind}`;
}

function take(marks) {
  // The order of ticks of this phone is kept in their names.
  state.ticks = marks.ticks.map((tick) => ({ ...tick, number: Number(tick.tick.split("-").at(-1)) || 0 }));
  state.contradictions = marks.contradictions;
  state.continued = marks.continued_by;
  state.late = marks.too_late;
  state.draft = marks.state === "draft";
  state.gone = ["undone", "dropped"].includes(marks.state) ? marks.state : "";
  keep(plan, { layouts: state.layouts, ticks: state.ticks, continued: state.continued });
}

function wrong() {
  const now = here();
  const off = new Set(now.done ? now.layout.parts.map((_, at) => at + 1) : now.layout.cuts.slice(0, now.cuts).flatMap((cut) => cut.parts_off));
  const choice = (words, work) => h("button", { type: "button", onclick: () => { the("saw-ask").close(); act(work); } }, words);
  const spoiled = [...off].filter((at) => !now.spoiled.has(at)).map((at) =>
    choice(`Spoiled: ${now.layout.parts[at - 1].part}`, () => add("spoiled", { ...place(), part: at })));
  fill(the("saw-choices"), spoiled,
    !now.lost && now.cuts === 0 && [choice("This piece came damaged", () => add("damaged", place())), choice("This piece did not come", () => add("short", place()))],
    choice("Plan the rest anew", replan));
  the("saw-ask").showModal();
}

async function replan() {
  const fault = the("fault").firstElementChild;
  await busy(the("saw-wrong"), async () => {
    await sync();
    if ((await waiting(plan)).length) throw new Error("Planning anew needs a signal; your ticks are kept");
    const made = (await call("POST", `/v1/plans/${plan}/replan`, { body: { seconds: 1 }, headers: { "Idempotency-Key": `${plan}-${state.ticks.length}` } })).document;
    location.assign(`/saw/${made.id}`);
  });
  const shown = the("fault").firstElementChild;
  if (shown !== fault && shown !== told.sync) told.act = shown;
}

async function start() {
  const known = await kept(plan).catch(() => undefined);
  state.mine = await waiting(plan);
  if (known) Object.assign(state, { layouts: known.layouts, ticks: known.ticks, continued: known.continued });
  try {
    state.layouts = (await get(`/v1/plans/${plan}/saw`)).layouts;
    take(await get(`/v1/plans/${plan}/marks`));
  } catch (fault) {
    if (!known) return show(fault);
  }
  state.pieces = state.layouts.flatMap((layout) => Array.from({ length: layout.count }, (_, at) => ({ layout, piece: at + 1 })));
  if (!state.pieces.length) return show(new Error("This plan has nothing to cut"));
  const wanted = decodeURIComponent(location.hash.slice(1));
  const found = state.pieces.findIndex(({ layout, piece }) => [`${layout.material}-${layout.layout}-${piece}`, `${layout.material}-${layout.layout}`].includes(wanted));
  state.at = found >= 0 ? found : 0;
  if (found < 0) while (state.at < state.pieces.length - 1 && (here().done || here().lost)) state.at += 1;
  render();
  the("saw-tick").addEventListener("click", () => act(tickNext));
  the("saw-undo").addEventListener("click", () => { const last = lastOwn(); if (last) act(() => add("undo", { undoes: last.tick })); });
  the("saw-wrong").addEventListener("click", wrong);
  the("saw-close").addEventListener("click", () => the("saw-ask").close());
  const go = (by) => { state.at = Math.min(state.pieces.length - 1, Math.max(0, state.at + by)); render(); };
  the("saw-before").addEventListener("click", () => go(-1));
  the("saw-after").addEventListener("click", () => go(1));
  let began = null;
  the("saw-drawing").addEventListener("touchstart", (event) => { began = event.touches[0].clientX; }, { passive: true });
  the("saw-drawing").addEventListener("touchend", (event) => {
    const moved = event.changedTouches[0].clientX - (began ?? 0);
    if (began !== null && Math.abs(moved) > 60) go(moved < 0 ? 1 : -1);
    began = null;
  });
  window.addEventListener("online", sync);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) sync(); });
  setInterval(sync, 20_000);
  sync();
}

start().catch(show);
