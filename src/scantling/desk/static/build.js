// The build: timers that count down by themselves and ring, keys for sizes.

const ring = document.getElementById("ring");
const title = document.title;
const ends = new WeakMap(); // a timer's element and words -> when it is over, by this machine's clock
const rung = new Map(); // a timer's id -> when it sounded last, and how often
const AGAIN = 20_000; // ms between soundings of a timer nobody has heard
const MOST = 30;
let sound = null;

// --- Timers ---------------------------------------------------------------------------------------------

function endOf(timer) {
  const known = ends.get(timer);
  if (known?.left === timer.dataset.left) return known.at;
  const at = Date.now() + Number(timer.dataset.left);
  ends.set(timer, {left: timer.dataset.left, at});
  return at;
}

function leftWords(ms) {
  const seconds = Math.max(0, Math.ceil(ms / 1000));
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  if (hours >= 48) return inDays(Math.ceil(seconds / 3600));
  if (hours) return `${hours} h ${String(minutes).padStart(2, "0")} min`;
  return `${minutes}:${String(seconds % 60).padStart(2, "0")}`;
}

const inDays = hours => `${Math.floor(hours / 24)} days${hours % 24 ? ` ${hours % 24} h` : ""}`;

function look() {
  let over = 0;
  for (const timer of document.querySelectorAll(".timer")) {
    const left = endOf(timer) - Date.now();
    if (left <= 0) over += 1;
    show(timer, left);
  }
  const silent = document.getElementById("silent");
  if (silent) silent.hidden = sound?.state === "running" || !document.querySelector(".timer");
  document.title = over ? `▲ Time is up: ${title}` : title;
}

function show(timer, left) {
  const words = left > 0 ? leftWords(left) : "Time is up";
  const shown = timer.querySelector(".timer-left");
  if (shown.textContent !== words) shown.textContent = words;
  if (left > 0) return;
  timer.classList.add("over");
  timer.querySelector("[name=heard]").value = "yes";
  const button = timer.querySelector("button").firstChild;
  if (button.data.trim() === "Stop") button.data = "Heard";
  const before = rung.get(timer.id);
  if (!before) ring.textContent = `Time is up: ${timer.dataset.label}`;
  if (before && (before.times >= MOST || Date.now() - before.at < AGAIN)) return;
  rung.set(timer.id, {at: Date.now(), times: (before?.times ?? 0) + 1});
  tone();
}

// --- The tone: three short beeps, once a page has been touched ------------------------------------------

function wake() {
  const Context = window.AudioContext;
  if (Context && !sound) sound = new Context();
  if (sound?.state === "suspended") sound.resume();
}

function tone() {
  if (sound?.state !== "running") return;
  for (const at of [0, 0.35, 0.7]) {
    const [voice, loud] = [sound.createOscillator(), sound.createGain()];
    const begin = sound.currentTime + at;
    voice.frequency.value = 880;
    loud.gain.setValueAtTime(0.0001, begin);
    loud.gain.exponentialRampToValueAtTime(0.3, begin + 0.02);
    loud.gain.exponentialRampToValueAtTime(0.0001, begin + 0.25);
    voice.connect(loud).connect(sound.destination);
    voice.start(begin);
    voice.stop(begin + 0.3);
  }
}

// --- Keys for a size ------------------------------------------------------------------------------------

function pressed(button) {
  const field = document.getElementById(button.closest("[data-keypad]").dataset.keypad);
  field.value = button.dataset.fraction ? withFraction(field.value, button.dataset.fraction) : withKey(field.value, button.dataset.key);
  field.dispatchEvent(new Event("input", {bubbles: true}));
}

function withKey(text, key) {
  if (key === "clear") return "";
  if (key === "back") return /\d+\/\d+$/.test(text) ? text.replace(/\s*\d+\/\d+$/, "") : text.slice(0, -1);
  return text + key;
}

// "29" and "5/8" give "29 5/8"; another fraction takes its place; "+1/32" adds to what is there.
function withFraction(text, fraction) {
  const [, whole, top, bottom] = text.trim().match(/^(\d*?)\s*(?:(\d+)\/(\d+))?$/) ?? [];
  if (whole === undefined) return text;
  const plain = fraction.startsWith("+") ? added(Number(top ?? 0), Number(bottom ?? 1), fraction) : fraction;
  return plain ? `${whole} ${plain}`.trim() : text;
}

function added(top, bottom, fraction) {
  const most = 32;
  let sum = (top * most) / bottom + Number(fraction.slice(1).split("/")[0]) * (most / Number(fraction.split("/")[1]));
  if (!Number.isInteger(sum) || sum >= most) return "";
  let under = most;
  while (sum % 2 === 0) [sum, under] = [sum / 2, under / 2];
  return `${sum}/${under}`;
}

// --- Finding a part -------------------------------------------------------------------------------------

function find(field) {
  const wanted = field.value.toLowerCase().split(/\s+/).filter(Boolean);
  const lines = [...document.getElementById(field.dataset.find).children];
  for (const line of lines) {
    const words = line.textContent.toLowerCase();
    line.hidden = !wanted.every(word => words.includes(word));
  }
  document.getElementById("found").textContent = `${lines.filter(line => !line.hidden).length} parts`;
}

// --- Events ---------------------------------------------------------------------------------------------

document.addEventListener("click", event => {
  const key = event.target.closest("[data-key], [data-fraction]");
  if (key) pressed(key);
  const empty = event.target.closest("[data-empty]");
  if (empty) document.getElementById(empty.dataset.empty).replaceChildren();
});
document.addEventListener("input", event => {
  if (event.target.matches("[data-find]")) find(event.target);
});
document.addEventListener("pointerdown", wake);
document.addEventListener("keydown", wake);
function bringIntoView() {
  const list = document.querySelector(".steps");
  const here = list?.querySelector("[aria-current]");
  if (here && list.scrollHeight > list.clientHeight) list.scrollTop = here.offsetTop - list.clientHeight / 3;
}

document.addEventListener("htmx:after:swap", () => {
  look();
  const tried = document.querySelector("#tried > :first-child:not([data-seen])");
  if (!tried) return;
  tried.dataset.seen = "yes";
  tried.parentElement.focus({preventScroll: true});
  tried.scrollIntoView({block: "nearest"});
});

bringIntoView();
look();
setInterval(look, 1000);
