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

let picked = "";

function showPart(part) {
  picked = part ?? "";
  const panel = document.getElementById("part");
  if (!picked) {
    panel.replaceChildren(quiet("Pick a part in the picture or in the list, and what is written of it stands here."));
    return;
  }
  window.htmx.ajax("GET", `${at}/part?name=${encodeURIComponent(picked)}`, { target: "#part", swap: "innerMorph" });
}

function quiet(words) {
  const line = document.createElement("p");
  line.className = "quiet";
  line.textContent = words;
  return line;
}

host?.addEventListener("pick", event => showPart(event.detail.part));
host?.addEventListener("drag", event => act({ do: "pull", part: event.detail.part, face: event.detail.face, by: event.detail.by_mm }));

document.addEventListener("click", event => {
  const part = event.target.closest("[data-part]")?.dataset.part;
  const finding = event.target.closest("[data-finding]")?.dataset.finding;
  if (part && viewer) viewer.pick(part);
  else if (part) showPart(part);
  if (finding && viewer) {
    viewer.pointAt(Number(finding));
    host.querySelector("canvas")?.scrollIntoView({ block: "nearest" });
  }
});

// --- What an answer brings ---

body.addEventListener("piece:shape", event => {
  show(event.detail.changed ?? []);
  if (picked) showPart(picked);
});

document.addEventListener("keydown", event => {
  const typing = event.target.matches?.("input, textarea, select");
  if (typing || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
  event.preventDefault();
  document.getElementById(event.shiftKey ? "redo" : "undo")?.click();
});

show();
