// What the viewer never asks three.js for, and so does not carry: shaders of other surfaces and of textures,
// shadows, headsets, light from pictures. Each is replaced by the least that the rest of three.js calls.
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";

const NOTHING = "export default '';";
const NO_SHADER = "export const vertex = ''; export const fragment = '';";

const NO_HEADSET = `
import { EventDispatcher } from "../../core/EventDispatcher.js";
export class WebXRManager extends EventDispatcher {
  enabled = false;
  isPresenting = false;
  cameraAutoUpdate = false;
  setAnimationLoop() {}
  getEnvironmentBlendMode() {}
  hasDepthSensing() { return false; }
  dispose() {}
}`;

const SURFACES = [
  "background", "backgroundCube", "cube", "depth", "distance", "equirect", "linedashed", "meshmatcap", "meshnormal",
  "meshphong", "meshphysical", "meshtoon", "points", "shadow", "sprite", "vsm",
];

// Beginnings of names. All they hold is switched off where a material has no such map, light or effect.
const SWITCHED_OFF = [
  "alphahash", "aomap", "batching", "bumpmap", "clearcoat", "cube_uv", "displacement", "dithering", "emissivemap",
  "envmap", "fog", "gradientmap", "iridescence", "lightmap", "lightprobes", "lights_phong", "lights_physical",
  "lights_toon", "logdepthbuf", "map_", "metalnessmap", "morph", "normalmap", "roughnessmap", "shadowmap",
  "shadowmask", "skinbase", "skinning", "skinnormal", "tonemapping", "transmission",
];

const REPLACED = [
  [/webxr.WebXRManager\.js$/, NO_HEADSET],
  [/webgl.WebGLShadowMap\.js$/, "export class WebGLShadowMap { enabled = false; render() {} }"],
  [/extras.PMREMGenerator\.js$/, "export class PMREMGenerator {}"],
  [new RegExp(`ShaderLib.(${SURFACES.join("|")})\\.glsl\\.js$`), NO_SHADER],
  [new RegExp(`ShaderChunk.(${SWITCHED_OFF.join("|")})\\w*\\.glsl\\.js$`), NOTHING],
];

/** Shader text without comments and idle space. */
function bare(path) {
  const text = readFileSync(path, "utf8");
  return text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/\/\/.*$/gm, "").replace(/\s*\n\s*/g, "\n");
}

/** For esbuild: three.js from its sources in `home`, without all that. */
export function leavingOut(home) {
  return {
    name: "leaving-out",
    setup(build) {
      build.onResolve({ filter: /^three$/ }, () => ({ path: join(home, "src", "Three.js"), sideEffects: false }));
      for (const [filter, contents] of REPLACED) {
        build.onLoad({ filter }, ({ path }) => ({ contents, loader: "js", resolveDir: dirname(path) }));
      }
      build.onLoad({ filter: /\.glsl\.js$/ }, ({ path }) => ({ contents: bare(path), loader: "js" }));
    },
  };
}
