// Canvas, camera and light. Draws only when something changed; throws where there is no WebGL.
import {
  Color, DirectionalLight, HemisphereLight, OrbitControls, PerspectiveCamera, Scene, Vector3, WebGLRenderer,
} from "./three.js";

const ANGLE = 24; // degrees the camera takes in, the shorter way
const RADIANS = Math.PI / 180;
const TURN = 7.5 * RADIANS; // a press of an arrow key
const PAN = 40; // px
const ZOOM = 0.88;
const ROOM = 1.12; // of what is needed to the edge of the picture

/** From where to look: degrees round to the right of the front, and above. */
const SIDES = { corner: [32, 24], front: [0, 0], right: [90, 0], left: [-90, 0], back: [180, 0], top: [0, 89.9] };

const DRAWN = { antialias: true, alpha: true, stencil: true };

/** A canvas with its context; asked for here, since three.js fills the console where there is none. */
function drawable() {
  const canvas = document.createElement("canvas");
  const context = canvas.getContext("webgl2", { ...DRAWN, depth: true });
  if (!context) throw new Error("no 3D here");
  return { canvas, context, ...DRAWN };
}

function toward(side) {
  const [round, above] = SIDES[side].map(degrees => degrees * RADIANS);
  return new Vector3(Math.sin(round) * Math.cos(above), -Math.cos(round) * Math.cos(above), Math.sin(above));
}

function cornersOf({ min, max }) {
  return [0, 1, 2, 3, 4, 5, 6, 7].map(bits =>
    new Vector3(bits & 1 ? max.x : min.x, bits & 2 ? max.y : min.y, bits & 4 ? max.z : min.z));
}

export class Stage {
  constructor(host, name, help) {
    this.host = host;
    this.frames = 0;
    this.before = []; // called before each frame
    this.scene = new Scene();
    this.renderer = new WebGLRenderer(drawable());
    this.renderer.localClippingEnabled = true;
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.canvas = this.renderer.domElement;
    this.#named(name, help);
    host.prepend(this.canvas);
    this.camera = new PerspectiveCamera(ANGLE, 1, 10, 1e5);
    this.camera.up.set(0, 0, 1);
    this.#lit();
    this.controls = new OrbitControls(this.camera, this.canvas);
    this.controls.addEventListener("change", () => this.change());
    this.canvas.addEventListener("keydown", event => this.#pressed(event));
    this.canvas.addEventListener("webglcontextrestored", () => this.change());
    this.watch = new ResizeObserver(() => this.#sized());
    this.watch.observe(host);
    this.#sized();
  }

  #named(name, help) {
    this.canvas.tabIndex = 0;
    this.canvas.className = "pic-canvas";
    this.canvas.setAttribute("role", "application");
    this.canvas.setAttribute("aria-label", name);
    if (help) this.canvas.setAttribute("aria-describedby", help);
  }

  #lit() {
    const sun = new DirectionalLight(new Color(1, 0.98, 0.95), 2.1);
    sun.position.set(-0.6, 0.9, 1); // over the left shoulder, wherever the eye goes
    this.camera.add(sun, sun.target);
    const sky = new HemisphereLight(new Color(1, 1, 1), new Color(0.55, 0.5, 0.45), 1.5);
    sky.position.set(0, 0, 1);
    this.scene.add(this.camera, sky);
  }

  #sized() {
    const { clientWidth: wide, clientHeight: high } = this.host;
    if (!wide || !high) return;
    Object.assign(this, { wide, high }); // asking the page anew for each label would lay it out anew each time
    this.renderer.setSize(wide, high, false);
    this.camera.aspect = wide / high;
    // A tall, narrow screen sees as much to the sides as a wide one sees up and down.
    const half = Math.tan((ANGLE / 2) * RADIANS);
    this.camera.fov = (2 * Math.atan(wide < high ? (half * high) / wide : half)) / RADIANS;
    this.camera.updateProjectionMatrix();
    this.change();
  }

  /** Asks for one frame, however often it is called. */
  change() {
    this.asked ??= requestAnimationFrame(() => this.draw());
  }

  draw() {
    this.asked = undefined;
    this.camera.updateMatrixWorld();
    for (const prepare of this.before) prepare();
    this.renderer.render(this.scene, this.camera);
    this.frames += 1;
  }

  /** Look at a Box3 from one of SIDES, or from where the eye is, all of it in sight. */
  look(box, side = null) {
    const centre = box.getCenter(new Vector3());
    const from = side ? toward(side) : this.camera.position.clone().sub(this.controls.target).normalize();
    const radius = box.getSize(new Vector3()).length() / 2;
    this.#reach(radius);
    this.controls.target.copy(centre);
    this.camera.position.copy(centre).add(from);
    this.camera.lookAt(centre);
    this.camera.position.copy(centre).addScaledVector(from, this.#standOff(box, centre));
    this.controls.update();
    this.change();
  }

  /** How far the eye, as it is turned now, stands off to see all of a box. */
  #standOff(box, centre) {
    const back = this.camera.quaternion.clone().invert();
    const high = Math.tan((this.camera.fov / 2) * RADIANS);
    const corners = cornersOf(box).map(corner => corner.sub(centre).applyQuaternion(back));
    const needed = ({ x, y, z }) => z + Math.max(Math.abs(x) / (high * this.camera.aspect), Math.abs(y) / high) * ROOM;
    return Math.max(...corners.map(needed));
  }

  /** Whether all of a box is in the picture. */
  sees(box) {
    const seen = cornersOf(box).map(corner => corner.project(this.camera));
    return seen.every(({ x, y }) => Math.abs(x) <= 1 && Math.abs(y) <= 1);
  }

  /** Bring a point to the middle, the eye keeping its direction and distance. */
  centreOn(point) {
    const by = point.clone().sub(this.controls.target);
    this.controls.target.add(by);
    this.camera.position.add(by);
    this.controls.update();
    this.change();
  }

  #reach(radius) {
    this.camera.near = radius / 50;
    this.camera.far = radius * 60;
    this.controls.minDistance = radius / 10;
    this.controls.maxDistance = radius * 25;
    this.camera.updateProjectionMatrix();
  }

  nearer() {
    this.controls.dollyIn(ZOOM);
  }

  farther() {
    this.controls.dollyOut(ZOOM);
  }

  #pressed(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const act = (event.shiftKey ? this.#moves : this.#turns)[event.key] ?? this.#zooms[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  }

  #turns = {
    ArrowLeft: () => this.controls.rotateLeft(-TURN),
    ArrowRight: () => this.controls.rotateLeft(TURN),
    ArrowUp: () => this.controls.rotateUp(-TURN),
    ArrowDown: () => this.controls.rotateUp(TURN),
  };

  #moves = {
    ArrowLeft: () => this.controls.pan(PAN, 0),
    ArrowRight: () => this.controls.pan(-PAN, 0),
    ArrowUp: () => this.controls.pan(0, PAN),
    ArrowDown: () => this.controls.pan(0, -PAN),
  };

  #zooms = {
    "+": () => this.nearer(),
    "=": () => this.nearer(),
    "-": () => this.farther(),
    _: () => this.farther(),
    Home: () => this.home?.(),
  };

  /** Where a point of the piece falls on the host: `[x, y]` in px, and whether before the eye. */
  onScreen(point) {
    const seen = point.clone().project(this.camera);
    return { x: ((seen.x + 1) / 2) * this.wide, y: ((1 - seen.y) / 2) * this.high, before: seen.z < 1 };
  }

  /** Where a pointer is, -1 to 1 each way, for a ray. */
  aimed(event) {
    const box = this.canvas.getBoundingClientRect();
    return { x: ((event.clientX - box.left) / box.width) * 2 - 1, y: 1 - ((event.clientY - box.top) / box.height) * 2 };
  }

  dispose() {
    cancelAnimationFrame(this.asked);
    this.watch.disconnect();
    this.controls.dispose();
    this.renderer.dispose();
    this.canvas.remove();
  }
}
