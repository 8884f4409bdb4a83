// Writes the licences of what is in the bundle beside it.
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const packages = readdirSync("node_modules").flatMap((name) =>
  name.startsWith("@") ? readdirSync(join("node_modules", name)).map((inner) => `${name}/${inner}`) : [name]);
const bundled = packages.filter((name) => !/esbuild|^\./.test(name)).sort();
const parts = bundled.map((name) => {
  const folder = join("node_modules", name);
  const { version } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const file = ["LICENSE", "LICENSE.md", "LICENSE.txt"].map((l) => join(folder, l)).find(existsSync);
  if (!file) throw new Error(`${name} has no licence file`);
  return `${name} ${version}\n\n${readFileSync(file, "utf8").trim()}\n`;
});
writeFileSync("../static/codemirror.LICENSE.txt", parts.join(`\n${"-".repeat(72)}\n\n`));
