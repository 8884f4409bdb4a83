// The bar under the cursor: the printed diagram at rest, both dancers moving count by count when played.
import { ask } from "./api.js";

const SVG = "http://www.w3.org/2000/svg";
const $ = (id) => document.getElementById(id);
let shown = null, asked = 0, at = -1, clock = 0, url = "";

const element = (name, attributes) => {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
};
const place = ([x, y], degrees) => `translate(${-y}px, ${-x}px) rotate(${-degrees}deg)`;

export async function showBar(said, bar) {
  stop();
  const mine = ++asked;
  const answer = await ask("floor", { ...said, bar });
  if (mine !== asked) return false;  // a later bar was asked for meanwhile
  shown = answer.poses ? answer : null;
  rest();
  return shown !== null;
}

const tell = (words) => { if ($("count").textContent !== words) $("count").textContent = words; };  // what stays is not read out again

function rest() {
  at = -1;
  $("stage").replaceChildren();
  tell(shown ? `Bar ${shown.bar}` : "No steps in this bar yet");
  for (const id of ["play", "count-on", "count-back"]) $(id).setAttribute("aria-disabled", String(!shown));
  if (!shown || !shown.picture) return;
  URL.revokeObjectURL(url);
  url = URL.createObjectURL(new Blob([shown.picture], { type: "image/svg+xml" }));
  const image = new Image();
  image.src = url; image.alt = shown.told;
  $("stage").append(image);
}

function drawn() {
  const points = shown.poses.flatMap(({ dancers }) => Object.values(dancers).map((one) => one.at));
  const xs = points.map(([, y]) => -y), ys = points.map(([x]) => -x), room = 520;
  const left = Math.min(...xs) - room, top = Math.min(...ys) - room;
  const width = Math.max(...xs) + room - left, height = Math.max(...ys) + room - top;
  const svg = element("svg", { viewBox: `${left} ${top} ${width} ${height}`, role: "img", "aria-label": `Dancers on the floor in bar ${shown.bar}` });
  svg.append(element("path", { d: `M${left + 60} ${top + height - 60}V${top + 130}l-40 70m40 -70l40 70`, fill: "none", stroke: "#57524a", "stroke-width": 12 }));
  svg.append(element("path", { d: `M${left + width - 15} ${top}V${top + height}`, stroke: "#57524a", "stroke-width": 20 }));
  for (const part of ["gent", "lady"]) {
    for (const foot of ["LF", "RF"])
      svg.append(element("path", { class: "foot", id: `${part}-${foot}`, d: shown.soles[part][foot], stroke: "#1c1a17", "stroke-width": 12 }));
    const body = element("g", { class: "dancer", id: `${part}-body` });
    body.append(element("ellipse", { rx: 215, ry: 115, fill: part === "gent" ? "#1c1a17" : "none", "fill-opacity": .18, stroke: "#1c1a17", "stroke-width": 14, "stroke-dasharray": part === "gent" ? "none" : "34 22" }));
    body.append(element("path", { d: "M-38 -105L0 -170L38 -105Z", fill: "#1c1a17" }));
    svg.append(body);
  }
  $("stage").replaceChildren(svg);
}

function pose() {
  const { count, said, dancers } = shown.poses[at];
  for (const [part, one] of Object.entries(dancers)) {
    $(`${part}-body`).style.transform = place(one.at, one.facing);
    for (const [foot, [x, y, degrees]] of Object.entries(one.feet)) {
      const sole = $(`${part}-${foot}`);
      sole.style.transform = place([x, y], degrees);
      sole.setAttribute("fill", one.weight === foot || !one.weight ? (part === "gent" ? "#1c1a17" : "#8c8577") : "#fffefb");
    }
  }
  tell(count ? `Bar ${shown.bar}, count ${count}: ${said}` : `Bar ${shown.bar}, ${said}`);
}

export function step(by) {
  if (!shown) return;
  if (at < 0) { drawn(); at = 0; if (by < 0) at = shown.poses.length - 1; } else at = Math.min(shown.poses.length - 1, Math.max(0, at + by));
  pose();
}

export function stop() { clearInterval(clock); clock = 0; $("play").textContent = "Play"; }

export function play() {
  if (clock) return stop();
  if (!shown) return;
  if (at === shown.poses.length - 1) at = -1;
  const pace = Number($("pace").value);
  $("stage").style.setProperty("--step", `${pace * .8}ms`);
  $("play").textContent = "Stop";
  step(1);
  clock = setInterval(() => (at >= shown.poses.length - 1 ? stop() : step(1)), pace);
}
