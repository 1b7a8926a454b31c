// What else would hold: searched for on asking, taken into the draft, and pale once the draft has changed.
import { ask, at, came, laid, reached, read_lines, settled, shown, state } from "./draft.js";

let under_way = null, searched = null; // the search, and the draft that was searched last
let taking = 0, taken = ""; // the question that took a design, and the draft it made

came.push((answer, asked) => { if (taking && asked >= taking) { taken = answer.text; taking = 0; } });
laid.push(age);

export async function search() {
  if (under_way) return under_way.abort();
  const control = under_way = new AbortController();
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
      searched = text;
      at("progress").textContent = "";
    });
  } catch (error) {
    at("progress").textContent = control.signal.aborted ? "Stopped."
      : error.refused ? error.message : "The program behind this page does not answer; ask again.";
  }
  under_way = null;
  at("search").textContent = "What else would hold?";
  at("choices").classList.remove("old");
  age();
}

// All that a design says goes into the draft at once, and nothing to the disk.
export function take_design(on) {
  ask(JSON.parse(on.dataset.take));
  taking = state.asked;
}

// The designs that were found, by their names, with what each would write.
export const designs = () => [...document.querySelectorAll("#choices [data-design]")]
  .map(each => ({ name: each.dataset.design, writes: JSON.parse(each.dataset.writes) }));

// Choices of a draft that is no longer there are pale, and say so.
function age() {
  if (under_way || searched === null) return;
  const now = at("draft").value, was_taken = now === taken, old = now !== searched && !was_taken;
  at("choices").classList.toggle("old", old);
  for (const button of document.querySelectorAll("#choices [data-take], #choices [data-lay]")) button.disabled = old;
  at("progress").textContent = old ? "The draft has changed since this was found: ask again."
    : was_taken && now !== searched ? "Taken into the draft. The file on the disk is as it was." : "";
}
