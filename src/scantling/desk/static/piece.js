// The page of a piece: the picture beside the words, and what a pick or a pull does to them.
import { openViewer } from "./viewer/viewer.js";

const body = document.body;
const slug = encodeURIComponent(body.dataset.slug);
const at = `/piece/${slug}`;
const host = document.getElementById("pic");
const viewer = host ? openViewer(host, { drawing: `${at}/flat.svg` }) : null;
let shape = "";
let asked = null;

async function show(changed = []) {
  if (!viewer) return;
  asked?.abort();
  asked = new AbortController();
  try {
    const answer = await fetch(`${at}/picture?have=${shape}`, { signal: asked.signal });
    if (answer.status !== 200) return;
    const bytes = await answer.arrayBuffer();
    const length = new DataView(bytes).getUint32(0, true);
    const described = JSON.parse(new TextDecoder().decode(new Uint8Array(bytes, 4, length)));
    viewer.show(described, bytes.byteLength > 4 + length ? bytes.slice(4 + length) : null, changed);
    shape = described.digest;
    host.dataset.shown = described.digest;
  } catch (error) {
    if (error.name !== "AbortError") say("The picture could not be fetched; it is old.");
  }
}

function say(words) {
  body.dispatchEvent(new CustomEvent("desk:say", { detail: { words } }));
}

function act(values) {
  return window.htmx.ajax("POST", `${at}/act`, { source: document.getElementById("state"), target: "#line", swap: "none", values });
}

// --- The picked part ---

const NOTHING_PICKED = "Pick a part in the picture or in the list: what is written of it stands here, and can be changed.";
let picked = "";

function showPart(part) {
  picked = part ?? "";
  if (picked) window.htmx.ajax("GET", `${at}/part?name=${encodeURIComponent(picked)}`, { target: "#part", swap: "innerMorph" });
  else document.getElementById("part").replaceChildren(quiet(NOTHING_PICKED));
  for (const button of document.querySelectorAll("#parts [data-part]")) button.setAttribute("aria-pressed", button.dataset.part === picked);
}

function quiet(words) {
  const line = document.createElement("p");
  line.className = "quiet";
  line.textContent = words;
  return line;
}

function pick(part) {
  if (viewer) viewer.pick(part);
  else showPart(part);
}

host?.addEventListener("pick", event => showPart(event.detail.part));
host?.addEventListener("drag", event => act({ do: "pull", part: event.detail.part, face: event.detail.face, by: event.detail.by_mm }));

// A face that was not moved after all is not said to be.
body.addEventListener("desk:amiss", event => event.detail.field || viewer?.say("Nothing was moved."));
document.getElementById("asking").addEventListener("close", () => viewer?.say(""));

document.addEventListener("click", event => {
  const part = event.target.closest("[data-part]")?.dataset.part;
  const finding = event.target.closest("[data-finding]")?.dataset.finding;
  if (part) {
    pick(part);
    document.getElementById("part").scrollIntoView({ block: "start" });
  }
  if (finding && viewer) {
    viewer.pointAt(Number(finding));
    host.scrollIntoView({ block: "nearest" });
  }
});

// --- Steps: presses that follow each other quickly go together ---

const GATHER = 220; // ms
const steps = new Map(); // form id -> {count, timer, sent}

document.addEventListener("click", event => {
  const button = event.target.closest("button[data-steps]");
  if (!button) return;
  const form = button.form;
  const going = steps.get(form.id) ?? { count: 0, timer: 0, sent: false };
  going.count += Number(button.dataset.steps);
  steps.set(form.id, going);
  tellSteps(form, going.count);
  clearTimeout(going.timer);
  if (!going.sent) going.timer = setTimeout(() => sendSteps(form.id), GATHER);
});

function sendSteps(id) {
  const form = document.getElementById(id);
  const going = steps.get(id);
  if (!form || !going.count) return steps.delete(id);
  going.sent = true;
  form.elements.namedItem("steps").value = going.count;
  going.count = 0;
  form.dispatchEvent(new CustomEvent("stepped"));
}

function tellSteps(form, count) {
  form.querySelector(".pending").textContent = count ? `${count > 0 ? "+" : "−"}${Math.abs(count)}` : "";
}

document.addEventListener("htmx:finally:request", event => {
  const id = event.detail.ctx.sourceElement.id;
  if (!steps.has(id)) return;
  const form = document.getElementById(id);
  if (form) tellSteps(form, steps.get(id).count);
  sendSteps(id);
});

// --- What an answer brings ---

body.addEventListener("piece:shape", async event => {
  const { changed = [], told = [], pictured } = event.detail;
  if (!viewer && pictured) return location.reload(); // it can be worked out now: the page with its picture
  tell(told);
  const isNew = added && document.querySelector(`#parts [data-part="${CSS.escape(added)}"]`);
  await show(changed);
  if (isNew) {
    pick(added);
    added = "";
    document.getElementById("part").scrollIntoView({ block: "start" });
  } else if (picked) showPart(picked);
});

// What was added is picked once it is in the picture.
let added = "";

body.addEventListener("piece:added", event => {
  added = event.detail.name;
  document.querySelector("#adding details").removeAttribute("open");
});

let quietAgain = 0;

function tell(changes) {
  clearTimeout(quietAgain);
  say(changes.length ? `Changed: ${changes.join("; ")}.` : "");
  if (changes.length) quietAgain = setTimeout(say, 20000, "");
}

document.addEventListener("keydown", event => {
  const typing = event.target.matches?.("input, textarea, select");
  if (typing || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
  event.preventDefault();
  document.getElementById(event.shiftKey ? "redo" : "undo")?.click();
});

show();
