// The rack: fractions by a tap, cells pasted into a table, and a word when the file changed elsewhere.

const say = words => document.body.dispatchEvent(new CustomEvent("desk:say", {detail: {words}}));

// --- Fractions ---------------------------------------------------------------------------------------

let field = null; // the length field touched last

// The buttons stand under the field a finger is in; who has keys types the fraction.
document.addEventListener("focusin", event => offer(event.target));
document.addEventListener("htmx:after:settle", () => offer(document.activeElement));

function offer(touched) {
  if (!touched?.matches?.("input[data-length]")) return;
  field = touched;
  const buttons = field.closest("form, section")?.querySelector(".fractions");
  if (!buttons || !matchMedia("(any-pointer: coarse)").matches) return;
  (field.closest(".warp .field") ?? field.closest(".threes") ?? field).after(buttons);
  buttons.hidden = false;
}

document.addEventListener("pointerdown", event => {
  if (event.target.closest?.(".fractions button")) event.preventDefault(); // the field keeps the keypad
});

document.addEventListener("click", event => {
  const button = event.target.closest?.(".fractions button");
  if (!button) return;
  field ??= document.querySelector("input[data-length]");
  if (!field) return;
  field.value = button.dataset.fraction ? withFraction(field.value, button.dataset.fraction) : withSixteenth(field.value, Number(button.dataset.sixteenth));
  field.dispatchEvent(new Event("input", {bubbles: true}));
  say(`${labelOf(field)} ${field.value}`);
  waiting.add(field);
});

// A field changed by a button says so when it is left, as one that was typed in does.
const waiting = new Set();
document.addEventListener("focusout", event => {
  if (waiting.delete(event.target) && event.target.value !== event.target.dataset.was) {
    event.target.dispatchEvent(new Event("change", {bubbles: true}));
  }
});
document.addEventListener("change", event => waiting.delete(event.target));

function withFraction(words, fraction) {
  const whole = /^\s*(\d+)/.exec(words.replace(/\d+\s*\/\s*\d+/, ""));
  return whole && Number(whole[1]) ? `${Number(whole[1])} ${fraction}` : fraction;
}

function withSixteenth(words, by) {
  const found = /^\s*(?:(\d+(?:\.\d+)?))?\s*(?:(\d+)\s*\/\s*(\d+))?\s*$/.exec(words);
  if (!found) return words;
  const value = Number(found[1] ?? 0) + (found[2] ? Number(found[2]) / Number(found[3]) : 0);
  return inSixteenths(Math.max(0, Math.round(value * 16) + by));
}

function inSixteenths(count) {
  const whole = Math.floor(count / 16);
  let over = count % 16, under = 16;
  if (!over) return String(whole);
  while (over % 2 === 0) { over /= 2; under /= 2; }
  return whole ? `${whole} ${over}/${under}` : `${over}/${under}`;
}

const labelOf = input => input.labels?.[0]?.textContent ?? "";

// --- The next free mark of the stack chosen ----------------------------------------------------------

function showNext() {
  const chosen = document.querySelector("#stack")?.selectedOptions?.[0];
  const next = chosen?.dataset.next ?? "";
  const mark = document.querySelector("[data-next-mark]"), name = document.querySelector("[data-next-name]");
  if (name) name.placeholder = next;
  if (mark) mark.textContent = name?.value || next ? `as ${name.value || next}` : "";
}

document.addEventListener("change", event => { if (event.target.id === "stack") showNext(); });
document.addEventListener("input", event => { if (event.target.matches?.("[data-next-name]")) showNext(); });
document.addEventListener("htmx:after:settle", showNext);
showNext();

// --- What the desk took is cleared for the next ------------------------------------------------------

document.body.addEventListener("desk:taken", event => {
  for (const name of event.detail.fields ?? []) {
    for (const input of document.querySelectorAll(`[data-keep="${CSS.escape(name)}"]:not([data-was])`)) {
      input.value = input.defaultValue;
      input.classList.remove("typed");
    }
  }
  const adding = event.target.closest?.("form.addboard");
  if (adding) beginAgain(adding);
});

function beginAgain(adding) {
  adding.reset(); // the photo and the choices, too
  adding.scrollIntoView({block: "start"});
  adding.querySelector("#length").focus({preventScroll: true});
}

// --- A board that was refused: what is wrong stands at its field, and the page goes there --------------

document.addEventListener("htmx:after:settle", () => {
  const list = document.querySelector("#amiss ul:not([data-seen])");
  if (list) tellFields(list);
});

function tellFields(list) {
  list.dataset.seen = "yes";
  for (const old of document.querySelectorAll("#add .field .amiss-words")) old.remove();
  document.querySelectorAll("#add .amiss").forEach(mended);
  const [first] = [...list.children].map(tellField).filter(Boolean);
  first?.closest("details")?.setAttribute("open", "");
  first?.focus({preventScroll: true});
  (first ?? list).scrollIntoView({block: "center"});
}

function tellField(line) {
  const input = document.querySelector(`#add [name="${CSS.escape(line.dataset.amiss)}"]`);
  if (!input) return null;
  const told = Object.assign(document.createElement("span"), {className: "amiss-words", id: `told-${input.id}`, textContent: `▲ ${line.textContent}`});
  line.prepend(`${labelOf(input)}: `);
  input.after(told);
  input.classList.add("amiss");
  input.setAttribute("aria-invalid", "true");
  input.addEventListener("input", () => { told.remove(); mended(input); }, {once: true});
  return input;
}

function mended(input) {
  input.classList.remove("amiss");
  input.removeAttribute("aria-invalid");
}

// Where the form that was sent is gone with the answer, the answer itself says what was taken.
document.addEventListener("htmx:after:settle", () => {
  for (const each of document.querySelectorAll("[data-taken]")) {
    const fields = [each.dataset.taken];
    delete each.dataset.taken;
    document.body.dispatchEvent(new CustomEvent("desk:taken", {detail: {fields}}));
  }
});

// --- Pasting into a cell -----------------------------------------------------------------------------
// Rows from this one down, columns from this one on; the lines are written out with their names and heads
// into the field for pasted cells, and looked over there.

document.addEventListener("paste", event => {
  const cell = event.target.closest?.(".racktable input[data-was]");
  const words = event.clipboardData?.getData("text/plain") ?? "";
  if (!cell || !/[\t\n]/.test(words.trim())) return;
  event.preventDefault();
  const area = document.getElementById("pasted");
  area.value = asLines(cell, words.replace(/\r/g, "").replace(/\n+$/, "").split("\n").map(line => line.split("\t")));
  area.dispatchEvent(new Event("input", {bubbles: true}));
  area.closest("details").open = true;
  area.closest("form").requestSubmit();
  area.closest("details").scrollIntoView({block: "start"});
});

function asLines(cell, grid) {
  const table = cell.closest("table");
  const heads = JSON.parse(table.dataset.heads);
  const plain = words => words.trim().toLowerCase();
  if (grid[0].filter(words => heads.some(head => plain(head) === plain(words))).length * 2 > grid[0].length) {
    return grid.map(line => line.join("\t")).join("\n");
  }
  const row = cell.closest("tr"), from = [...row.cells].indexOf(cell.closest("th, td"));
  const rows = [...table.tBodies[0].rows];
  const start = rows.indexOf(row);
  const lines = grid.map((cells, i) => before(rows[start + i], from).concat(cells));
  return [heads.slice(0, from + Math.max(...grid.map(line => line.length))), ...lines].map(line => line.join("\t")).join("\n");
}

// The cells of a row before the one pasted into: its name tells which line is meant.
const before = (row, count) => Array.from({length: count}, (_, i) => row?.cells[i]?.querySelector("input[data-was]")?.dataset.was ?? "");

document.addEventListener("click", event => {
  const id = event.target.closest?.("[data-select]")?.dataset.select;
  if (id) { document.getElementById(id).focus(); document.getElementById(id).select(); }
  if (event.target.closest?.("[data-reload]")) location.reload();
});

// --- The file changed elsewhere ----------------------------------------------------------------------

let asking = 0;

async function compare() {
  const mine = ++asking;
  await new Promise(after => setTimeout(after, 400)); // our own answer comes first
  const shown = document.getElementById("bar")?.dataset.digest;
  if (shown === undefined || mine !== asking) return;
  const answer = await fetch("/rack/stamp").catch(() => null);
  if (!answer?.ok) return;
  document.getElementById("elsewhere").hidden = await answer.text() === document.getElementById("bar").dataset.digest;
}

for (const word of ["news:shop", "news:files", "desk:back"]) document.body.addEventListener(word, compare);

// --- The file as text: go to where something is amiss -------------------------------------------------

const text = document.querySelector("textarea[data-line]");
if (text) {
  const at = text.value.split("\n").slice(0, text.dataset.line - 1).reduce((sum, line) => sum + line.length + 1, 0) + Number(text.dataset.character) - 1;
  text.focus();
  text.setSelectionRange(at, at + Number(text.dataset.span));
  text.scrollTop = Math.max(0, (text.dataset.line - 6) * parseFloat(getComputedStyle(text).lineHeight));
}

// --- On a narrow screen the open section may stand out of sight ---------------------------------------

const section = document.querySelector(".sections [aria-current]");
section?.closest("ul").scrollTo({left: section.offsetLeft - section.offsetWidth});
