// The jobs by the date they are needed, with how far each has come and what it costs.

import { all, show } from "/web/scripts/api.js";
import { fill, h, table, the } from "/web/scripts/dom.js";
import { day, money, plural } from "/web/scripts/words.js";

const STATES = {
  "no parts": ["no parts yet", "warning"], new: ["to plan", ""], planning: ["planning", ""],
  planned: ["planned", "warning"], ordered: ["ordered", "good"],
  "part received": ["part received", "warning"], received: ["received", "good"],
};

function parts(job) {
  const said = [];
  if (job.listed_parts) said.push(plural(job.listed_parts, "listed part"));
  job.walls.forEach((wall, at) => said.push(
    h("a", { href: `/walls/${wall}` }, job.walls.length > 1 ? `wall ${at + 1}` : "wall")));
  return said.flatMap((item, at) => (at ? [", ", item] : [item]));
}

function row(job) {
  const [words, kind] = STATES[job.state] ?? [job.state, ""];
  const name = job.walls.length ? h("a", { href: `/walls/${job.walls[0]}` }, job.job.name) : job.job.name;
  return [h("b", {}, name), job.client, day(job.needed), parts(job),
    h("span", { class: `tag ${kind}` }, words), money(job.share),
    job.plan ? h("a", { href: `/plans/${job.plan}` }, "plan", h("span", { class: "unseen" }, ` of job ${job.job.name}`)) : ""];
}

try {
  const jobs = await all("/v1/jobs");
  jobs.sort((a, b) => (a.needed || "9999").localeCompare(b.needed || "9999") || a.job.name.localeCompare(b.job.name));
  const heads = [["job"], ["client"], ["needed"], ["parts from"], ["state"], ["share of net cost", "n"], ["plan"]];
  fill(the("jobs"), jobs.length
    ? table(heads, jobs.map(row), { caption: "Jobs by date needed", stacks: true })
    : h("div", { class: "empty" }, h("p", {}, "No jobs yet."),
      h("p", {}, "Begin with a wall: its form draws as you type. Or bring a part list, CSV or XLSX.")));
} catch (fault) {
  the("jobs").replaceChildren();
  show(fault);
}
