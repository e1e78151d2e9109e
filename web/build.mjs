// Bundles vendor.js into one module, with the licences of what is in it. `node build.mjs [FOLDER]`
import { build } from "esbuild";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const into = process.argv[2] ?? join(here, "../gesturesmith/live/assets");
const made = await build({
  entryPoints: [join(here, "vendor.js")],
  outfile: join(into, "vendor.js"),
  absWorkingDir: here,
  bundle: true,
  format: "esm",
  target: "es2022",
  minify: true,
  charset: "utf8",
  legalComments: "none",
  banner: { js: "/* Made by web/build.mjs from the packages in web/package.json. Licences: vendor.txt */" },
  metafile: true,
});
const packages = new Set();
for (const input of Object.keys(made.metafile.inputs)) {
  const found = /^node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(input);
  if (found) packages.add(found[1]);
}
let text = "The file vendor.js holds these packages, each under the licence below it.\n";
for (const name of [...packages].sort()) {
  const folder = join(here, "node_modules", name);
  const { version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const file = readdirSync(folder).find((one) => /^licen[sc]e/i.test(one));
  if (!file) throw new Error(`${name} has no licence`);
  const licence = readFileSync(join(folder, file), "utf8").replace(/\r\n/g, "\n").trim();
  text += `\n${"=".repeat(72)}\n${name} ${version} (${license})\n\n${licence}\n`;
}
writeFileSync(join(into, "vendor.txt"), text);
