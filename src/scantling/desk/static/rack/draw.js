// Defects drawn on a board with a finger, a mouse or the arrow keys. Nothing is sent until it is done.

const surface = document.getElementById("surface");
const form = document.getElementById("drawn");
const board = {length: Number(surface.dataset.length), width: Number(surface.dataset.width)};
const step = Number(surface.dataset.step), least = Number(surface.dataset.least);
const inches = surface.dataset.unit === "inches";
const say = words => document.body.dispatchEvent(new CustomEvent("desk:say", {detail: {words}}));

let pointer = null; // the one finger that draws, and where it began
let held = null; // the rectangle in hand: {x, y, wide, high, number, was, kind, face}

const ghost = () => document.getElementById("ghost");

// --- Draw or scroll ----------------------------------------------------------------------------------

const narrow = matchMedia("(max-width: 56rem)");

function setMode(mode) {
  if (mode === "draw") bringClose();
  surface.classList.toggle("drawing", mode === "draw");
  for (const button of document.querySelectorAll("[data-mode]")) button.setAttribute("aria-pressed", String(button.dataset.mode === mode));
}

// --- How close: the rule's numbers stay as large as they are read -------------------------------------

const CLOSENESS = [1, 1.6, 2.5, 4, 6]; // times the width of the page
const READ = 14; // px
const FINGER = 120; // px: what a board must be wide to be drawn on with a finger
let close = 0;

function setClose(next) {
  const left = surface.scrollLeft / surface.scrollWidth;
  close = Math.min(Math.max(next, 0), CLOSENESS.length - 1);
  fit();
  surface.scrollLeft = left * surface.scrollWidth;
}

function bringClose() {
  const whole = surface.clientWidth / (board.length + 16) * board.width;
  const enough = CLOSENESS.findIndex(times => times * whole >= FINGER);
  if (narrow.matches) setClose(Math.max(close, enough < 0 ? CLOSENESS.length - 1 : enough));
}

function fit() {
  const drawing = document.getElementById("drawing");
  surface.style.setProperty("--close", `${CLOSENESS[close] * 100}%`); // on what stays when the drawing is renewed
  const size = READ * (board.length + 16) / drawing.getBoundingClientRect().width;
  const above = Math.max(34, size + 18);
  surface.style.setProperty("--read", `${size}px`);
  drawing.setAttribute("viewBox", `-8 ${-above} ${board.length + 16} ${board.width + above + 8}`);
  for (const button of document.querySelectorAll("[data-closer]")) button.disabled = !CLOSENESS[close + Number(button.dataset.closer)];
}

document.addEventListener("htmx:after:settle", fit);
addEventListener("resize", fit);
fit();

document.addEventListener("click", event => {
  const button = event.target.closest?.("button");
  if (!button) return;
  if (button.dataset.mode) setMode(button.dataset.mode);
  if (button.dataset.closer) setClose(close + Number(button.dataset.closer));
  if ("add" in button.dataset) take(inView());
  if (button.dataset.choose) choose(button.dataset.choose);
});

// --- By finger or mouse ------------------------------------------------------------------------------

surface.addEventListener("pointerdown", event => {
  if (!surface.classList.contains("drawing") || !event.isPrimary || event.button > 0 || pointer) return;
  event.preventDefault();
  const at = onBoard(event);
  pointer = {id: event.pointerId, at, moving: held && inside(held, at) ? {...held} : null};
  surface.setPointerCapture(event.pointerId);
  if (!pointer.moving) held = named({x: at.x, y: at.y, wide: 0, high: 0});
});

surface.addEventListener("pointermove", event => {
  if (event.pointerId !== pointer?.id) return;
  const at = onBoard(event);
  if (pointer.moving) {
    Object.assign(held, kept({...held, x: pointer.moving.x + at.x - pointer.at.x, y: pointer.moving.y + at.y - pointer.at.y}));
  } else {
    Object.assign(held, {x: Math.min(at.x, pointer.at.x), y: Math.min(at.y, pointer.at.y), wide: Math.abs(at.x - pointer.at.x), high: Math.abs(at.y - pointer.at.y)});
  }
  show();
});

surface.addEventListener("pointerup", event => {
  if (event.pointerId !== pointer?.id) return;
  pointer = null;
  if (held.wide < least && held.high < least) return letGo(""); // a tap is no defect
  Object.assign(held, kept(held));
  send();
});

surface.addEventListener("pointercancel", event => {
  if (event.pointerId !== pointer?.id) return;
  pointer = null;
  letGo("That was not kept.");
});

function onBoard(event) {
  const drawing = document.getElementById("drawing");
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing.getScreenCTM().inverse());
  return {x: Math.min(board.length, Math.max(0, at.x)), y: Math.min(board.width, Math.max(0, at.y))};
}

const inside = (box, at) => at.x >= box.x && at.x <= box.x + box.wide && at.y >= box.y && at.y <= box.y + box.high;

// --- By keyboard -------------------------------------------------------------------------------------

const MOVES = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1]};

surface.addEventListener("keydown", event => {
  if (!held || pointer) return;
  if (MOVES[event.key]) {
    const [along, across] = MOVES[event.key].map(part => part * step);
    const next = event.shiftKey ? {...held, wide: held.wide + along, high: held.high + across} : {...held, x: held.x + along, y: held.y + across};
    Object.assign(held, kept(next));
    show();
    bringIntoView();
    say(spoken());
  } else if (event.key === "Enter") send();
  else if (event.key === "Escape") letGo("Let go; nothing was kept.");
  else return;
  event.preventDefault();
});

function inView() {
  const drawing = document.getElementById("drawing");
  const box = surface.getBoundingClientRect();
  const middle = new DOMPoint(box.left + box.width / 2, box.top + box.height / 2).matrixTransform(drawing.getScreenCTM().inverse());
  const wide = Math.min(step * 8, board.length), high = Math.min(step * 4, board.width);
  return named(kept({x: snapped(middle.x - wide / 2), y: snapped(board.width / 2 - high / 2), wide, high}));
}

function take(box) {
  held = box;
  show();
  surface.focus();
  say(`${held.number ? "In hand" : `A ${held.kind} in hand`}: ${spoken()}. Arrows move it, Shift with arrows sizes it, Enter keeps it.`);
}

function choose(number) {
  bringClose();
  const item = document.querySelector(`[data-choose="${number}"]`).closest("form");
  const mark = document.querySelector(`.mark[data-number="${number}"] > *`);
  const box = mark.getBBox();
  const words = name => item.elements[name].value;
  for (const each of document.querySelectorAll(".mark")) each.classList.toggle("chosen", each.dataset.number === number);
  take({x: box.x, y: box.y, wide: box.width, high: box.height, number, was: words("was"), kind: words("kind"), face: words("face")});
  bringIntoView();
}

const named = box => ({...box, number: "", was: "", kind: document.getElementById("kind").value, face: document.getElementById("face").value});
const snapped = mm => Math.round(mm / step) * step;

// On the board, and no smaller than can be meant.
function kept(box) {
  const wide = Math.min(Math.max(box.wide, least), board.length), high = Math.min(Math.max(box.high, least), board.width);
  return {...box, wide, high, x: Math.min(Math.max(box.x, 0), board.length - wide), y: Math.min(Math.max(box.y, 0), board.width - high)};
}

// --- Shown, spoken, sent -----------------------------------------------------------------------------

function show() {
  const box = held ?? {x: 0, y: 0, wide: 0, high: 0};
  for (const [name, value] of Object.entries({x: box.x, y: box.y, width: box.wide, height: box.high})) ghost().setAttribute(name, value);
}

function bringIntoView() {
  const drawn = ghost().getBoundingClientRect(), view = surface.getBoundingClientRect();
  if (drawn.left < view.left) surface.scrollLeft -= view.left - drawn.left + 20;
  if (drawn.right > view.right) surface.scrollLeft += drawn.right - view.right + 20;
}

const spoken = () => `${told(held.x)} to ${told(held.x + held.wide)} along, ${told(held.y)} to ${told(held.y + held.high)} across`;

function told(mm) {
  if (!inches) return `${Math.round(mm)} mm`;
  const count = Math.round(mm / 25.4 * 16), whole = Math.floor(count / 16);
  let over = count % 16, under = 16;
  while (over && over % 2 === 0) { over /= 2; under /= 2; }
  return over ? `${whole ? `${whole} ` : ""}${over}/${under}` : String(whole);
}

function letGo(words) {
  held = null;
  show();
  for (const each of document.querySelectorAll(".mark.chosen")) each.classList.remove("chosen");
  if (words) say(words);
}

function send() {
  const mm = value => `${value.toFixed(2)} mm`;
  const values = {number: held.number, was: held.was, kind: held.kind, face: held.face, from: mm(held.x), to: mm(held.x + held.wide), near: mm(held.y), far: mm(held.y + held.high)};
  for (const [name, value] of Object.entries(values)) form.elements[name].value = value;
  say(`${held.kind}: ${spoken()}`);
  held = null;
  form.requestSubmit();
}

