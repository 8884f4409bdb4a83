// The desk: one dance in the editor, its findings, its sheet, its floor; drafts here and on disk until it is saved.
import { EditorState, EditorView, keymap, lineNumbers, drawSelection, highlightActiveLine, defaultKeymap, history, historyKeymap,
  completionKeymap, setDiagnostics, lintGutter, lintKeymap, searchKeymap } from "./codemirror.js";
import { ask, send, lines, Away, Told } from "./api.js";
import { danceLanguage } from "./language.js";
import * as stage from "./stage.js";

const $ = (id) => document.getElementById(id);
const nonce = document.querySelector('meta[name="style-nonce"]').content;
let words = { steps: {}, keys: [], passage: [], start: [] };
let open = null;      // {name, digest, saved}: the dance in the editor
let place = "";       // names the folder in the browser's store
let bars = [], length = 0, bar = 0, danced = "", running = null, asking = false, drafting = 0, away = 0, sent = Promise.resolve(), spots = [], toldFindings = "";
const pages = new Map();  // key of a page: its element

const view = new EditorView({ parent: $("editor"), state: fresh("") });
view.scrollDOM.tabIndex = 0;  // can be scrolled by keys without entering the text
view.scrollDOM.setAttribute("role", "group");
view.scrollDOM.setAttribute("aria-label", "Lines");

function fresh(text) {
  return EditorState.create({ doc: text, extensions: [
    lineNumbers(), history(), drawSelection(), highlightActiveLine(), lintGutter(), danceLanguage(() => words),
    keymap.of([{ key: "F8", run: nextFinding }, { key: "Mod-s", run: () => (save(), true), preventDefault: true }, ...completionKeymap, ...lintKeymap, ...searchKeymap, ...historyKeymap, ...defaultKeymap]),
    EditorView.scrollMargins.of(covered), EditorView.cspNonce.of(nonce), EditorView.lineWrapping, EditorState.readOnly.of(!open),
    EditorView.contentAttributes.of({ "aria-label": "Dance file", spellcheck: "false" }),
    EditorView.updateListener.of((update) => {
      if (update.docChanged) typed();
      if (update.docChanged || update.selectionSet) follow();
    }),
  ] });
}

function covered() {  // what stays at the top of a small window hides no line that is gone to
  const top = document.querySelector(".top");
  return { top: getComputedStyle(top).position === "sticky" ? top.offsetHeight : 0 };
}

const text = () => view.state.doc.toString();
const wanted = () => ({ name: open.name, text: text(), layout: $("layout").value, paper: $("paper").value,
  landscape: { upright: false, lying: true }[$("held").value] ?? null });
const say = (words) => { if ($("state").textContent !== words) $("state").textContent = words; };
const able = (id, yes) => $(id).setAttribute("aria-disabled", String(!yes));  // not `disabled`, which would lose the focus

let speaking = 0;
function speak(words, after = 0) {  // heard, not seen; told anew even where the words are the same
  clearTimeout(speaking);
  speaking = setTimeout(() => { $("spoken").replaceChildren(document.createTextNode(words)); }, after);
}

function notice(said, choices = []) {
  const box = $("notice");
  box.hidden = !said;
  box.querySelector("p").textContent = said || "";
  box.querySelector(".tools").replaceChildren(...choices.map(([label, act]) => {
    const button = document.createElement("button");
    button.type = "button"; button.textContent = label;
    button.onclick = () => { notice(""); act(); view.focus(); };
    return button;
  }));
}

// --- typing, drafts, setting

const local = (name) => `lodestep-draft:${place}:${name}`;

function keep() {
  if (!open) return;
  try {
    if (text() === open.saved) localStorage.removeItem(local(open.name));
    else localStorage.setItem(local(open.name), JSON.stringify({ text: text(), base: open.digest, when: Date.now() }));
  } catch { say("Not saved; this browser keeps no more drafts, the folder does"); }
}

function draft(more = {}) {
  clearTimeout(drafting); drafting = 0;
  if (!open) return Promise.resolve();
  keep();
  const said = { name: open.name, text: text(), base: open.digest, when: Date.now(), drop: text() === open.saved };
  if (more.keepalive) return send("draft", said, more).then(back, gone);
  return sent = sent.then(() => send("draft", said)).then(back, gone);  // one after the other, lest an older draft come last
}

function typed() {
  if (!open) return;
  const dirty = text() !== open.saved;
  able("save", dirty);
  say(dirty ? "Not saved; kept as a draft" : "Saved");
  drafting ||= setTimeout(draft, 350);  // while she types on, too
  if (asking) return;
  asking = true;
  queueMicrotask(() => { asking = false; set(); keep(); });  // asked before the letter is drawn, once for all of one change
}

function gone(fault) {
  if (fault.name === "AbortError") return;
  if (!(fault instanceof Away)) { say(fault.message); return; }
  say("The desk does not answer; your words are kept in this browser");
  clearTimeout(away); away = setTimeout(() => ask("dances", {}).then(() => { back(); set(); draft(); }, gone), 1000);
}
function back() { if (away) { clearTimeout(away); away = 0; typed(); } }

async function set() {
  if (!open) return;
  if (running) running.abort();
  const mine = running = new AbortController();
  try {
    for await (const part of lines("set", { ...wanted(), has: [...pages.keys()] }, mine.signal)) {
      if (running !== mine) return;
      if (part.kind === "pages") showPages(part);
      if (part.kind === "findings") { showFindings(part); follow(true); }
      if (part.kind === "unset") unset(part.why);
    }
  } catch (fault) { gone(fault); }
}

function unset(why) { $("unset").textContent = why; $("pages").classList.toggle("old", Boolean(why)); }

async function inWords() {
  if (!open || !$("reading").open) return;
  try {
    const { html } = await ask("words-of-sheet", wanted());
    const read = new DOMParser().parseFromString(html, "text/html");
    for (const head of read.querySelectorAll("h1, h2, h3")) {
      const lower = read.createElement(head.tagName === "H1" ? "h3" : "h4");
      lower.append(...head.childNodes); head.replaceWith(lower);
    }
    $("in-words").replaceChildren(...read.body.childNodes);
  } catch (fault) { if (fault instanceof Told) $("in-words").textContent = fault.message; else gone(fault); }
}

function drawn({ key, svg, width, height }) {
  const page = document.createElement("div");
  page.className = "page"; page.dataset.key = key; page.setAttribute("role", "img");
  page.style.aspectRatio = `${width} / ${height}`;
  page.innerHTML = svg;  // made by the desk's own painter, every word escaped; the policy runs nothing in it
  return page;
}

function showPages({ pages: list, title }) {
  unset(""); inWords();
  const shown = list.map((page, number) => {
    const one = pages.get(page.key) || drawn(page);
    one.setAttribute("aria-label", `Page ${number + 1} of ${list.length}: ${title}`);
    return one;
  });
  const kept = new Set(list.map((page) => page.key));
  for (const key of pages.keys()) if (!kept.has(key)) pages.delete(key);
  list.forEach((page, number) => pages.set(page.key, shown[number]));
  const box = $("pages");
  shown.forEach((one, number) => {
    const old = box.children[number];
    if (old === one) return;
    if (old && !kept.has(old.dataset.key)) old.replaceWith(one); else box.insertBefore(one, old || null);
  });
  while (box.children.length > shown.length) box.lastChild.remove();
  $("heading").textContent = title || open.name;
  document.title = `${title || open.name} – Lodestep desk`;
}

function showFindings({ found, errors, bars: list, length: all }) {
  if (list) { bars = list; length = all; }
  const doc = view.state.doc;
  const spot = (line, column) => { const row = doc.line(Math.min(Math.max(line, 1), doc.lines)); return Math.min(row.from + Math.max(column - 1, 0), row.to); };
  const marks = found.map((one) => ({ from: spot(one.line, one.column), to: Math.max(spot(one.line, one.column), spot(one.end_line, one.end_column)),
    severity: one.severity === "note" ? "info" : one.severity, message: one.message,
    actions: one.suggestion ? [{ name: `Write '${one.suggestion}'`, apply: (v, from, to) => v.dispatch({ changes: { from, to, insert: one.suggestion } }) }] : [] }));
  view.dispatch(setDiagnostics(view.state, marks));
  spots = marks.map((one) => ({ ...one, was: doc.sliceString(one.from, one.to) }));
  listFindings(found);
  const tally = found.length ? `${found.length} found, ${errors} of them ${errors === 1 ? "an error" : "errors"}` : "Nothing found";
  if ($("tally").textContent !== tally) $("tally").textContent = tally;
  const told = [`Findings: ${tally}`, ...found.slice(0, 1).map((one) => `line ${one.line}, ${one.message}`)].join(". ");
  if (told !== toldFindings) { toldFindings = told; speak(told, 900); }
  if (!list) unset("The text cannot be read as a dance yet; this is the page as it last stood.");
}

let listed = "";
function listFindings(found) {
  const now = JSON.stringify(found);
  if (now === listed) return;
  listed = now;
  const box = $("found"), at = [...box.querySelectorAll("button")].indexOf(document.activeElement);
  box.replaceChildren(...found.map((one, number) => {
    const item = document.createElement("li"), button = document.createElement("button"), kind = document.createElement("b");
    item.className = one.severity; kind.textContent = one.severity;
    button.type = "button"; button.className = "place"; button.append(`Line ${one.line} `, kind, ` ${one.message}`);
    button.onclick = () => { toLine(Math.min(spots[number].from, view.state.doc.length)); };
    item.append(button, ...spots[number].actions.map(({ name }, which) => mending(name, number, which)));
    return item;
  }));
  const left = [...box.querySelectorAll("button")];
  if (at >= 0) (left[at] || left.at(-1) || $("findings")).focus();  // it was in the list that is replaced
}

function toLine(at) {  // where the text is entered its line is not told by itself
  view.dispatch({ selection: { anchor: at }, scrollIntoView: true }); view.focus();
  const line = view.state.doc.lineAt(at);
  speak(`Line ${line.number}: ${line.text.trim()}`, 200);
}

function mending(name, number, which) {
  const button = document.createElement("button");
  button.type = "button"; button.textContent = name;
  button.onclick = () => {
    const { from, to, was, actions } = spots[number];
    if (view.state.sliceDoc(from, to) === was) actions[which].apply(view, from, to);
    toLine(Math.min(from, view.state.doc.length));
  };
  return button;
}

function nextFinding() {
  const at = view.state.selection.main.head, found = [...spots].sort((a, b) => a.from - b.from);
  const next = found.find((one) => one.from > at) || found[0];
  if (!next || next.from > view.state.doc.length) { speak("Nothing found"); return true; }
  view.dispatch({ selection: { anchor: next.from }, scrollIntoView: true });
  speak(`Line ${view.state.doc.lineAt(next.from).number}: ${next.message}`);
  return true;
}

// --- the floor

function follow(again = false) {
  const line = view.state.doc.lineAt(view.state.selection.main.head).number;
  const row = bars.filter(([from]) => from <= line).pop() || bars[0];
  if (row && (row[1] !== bar || again === true && text() !== danced)) toBar(row[1]);
}
function toBar(number) {
  if (!open || number < 1 || number > length) return;
  bar = number; danced = text();
  able("bar-back", number > 1); able("bar-on", number < length);
  stage.showBar(wanted(), number).catch(gone);
}

// --- opening, saving, downloading

async function load(name) {
  if (open) await draft();
  let file;
  try { file = await ask("open", { name }); words = await ask("words", { name }); } catch (fault) { return gone(fault); }
  open = { name, digest: file.digest, saved: file.text };
  location.hash = encodeURIComponent(name);
  for (const button of document.querySelectorAll("#dances button")) mark(button);
  const mine = [JSON.parse(localStorage.getItem(local(name)) || "null"), file.draft].filter((one) => one && one.text !== file.text)
    .sort((a, b) => b.when - a.when)[0];
  pages.clear(); $("pages").replaceChildren(); bars = []; bar = 0;
  view.setState(fresh(file.text));
  able("save", false); able("pdf", true); $("heading").textContent = name;
  say(`Opened ${name}`); notice("");
  if (mine) {
    open.digest = mine.base || file.digest;
    view.dispatch({ changes: { from: 0, to: view.state.doc.length, insert: mine.text } });
    const time = new Date(mine.when).toLocaleString();
    notice(mine.base === file.digest ? `Words of ${time} that were not saved are back.` : `Words of ${time} are back; the file was changed on disk since.`,
      [["Keep them", () => {}], ["Go back to the file", () => take(file)]]);
  } else set();
  if (!file.whole) notice("This file has bytes that are no UTF-8; saving would change them.");
}

async function take(file) {
  try { await ask("aside", { name: open.name, text: text() }); } catch (fault) { return gone(fault); }
  open.digest = file.digest; open.saved = file.text;
  view.dispatch({ changes: { from: 0, to: view.state.doc.length, insert: file.text } });
  draft();
}

async function save(over = false) {
  if (!open || (text() === open.saved && !over)) return;
  const said = { ...wanted(), base: open.digest, over: over === true };
  try {
    const { digest } = await ask("save", said);
    open.digest = digest; open.saved = said.text;
    typed(); if (text() === open.saved) say("Saved"); shelve();
  } catch (fault) {
    if (fault instanceof Told && fault.status === 409) conflict(fault.said); else gone(fault);
  }
}

function conflict(file) {
  $("differences").textContent = file.differences.map((line) => line.replace(/^@@ -(\d+).*/, "From line $1:")).join("\n") || "Only the ends of lines differ.";
  const box = $("conflict"), choose = (act) => () => { box.close(); act(); view.focus(); };
  $("keep-mine").onclick = choose(() => save(true));
  $("take-file").onclick = choose(() => take(file));
  $("decide-later").onclick = choose(() => say("Not saved; kept as a draft"));
  box.showModal();
}

async function download(drafted = false) {
  if (!open) return;
  try {
    const blob = await (await send("pdf", { ...wanted(), draft: drafted === true })).blob();
    const link = document.createElement("a");
    link.href = URL.createObjectURL(blob); link.download = open.name.split("/").pop().replace(/\.ya?ml$/, ".pdf");
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    say("PDF downloaded");
  } catch (fault) {
    if (fault instanceof Told && fault.said.errors)
      notice(`This dance has ${fault.said.errors === 1 ? "an error" : `${fault.said.errors} errors`}.`, [["Download a draft all the same", () => download(true)], ["Mend it first", () => {}]]);
    else gone(fault);
  }
}

function mark(button) {
  if (open && open.name === button.dataset.name) button.setAttribute("aria-current", "true"); else button.removeAttribute("aria-current");
}

let shelf = [];
async function shelve() {
  const said = await ask("dances", {});
  place = said.place; shelf = said.dances; list(); $("unlisted").textContent = said.unlisted;
  if (!$("layout").options.length) {
    for (const [name, summary] of said.layouts) { const option = new Option(name, name, name === "script", name === "script"); option.title = summary; $("layout").add(option); }
    for (const paper of said.papers) $("paper").add(new Option(paper, paper));
  }
}
function list() {
  const sought = $("seek").value.toLowerCase();
  $("dances").replaceChildren(...shelf.filter((one) => `${one.title} ${one.name}`.toLowerCase().includes(sought)).map((one) => {
    const item = document.createElement("li"), button = document.createElement("button"), small = document.createElement("small");
    button.type = "button"; button.dataset.name = one.name; small.textContent = one.name;
    button.append(one.title, small);
    mark(button);
    button.onclick = () => load(one.name);
    item.append(button);
    return item;
  }));
}

$("save").onclick = () => save();
$("pdf").onclick = () => download();
$("seek").oninput = () => { list(); const count = $("dances").children.length; speak(count === 1 ? "1 dance" : `${count} dances`, 600); };
for (const link of document.querySelectorAll(".skips a"))  // the address names the dance, so that a skip leaves it alone
  link.onclick = (event) => { event.preventDefault(); const goal = link.hash.slice(1); if (goal === "writing") view.focus(); else { $(goal).focus(); $(goal).scrollIntoView({ block: "nearest" }); } };
$("reading").ontoggle = inWords;
for (const id of ["layout", "paper", "held"]) $(id).onchange = set;
$("play").onclick = stage.play;
$("count-on").onclick = () => { stage.stop(); stage.step(1); };
$("count-back").onclick = () => { stage.stop(); stage.step(-1); };
$("bar-on").onclick = () => toBar(bar + 1);
$("bar-back").onclick = () => toBar(bar - 1);
$("new").onsubmit = async (event) => {
  event.preventDefault();
  try {
    const { name } = await ask("new", { title: $("new-title").value, rhythm: $("new-rhythm").value });
    await shelve(); await load(name); view.focus();
  } catch (fault) { notice(fault.message); }
};
addEventListener("pagehide", () => { if (open && text() !== open.saved) draft({ keepalive: true }); });
addEventListener("beforeunload", (event) => { if (open && text() !== open.saved && away) event.preventDefault(); });

await shelve();
const first = decodeURIComponent(location.hash.slice(1));
const rhythms = ask("words", { name: "a.yaml" }).then((said) => { for (const rhythm of said.rhythms) $("new-rhythm").add(new Option(rhythm)); });
const begin = shelf.find((one) => one.name === first) || shelf[0];
if (begin) load(begin.name);
else { say("This folder has no dance yet; begin a new one"); $("shelf").querySelector("details").open = true; await rhythms; $("new-title").focus(); }
