// What a wall's form asks, in the order a fitter surveys: the few things it needs, the rest folded.
// path: where the value goes in the wall's document; the unit is in its name, as everywhere.

const mm = (path, label, more = {}) => ({ path, label, unit: "mm", ...more });

export const GROUPS = [
  { title: "Job", fields: [
    { path: "job", label: "Job", need: true, kind: "text" },
    { path: "client", label: "Client", kind: "text" },
    { path: "needed", label: "Needed on", kind: "date" },
  ] },
  { title: "Room", fields: [
    mm("site.clear_width_mm", "Clear width between side walls", { need: true, first: 3600 }),
    mm("site.height_left_mm", "Floor to ceiling, left", { need: true, first: 2400 }),
    mm("site.height_middle_mm", "… middle"),
    mm("site.height_right_mm", "… right"),
    { path: "site.kind", label: "Existing wall", kind: "choice", first: "solid", choices: [["solid", "masonry"], ["studs", "studs"]] },
    { path: "site.stud_positions_mm", label: "Middles of its studs, from the left", unit: "mm", kind: "list", when: ["site.kind", "studs"] },
    { path: "site.floor", label: "Floor", kind: "choice", choices: [["", "by default"], ["timber", "boards on joists"], ["solid", "concrete or screed"]] },
  ], more: [
    mm("site.floor_fall_mm", "Floor falls to the right by"),
    mm("site.skirting_mm", "Skirting that stays"),
    mm("site.lean_left_mm", "Left side wall leans in by"),
    mm("site.lean_right_mm", "Right side wall leans in by"),
  ] },
  { title: "Wall", fields: [
    mm("wall.depth_mm", "Depth to the face of the boards", { need: true, first: 350 }),
    mm("wall.width_mm", "Width"),
    { path: "wall.left", label: "Left end", kind: "choice", choices: [["", "by its place"], ["abuts", "meets a wall"], ["free", "free"]] },
    { path: "wall.right", label: "Right end", kind: "choice", choices: [["", "by its place"], ["abuts", "meets a wall"], ["free", "free"]] },
  ], more: [
    mm("wall.offset_mm", "From the left side wall"),
    mm("wall.height_mm", "Height, where it stops short of the ceiling"),
  ] },
  { title: "Fire", part: "fire", fields: [
    mm("fire.body_width_mm", "Body width", { need: true, first: 1270 }),
    mm("fire.body_height_mm", "Body height", { need: true, first: 480 }),
    mm("fire.body_depth_mm", "Body depth", { need: true, first: 200 }),
    mm("fire.opening_width_mm", "Opening width"),
    mm("fire.opening_height_mm", "Opening height"),
    mm("fire.base_height_mm", "Underside above the floor", { first: 300 }),
    { path: "fire.mass_kg", label: "Mass", unit: "kg" },
  ], more: [
    mm("fire.clearance_top_mm", "Clearance above"),
    mm("fire.clearance_side_mm", "Clearance at the sides"),
    mm("fire.clearance_back_mm", "Clearance behind"),
    { path: "fire.power_w", label: "Power", unit: "W" },
    mm("fire.centre_mm", "Middle, from the left end"),
    { path: "fire.glass", label: "Glass", kind: "choice", choices: [["", "by default"], ["front", "front"], ["left", "returns left"], ["right", "returns right"], ["both", "returns both ways"]] },
  ] },
  { title: "TV", part: "tv", fields: [
    { path: "tv.diagonal_in", label: "Diagonal", unit: "in", first: 55 },
    mm("tv.depth_mm", "Depth", { first: 60 }),
    { path: "tv.mass_kg", label: "Mass", unit: "kg", first: 20 },
    mm("tv.above_fire_mm", "Above the fire"),
    mm("tv.recess_depth_mm", "Recess depth"),
  ], more: [
    mm("tv.width_mm", "Width as measured"),
    mm("tv.height_mm", "Height as measured"),
    mm("tv.centre_height_mm", "Middle above the floor"),
    mm("tv.centre_mm", "Middle, from the left end"),
    mm("tv.finger_gap_mm", "Gap all round for fingers"),
    mm("tv.bracket_reach_mm", "Reach of the bracket"),
    mm("tv.viewing_distance_mm", "Viewing distance"),
  ] },
  { title: "Soundbar", part: "soundbar", off: true, fields: [
    mm("soundbar.width_mm", "Width", { need: true, first: 900 }),
    mm("soundbar.height_mm", "Height", { need: true, first: 70 }),
    mm("soundbar.depth_mm", "Depth", { need: true, first: 110 }),
  ], more: [mm("soundbar.x_mm", "Slot from the left end"), mm("soundbar.z_mm", "Slot above the floor")] },
  { title: "Niches", many: "niches", fields: [
    { path: "name", label: "Name", kind: "text", need: true },
    mm("x_mm", "From the left end", { need: true, first: 150 }),
    mm("z_mm", "Above the floor", { need: true, first: 1000 }),
    mm("width_mm", "Width", { need: true, first: 350 }),
    mm("height_mm", "Height", { need: true, first: 900 }),
    mm("depth_mm", "Depth", { need: true, first: 180 }),
    { path: "shelves", label: "Shelves", first: 0 },
    { path: "lit", label: "Lit", kind: "yes" },
  ] },
  { title: "Materials", fields: [], more: [
    { path: "materials.timber", label: "Timber", kind: "stock", of: "lengths", grade: true },
    { path: "materials.board", label: "Board", kind: "stock", of: "sheets" },
    { path: "materials.backboard", label: "Backboard", kind: "stock", of: "sheets" },
    mm("materials.centres_mm", "Centres of the uprights"),
    { path: "materials.layers", label: "Layers of board", kind: "choice", number: true, choices: [["", "by default"], ["1", "1"], ["2", "2"]] },
  ] },
];

/** Return what a field holds as its document says it: a number where it is one, else the text. */
export function valueOf(field, input) {
  if (field.kind === "yes") return input.checked ? true : undefined;
  const text = input.value.trim();
  if (text === "") return undefined;
  if (["text", "date", "stock"].includes(field.kind) || (field.kind === "choice" && !field.number)) return text;
  if (field.kind === "list") return text.split(/[\s,;]+/).filter(Boolean).map(number);
  return number(text);
}

/** "1250,5" → 1250.5; what is no number stays as it is, and the service says so beside the field. */
function number(text) {
  const plain = text.replace(",", ".");
  return /^-?\d+(\.\d+)?$/.test(plain) ? Number(plain) : text;
}

export function read(document, path) {
  return path.split(".").reduce((at, step) => at?.[step], document);
}

export function write(document, path, value) {
  const steps = path.split(".");
  const last = steps.pop();
  const at = steps.reduce((here, step) => (here[step] ??= {}), document);
  if (value === undefined) delete at[last];
  else at[last] = value;
}
