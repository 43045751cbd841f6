// The picture of a piece: `openViewer(host, {drawing})` where `host` holds templates/piece/_picture.html.
//
// Tells what happens by events on `host`: "pick" {part}, "hover" {part}, "finding" {number} and
// "drag" {part, face, steps, by_mm}, steps outward counting up. `part` is a name, or null.
import { Controls } from "./controls.js";
import { FaceMove } from "./faces.js";
import { Flat } from "./flat.js";
import { wayBetween, wayTo } from "./motion.js";
import { play } from "./play.js";
import { readShapes } from "./shapes.js";
import { Solid } from "./solid.js";
import { State } from "./state.js";
import { listed } from "./words.js";

const MARKED = 6000; // ms that a change stays marked
const HELP = "pic-help";

/** `drawing`: address of the flat drawing, asked with `?pose=` (or `&pose=`) where there is no 3D. */
export function openViewer(host, { drawing } = {}) {
  return new Viewer(host, drawing);
}

class Viewer {
  #host;
  #drawing;
  #picture = null;
  #controls;
  #move;
  #description = null;
  #state = new State();
  #fade;
  #playing = new AbortController();

  constructor(host, drawing) {
    this.#host = host;
    this.#drawing = drawing;
    this.#move = new FaceMove({ moved: () => this.#faceMoved(), sent: detail => this.#sent(detail) });
    this.#controls = new Controls(host, this, this.#move);
  }

  /** Shows a piece. `glb`: ArrayBuffer, or null where `description.digest` is as before. `changed`: part names. */
  show(description, glb, changed = []) {
    this.#picture ??= this.#opened(description.name);
    const shapes = glb && this.solid ? readShapes(glb) : null;
    this.#description = description;
    this.#state.keepTo(description);
    this.#picture.load(description, shapes);
    this.#move.of(this.#part, description.step);
    this.#markChanged(changed.filter(name => description.parts.some(part => part.name === name)));
    this.#controls.list(description, this.solid);
    this.#update();
  }

  #opened(name) {
    const view = this.#host.querySelector(".pic-view");
    const words = `Picture of ${name}`;
    const calls = {
      hover: part => this.hover(part),
      pick: part => this.pick(part),
      finding: number => this.pointAt(number),
    };
    try {
      return new Solid(view, words, HELP, this.#move, calls);
    } catch {
      this.#controls.say("This browser shows no 3D here, so this is a flat drawing. The lists beside it still work.");
      return new Flat(view, words, pose => this.#fetched(pose), calls);
    }
  }

  async #fetched(pose) {
    if (!this.#drawing) return "";
    const address = new URL(this.#drawing, document.baseURI);
    address.searchParams.set("pose", pose ?? "at rest");
    const answer = await fetch(address);
    return answer.ok ? answer.text() : "";
  }

  #markChanged(names) {
    clearTimeout(this.#fade);
    this.#state.changed = names;
    if (!names.length) return;
    const many = names.length > 6 ? `${names.length} parts` : listed(names);
    this.#controls.say(`Changed: ${many}.`);
    this.#fade = setTimeout(() => {
      this.#state.changed = [];
      this.#update();
    }, MARKED);
  }

  get #part() {
    return this.#description?.parts.find(part => part.name === this.#state.picked) ?? null;
  }

  #update() {
    if (!this.#description) return;
    this.#state.cut = this.#state.cutOf(this.#description.box);
    this.#picture.update(this.#state);
    this.#controls.update(this.#description, this.#state, this.#part);
  }

  #tell(name, detail) {
    this.#host.dispatchEvent(new CustomEvent(name, { detail, bubbles: true }));
  }

  // --- Parts ---

  /** Picks a part by name, or none with null. */
  pick(part) {
    if (part === this.#state.picked) return;
    this.#state.picked = part;
    this.#move.of(this.#part, this.#description.step);
    this.#update();
    this.#tell("pick", { part });
  }

  /** Marks a part as the one under the pointer, or none with null. */
  hover(part) {
    if (part === this.#state.hovered) return;
    this.#state.hovered = part;
    this.#picture.hoveredNow(this.#state);
    this.#controls.hovered(this.#description.parts.find(one => one.name === part) ?? null);
    this.#tell("hover", { part });
  }

  hide(part) {
    this.#state.hidden.add(part);
    this.#update();
  }

  /** Shows these parts alone. */
  only(parts) {
    this.#state.only = new Set(parts);
    for (const part of parts) this.#state.hidden.delete(part);
    this.#update();
  }

  showAll() {
    this.#state.only = null;
    this.#state.hidden.clear();
    this.#update();
  }

  /** Whether sizes of the picked part, things held and findings are drawn: `{sizes, held, findings}`. */
  draws(what) {
    Object.assign(this.#state.shows, what);
    this.#update();
  }

  // --- Looking ---

  /** All in sight, from "corner", "front", "right", "left", "back" or "top"; without a side from where the eye is. */
  look(side = null) {
    this.#picture.look?.(side);
  }

  nearer() {
    this.#picture.stage?.nearer();
  }

  farther() {
    this.#picture.stage?.farther();
  }

  /** 0 together to 1 all apart. */
  apart(share) {
    const inSight = this.#picture.allInSight;
    this.#state.apart = share;
    this.#update();
    if (inSight && !this.#picture.allInSight) this.look();
  }

  /** Cuts across an axis ("wide", "deep", "high", or null for whole) at a share of the piece's size. */
  cut({ axis = this.#state.cutAxis, share = this.#state.cutShare, other = this.#state.cutOther }) {
    Object.assign(this.#state, { cutAxis: axis, cutShare: share, cutOther: other });
    this.#update();
  }

  /** Points at a finding by its number, in the pose in which it was found. */
  async pointAt(number) {
    const finding = this.#description.findings.find(one => one.number === number);
    if (!finding) return;
    this.#state.finding = number;
    this.#controls.say(`Finding ${number}, ${finding.severity}: ${finding.message}`);
    this.#tell("finding", { number });
    this.#update();
    if (finding.pose) await this.pose(finding.pose);
    this.#picture.centreOn(finding);
  }

  // --- Moving ---

  /** Opens or shuts one movement; others first where they must be. */
  async move(name, far) {
    const way = wayTo(this.#description.movements, this.#state.open, name, far);
    const first = way.slice(0, -1);
    if (first.length) this.#controls.say(`${firstWords(first)} first, so that ${name} can move.`);
    await this.#playAll(way, first.length === 0);
  }

  /** Brings all movements to a pose by its name. */
  async pose(name) {
    const pose = this.#description.poses.find(one => one.name === name);
    if (!pose) return;
    const way = wayBetween(this.#description.movements, this.#state.open, new Map(pose.steps));
    await this.#playAll(way, false, name);
  }

  /** One after another; a later call stops an earlier one. `now`: without playing. */
  async #playAll(way, now, pose = null) {
    this.#playing.abort();
    const { signal } = (this.#playing = new AbortController());
    const inSight = this.#picture.allInSight;
    this.#state.pose = pose ?? this.#state.pose;
    for (const [name, far] of way) {
      const from = this.#state.open.get(name) ?? 0;
      const at = t => this.#set(name, from + (far - from) * t);
      if (now || !this.solid) at(1);
      else await play(at, signal);
      if (signal.aborted) return;
    }
    this.#state.pose = this.#poseNow();
    this.#update();
    if (inSight && !this.#picture.allInSight) this.look();
  }

  #set(name, far) {
    this.#state.open.set(name, far);
    this.#update();
  }

  #poseNow() {
    const same = ({ steps }) => {
      const wanted = new Map(steps);
      const far = name => Math.abs((wanted.get(name) ?? 0) - (this.#state.open.get(name) ?? 0));
      return this.#description.movements.every(movement => far(movement.name) < 1e-6);
    };
    return this.#description.poses.find(same)?.name ?? null;
  }

  // --- A face being moved ---

  #faceMoved() {
    if (!this.#description) return;
    this.#picture.faceMoved();
    this.#controls.faceMoved(this.#move);
  }

  #sent(detail) {
    this.#controls.say(`${detail.part}: ${this.#controls.moveWords(detail)}.`);
    this.#tell("drag", detail);
  }

  // --- For pages and tests ---

  /** Says something in the line under the picture. */
  say(words) {
    this.#controls.say(words);
  }

  /** Whether the picture is in 3D. */
  get solid() {
    return this.#picture instanceof Solid;
  }

  /** Frames drawn so far. */
  get frames() {
    return this.#picture?.frames ?? 0;
  }

  dispose() {
    clearTimeout(this.#fade);
    this.#playing.abort();
    this.#picture?.dispose();
  }
}

function firstWords(steps) {
  const opening = steps.filter(([, far]) => far > 0).map(([name]) => name);
  const shutting = steps.filter(([, far]) => far === 0).map(([name]) => name);
  const words = [];
  if (shutting.length) words.push(`shutting ${listed(shutting)}`);
  if (opening.length) words.push(`opening ${listed(opening)}`);
  const said = listed(words);
  return said[0].toUpperCase() + said.slice(1);
}
