"use strict";
// The page posts its draft and shows what comes back. It reckons nothing itself.

const at = id => document.getElementById(id);
const state = { part: "inlet", day: null, finding: "", sent: 0, shown: 0, changes: {}, timer: 0 };
const PAUSE = 20; // ours: keys struck within so many milliseconds go as one change

function ask(changes = {}) {
  Object.assign(state.changes, changes);
  clearTimeout(state.timer);
  state.timer = setTimeout(post, Object.keys(changes).length ? PAUSE : 0);
  document.querySelectorAll("#head, #drawing, #decides").forEach(piece => piece.classList.add("old"));
}

async function post() {
  const number = ++state.sent;
  const changes = state.changes;
  state.changes = {};
  const asked = { text: at("draft").value, changes, part: state.part, day: state.day, finding: state.finding,
    wide: document.documentElement.clientWidth };
  let answer;
  try {
    const response = await fetch("/draft", { method: "POST", headers: { "Content-Type": "application/json" },
      body: JSON.stringify(asked) });
    if (!response.ok) throw new Error(await response.text());
    answer = await response.json();
  } catch (error) {
    // Nothing typed is lost: the changes go again with the next ones.
    state.changes = { ...changes, ...state.changes };
    at("trouble").textContent = "The program behind this page does not answer; what you typed is kept here. " + error.message;
    return;
  }
  at("draft").value = answer.text;
  if (number < state.sent || Object.keys(state.changes).length) return;
  show(answer);
}

function show(answer) {
  const held = held_focus();
  at("trouble").innerHTML = answer.trouble;
  for (const name of ["head", "drawing", "decides", "part", "working"]) {
    if (answer[name] === undefined) continue;
    at(name).innerHTML = answer[name];
    at(name).classList.remove("old");
  }
  label_flags();
  give_back(held);
  state.shown = state.sent;
  document.body.dataset.shown = String(state.shown);
}

// Where the keyboard is, so that it is there again after the piece around it was made anew.
function held_focus() {
  const on = document.activeElement;
  if (!on || on === document.body) return null;
  const where = ["data-key", "data-part", "data-finding", "data-check", "data-open"].find(name => on.hasAttribute(name));
  const choose = where ? `${on.tagName}[${where}="${CSS.escape(on.getAttribute(where))}"]`
    : on.classList.contains("surface") ? ".surface" : on.id ? "#" + CSS.escape(on.id) : null;
  const piece = on.closest("#part, #drawing, #decides");
  return choose && { choose: (piece ? "#" + piece.id + " " : "") + choose, value: on.value,
    from: on.selectionStart, to: on.selectionEnd };
}

function give_back(held) {
  const on = held && document.querySelector(held.choose);
  if (!on) return;
  on.focus({ preventScroll: true });
  if (on.tagName === "INPUT" && held.value !== undefined) {
    on.value = held.value;
    on.setSelectionRange(held.from, held.to);
  }
}

function label_flags() {
  document.querySelectorAll("#drawing .flag").forEach(flag => {
    flag.setAttribute("role", "button");
    flag.setAttribute("tabindex", "0");
    flag.setAttribute("aria-label", flag.textContent.trim().replace(/\s+/g, " "));
  });
}

function take(part) {
  state.part = part;
  ask();
}

function explain(name, place) {
  state.finding = name;
  if (place) state.part = place;
  ask();
}

document.addEventListener("click", event => {
  const on = event.target.closest("[data-part], [data-finding], [data-check], [data-open]");
  if (!on) return;
  if (on.dataset.open) ask({ [on.dataset.open]: "open" });
  else if (on.dataset.finding) explain(on.dataset.finding, on.dataset.at);
  else if (on.dataset.check) explain(on.dataset.check, place_of(on.dataset.check));
  else take(on.dataset.part);
});

function place_of(name) {
  const row = document.querySelector(`#decides [data-finding="${CSS.escape(name)}"]`);
  return row && row.dataset.at;
}

document.addEventListener("input", event => {
  const key = event.target.dataset.key;
  if (key) ask({ [key]: event.target.value });
});
document.addEventListener("submit", event => event.preventDefault());

// Keys on what is drawn: Enter and space take it in hand, arrows move the water.
document.addEventListener("keydown", event => {
  const on = event.target;
  if (on.classList && on.classList.contains("surface")) {
    const step = { ArrowUp: -1, ArrowLeft: -1, ArrowDown: 1, ArrowRight: 1 }[event.key];
    if (step) { move_day(step); event.preventDefault(); }
    if (event.key === "Home" || event.key === "Escape") { state.day = null; ask(); event.preventDefault(); }
  } else if ((event.key === "Enter" || event.key === " ") && on.closest && on.closest("svg.section [role=button]")) {
    on.dispatchEvent(new MouseEvent("click", { bubbles: true }));
    event.preventDefault();
  }
});

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
  const surface = event.target.closest && event.target.closest(".surface");
  if (!surface) return;
  dragging = true;
  surface.focus({ preventScroll: true });
  event.preventDefault();
});
document.addEventListener("pointermove", event => {
  const svg = dragging && document.querySelector("#drawing svg.section");
  if (!svg) return;
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  const near = by_height().reduce((a, b) => Math.abs(b.y - point.y) < Math.abs(a.y - point.y) ? b : a);
  if (near.day !== state.day) { state.day = near.day; ask(); }
});
for (const end of ["pointerup", "pointercancel"]) document.addEventListener(end, () => { dragging = false; });

let width = document.documentElement.clientWidth;
addEventListener("resize", () => {
  if (document.documentElement.clientWidth === width) return;
  width = document.documentElement.clientWidth;
  ask();
});
ask();
