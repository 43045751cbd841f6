// The parts of three.js that the desk's viewer uses, and no others: esbuild leaves the rest out.
export {
  BackSide,
  Box3,
  BufferAttribute,
  BufferGeometry,
  Color,
  DecrementWrapStencilOp,
  DirectionalLight,
  DoubleSide,
  EdgesGeometry,
  FrontSide,
  Group,
  HemisphereLight,
  IncrementWrapStencilOp,
  LineBasicMaterial,
  LineSegments,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  NotEqualStencilFunc,
  PerspectiveCamera,
  Plane,
  PlaneGeometry,
  Raycaster,
  ReplaceStencilOp,
  Scene,
  Vector3,
  WebGLRenderer,
  AlwaysStencilFunc,
} from "three";
export { OrbitControls } from "three/addons/controls/OrbitControls.js";
export { LineMaterial } from "three/addons/lines/LineMaterial.js";
export { LineSegments2 } from "three/addons/lines/LineSegments2.js";
export { LineSegmentsGeometry } from "three/addons/lines/LineSegmentsGeometry.js";
