// The wall's form: built from its fields, read into a document, and its problems put beside them.

import { placeProblems } from "/web/scripts/api.js";
import { fill, h } from "/web/scripts/dom.js";
import { GROUPS, read, valueOf, write } from "/web/scripts/wall-fields.js";

const idOf = (path) => `f-${path.replace(/[^a-z0-9_]+/gi, "-")}`;

/** A wall's form. `document`: the wall as kept, or {} for a new one; what the form does not ask is
 * kept as it is. `book`: the price book's document, for its materials; `isNew`: fields
 * begin with what is usual; `isNamed`: the job's name stays. */
export class WallForm {
  constructor(form, document, { book, isNew, isNamed }) {
    this.form = form;
    this.kept = structuredClone(document);
    this.book = book;
    this.isNew = isNew;
    this.isNamed = isNamed;
    this.inputs = new Map();
    this.niches = structuredClone(document.niches ?? []);
    fill(form, this.legend(), GROUPS.map((group) => this.group(group)), this.others());
    this.switchFields();
    form.oninput = () => this.switchFields();
  }

  legend() {
    return h("p", { class: "small quiet" }, "Sizes in mm. What is left empty takes the default shown; * is needed.");
  }

  others() {
    const found = ["steps"].filter((name) => this.kept[name]?.length)
      .concat(["levels", "projections", "accessories"].filter((name) => this.kept.site?.[name]?.length));
    return found.length > 0 && h("p", { class: "small quiet" },
      `This wall also has ${found.join(", ")} that the form does not show; they are kept as they are.`);
  }

  group(group) {
    if (group.many) return this.many(group);
    const has = group.part ? this.kept[group.part] !== undefined || (this.isNew && !group.off) : true;
    const fields = h("div", { class: "fields" }, group.fields.map((field) => this.field(field)));
    const more = group.more && h("details", {}, h("summary", {}, group.fields.length ? `More about the ${group.title === "TV" ? "TV" : group.title.toLowerCase()}` : `Choose ${group.title.toLowerCase()}`),
      h("div", { class: "fields" }, group.more.map((field) => this.field(field))));
    const body = h("div", { hidden: !has }, fields, more);
    if (!group.part) return h("fieldset", {}, h("legend", {}, group.title), body);
    const box = h("input", { type: "checkbox", id: `has-${group.part}`, checked: has });
    box.addEventListener("change", () => { body.hidden = !box.checked; });
    group.box = box;
    return h("fieldset", {}, h("legend", {}, h("label", { class: "check", for: box.id }, box, group.title)), body);
  }

  many(group) {
    const list = h("div", {});
    const draw = () => fill(list, this.niches.map((niche, at) => h("div", { class: "niche", role: "group", "aria-label": `Niche ${at + 1}` },
      h("div", { class: "fields" }, group.fields.map((field) => this.field({ ...field, path: `niches.${at}.${field.path}` }, niche[field.path], (value) => {
        if (value === undefined) delete niche[field.path];
        else niche[field.path] = value;
      }))),
      h("button", { type: "button", class: "plain", onclick: () => {
        this.niches.splice(at, 1);
        draw();
        this.changed();
      } }, `Take niche ${at + 1} away`))));
    draw();
    const add = h("button", { type: "button", onclick: () => {
      const niche = Object.fromEntries(group.fields.filter((field) => field.first !== undefined).map((field) => [field.path, field.first]));
      niche.name = `niche ${this.niches.length + 1}`;
      if (this.niches.length) niche.x_mm = Number(this.niches.at(-1).x_mm) + Number(this.niches.at(-1).width_mm) + 300;
      this.niches.push(niche);
      draw();
      this.changed();
    } }, "Add a niche");
    return h("fieldset", {}, h("legend", {}, group.title), list, add);
  }

  changed() {
    this.form.dispatchEvent(new Event("input", { bubbles: true }));
  }

  field(field, given, set) {
    const id = idOf(field.path);
    const kept = given ?? read(this.kept, field.path);
    // Where a part is there already, what is empty in it was left out on purpose.
    const isFresh = this.isNew || this.kept[field.path.split(".")[0]] === undefined;
    const value = kept ?? (isFresh && !set ? field.first : undefined) ?? "";
    const shown = Array.isArray(value) ? value.join(", ") : value;
    let input;
    if (field.kind === "yes") input = h("input", { id, type: "checkbox", checked: Boolean(kept) });
    else if (field.kind === "choice") input = h("select", { id }, field.choices.map(([choice, words]) => h("option", { value: choice, selected: String(shown) === choice }, words)));
    else if (field.kind === "stock") input = h("select", { id }, this.stock(field, shown));
    else input = h("input", { id, value: shown, type: field.kind === "date" ? "date" : "text", "aria-required": field.need ? "true" : null, autocomplete: "off",
      inputmode: ["text", "date", "list"].includes(field.kind) ? null : "decimal" });
    if (field.path === "job" && this.isNamed) input.readOnly = true;
    this.inputs.set(field.path, { field, input });
    if (set) input.addEventListener("input", () => set(valueOf(field, input)));
    const words = [field.label, field.unit && h("span", { class: "unit" }, ` ${field.unit}`), field.need && h("span", { "aria-hidden": "true" }, " *")];
    return field.kind === "yes"
      ? h("label", { class: "check", for: id }, input, words)
      : h("label", { for: id }, h("span", {}, words), input);
  }

  stock(field, shown) {
    const rows = (this.book?.[field.of] ?? []).filter((row) => !field.grade || row.grade);
    return [h("option", { value: "" }, "first that fits"),
      rows.map((row) => h("option", { value: row.material, selected: row.material === shown }, row.description ?? row.material))];
  }

  switchFields() {
    for (const { field, input } of this.inputs.values()) {
      if (!field.when) continue;
      const [path, wanted] = field.when;
      input.closest("label").hidden = this.inputs.get(path).input.value !== wanted;
    }
  }

  /** Return the wall as its document. */
  document() {
    const made = structuredClone(this.kept);
    for (const group of GROUPS) {
      if (group.many) continue;
      if (group.part && !group.box.checked) {
        delete made[group.part];
        continue;
      }
      for (const field of [...group.fields, ...(group.more ?? [])]) {
        const { input } = this.inputs.get(field.path);
        write(made, field.path, input.closest("label").hidden ? undefined : valueOf(field, input));
      }
    }
    if (this.niches.length) made.niches = structuredClone(this.niches);
    else delete made.niches;
    return made;
  }

  /** Put problems beside their fields; return those that are about none of them. */
  place(problems) {
    return placeProblems(this.form, problems, ({ field }) => {
      const path = field.replace(/^body(\.wall)?[:.]? ?/, "").replace(/^wall: /, "").replace(/\[(\d+)\]/g, ".$1")
        .replace(/^niches\.(.+)\.(\w+)$/, (all, name, key) => {
          const at = this.niches.findIndex((niche) => niche.name === name);
          return at < 0 ? all : `niches.${at}.${key}`;
        });
      return this.input(path);
    });
  }

  input(path) {
    const names = [path, `${path}_mm`, `${path}_kg`, `${path}_w`, `${path}_in`];
    const found = names.map((name) => this.inputs.get(name)?.input).find(Boolean);
    if (found && !found.closest("[hidden]")) return found;
    // What is about a whole part of the wall stands at its switch.
    return this.form.querySelector(`#has-${CSS.escape(path)}`);
  }

  /** Show in each empty field the default that was taken for it. */
  showDefaults(defaults) {
    for (const { field, input } of this.inputs.values()) {
      if (input.tagName === "INPUT" && !field.kind) input.placeholder = "";
      const taken = defaults.find((item) => this.input(item.field) === input);
      if (taken && !field.kind) input.placeholder = taken.value.replace(/ (mm|kg|W)$/, "");
    }
  }
}
