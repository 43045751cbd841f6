// The buttons, sliders and lists beside the picture. What the page left out of the fragment is done without.
import { lengthWords, stepWords } from "./words.js";

export class Controls {
  constructor(host, viewer, move) {
    Object.assign(this, { host, viewer, move });
    this.#looking();
    this.#cutting();
    this.#picking();
    this.#faces();
    this.#showing();
  }

  at(id) {
    return this.host.querySelector(`#pic-${id}`);
  }

  #on(id, event, act) {
    this.at(id)?.addEventListener(event, act);
  }

  #pressed(id, act) {
    this.#on(id, "click", event => {
      const button = event.target.closest("button");
      if (button) act(button.dataset, button);
    });
  }

  say(words) {
    const line = this.at("said");
    if (line) line.textContent = words;
  }

  // --- Wiring ---

  #looking() {
    const acts = {
      whole: () => this.viewer.look(), nearer: () => this.viewer.nearer(), farther: () => this.viewer.farther(),
    };
    this.#pressed("turn", ({ side, act }) => (side ? this.viewer.look(side) : acts[act]?.()));
    this.#on("apart", "input", event => this.viewer.apart(event.target.value / 100));
  }

  #cutting() {
    this.#pressed("axes", ({ axis }) => this.viewer.cut({ axis: axis || null }));
    this.#on("cut-at", "input", event => this.viewer.cut({ share: event.target.value / 1000 }));
    this.#on("cut-other", "change", event => this.viewer.cut({ other: event.target.checked }));
  }

  #picking() {
    const acts = {
      only: () => this.viewer.only([this.picked]),
      hide: () => this.viewer.hide(this.picked),
      all: () => this.viewer.showAll(),
      none: () => this.viewer.pick(null),
    };
    for (const id of ["parted", "all"]) this.#pressed(id, ({ act }) => acts[act]?.());
    this.#pressed("parts", ({ part }) => this.viewer.pick(part === this.picked ? null : part));
    this.#pressed("findings", ({ number }) => this.viewer.pointAt(Number(number)));
    this.#pressed("poses", ({ pose }) => this.viewer.pose(pose));
    this.#on("moves", "input", event => this.viewer.move(event.target.dataset.movement, event.target.value / 100));
  }

  #showing() {
    for (const what of ["sizes", "held", "marks"]) {
      this.#on(`show-${what}`, "change", event =>
        this.viewer.draws({ [what === "marks" ? "findings" : what]: event.target.checked }));
    }
  }

  #faces() {
    const acts = {
      in: () => this.move.by(-1), out: () => this.move.by(1), keep: () => this.move.keep(), leave: () => this.move.leave(),
    };
    this.#pressed("face", ({ face, act }) => (face ? this.move.choose(face) : acts[act]?.()));
    const keys = {
      ArrowUp: acts.out, ArrowRight: acts.out, ArrowDown: acts.in, ArrowLeft: acts.in, Enter: acts.keep, Escape: acts.leave,
    };
    this.#on("face", "keydown", event => {
      if (!this.move.face || !event.target.dataset.face || !keys[event.key]) return;
      if (event.key === "Enter" && !this.move.steps) return;
      event.preventDefault();
      keys[event.key]();
    });
  }

  // --- Lists of a new description ---

  list(description, solid) {
    this.step = description.step;
    for (const part of this.host.querySelectorAll("[data-solid]")) part.toggleAttribute("data-away", !solid);
    this.#fill("parts", description.parts, part => item(button(part.label, { part: part.name })));
    this.#fill("findings", description.findings, finding => item(findingButton(finding)));
    this.#fill("poses", description.poses, pose => button(pose.name, { pose: pose.name }));
    this.#fill("moves", description.movements, movementSlider);
    this.#away("moving", !description.movements.length);
    this.#away("found", !description.findings.length);
    this.#away("holding", !description.held.length);
  }

  /** Rebuilt only when it says something else, so that a finger or a key stays where it is. */
  #fill(id, things, made) {
    const list = this.at(id);
    const words = JSON.stringify(things);
    if (!list || list.filledWith === words) return;
    list.filledWith = words;
    const focused = list.contains(document.activeElement) ? document.activeElement.id : "";
    list.replaceChildren(...things.map((thing, at) => named(made(thing), `pic-${id}-${at}`)));
    if (focused) this.host.querySelector(`#${CSS.escape(focused)}`)?.focus();
  }

  #away(id, away) {
    const group = this.at(id);
    if (group) group.hidden = away;
  }

  // --- What the state is ---

  update(description, state, part) {
    this.picked = state.picked;
    this.#press("parts", ({ part: name }) => name === state.picked);
    this.#press("findings", ({ number }) => Number(number) === state.finding);
    this.#press("poses", ({ pose }) => pose === state.pose);
    this.#press("axes", ({ axis }) => (axis || null) === state.cutAxis);
    for (const one of this.#buttons("parts")) one.classList.toggle("pic-out", !state.shown(one.dataset.part));
    this.#away("all", !state.hidden.size && !state.only);
    this.#away("cut-where", !state.cutAxis);
    this.#slide("apart", state.apart * 100, `${Math.round(state.apart * 100)} %`);
    if (state.cut) this.#slide("cut-at", state.cutShare * 1000, lengthWords(state.cut.from, description.step));
    description.movements.forEach((movement, at) => this.#slideMovement(movement, at, state.open.get(movement.name) ?? 0));
    this.#describe(part);
  }

  #buttons(id) {
    return this.at(id)?.querySelectorAll("button") ?? [];
  }

  #press(id, test) {
    for (const one of this.#buttons(id)) one.setAttribute("aria-pressed", String(test(one.dataset)));
  }

  #slide(id, value, words) {
    const slider = this.at(id);
    if (!slider) return;
    if (document.activeElement !== slider || Math.abs(slider.value - value) > 0.5) slider.value = value;
    slider.setAttribute("aria-valuetext", words);
    const said = this.at(`${id}-said`);
    if (said) said.textContent = words;
  }

  #slideMovement(movement, at, far) {
    const open = movement.kind === "swings"
      ? `${Math.round(movement.angle * far)}° of ${movement.far}`
      : `${lengthWords(movement.distance * far, this.step)} of ${movement.far}`;
    this.#slide(`moves-${at}-range`, far * 100, far ? open : "shut");
  }

  #describe(part) {
    this.#away("parted", !part);
    if (part?.label === this.described?.label && part === this.described) return;
    this.described = part;
    const name = this.at("name");
    if (!part || !name) return;
    name.textContent = part.label;
    this.at("made").textContent = `${part.material}, grain ${part.grain}`;
    const order = ["thickness", "width", "length"];
    const sizes = [...part.sizes].sort((a, b) => order.indexOf(a.trade) - order.indexOf(b.trade));
    this.at("size").textContent = sizes.map(size => `${size.both} ${ADJECTIVE[size.trade]}`).join(", ");
    this.#away("face", !part.faces.length);
    this.faceMoved(this.move);
  }

  hovered(part) {
    const over = this.at("over");
    if (over) over.textContent = part?.label ?? "";
  }

  faceMoved(move) {
    this.#press("faces", ({ face }) => face === move.face?.face);
    this.#away("steps", !move.face);
    const said = this.at("face-said");
    if (said) said.textContent = move.face ? move.words : "";
  }

  moveWords({ face, steps }) {
    return `${face} face ${stepWords(steps, this.step)} ${steps > 0 ? "outward" : "inward"}`;
  }
}

const ADJECTIVE = { thickness: "thick", width: "wide", length: "long" };

function button(words, data) {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = words;
  Object.assign(made.dataset, data);
  return made;
}

function item(content) {
  const made = document.createElement("li");
  made.append(content);
  return made;
}

function span(className, words) {
  const made = document.createElement("span");
  made.className = className;
  made.textContent = words;
  return made;
}

function findingButton({ number, weight, severity, message }) {
  const made = button("", { number });
  made.append(span(`pic-shape pic-${weight}`, number), ` ${severity}: ${message}`);
  return made;
}

function movementSlider(movement) {
  const made = document.createElement("div");
  const label = document.createElement("label");
  const slider = Object.assign(document.createElement("input"), { type: "range", min: 0, max: 100, step: 1, value: 0 });
  slider.dataset.movement = movement.name;
  label.textContent = movement.name;
  made.append(label, span("pic-value quiet", ""), slider);
  return made;
}

/** Gives a list's thing, its button or slider, and what goes with them, their ids. */
function named(thing, id) {
  const slider = thing.querySelector("input");
  const inner = slider ?? thing.querySelector("button") ?? thing;
  inner.id = slider ? `${id}-range` : id;
  if (slider) {
    thing.querySelector("label").htmlFor = inner.id;
    thing.querySelector(".pic-value").id = `${inner.id}-said`;
  }
  return thing;
}
