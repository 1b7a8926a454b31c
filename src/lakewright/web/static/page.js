"use strict";
// The page posts its draft and shows what comes back. It reckons nothing itself.

const AGAIN = 1500; // ours: so long after no answer the same is sent again [ms]
const PATIENCE = 20000; // ours: an answer that takes longer is none [ms]
const FOLDS = ["assumed", "rest"];
const PIECES = ["head", "keep", "drawing", "decides", "foot"];
const TABS = new BroadcastChannel("draft"); // of this same page: what one changes, the others show

const at = id => document.getElementById(id);
const state = {
  part: "inlet", day: null, finding: "",
  changes: {}, standings: {}, // typed, and not yet in the draft; on whose word
  between: "", // the field that is to lie between two values
  before: {}, // what stood in a field until it was left open
  steps: [], // back, forth, anew or to the file: asked for, and not yet taken
  going: "", goes_on: false, // the field that is being typed in; whether the changes go on with the last ones
  number: 0, // of the draft's step, as it came last
  asked: 0, flying: false, timer: 0, // one question at a time is on its way
  pieces: {}, // as they came last
  taking: 0, taken: "", // the question that took a design, and the draft it made
  search: null, searched: null, // the search under way, and the draft that was searched last
  focus: "", // where the keyboard is to go with the next answer
};

// Asking.

function ask(changes = {}, standings = {}, goes_on = false) {
  state.goes_on = goes_on && (state.goes_on || !Object.keys(state.changes).length);
  Object.assign(state.changes, changes);
  Object.assign(state.standings, standings);
  document.body.dataset.asked = String(++state.asked);
  for (const name of PIECES) at(name).classList.add("old");
  // No pause: what is typed while an answer is under way goes together with the next question.
  later(0);
}

function later(pause) {
  clearTimeout(state.timer);
  state.timer = setTimeout(send, pause);
}

async function send() {
  if (state.flying) return;
  state.flying = true;
  const { asked, changes, standings, goes_on } = state, step = state.steps.shift() ?? "";
  state.changes = {};
  state.standings = {};
  let answer = null;
  try {
    answer = await posted("/draft", { ...shown(), changes, standings, goes_on, step });
  } catch (error) {
    // Nothing typed is lost: it goes again, before whatever is typed after it.
    state.changes = { ...changes, ...state.changes };
    state.standings = { ...standings, ...state.standings };
    if (step) state.steps.unshift(step);
    at("silent").textContent = error.refused
      ? `The program behind this page refused this: ${error.message}. What you typed is kept here.`
      : "The program behind this page does not answer. What you typed is kept here, and is sent again until it does.";
    if (!error.refused) later(AGAIN);
  }
  state.flying = false;
  if (answer === null) return;
  at("silent").textContent = "";
  at("draft").value = answer.text;
  state.changes = { ...answer.kept, ...state.changes };
  if (state.taking && asked >= state.taking) { state.taken = answer.text; state.taking = 0; }
  if (answer.number !== state.number && state.number) TABS.postMessage(answer.number);
  state.number = answer.number;
  show(answer, asked, changes);
  if (state.asked > asked || state.steps.length) later(0);
}

const shown = () => ({ part: state.part, day: state.day, finding: state.finding, between: state.between,
  wide: document.documentElement.clientWidth });

// Another tab has changed the draft, or this one was away.
TABS.addEventListener("message", ({ data }) => { if (data !== state.number) ask(); });
document.addEventListener("visibilitychange", () => { if (!document.hidden) ask(); });

async function reached(where, what, signal) {
  const response = await fetch(where, { method: "POST", headers: { "Content-Type": "application/json" },
    body: JSON.stringify(what), signal });
  if (!response.ok) throw Object.assign(new Error(await response.text()), { refused: true });
  return response;
}

const posted = async (where, what) => (await reached(where, what, AbortSignal.timeout(PATIENCE))).json();

// Showing.

function show(answer, asked, changes) {
  const held = held_focus(), aside = at("drawing").scrollLeft, first = !at("drawing").firstChild;
  const unfolded = FOLDS.filter(name => at(name)?.open);
  at("trouble").innerHTML = answer.trouble;
  for (const name of PIECES) {
    if (answer[name] === undefined) continue;
    if (state.pieces[name] !== answer[name]) at(name).innerHTML = state.pieces[name] = answer[name];
    if (state.asked === asked) at(name).classList.remove("old");
  }
  for (const name of unfolded) if (at(name)) at(name).open = true;
  // While more is typed, the fields wait for the answer to that.
  if (state.asked === asked || !at("fields")) lay_part(answer.part, changes);
  name_flags();
  at("drawing").scrollLeft = aside;
  if (first) bring_to_middle(`.grip[data-part="${state.part}"]`);
  if (state.focus && state.asked === asked) {
    document.querySelector(state.focus)?.focus();
    state.focus = "";
  } else {
    held && document.querySelector(held)?.focus({ preventScroll: true });
  }
  age_choices();
  document.body.dataset.shown = String(asked);
}

// Where the keyboard is, so that it is there again after the piece around it was made anew.
function held_focus() {
  const on = document.activeElement;
  const piece = on?.closest("#head, #keep, #part, #drawing, #decides");
  if (!piece || on.dataset.key) return "";
  const name = ["data-part", "data-finding", "data-check", "data-open", "data-standing", "data-step", "data-day"].find(each => on.hasAttribute(each));
  if (name) return `#${piece.id} [${name}="${CSS.escape(on.getAttribute(name))}"]`;
  return on.classList.contains("surface") ? "#drawing .surface" : on.matches("summary") ? `#${on.parentElement.id} summary` : "";
}

// The fields anew; the one that is being typed in stays as it is, caret and all.
function lay_part(html, changes) {
  const made = document.createElement("template");
  made.innerHTML = html;
  const typed = document.activeElement?.closest("#fields [data-key]")?.closest(".field");
  if (!typed || made.content.querySelector("#fields").dataset.of !== at("fields").dataset.of) {
    at("part").replaceChildren(made.content);
    return;
  }
  for (const field of made.content.querySelectorAll(".field")) {
    const old = document.querySelector(`#fields [data-field="${CSS.escape(field.dataset.field)}"]`);
    if (old === typed) renew(old, field, changes);
    else old.replaceWith(field);
  }
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

function name_flags() {
  document.querySelectorAll("#drawing g.flag").forEach(flag => {
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

// Taking in hand.

const is_narrow = () => matchMedia("(max-width: 62rem)").matches;

function take(part, by_keyboard, from_part) {
  state.part = part;
  bring_to_middle(`.grip[data-part="${part}"]`);
  if (by_keyboard && !from_part) state.focus = "#fields [data-key]";
  ask();
  if (is_narrow() && !from_part) at("part").scrollIntoView({ block: "start" });
}

function explain(name, place, from_list) {
  state.finding = state.finding === name && from_list ? "" : name;
  if (place) state.part = place;
  ask();
}

function leave_open(on) {
  const { open: key, was = "", at: part } = on.dataset;
  if (part) state.part = part;
  if (on.getAttribute("aria-pressed") === "true") return ask({ [key]: state.before[key] ?? was });
  const field = document.querySelector(`#fields [data-key="${CSS.escape(key)}"]`);
  state.before[key] = field ? written(key) : was;
  return ask({ [key]: "open" });
}

// Typing in one field is one step; leaving it ends that.
function type(field) {
  const { key } = field.dataset, goes_on = state.going === key;
  state.going = field.matches("input") ? key : "";
  ask({ [key]: written(key) }, {}, goes_on);
}
document.addEventListener("focusout", () => { state.going = ""; });

function step(way) {
  state.going = "";
  state.steps.push(way);
  ask();
}

// What stands in a field; in one of two inputs, what lies between them.
const written = key => [...document.querySelectorAll(`#fields [data-key="${CSS.escape(key)}"]`)]
  .map(each => each.value).filter(Boolean).join("..");

function say(key, standing) {
  state.between = standing === "between" ? key : "";
  if (standing !== "between") return ask({ [key]: written(key) }, { [key]: standing });
  state.focus = `#fields [data-key="${CSS.escape(key)}"][data-end="high"]`;
  return ask();
}

// All that a design of the shortlist says goes into the draft at once, and nothing to the disk.
function take_design(on) {
  ask(JSON.parse(on.dataset.take));
  state.taking = state.asked;
}

const place_of = name => document.querySelector(`#decides [data-finding="${CSS.escape(name)}"]`)?.dataset.at;

document.addEventListener("click", event => {
  const on = event.target.closest("[data-part], [data-finding], [data-check], [data-open], [data-day], [data-take], [data-step], #search");
  if (!on) return;
  if (on.id === "search") search();
  else if (on.dataset.open) leave_open(on);
  else if (on.dataset.step) step(on.dataset.step);
  else if (on.dataset.take) take_design(on);
  else if (on.dataset.finding) explain(on.dataset.finding, on.dataset.at, true);
  else if (on.dataset.check) explain(on.dataset.check, place_of(on.dataset.check), false);
  else if (on.dataset.part) take(on.dataset.part, event.detail === 0, Boolean(on.closest("#part")));
  else { state.day = null; ask(); }
});
document.addEventListener("input", event => {
  const { key, standing } = event.target.dataset;
  if (key) type(event.target);
  else if (standing) say(standing, event.target.value);
});
document.addEventListener("submit", event => event.preventDefault());

// Keys on what is drawn: Enter and space take it in hand, arrows move the water, Escape goes back to the drawing.
document.addEventListener("keydown", event => {
  const on = event.target;
  // In a field that is being typed in, the keys for a step back are the browser's own.
  if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "z" && !on.matches("input, textarea")) {
    event.preventDefault();
    step(event.shiftKey ? "redo" : "undo");
  } else if (on.matches(".surface")) {
    const step = { ArrowUp: -1, ArrowLeft: -1, ArrowDown: 1, ArrowRight: 1 }[event.key];
    if (!step && event.key !== "Escape") return;
    event.preventDefault();
    if (step) move_day(step);
    else { state.day = null; ask(); }
  } else if ((event.key === "Enter" || event.key === " ") && on.matches("svg.section [role=button]")) {
    event.preventDefault();
    on.dispatchEvent(new MouseEvent("click", { bubbles: true }));
  } else if (event.key === "Escape" && on.closest("#part")) {
    document.querySelector(`#drawing .grip[data-part="${state.part}"]`)?.focus();
  }
});

// The water.

// The days from the highest water to the lowest.
function by_height() {
  const levels = JSON.parse(document.querySelector(".surface").dataset.levels);
  return levels.map((y, day) => ({ y, day })).sort((a, b) => a.y - b.y || a.day - b.day);
}

function move_day(step) {
  const order = by_height();
  const now = order.findIndex(each => each.day === state.day);
  const next = now < 0 ? (step > 0 ? 0 : order.length - 1) : Math.min(Math.max(now + step, 0), order.length - 1);
  state.day = order[next].day;
  ask();
}

let dragging = false;
document.addEventListener("pointerdown", event => {
  if (!event.target.closest(".surface") || event.button !== 0) return;
  event.preventDefault();
  dragging = true;
  // What is drawn is made anew on the way: the frame around it takes the pointer.
  at("drawing").setPointerCapture(event.pointerId);
  event.target.closest(".surface").focus({ preventScroll: true });
});
document.addEventListener("pointermove", event => {
  const surface = dragging && document.querySelector("#drawing .surface");
  if (!surface) return;
  const turn = surface.ownerSVGElement.getScreenCTM().inverse();
  const { y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(turn);
  const order = by_height(), [high, low] = [order[0].y, order[order.length - 1].y];
  surface.setAttribute("transform", `translate(0 ${Math.min(Math.max(y, high), low) - surface.dataset.y})`);
  const near = order.reduce((a, b) => Math.abs(b.y - y) < Math.abs(a.y - y) ? b : a);
  if (near.day !== state.day) { state.day = near.day; ask(); }
});
for (const end of ["pointerup", "pointercancel"]) document.addEventListener(end, () => {
  if (dragging) document.querySelector("#drawing .surface")?.removeAttribute("transform");
  dragging = false;
});

// What else would hold.

const settled = async () => {
  while (state.flying || Object.keys(state.changes).length) await new Promise(done => setTimeout(done, 20));
};

async function search() {
  if (state.search) return state.search.abort();
  const control = state.search = new AbortController();
  at("search").textContent = "Stop";
  at("progress").textContent = "Searching.";
  at("choices").classList.add("old");
  try {
    await Promise.race([settled(), new Promise((_, stop) => control.signal.addEventListener("abort", stop))]);
    const text = at("draft").value;
    await read_lines(await reached("/choices", shown(), control.signal), said => {
      if (said.every) at("progress").textContent =
        `${said.done.toLocaleString("en")} of ${said.every.toLocaleString("en")} circuits`;
      if (said.choices === undefined) return;
      at("choices").innerHTML = said.choices;
      state.searched = text;
      at("progress").textContent = "";
    });
  } catch (error) {
    at("progress").textContent = control.signal.aborted ? "Stopped."
      : error.refused ? error.message : "The program behind this page does not answer; ask again.";
  }
  state.search = null;
  at("search").textContent = "What else would hold?";
  at("choices").classList.remove("old");
  age_choices();
}

async function read_lines(response, tell) {
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  for (;;) {
    const { done, value = "" } = await reader.read();
    const lines = (rest + value).split("\n");
    rest = lines.pop();
    lines.filter(Boolean).forEach(line => tell(JSON.parse(line)));
    if (done) return;
  }
}

// Choices of a draft that is no longer there are pale, and say so.
function age_choices() {
  if (state.search || state.searched === null) return;
  const now = at("draft").value, was_taken = now === state.taken, old = now !== state.searched && !was_taken;
  at("choices").classList.toggle("old", old);
  for (const button of document.querySelectorAll("#choices [data-take]")) button.disabled = old;
  at("progress").textContent = old ? "The draft has changed since this was found: ask again."
    : was_taken && now !== state.searched ? "Taken into the draft. The file on the disk is as it was." : "";
}

// The rest.

let width = document.documentElement.clientWidth;
addEventListener("resize", () => {
  if (document.documentElement.clientWidth === width) return;
  width = document.documentElement.clientWidth;
  ask();
});
// What is in the draft is kept. Only what has not reached it yet would be lost.
addEventListener("beforeunload", event => { if (Object.keys(state.changes).length) event.preventDefault(); });
ask();
