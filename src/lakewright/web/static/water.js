// The water: dragged, or moved by keys, from day to day.
import { ask, at, state } from "./draft.js";

// The days from the highest water to the lowest.
function by_height() {
  const levels = JSON.parse(document.querySelector(".surface").dataset.levels);
  return levels.map((y, day) => ({ y, day })).sort((a, b) => a.y - b.y || a.day - b.day);
}

export function every_day() {
  state.day = null;
  ask();
}

export function move_day(step) {
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
