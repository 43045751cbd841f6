// What every page shares: the line to the desk, edits that wait while it is away, and typed words that are kept.

const line = document.getElementById("line");
const page = document.body.dataset.page;

export function say(words) {
  if (line && line.textContent !== words) line.textContent = words;
}

// --- The line: a WebSocket that tells what changed --------------------------------------------------

const AWAY = "The desk is away. What you type is kept here and sent when it is back.";
const SENT_AWAY = 1008;
const waiting = []; // requests that could not be sent: {method, address, body, source}
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

document.addEventListener("htmx:error", event => {
  const ctx = event.detail?.ctx;
  const method = ctx?.request?.method?.toUpperCase();
  if (!ctx || ctx.response || !method || method === "GET") return;
  waiting.push({method, address: ctx.request.action, body: ctx.request.body, source: ctx.sourceElement});
  say(AWAY);
});

async function sendWaiting() {
  while (waiting.length && !away) {
    const {method, address, body, source} = waiting.shift();
    const values = body instanceof FormData ? Object.fromEntries(body) : {};
    await window.htmx.ajax(method, address, {source: document.contains(source) ? source : document.body, values});
  }
}

// --- Typed words are kept ---------------------------------------------------------------------------
// A field with data-keep="name" is kept as it is typed: in this browser at once, on the desk after a moment.

const shelf = `typed:${location.pathname}:`;
const timers = new Map();

function keep(field) {
  const name = field.dataset.keep;
  const kept = {text: field.value, at: Date.now()};
  localStorage.setItem(shelf + name, JSON.stringify(kept));
  clearTimeout(timers.get(name));
  timers.set(name, setTimeout(() => hand(name, kept), 600));
}

function hand(name, kept) {
  const body = new URLSearchParams({page: location.pathname, field: name, text: kept.text, at: kept.at});
  fetch("/drafts", {method: "POST", body}).catch(() => {});
}

export function forget(name) {
  clearTimeout(timers.get(name));
  localStorage.removeItem(shelf + name);
}

function restore(root) {
  const fields = root.querySelectorAll?.("[data-keep]") ?? [];
  for (const field of fields) {
    const here = JSON.parse(localStorage.getItem(shelf + field.dataset.keep) ?? "null");
    const there = field.dataset.draft === undefined ? null : {text: field.dataset.draft, at: Number(field.dataset.draftAt)};
    const kept = [here, there].filter(Boolean).sort((a, b) => b.at - a.at)[0];
    if (!kept || kept.text === field.value || field === document.activeElement) continue;
    field.value = kept.text;
    field.classList.add("typed");
    field.dispatchEvent(new CustomEvent("desk:restored", {bubbles: true}));
  }
}

// A field that was changed by hand keeps that in the browser's mind; a new answer from the desk comes first.
function freshen() {
  for (const field of document.querySelectorAll("input[data-was]")) {
    if (field !== document.activeElement && !localStorage.getItem(shelf + field.dataset.keep)) settle(field);
  }
}

function settle(field) {
  field.value = field.getAttribute("value") ?? "";
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
document.body.addEventListener("desk:taken", event => (event.detail.fields ?? []).forEach(forget));
document.body.addEventListener("desk:amiss", event => {
  const field = document.querySelector(`[data-keep="${CSS.escape(event.detail.field ?? "")}"]`);
  field?.classList.add("amiss");
  field?.setAttribute("aria-invalid", "true");
});
document.body.addEventListener("desk:open", event => {
  const dialog = document.getElementById(event.detail.id);
  if (dialog && !dialog.open) dialog.showModal();
});
document.body.addEventListener("desk:shut", () => document.querySelectorAll("dialog[open]").forEach(dialog => dialog.close()));
document.body.addEventListener("desk:say", event => say(event.detail.words ?? event.detail.value ?? ""));

// --- Enter in a field is a change, never a second sending -------------------------------------------

document.addEventListener("submit", event => {
  if (event.target.matches("form[data-fields]")) event.preventDefault();
}, true);
document.addEventListener("keydown", event => {
  if (event.key !== "Escape" || !event.target.matches?.("input[data-was]")) return;
  event.target.value = event.target.dataset.was;
});

restore(document);
listen();
if (page) document.documentElement.classList.add("ready");
