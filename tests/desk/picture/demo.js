// Opens the viewer as a page would, and keeps what it tells for the tests.
import { openViewer } from "/static/viewer/viewer.js";

const host = document.getElementById("pic");
const viewer = openViewer(host, { drawing: "/drawing" });
const told = [];
for (const name of ["pick", "hover", "drag", "finding"]) host.addEventListener(name, event => told.push([name, event.detail]));

async function load(which, changed) {
  const [description, glb] = await Promise.all([
    fetch(`/description/${which}`).then(answer => answer.json()),
    fetch(`/shapes/${which}`).then(answer => answer.arrayBuffer()),
  ]);
  const start = performance.now();
  viewer.show(description, glb, changed);
  return { description, took: performance.now() - start };
}

const { took } = await load(new URLSearchParams(location.search).get("of") ?? "plain");
Object.assign(window, { viewer, told, load, took });
document.documentElement.classList.add("ready");
