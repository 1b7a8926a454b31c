// The page: what a hand or a key does on it, and what that asks for.
import { ask, state, step } from "./draft.js";
import { explain, leave_open, place_of, say, take, tick, type } from "./hand.js";
import { every_day, move_day } from "./water.js";
import { search, take_design } from "./search.js";
import { again, choose_side, lay_beside, stop, unfold } from "./leaves.js";
import { choose_list, row } from "./rows.js";
import { answer_so, answered, begin, take_file } from "./begin.js";
import "./book.js";

const PRESSED = {
  row,
  rows: on => unfold("rows", { list: on.dataset.rows }),
  unfold: on => unfold(on.dataset.unfold),
  again: on => again(on.dataset.again),
  stop: on => stop(on.dataset.stop),
  lay: on => lay_beside(on.dataset.lay),
  visit: on => ask({ [`readings.${on.dataset.visit}.date`]: on.dataset.date }),
  begin,
  answers: answer_so,
  open: leave_open,
  step: on => step(on.dataset.step),
  take: take_design,
  finding: on => explain(on.dataset.finding, on.dataset.at, true),
  check: on => explain(on.dataset.check, place_of(on.dataset.check), false),
  part: (on, event) => take(on.dataset.part, event.detail === 0, Boolean(on.closest("#part"))),
  day: every_day,
};
const PRESSABLE = [...Object.keys(PRESSED).map(name => `[data-${name}]`), "#search"].join(", ");

document.addEventListener("click", event => {
  const on = event.target.closest(PRESSABLE);
  if (!on || on.matches(":disabled")) return;
  if (on.id === "search") return search();
  PRESSED[Object.keys(PRESSED).find(name => name in on.dataset)](on, event);
});
document.addEventListener("input", event => {
  const on = event.target, { key, standing, list, side, answer } = on.dataset;
  if (key) type(on);
  else if (standing) say(on);
  else if (list) tick(on);
  else if (side) choose_side();
  else if (on.id === "rows-list") choose_list();
  else if (answer) answered();
});
document.addEventListener("change", event => {
  if (event.target.matches("input[type=file]")) take_file(event.target.files[0]);
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
    const way = { ArrowUp: -1, ArrowLeft: -1, ArrowDown: 1, ArrowRight: 1 }[event.key];
    if (!way && event.key !== "Escape") return;
    event.preventDefault();
    if (way) move_day(way);
    else every_day();
  } else if ((event.key === "Enter" || event.key === " ") && on.matches("svg.section [role=button]")) {
    event.preventDefault();
    on.dispatchEvent(new MouseEvent("click", { bubbles: true }));
  } else if (event.key === "Escape" && on.closest("#part")) {
    document.querySelector(`#drawing .grip[data-part="${state.part}"]`)?.focus();
  }
});

let width = document.documentElement.clientWidth;
addEventListener("resize", () => {
  if (document.documentElement.clientWidth === width) return;
  width = document.documentElement.clientWidth;
  ask();
});
// What is in the draft is kept. Only what has not reached it yet would be lost.
addEventListener("beforeunload", event => { if (Object.keys(state.changes).length) event.preventDefault(); });
ask();
