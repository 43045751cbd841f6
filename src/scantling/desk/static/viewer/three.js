// The bundled three.js, named once; `web/` makes it.
export * from "./three.0.187.0.js";
