// The draft: what is typed is posted, and the pieces that come back are shown. Nothing is reckoned here.
import { made_of, match } from "./anew.js";

const AGAIN = 1500; // ours: so long after no answer the same is sent again [ms]
const PALE = 150; // ours: what is answered sooner is not seen to grow pale meanwhile, nor is the page made to draw that [ms]
const PATIENCE = 20000; // ours: an answer that takes longer is none [ms]
const FOLDS = ["assumed", "waiting", "rest"];
const PIECES = ["head", "keep", "drawing", "decides", "foot"];
export const JOB = document.body.dataset.job;
const TABS = new BroadcastChannel(`draft ${JOB}`); // of this same job: what one changes, the others show

export const at = id => document.getElementById(id);
export const state = {
  part: "inlet", day: null, finding: "",
  changes: {}, standings: {}, // typed, and not yet in the draft; on whose word
  between: "", // the field that is to lie between two values
  before: {}, // what stood in a field until it was left open
  steps: [], // back, forth, anew or to the file: asked for, and not yet taken
  going: "", goes_on: false, // the field that is being typed in; whether the changes go on with the last ones
  number: 0, // of the draft's step, as it came last
  asked: 0, flying: false, timer: 0, paling: 0, // one question at a time is on its way
  pieces: {}, // as they came last
  focus: "", // where the keyboard is to go with the next answer
};

// What else is done with each answer, when it has come and once it is shown; with a piece of it before that is shown.
export const came = [], laid = [], dress = {};

export function ask(changes = {}, standings = {}, goes_on = false) {
  state.goes_on = goes_on && (state.goes_on || !Object.keys(state.changes).length);
  Object.assign(state.changes, changes);
  Object.assign(state.standings, standings);
  document.body.dataset.asked = String(++state.asked);
  state.paling ||= setTimeout(() => { for (const name of PIECES) at(name).classList.add("old"); }, PALE);
  // No pause: what is typed while an answer is under way goes together with the next question.
  later(0);
}

export function step(way) {
  state.going = "";
  state.steps.push(way);
  ask();
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
  for (const tell of came) tell(answer, asked);
  if (answer.number !== state.number && state.number) TABS.postMessage(answer.number);
  state.number = answer.number;
  show(answer, asked, changes);
  if (state.asked > asked || state.steps.length) later(0);
}

// Once all that was typed is in the draft.
export async function settled() {
  while (state.flying || state.steps.length || Object.keys(state.changes).length || !state.number) await new Promise(done => setTimeout(done, 20));
}

export const shown = () => ({ job: JOB, part: state.part, day: state.day, finding: state.finding,
  between: state.between, wide: document.documentElement.clientWidth, rest: Boolean(at("rest")?.open) });

// What holds or is not asked comes once it is unfolded: nobody reads ninety rows at every key.
document.addEventListener("toggle", ({ target }) => {
  if (target.id === "rest" && target.open && !target.querySelector("li")) ask();
}, true);

// Another tab has changed the draft, or this one was away.
TABS.addEventListener("message", ({ data }) => { if (data !== state.number) ask(); });
document.addEventListener("visibilitychange", () => { if (!document.hidden) ask(); });

export async function reached(where, what, signal) {
  const response = await fetch(where, { method: "POST", headers: { "Content-Type": "application/json" },
    body: JSON.stringify(what), signal });
  if (!response.ok) throw Object.assign(new Error(await response.text()), { refused: true });
  return response;
}

export const posted = async (where, what) => (await reached(where, what, AbortSignal.timeout(PATIENCE))).json();

export const too_large = (file, most) =>
  `${file.name} has ${file.size.toLocaleString("en")} bytes; ${most.toLocaleString("en")} at most are read here.`;

// A file as text that can be posted.
export async function as_text(file) {
  const bytes = new Uint8Array(await file.arrayBuffer());
  let content = "";
  for (let n = 0; n < bytes.length; n += 0x8000) content += String.fromCharCode(...bytes.subarray(n, n + 0x8000));
  return btoa(content);
}

export async function read_lines(response, tell) {
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

function show(answer, asked, changes) {
  const held = held_focus(), aside = at("drawing").scrollLeft, first = !at("drawing").firstChild;
  const unfolded = FOLDS.filter(name => at(name)?.open);
  at("trouble").innerHTML = answer.trouble;
  for (const name of PIECES) {
    if (answer[name] === undefined) continue;
    if (state.pieces[name] !== answer[name]) match(at(name), made_of(state.pieces[name] = answer[name], dress[name]));
  }
  if (state.asked === asked) {
    clearTimeout(state.paling);
    state.paling = 0;
    // What did not come stands as it was before.
    for (const name of PIECES) at(name).classList.toggle("old", answer[name] === undefined);
  }
  for (const name of unfolded) if (at(name)) at(name).open = true;
  at("drawing").scrollLeft = aside;
  for (const lay of laid) lay(answer, asked, changes, first);
  if (state.focus && state.asked === asked) {
    document.querySelector(state.focus)?.focus();
    state.focus = "";
  } else {
    held && document.querySelector(held)?.focus({ preventScroll: true });
  }
  document.body.dataset.shown = String(asked);
}

// Where the keyboard is, so that it is there again after the piece around it was made anew.
function held_focus() {
  const on = document.activeElement;
  const piece = on?.closest("#head, #keep, #part, #drawing, #decides");
  if (!piece || on.dataset.key) return "";
  const name = ["data-part", "data-finding", "data-check", "data-open", "data-standing", "data-step", "data-day",
    "data-unfold"].find(each => on.hasAttribute(each));
  if (name) return `#${piece.id} [${name}="${CSS.escape(on.getAttribute(name))}"]`;
  return on.classList.contains("surface") ? "#drawing .surface" : on.matches("summary") ? `#${on.parentElement.id} summary` : "";
}
