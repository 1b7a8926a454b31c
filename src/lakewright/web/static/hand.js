// The part in hand: taken, typed in, left open, told on somebody's word.
import { as_it_came, made_of, match } from "./anew.js";
import { ask, at, dress, laid, state } from "./draft.js";

laid.push((answer, asked, changes, first) => {
  // While more is typed, the fields wait for the answer to that.
  if (state.asked === asked || !at("fields")) lay_part(answer.part, changes);
  if (first) bring_to_middle(`.grip[data-part="${state.part}"]`);
});
dress.drawing = name_flags;

// The fields anew; the one that is being typed in stays as it is, caret and all.
function lay_part(html, changes) {
  const made = made_of(html), form = made.querySelector("#fields");
  if (form.dataset.of !== at("fields")?.dataset.of) return at("part").replaceChildren(made);
  const typed = document.activeElement?.closest("#fields [data-key]")?.closest(".field");
  const anew = typed && form.querySelector(`[data-field="${CSS.escape(typed.dataset.field)}"]`);
  if (anew) {
    renew(typed, anew, changes);
    anew.replaceWith(typed.cloneNode(true));
  }
  match(at("part"), made);
  for (const field of at("fields").elements) if (!typed?.contains(field) && field.matches("input, select")) as_it_came(field);
}

function renew(old, made, changes) {
  const on = document.activeElement, { key } = on.dataset;
  const now = [...made.querySelectorAll("[data-key]")].find(each => each.dataset.end === on.dataset.end);
  // What was changed elsewhere is shown; what was typed here stays as it was typed.
  if (now && !(key in changes) && !(key in state.changes)) on.value = now.value;
  for (const line of old.querySelectorAll("p")) line.remove();
  old.append(...made.querySelectorAll("p"));
  const [button, other] = [old, made].map(field => field.querySelector("[data-open]"));
  if (button) button.setAttribute("aria-pressed", other.getAttribute("aria-pressed"));
}

function name_flags(made) {
  made.querySelectorAll("g.flag").forEach(flag => {
    flag.setAttribute("role", "button");
    flag.setAttribute("tabindex", "0");
    flag.setAttribute("aria-label", [...flag.querySelectorAll("text")].map(text => text.textContent.trim()).join(" "));
  });
}

function bring_to_middle(choose) {
  const on = document.querySelector(`#drawing ${choose}`), frame = at("drawing");
  if (!on || frame.scrollWidth <= frame.clientWidth) return;
  const box = on.getBoundingClientRect(), around = frame.getBoundingClientRect();
  frame.scrollLeft += box.left + box.width / 2 - around.left - around.width / 2;
}

const is_narrow = () => matchMedia("(max-width: 62rem)").matches;

export function take(part, by_keyboard, from_part) {
  state.part = part;
  bring_to_middle(`.grip[data-part="${part}"]`);
  if (by_keyboard && !from_part) state.focus = "#fields [data-key]";
  ask();
  if (is_narrow() && !from_part) at("part").scrollIntoView({ block: "start" });
}

export function explain(name, place, from_list) {
  state.finding = state.finding === name && from_list ? "" : name;
  if (place) state.part = place;
  ask();
}

export const place_of = name => document.querySelector(`#decides [data-finding="${CSS.escape(name)}"]`)?.dataset.at;

export function leave_open(on) {
  const { open: key, was = "", at: part } = on.dataset;
  if (part) state.part = part;
  if (on.getAttribute("aria-pressed") === "true") return ask({ [key]: state.before[key] ?? was });
  const field = on.form?.querySelector(`[data-key="${CSS.escape(key)}"]`);
  state.before[key] = field ? written(key, on.form) : was;
  return ask({ [key]: "open" });
}

// Typing in one field is one step; leaving it ends that.
export function type(field) {
  const { key } = field.dataset, goes_on = state.going === key;
  state.going = field.matches("input") ? key : "";
  ask({ [key]: written(key, field.form) }, {}, goes_on);
}
document.addEventListener("focusout", () => { state.going = ""; });

// What stands in a field; in one of two inputs, what lies between them.
const written = (key, form = at("fields")) => [...form.querySelectorAll(`[data-key="${CSS.escape(key)}"]`)]
  .map(each => each.value).filter(Boolean).join("..");

export function say(on) {
  const { standing: key } = on.dataset, standing = on.value;
  state.between = standing === "between" ? key : "";
  if (standing !== "between") return ask({ [key]: written(key, on.form) }, { [key]: standing });
  state.focus = `#fields [data-key="${CSS.escape(key)}"][data-end="high"]`;
  return ask();
}

// Words of a list, of which any may be ticked.
export function tick(on) {
  const { list } = on.dataset;
  const ticked = [...document.querySelectorAll(`[data-list="${CSS.escape(list)}"]:checked`)].filter(each => each.form === on.form).map(each => each.value);
  ask({ [list]: ticked.length ? JSON.stringify(ticked) : "" });
}
