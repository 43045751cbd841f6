// Makes the one bundled file of the desk: three.js, cut down to what the viewer uses.
//
//     npm install --no-package-lock && npm run bundle
//
// Writes the file, its licence and its fingerprint into the viewer's folder; `--to FOLDER` writes elsewhere.
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { leavingOut } from "./leaving-out.js";

const here = dirname(fileURLToPath(import.meta.url));
const asked = process.argv.indexOf("--to");
const folder =
  asked > 0 ? process.argv[asked + 1] : join(here, "..", "src", "scantling", "desk", "static", "viewer");

const home = join(dirname(createRequire(import.meta.url).resolve("three")), "..");
const { version } = JSON.parse(readFileSync(join(home, "package.json"), "utf8"));
const name = `three.${version}.js`;

const made = await build({
  entryPoints: [join(here, "three-parts.js")],
  bundle: true,
  format: "esm",
  minify: true,
  target: "es2022",
  legalComments: "none",
  plugins: [leavingOut(home)],
  banner: { js: `/* three.js ${version}, cut down; MIT License, see three.licence.txt */` },
  write: false,
});
const text = made.outputFiles[0].contents;

writeFileSync(join(folder, name), text);
writeFileSync(join(folder, "three.licence.txt"), readFileSync(join(home, "LICENSE")));
writeFileSync(
  join(folder, "three.json"),
  `${JSON.stringify({ file: name, version, sha256: createHash("sha256").update(text).digest("hex") }, null, 2)}\n`,
);
