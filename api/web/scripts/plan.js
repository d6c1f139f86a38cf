// One plan: what it costs and wastes, whose share is what, and every cutting diagram, drawn when seen.

import { busy, call, clear, get, lost, post } from "/web/scripts/api.js";
import { fill, h, table, the } from "/web/scripts/dom.js";
import { mm, money, pence, percent, plural } from "/web/scripts/words.js";

const id = location.pathname.split("/")[2];
let version = null;
let whole = null;

const FILES = [["booklet.pdf", "Cutting booklet"], ["labels.pdf", "Part labels"], ["walls.pdf", "Wall drawings"], ["parts.xlsx", "Parts, XLSX"],
  ["plan.xlsx", "Plan, XLSX"], ["layouts.dxf", "Layouts, DXF"]];
// Sets of easings that are shown.
const BEST = 5;
const KINDS = { draft: "warning", confirmed: "good" };

/** Return from where a layout's pieces come: "rack", "hand" for stock bought for an earlier plan, "buy". */
function source(item, layout) {
  if (layout.offcut) return "rack";
  return (whole.in_hand ?? []).some((one) => one.material === item.material && one.id === layout.stock) ? "hand" : "buy";
}

function count(item, from) {
  return item.layouts.filter((layout) => source(item, layout) === from).reduce((sum, layout) => sum + layout.count, 0);
}

function summary() {
  const { plan } = whole;
  const gap = pence(plan.net_cost) - pence(plan.lower_bound);
  const bought = [...plan.lengths, ...plan.sheets].reduce((sum, item) => sum + count(item, "buy"), 0);
  const figure = (words, value) => h("div", {}, h("dt", {}, words), h("dd", {}, value));
  fill(the("summary"), h("dl", { class: "figures" },
    figure("net cost", money(plan.net_cost)), figure("purchase", money(plan.purchase)), figure("rack offcuts used", money(plan.offcuts_used)),
    figure("offcuts kept", money(plan.credit)), figure("lengths and sheets bought", bought)),
  h("p", {}, gap > 0 ? `No plan can cost less than ${money(plan.lower_bound)}: more thinking could save at most ${money(gap / 100)}.` : "Proven: no plan can cost less.",
    " Checked: every part once, every cut edge to edge, every millimetre accounted for."));
}

/** Return part, kept, scrap and kerf of a material's usage, whatever its unit. */
function used(item) {
  const unit = "part_mm" in item.usage ? "mm" : "mm2";
  const of = (name) => item.usage[`${name}_${unit}`];
  return { part: of("part"), kept: of("offcut"), scrap: of("scrap"), kerf: of("kerf") + of("trim") };
}

function usage() {
  const items = [...whole.plan.lengths, ...whole.plan.sheets];
  // A plan that goes on from another cuts what was bought for that one.
  const goesOn = Boolean(whole.in_hand);
  const rows = items.map((item) => {
    const { part, kept, scrap, kerf } = used(item);
    const total = part + kept + scrap + kerf;
    const bar = h("div", { class: "bar use", "aria-hidden": "true" }, [["part", part], ["kept", kept], ["scrap", scrap], ["kerf", kerf]]
      .map(([name, size]) => h("span", { class: name, style: { width: `${(100 * size) / total}%` } })));
    return [[h("b", {}, item.material), bar], count(item, "buy"), ...(goesOn ? [count(item, "hand")] : []), count(item, "rack"), percent(part, total), percent(kept, total), percent(scrap, total), percent(kerf, total),
      money(item.net_cost), item.proven ? "proven" : money(item.lower_bound)];
  });
  fill(the("usage"), table([["material"], ["bought", "n"], ...(goesOn ? [["in hand", "n"]] : []), ["from rack", "n"], ["parts", "n"], ["kept", "n"], ["scrap", "n"], ["kerf, trim", "n"], ["net cost", "n"], ["bound", "n"]], rows,
    { caption: "Materials", stacks: true }));
}

function shares() {
  if (!whole.shares?.length) return;
  const waste = whole.shares.map((share) => [h("b", {}, share.job),
    share.lengths.reduce((sum, item) => sum + item.length_mm, 0) / 1000, share.areas.reduce((sum, item) => sum + item.area_mm2, 0) / 1e6, money(share.cost)]);
  fill(the("share"), table([["job"], ["length, m", "n"], ["board, m²", "n"], ["share of net cost", "n"]],
    waste.map(([job, length, area, cost]) => [job, length.toFixed(1), area.toFixed(2), cost]), { caption: "Share of each job" }));
  the("shares-card").hidden = false;
}

function choices() {
  const { chosen } = whole.plan;
  const asked = new Map(whole.request.choices.map((choice) => [choice.id, choice]));
  const offers = whole.plan.lengths.filter((item) => item.trade);
  if (!chosen.length && !offers.length) return;
  const gain = pence(whole.plan.choices_saved);
  fill(the("choice"), gain > 0 && h("p", {}, `The ways taken saved ${money(whole.plan.choices_saved)} against the first way of each.`), h("ul", {}, chosen.map(({ choice, option }) => {
    const of = asked.get(choice)?.options.length ?? 1;
    return h("li", {}, h("b", {}, choice.replace("/", ": ")), of > 1 ? ` way ${option + 1} of ${of}, the cheapest that was found with the other jobs` : " the only way");
  }), offers.map((item) => h("li", {}, h("b", {}, item.material), `: ${Object.entries(item.trade).map(([name, value]) => `${name.replaceAll("_", " ")} ${value}`).join(", ")}`))));
  the("choices-card").hidden = false;
}

function plots() {
  const names = [["waste", "Where the money of the stock goes, by material and by job"], ["money", "Cost of each material beside its proven bound"]];
  fill(the("plots"), names.map(([name, title]) =>
    h("figure", { class: "drawing late", dataset: { href: `/v1/plans/${id}/plots/${name}.svg` }, "aria-label": title }, h("p", { class: "wait small" }, title))));
}

function saved() {
  if (!whole.comparison) return;
  const ways = [["one job at a time", "one_by_one"], ["together, first way of each choice", "first_options"],
    ["together, ways as each job alone has them", "decided_alone"], ["together", "together"], ["together, with the rack", "with_rack"]];
  fill(the("saved"), table([["planned"], ["lengths", "n"], ["sheets", "n"], ["purchase", "n"], ["net cost", "n"]],
    // Parts with one way only have no other to compare with.
    ways.filter(([, name]) => whole.comparison[name]).map(([words, name]) => [words, whole.comparison[name].lengths, whole.comparison[name].sheets, money(whole.comparison[name].purchase), money(whole.comparison[name].net_cost)]),
    { caption: "Ways of planning", stacks: true }));
  the("saved-card").hidden = false;
}

function actions() {
  const { state } = whole;
  const step = (words, method, path, done, kind = "") => h("button", { type: "button", class: kind, onclick: (event) => busy(event.target, async () => {
    if (!confirm(`${words}?`)) return;
    await call(method, path, { headers: { "If-Match": version } });
    await read();
    the("said").textContent = done;
  }) }, words);
  const steps = {
    draft: [step("Confirm and place the order", "POST", `/v1/plans/${id}/confirm`, "Confirmed: the rack's offcuts are used, the new ones are racked.", "main needs-order"),
      step("Drop this draft", "DELETE", `/v1/plans/${id}`, "Dropped: its offcuts are free again.", "danger needs-plan")],
    confirmed: [step("Undo", "POST", `/v1/plans/${id}/undo`, "Undone: the offcuts are back as they were.", "danger needs-order")],
  };
  fill(the("state"), h("span", { class: `tag ${KINDS[state] ?? ""}` }, state));
  fill(the("actions"), steps[state] ?? [],
    whole.order && h("a", { class: "button", href: `/plans/${id}/order` }, "Order"),
    h("a", { class: "button", href: `/saw/${id}` }, "At the saw"),
    FILES.map(([file, words]) => h("a", { class: "button", href: `/v1/plans/${id}/${file}`, download: file }, words)),
    h("button", { type: "button", onclick: print }, "Print"));
}

/** Print with every diagram there: those not seen yet are fetched first. */
async function print() {
  the("said").textContent = "Fetching every diagram…";
  await Promise.all([...document.querySelectorAll("figure[data-href]")].map(draw));
  the("said").textContent = "";
  window.print();
}

function diagrams(listed) {
  const groups = Map.groupBy(listed, (item) => item.material ?? "Walls");
  fill(the("parts"), h("span", {}, "On this page:"), [...groups.keys()].map((name, at) => h("a", { href: `#group-${at}` }, name)));
  fill(the("diagrams"), [...groups].map(([name, items], at) => h("section", {},
    h("h3", { id: `group-${at}` }, name, h("span", { class: "quiet" }, ` ${plural(items.length, "drawing")}`)),
    h("div", { class: "diagrams" }, items.map((item) => h("figure", { class: "drawing late", dataset: { href: item.href }, "aria-label": item.title },
      h("p", { class: "wait small" }, item.title), h("figcaption", { class: "unseen" }, item.title)))))));
  // Within two screens of being seen a diagram is fetched; the room for it is there before.
  const look = new IntersectionObserver((entries) => {
    for (const entry of entries) {
      if (!entry.isIntersecting) continue;
      look.unobserve(entry.target);
      draw(entry.target);
    }
  }, { rootMargin: "100% 0px" });
  for (const figure of document.querySelectorAll("figure[data-href]")) look.observe(figure);
}

const wait = (milliseconds) => new Promise((done) => { setTimeout(done, milliseconds); });

async function draw(figure, tries = 5) {
  const { href } = figure.dataset;
  if (!href) return;
  delete figure.dataset.href;
  const image = h("img", { alt: figure.getAttribute("aria-label"), decoding: "async" });
  image.src = href;
  try {
    await image.decode();
    figure.removeAttribute("aria-label");
    fill(figure, h("a", { href, "aria-label": `${image.alt}, large` }, image));
    figure.classList.remove("late");
  } catch {
    // Too many at once for a key's rate, or no signal for a moment: again, a little later.
    figure.dataset.href = href;
    if (tries > 0) await wait(1000).then(() => draw(figure, tries - 1));
    else fill(figure, h("p", { class: "wait" }, `${image.alt}: could not be drawn. Load the page again.`));
  }
}

async function spares(event) {
  event.preventDefault();
  await busy(the("spare").querySelector("button"), async () => {
    fill(the("spares"), h("p", { class: "quiet" }, "Counting; this takes a moment…"));
    try {
      const found = await post(`/v1/plans/${id}/spares`, { handling: the("handling").value });
      const named = (level) => level.spares.map((one) => `${one.count} × ${one.stock}`).join(", ") || "no spare";
      const most = Math.max(...found.levels.map((level) => pence(level.cost)), 1);
      const bar = (level) => h("div", { class: "bar use", "aria-hidden": "true" }, h("span", { class: "part", style: { width: `${(100 * pence(level.cost)) / most}%` } }));
      fill(the("spares"),
        h("p", {}, `Without spares a second trip has a chance of ${percent(found.chance_without, 1)}. Rates of breakage are common practice, no source.`),
        table([["at most", "n"], ["leaves", "n"], ["cost", "n"], ["spares"]],
          found.levels.map((level) => [percent(level.level, 1), level.reached ? percent(level.chance, 1) : `${percent(level.chance, 1)}, not reached`, money(level.cost), h("div", {}, bar(level), named(level))]),
          { caption: "Spares by risk", stacks: true }));
    } catch (fault) {
      the("spares").replaceChildren();
      throw fault;
    }
  });
}

async function nearMisses(event) {
  event.preventDefault();
  await busy(the("near").querySelector("button"), async () => {
    fill(the("misses"), h("p", { class: "quiet" }, "Looking; this takes a few seconds…"));
    try {
      const text = the("ease").value.trim().replace(",", ".");
      const { items } = await post(`/v1/plans/${id}/near-misses`, { ease: { "*": Number(text) || text } });
      const parts = (item) => item.told.join("; ").replaceAll("->", "→");
      const more = items.length - BEST;
      fill(the("misses"), items.length
        ? table([["material"], ["made smaller, mm"], ["mm in all", "n"], ["saves", "n"], ["a mm", "n"], [""]],
          items.slice(0, BEST).map((item) => [item.material, parts(item), mm(item.eased_mm), money(item.saving), money(item.saving / item.eased_mm), item.certain ? "" : "likely"]),
          { caption: "Near misses, best saving per mm first", stacks: true })
        : h("p", {}, "None within that."),
      more > 0 ? h("p", { class: "quiet" }, `${plural(more, "more set that saves", "more sets that save")} less per mm.`) : "");
    } catch (fault) {
      the("misses").replaceChildren();
      throw fault;
    }
  });
}

async function read() {
  const { document: found, headers } = await call("GET", `/v1/plans/${id}`);
  version = headers.get("etag");
  whole = found;
  const jobs = whole.shares?.map((share) => share.job).join(", ");
  the("title").textContent = jobs ? `Plan for ${jobs}` : "Plan";
  document.title = `${the("title").textContent} · Scantling`;
  summary();
  usage();
  the("materials-card").hidden = false;
  shares();
  choices();
  saved();
  actions();
}

try {
  await read();
  clear();
  plots();
  diagrams((await get(`/v1/plans/${id}/diagrams`)).diagrams);
  the("near").addEventListener("submit", nearMisses);
  the("spare").addEventListener("submit", spares);
  the("near-card").hidden = whole.state !== "draft";
  the("spare-card").hidden = whole.state !== "draft";
} catch (fault) {
  lost(fault);
}
