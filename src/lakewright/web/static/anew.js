// A piece anew: only what has changed in it is put in. The rest is neither laid out nor drawn again, and keeps the keyboard.

// The nodes of some HTML, once something more has been done with them where that is asked.
export function made_of(html, dress) {
  const { content } = Object.assign(document.createElement("template"), { innerHTML: html });
  dress?.(content);
  return content;
}

// What stands in one node is made to be what stands in another, which is used up.
export function match(old, made) {
  const was = [...old.childNodes], now = [...made.childNodes], least = Math.min(was.length, now.length);
  let head = 0, tail = 0;
  while (head < least && was[head].isEqualNode(now[head])) head++;
  while (tail < least - head && was.at(-1 - tail).isEqualNode(now.at(-1 - tail))) tail++;
  const next = was[was.length - tail] ?? null;
  const before = was.slice(head, was.length - tail), after = now.slice(head, now.length - tail);
  before.forEach((node, n) => n < after.length ? change(node, after[n]) : node.remove());
  for (const node of after.slice(before.length)) old.insertBefore(node, next);
}

function change(old, made) {
  if (old.isEqualNode(made)) return;
  if (old.nodeName !== made.nodeName) return old.replaceWith(made);
  if (old.nodeType === Node.TEXT_NODE) { old.data = made.data; return; }
  // What a hand has unfolded is not folded again.
  for (const name of old.getAttributeNames()) if (!made.hasAttribute(name) && name !== "open") old.removeAttribute(name);
  for (const name of made.getAttributeNames()) {
    const value = made.getAttribute(name);
    if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  }
  match(old, made);
}

// What stands in a field as it came, whatever was typed in it since.
export function as_it_came(field) {
  const value = field.matches("select")
    ? ([...field.options].find(each => each.defaultSelected) ?? field.options[0])?.value : field.defaultValue;
  if (field.value !== value) field.value = value;
}
