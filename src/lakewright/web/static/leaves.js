// The leaves beneath: each asked for when it is unfolded, pale once the draft has changed, and some anew on a pause.
import { made_of } from "./anew.js";
import { at, laid, reached, read_lines, settled, shown, state } from "./draft.js";
import { designs } from "./search.js";

const PAUSE = 1500; // ours: so long after the last edit what is unfolded is made anew [ms]
const SLOW = 400; // ours: what takes longer says that it is under way [ms]
const made = {}; // the draft's step that each leaf was made of
const under_way = {}; // what is being made
export const unfolded = {}; // what else is done with a leaf once it is laid
let timer = 0;
let sides = {}; // which two designs lie side by side

const all = () => [...document.querySelectorAll("details.leaf")];
const is_made = leaf => leaf.dataset.leaf in made;
const is_old = leaf => leaf.hasAttribute("data-ages") && is_made(leaf) && made[leaf.dataset.leaf] !== state.number;

document.addEventListener("toggle", event => {
  const leaf = event.target;
  if (!leaf.matches?.("details.leaf")) return;
  const { leaf: name } = leaf.dataset;
  if (!leaf.open) under_way[name]?.abort();
  else if (!(name in under_way) && (!is_made(leaf) || is_old(leaf))) load(leaf);
}, true);

export async function load(leaf, given = {}) {
  const { leaf: name } = leaf.dataset, body = leaf.querySelector(".body");
  under_way[name]?.abort();
  const control = under_way[name] = new AbortController();
  body.classList.add("old");
  leaf.setAttribute("aria-busy", "true");
  const slow = setTimeout(() => tell(leaf, "Under way.", "stop", "Stop"), SLOW);
  const more = name === "beside" ? { designs: designs(), ...sides } : name === "rows" ? { list: at("rows-list")?.value ?? "" } : {};
  let problem = "";
  try {
    await settled();
    const of = state.number;
    await read_lines(await reached(`/leaf/${name}`, { ...shown(), ...more, ...given }, control.signal), said => {
      if (said.seconds > 0.4) tell(leaf, `Under way, ${Math.round(said.seconds)} s.`, "stop", "Stop");
      if (said.html === undefined) return;
      made[name] = of;
      lay(leaf, said.html);
    });
  } catch (error) {
    problem = control.signal.aborted ? "Stopped." : error.refused ? error.message
      : "The program behind this page does not answer.";
  }
  clearTimeout(slow);
  if (under_way[name] !== control) return;
  delete under_way[name];
  leaf.removeAttribute("aria-busy");
  body.classList.remove("old");
  tell(leaf, "");
  if (problem) tell(leaf, problem, "again", "Ask again");
  else age(leaf);
}

const is_typed_in = body => document.activeElement.matches("input, select, textarea")
  && Boolean(body.querySelector("form[data-stays]")?.contains(document.activeElement));

// What is being typed in stays where it is; what was found by it is new.
function lay(leaf, html) {
  const body = leaf.querySelector(".body"), fresh = made_of(html);
  const [old, next] = [body, fresh].map(each => each.querySelector("[data-fresh]"));
  if (is_typed_in(body)) { if (old && next) old.replaceWith(next); }
  else body.replaceChildren(fresh);
  unfolded[leaf.dataset.leaf]?.(leaf);
}

function tell(leaf, words, what, label) {
  const age = leaf.querySelector(".age");
  if (age.dataset.said === words + label) return;
  age.dataset.said = words + label;
  age.textContent = words;
  if (!what) return;
  const button = Object.assign(document.createElement("button"), { type: "button", className: "plain", textContent: label });
  button.dataset[what] = leaf.dataset.leaf;
  age.append(" ", button);
}

function age(leaf) {
  const { leaf: name } = leaf.dataset;
  if (!leaf.open || name in under_way || !is_old(leaf)) return;
  leaf.querySelector(".body").classList.add("old");
  tell(leaf, "The draft has changed since this was made.", "again", "Make it anew");
}

laid.push(() => {
  all().forEach(age);
  clearTimeout(timer);
  timer = setTimeout(() => all().filter(leaf => leaf.open && leaf.hasAttribute("data-renews") && is_old(leaf))
    .forEach(leaf => load(leaf)), PAUSE);
});

// Unfold a leaf and go there; what it holds is there once this is done.
export async function unfold(name, given) {
  const leaf = at(`leaf-${name}`), is_open = leaf.open;
  leaf.open = true;
  leaf.scrollIntoView({ block: "start" });
  leaf.querySelector("summary").focus({ preventScroll: true });
  if (given || !is_open || !is_made(leaf) && !(name in under_way)) await load(leaf, given);
}

export const again = name => load(at(`leaf-${name}`));
export const stop = name => under_way[name]?.abort();

// Which two lie side by side.
export function lay_beside(number) {
  sides = { one: "draft", other: String(number) };
  unfold("beside", {});
}

export function choose_side() {
  sides = Object.fromEntries([...document.querySelectorAll("[data-side]")].map(each => [each.dataset.side, each.value]));
  again("beside");
}
