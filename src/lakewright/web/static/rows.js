// Lists of the job, row by row: added to, put in order, taken from.
import { ask, at, step } from "./draft.js";
import { load } from "./leaves.js";

export async function row(on) {
  const { row: key, way } = on.dataset, leaf = at("leaf-rows"), list = at("rows-list").value;
  if (way === "out") ask({ [key]: "" });
  else if (way !== "add") step(`${way} ${key}`);
  await load(leaf, { list, add: way === "add" });
  const rows = [...leaf.querySelectorAll("[data-row-of]")];
  if (way === "add") return rows.at(-1)?.querySelector("[data-key]")?.focus();
  // The keyboard goes with the row, or to the one that has come into its place.
  const number = Number(key.split(".").at(-1)) + ({ earlier: -1, later: 1 }[way] ?? 0);
  const now = rows[Math.min(number, rows.length) - 1];
  (now?.querySelector(`[data-way=${way}]:not(:disabled)`) ?? now?.querySelector("button, [data-key]"))?.focus();
}

export async function choose_list() {
  await load(at("leaf-rows"));
  at("rows-list").focus();
}
