// Another job: ten questions, or a file that is dropped or chosen.
import { as_text, at, JOB, posted, too_large } from "./draft.js";
import { unfold, unfolded } from "./leaves.js";

const KEPT = "answers"; // in this browser, until the job is begun
const PAUSE = 350; // ours: so long after a letter the answers are looked at [ms]
const LARGEST = { job: 150_000, sheet: 2_000_000 }; // ours: what the program behind the page takes, and a little less [bytes]
let timer = 0, asked = 0;

const fields = () => [...document.querySelectorAll("#questions [data-answer]")];
const answers = () => Object.fromEntries(fields().map(each => [each.dataset.answer, each.value]).filter(pair => pair[1].trim()));

unfolded.begin = () => {
  const kept = JSON.parse(localStorage.getItem(KEPT) ?? "{}");
  for (const each of fields()) each.value = kept[each.dataset.answer] ?? "";
  later(0);
};

export function answered() {
  localStorage.setItem(KEPT, JSON.stringify(answers()));
  later(PAUSE);
}

function later(pause, begin = false) {
  document.body.dataset.answering = String(++asked);
  at("verdict").classList.add("old");
  clearTimeout(timer);
  timer = setTimeout(look, pause, begin);
}

async function look(begin) {
  const number = asked;
  let said;
  try {
    said = await posted("/new", { job: JOB, answers: answers(), begin });
  } catch (error) {
    at("begun").textContent = error.refused ? error.message
      : "The program behind this page does not answer. What you answered is kept here; ask again.";
    return;
  }
  if (number !== asked) return;
  at("begun").textContent = "";
  if (said.address) {
    localStorage.removeItem(KEPT);
    location.assign(said.address);
    return;
  }
  for (const field of document.querySelectorAll("#questions [data-asked]")) {
    const { asked: key } = field.dataset, wrong = said.wrong[key] ?? "";
    field.hidden = !said.asked.includes(key);
    field.querySelector(".wrong").textContent = wrong;
    field.querySelector("[data-answer]").setAttribute("aria-invalid", String(Boolean(wrong)));
  }
  const html = said.verdict;
  if (at("verdict").dataset.html !== html) at("verdict").innerHTML = at("verdict").dataset.html = html;
  at("verdict").classList.remove("old");
  if (begin) at("begun").textContent = "An answer cannot be used yet: it says so beneath it.";
  document.body.dataset.answered = String(number);
}

// A way out that is another answer is put in its field.
export function answer_so(on) {
  const field = fields().find(each => each.dataset.answer === on.dataset.answers);
  field.value = on.dataset.value;
  answered();
  field.focus();
}

export const begin = () => later(0, true);

// A file, dropped anywhere or chosen: a job, or a sheet of parts.
export async function take_file(file) {
  if (!file) return;
  if (/\.(csv|xlsx)$/i.test(file.name)) return take_sheet(file);
  await unfold("begin");
  if (file.size > LARGEST.job) return refuse(file, LARGEST.job);
  at("dropped").textContent = `Reading ${file.name}.`;
  try {
    const said = await posted("/begin", { job: JOB, name: file.name, text: await file.text() });
    at("dropped").innerHTML = said.trouble;
    if (said.address) location.assign(said.address);
  } catch (error) {
    at("dropped").textContent = error.refused ? error.message : "The program behind this page does not answer; drop it again.";
  }
}

function refuse(file, most) {
  at("dropped").textContent = too_large(file, most);
}

async function take_sheet(file) {
  if (file.size > LARGEST.sheet) {
    await unfold("begin");
    return refuse(file, LARGEST.sheet);
  }
  await unfold("own", { name: file.name, content: await as_text(file) });
}

const has_files = event => event.dataTransfer?.types.includes("Files");
for (const kind of ["dragenter", "dragover"]) document.addEventListener(kind, event => {
  if (!has_files(event)) return;
  event.preventDefault();
  document.body.classList.add("dropping");
});
document.addEventListener("dragleave", event => { if (!event.relatedTarget) document.body.classList.remove("dropping"); });
document.addEventListener("drop", event => {
  document.body.classList.remove("dropping");
  if (!has_files(event)) return;
  event.preventDefault();
  take_file(event.dataTransfer.files[0]);
});
