// The book: a view at a time, each by one post; what is put down is signed. Nothing is reckoned here.
import { as_text, ask, at, JOB, reached, settled, too_large } from "./draft.js";
import { unfolded } from "./leaves.js";

const KEPT = "who"; // in this browser
const LARGEST = { pack: 20_000_000, sheet: 2_000_000 }; // ours: what the program behind the page takes, and a little less [bytes]
const PATIENCE = 120_000; // ours: findings of two revisions take a second each; a round, one a job [ms]
let under_way = null;

const is_book = on => on?.closest?.("#leaf-book");
const who = () => at("book-who").value;
const told = (id, words) => { at(id).textContent = words; };

unfolded.book = () => { at("book-who").value = localStorage.getItem(KEPT) ?? ""; };

// One thing asked at a time: whoever presses twice asks once.
async function go(given, where = "/book", show = true) {
  if (under_way) return null;
  under_way = given;
  const view = at("book-view");
  view.setAttribute("aria-busy", "true");
  view.classList.add("old");
  let said = null;
  try {
    await settled();
    const response = await reached(where, { job: JOB, who: who(), ...given }, AbortSignal.timeout(PATIENCE));
    said = await response.json();
  } catch (error) {
    at("book-trouble").textContent = error.refused ? `Refused: ${error.message}`
      : "The program behind this page does not answer. Nothing you wrote is gone; ask again.";
  }
  under_way = null;
  view.removeAttribute("aria-busy");
  view.classList.remove("old");
  if (said && show) lay(said, given);
  return said;
}

function lay(said, given) {
  if (said.address) return location.assign(said.address);
  told("book-said", said.said);
  at("book-trouble").innerHTML = said.trouble;
  at("book-draft").innerHTML = said.draft;
  // What was typed stays where it could not be done.
  if (said.html && !(said.trouble && given.do)) {
    at("book-view").innerHTML = said.html;
    for (const each of document.querySelectorAll("#leaf-book [data-see]"))
      each.setAttribute("aria-pressed", String(each.dataset.see === (given.see === "job" || given.see === "between" ? "jobs" : given.see)));
    at("book-view").focus({ preventScroll: true });
  }
  if (said.redraw) ask();
}

document.addEventListener("click", event => {
  const on = event.target.closest("#leaf-book [data-book], #leaf-book [data-price-stop]");
  if (!on || on.matches("form")) return;
  if ("priceStop" in on.dataset) on.dataset.stopped = "yes";
  else go(JSON.parse(on.dataset.book));
});

document.addEventListener("submit", event => {
  const form = event.target;
  if (!is_book(form)) return;
  event.preventDefault();
  if (form.dataset.price) return price(form);
  const fields = Object.fromEntries([...new FormData(form)].filter(([, value]) => typeof value === "string"));
  const whose = Object.fromEntries([...form.querySelectorAll("[data-whose]:checked")].map(each => [each.dataset.whose, each.value]));
  go({ ...JSON.parse(form.dataset.book), ...fields, whose });
});

document.addEventListener("input", event => {
  if (event.target.id === "book-who") localStorage.setItem(KEPT, who());
});

// Before the rest of the page takes a chosen file for a job or a sheet of parts.
document.addEventListener("change", event => {
  const on = event.target;
  if (!is_book(on) || on.type !== "file") return;
  event.stopPropagation();
  if (on.id === "book-pack" && on.files[0]) take_in(on.files[0]);
}, true);

async function take_in(file) {
  if (file.size > LARGEST.pack) return told("book-trouble", too_large(file, LARGEST.pack));
  told("book-said", `Reading ${file.name}.`);
  const said = await go({ do: "import", see: "copies", content: await as_text(file) }, "/book/import");
  if (!said || said.trouble) told("book-said", "");
}

// A job after the other, so that it shows how far it is, and can be ended.
async function price(form) {
  const names = JSON.parse(form.dataset.price), sheet = at("book-sheet").files[0], stop = form.querySelector("[data-price-stop]");
  if (sheet && sheet.size > LARGEST.sheet) return told("book-trouble", too_large(sheet, LARGEST.sheet));
  const more = sheet ? { sheet: sheet.name, content: await as_text(sheet) } : {}, put = form.elements.put.checked;
  const body = at("book-priced").tBodies[0], button = form.querySelector("button:not([type])");
  told("book-trouble", "");
  body.replaceChildren();
  at("book-priced").hidden = button.hidden = false;
  button.disabled = true;
  stop.hidden = false;
  delete stop.dataset.stopped;
  let done = 0;
  for (const name of names) {
    told("book-price-progress", `${done} of ${names.length}: ${name}`);
    const said = await go({ do: "price", see: "prices", name, put, ...more }, "/book/price", false);
    if (!said || said.trouble) {
      if (said) at("book-trouble").innerHTML = said.trouble;
      break;
    }
    body.insertAdjacentHTML("beforeend", said.html);
    done += 1;
    if (stop.dataset.stopped || !body.isConnected) break;
  }
  told("book-price-progress", `${done} of ${names.length} priced${done < names.length ? "; it was ended there" : ""}. ${put ? "Each price is put down." : "No price is put down."}`);
  button.disabled = false;
  stop.hidden = true;
}
