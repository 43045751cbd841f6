// What every page shares: the line to the desk, edits that wait while it is away, and typed words that are kept.

const line = document.getElementById("line");
const page = document.body.dataset.page;

export function say(words) {
  if (!line || line.textContent === words) return;
  line.textContent = words;
  if (words) uncover(document.activeElement);
}

// The field one is in comes out from behind what is said at the foot of the page.
function uncover(field) {
  if (!field?.matches("input, select")) return;
  const { top, bottom } = field.getBoundingClientRect();
  if (top < innerHeight && bottom > line.getBoundingClientRect().top) field.scrollIntoView({ block: "nearest" });
}

// --- The line: a WebSocket that tells what changed --------------------------------------------------

const AWAY = "The desk is away. What you type is kept here and sent when it is back.";
const NOT_SENT = "The desk is away, so that was not sent. Send it again when it is back; what you typed is kept.";
const SENT_AWAY = 1008;
const waiting = []; // requests that found nobody: {method, address, body, source, name}
let away = false;
let wait = 500;

function listen() {
  const socket = new WebSocket(`${location.protocol === "https:" ? "wss" : "ws"}://${location.host}/news`);
  socket.addEventListener("open", back);
  socket.addEventListener("message", event => heard(event.data));
  socket.addEventListener("close", event => {
    if (!away) say(event.code === SENT_AWAY ? "This device has to come in again. Open the desk in another tab; what you typed here stays." : AWAY);
    away = true;
    setTimeout(listen, wait);
    wait = Math.min(wait * 1.6, 5000);
  });
}

function back() {
  wait = 500;
  // What a page waits for may have come before its line was open.
  if (!away && document.querySelector(".is-waiting")) document.body.dispatchEvent(new CustomEvent("desk:back"));
  if (!away) return;
  away = false;
  say("The desk is back.");
  document.body.dispatchEvent(new CustomEvent("desk:back"));
  sendWaiting();
}

// "piece:sewing-desk" becomes the events `news:piece` (for this slug only) on the body; pages listen with hx-trigger.
function heard(word) {
  const [topic, slug] = word.split(/:(.*)/s);
  if (slug && document.body.dataset.slug && slug !== document.body.dataset.slug) return;
  document.body.dispatchEvent(new CustomEvent(`news:${topic}`, {detail: {slug}}));
}

// --- Requests that found nobody ---------------------------------------------------------------------

const onTheWay = new Map(); // field -> the words that were sent from it
let again = null; // the body of a request that is sent again

document.addEventListener("htmx:config:request", event => {
  if (!again) return;
  event.detail.ctx.request.body = new URLSearchParams(again);
  again = null;
});

// A request waits for the one before it from the same form; the words it counts on are those of the page by then.
document.addEventListener("htmx:before:request", event => {
  const { sourceElement: form, request, resent } = event.detail.ctx;
  const field = form.matches?.("form[data-fields]") && form.querySelector("[data-keep]");
  const was = form.matches?.("form") && form.elements.namedItem("was");
  if (!(request.body instanceof URLSearchParams)) return;
  if (was && !resent) request.body.set("was", (field ? typing.get(field.dataset.keep)?.was : undefined) ?? was.value);
  if (field) onTheWay.set(field.dataset.keep, request.body.get(field.name));
});

document.addEventListener("htmx:error", event => {
  const ctx = event.detail?.ctx;
  const method = ctx?.request?.method?.toUpperCase();
  if (!ctx || ctx.response || !method || method === "GET") return;
  if (ctx.request.body instanceof FormData) return say(NOT_SENT); // a photo is not kept here
  waiting.push({ method, address: ctx.request.action, body: `${ctx.request.body}`, source: ctx.sourceElement });
  say(AWAY);
  if (!away) setTimeout(sendWaiting, 2000);
});

document.addEventListener("htmx:finally:request", event => {
  const { sourceElement: form, response } = event.detail.ctx;
  const name = response && form.querySelector?.("[data-keep]")?.dataset.keep;
  if (name) onTheWay.delete(name);
});

async function sendWaiting() {
  for (let left = waiting.length; left && !away; left -= 1) {
    const { method, address, body, source } = waiting.shift();
    again = body;
    await window.htmx.ajax(method, address, { source: source.isConnected ? source : document.body, swap: "none", resent: true });
  }
}

// --- Typed words are kept ---------------------------------------------------------------------------
// A field with data-keep="name" is kept as it is typed: in this tab and this browser at once, on the desk after
// a moment. `was`: the words of the file when the typing began.

const shelf = `typed:${location.pathname}:`;
const typing = new Map(); // field -> {text, at, was}
const met = new Set(); // fields this tab has looked up already: other tabs go on typing in theirs
const timers = new Map();

function keep(field) {
  const name = field.dataset.keep;
  if (field.value === field.dataset.was) {
    forget(name);
    later(name, { gone: "yes" });
    return;
  }
  const was = typing.get(name)?.was ?? field.form?.elements.namedItem("was")?.value;
  const kept = { text: field.value, at: Date.now(), was };
  typing.set(name, kept);
  localStorage.setItem(shelf + name, JSON.stringify(kept));
  later(name, { text: kept.text, at: kept.at });
}

function later(name, kept) {
  clearTimeout(timers.get(name));
  timers.set(name, setTimeout(hand, 600, name, kept));
}

function hand(name, kept) {
  const body = new URLSearchParams({ page: location.pathname, field: name, ...kept });
  fetch("/drafts", { method: "POST", body }).catch(() => {});
}

function forget(name) {
  clearTimeout(timers.get(name));
  typing.delete(name);
  localStorage.removeItem(shelf + name);
}

/** The desk has the words that were sent; what was typed since stays. */
function taken(name) {
  const kept = typing.get(name);
  const sent = onTheWay.get(name);
  if (kept && sent !== undefined && sent !== kept.text) typing.set(name, { ...kept, was: undefined });
  else forget(name);
}

function letGo(field) {
  forget(field.dataset.keep);
  hand(field.dataset.keep, { gone: "yes" });
  settle(field);
}

function restore(root) {
  for (const field of root.querySelectorAll?.("[data-keep]") ?? []) {
    const name = field.dataset.keep;
    if (!met.has(name)) lookUp(field);
    met.add(name);
    const kept = typing.get(name);
    if (!kept || field === document.activeElement || onTheWay.has(name)) continue;
    if (kept.text === field.dataset.was) forget(name);
    else bringBack(field, kept);
  }
}

/** What was typed here before, or on another device. */
function lookUp(field) {
  const name = field.dataset.keep;
  const here = JSON.parse(localStorage.getItem(shelf + name) ?? "null");
  const there = field.dataset.draft === undefined ? null : { text: field.dataset.draft, at: Number(field.dataset.draftAt) };
  const [kept] = [here, there].filter(Boolean).sort((a, b) => b.at - a.at);
  if (kept && !typing.has(name) && kept.text !== (field.dataset.was ?? field.defaultValue)) typing.set(name, kept);
}

function bringBack(field, kept) {
  field.classList.add("typed");
  if (field.value !== kept.text) {
    field.value = kept.text;
    field.dispatchEvent(new CustomEvent("desk:restored", { bubbles: true }));
  }
  const spot = document.getElementById(`amiss-${field.dataset.keep}`);
  if (!spot || spot.firstElementChild || !field.form?.matches("[data-fields]")) return;
  const send = button("Send it", () => field.dispatchEvent(new Event("change", { bubbles: true })));
  const go = button("Let it go", () => letGo(field));
  spot.replaceChildren(`Typed and not sent. ${field.dataset.was || "Nothing"} stands in the file. `, send, " ", go);
}

function button(words, act) {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = words;
  made.addEventListener("click", act);
  return made;
}

// A field that was changed by hand keeps that in the browser's mind; a new answer from the desk comes first.
function freshen() {
  for (const field of document.querySelectorAll("input[data-was]")) {
    const name = field.dataset.keep;
    if (!typing.has(name) && !onTheWay.has(name)) settle(field);
  }
  for (const text of document.querySelectorAll("textarea.typed")) {
    if (!typing.has(text.dataset.keep)) text.classList.remove("typed");
  }
  for (const list of document.querySelectorAll("form[data-fields] select[data-was]")) {
    for (const option of list.options) option.selected = option.defaultSelected;
  }
}

function settle(field) {
  const words = field.getAttribute("value") ?? "";
  if (field.value !== words) field.value = words;
  field.classList.remove("typed", "amiss");
  field.removeAttribute("aria-invalid");
  document.getElementById(`amiss-${field.dataset.keep}`)?.replaceChildren();
}

document.addEventListener("input", event => {
  if (event.target.matches?.("[data-keep]")) keep(event.target);
});
document.addEventListener("htmx:after:settle", () => {
  freshen();
  restore(document);
});
// An answer that took the words says so: HX-Trigger: {"desk:taken": {"fields": ["name"]}}
document.body.addEventListener("desk:taken", event => {
  (event.detail.fields ?? []).forEach(taken);
  freshen();
});
document.body.addEventListener("desk:amiss", event => {
  const field = document.querySelector(`[data-keep="${CSS.escape(event.detail.field ?? "")}"]`);
  field?.classList.add("amiss");
  field?.setAttribute("aria-invalid", "true");
});

// --- What is asked back -----------------------------------------------------------------------------

let openedFrom = null;

document.body.addEventListener("desk:open", event => {
  const dialog = document.getElementById(event.detail.id);
  if (!dialog || dialog.open) return;
  openedFrom = document.activeElement;
  dialog.showModal();
});
document.body.addEventListener("desk:shut", () => document.querySelectorAll("dialog[open]").forEach(dialog => dialog.close()));
document.addEventListener("close", event => {
  if (!event.target.matches?.("dialog")) return;
  freshen();
  restore(document);
  goBackTo(openedFrom);
}, true);
// Where the button itself went with the answer, its panel is next.
function goBackTo(from) {
  const panel = from?.closest("section[id], [role='region'][id]")?.id;
  setTimeout(() => {
    const there = from?.isConnected ? from : document.getElementById(from?.id || panel);
    if (!there || there.disabled || document.activeElement !== document.body) return;
    if (there !== from) there.tabIndex = -1;
    there.focus();
  }, 100); // after the answer is in its place
}

document.body.addEventListener("desk:say", event => say(event.detail.words ?? event.detail.value ?? ""));

// --- Enter in a field is a change, never a second sending -------------------------------------------

document.addEventListener("submit", event => {
  if (event.target.matches("form[data-fields]")) event.preventDefault();
}, true);
document.addEventListener("keydown", event => {
  if (!event.target.matches?.("input[data-was]")) return;
  if (event.key === "Escape") letGo(event.target);
  // Words that were brought back are no change to the browser, so Enter alone would not send them.
  if (event.key === "Enter" && event.target.matches(".typed")) event.target.dispatchEvent(new Event("change", { bubbles: true }));
});

restore(document);

// The line opens once the page's own script, which loads longer, can hear what the desk answers.
document.addEventListener("DOMContentLoaded", () => {
  listen();
  if (page) document.documentElement.classList.add("ready");
});
