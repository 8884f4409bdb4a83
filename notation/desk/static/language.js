// Colours and completion of a dance file.
import { HighlightStyle, StreamLanguage, syntaxHighlighting, tags, autocompletion } from "./codemirror.js";

const STEP = /^\s*(?:\d+\.)?(?:\d+(?:-\d+)?|[&eaSQ])\s/;
const FEET = /^(?:LF|RF|both|left foot|right foot)\b/;
const PLACES = /^(?:facing|backing|pointing|moving|LOD|ALOD|DWA|DCA|DW|DC|wall|centre)\b/;
const TURN = /^(?:\d\/\d|turn|commence|no turn)\b/;

const dance = StreamLanguage.define({
  name: "dance",
  startState: () => ({ count: false }),
  token(stream, state) {
    if (stream.sol()) state.count = STEP.test(stream.string);
    if (stream.eatSpace()) return null;
    if (stream.match(/^#.*/) && (stream.start === 0 || /\s/.test(stream.string[stream.start - 1]))) return "comment";
    if (stream.match(/^\([^)]*\)/)) return "string";
    if (state.count && stream.match(/^[\d.&eaSQ-]+(?=\s)/)) { state.count = false; return "number"; }
    if (stream.match(/^(?:- )?[A-Za-z][\w -]*:(?=\s|$)/)) return "propertyName";
    if (stream.match(FEET)) return "keyword";
    if (stream.match(PLACES)) return "atom";
    if (stream.match(TURN)) return "operator";
    stream.match(/^[\w'/]+/) || stream.next();
    return null;
  },
});

const look = HighlightStyle.define([
  { tag: tags.propertyName, color: "#57524a", fontStyle: "italic" },
  { tag: tags.keyword, fontWeight: "700" },
  { tag: tags.number, color: "#7a1f1f", fontWeight: "600" },
  { tag: tags.atom, color: "#22405f" },
  { tag: tags.operator, color: "#5b3a0e" },
  { tag: [tags.string, tags.comment], color: "#5e6a55", fontStyle: "italic" },
]);

const AFTER = ["place", "direction", "mode", "room", "turn", "footwork", "rise", "body", "size", "head", "weight", "joined", "travel", "amount", "sway", "change"];
const WORD = /[\w'/&-]*$/;

/** What is being typed: the words with which one that is offered begins, else the last word. */
function typing(before, options) {
  const offered = options.map((one) => one.label.toLowerCase());
  const tails = /[^,]*$/.exec(before)[0].trimStart().split(/(?<=\s)(?=\S)/).map((_, at, all) => all.slice(at).join(""));
  return tails.find((tail) => tail.includes(" ") && offered.some((one) => one.startsWith(tail.toLowerCase()))) ?? WORD.exec(before)[0];
}

const plain = (list, type) => (list || []).map((label) => ({ label, type }));
const kinds = (words, names) => names.flatMap((kind) =>
  (words.steps[kind] || []).map(([label, detail]) => ({ label, detail: detail || undefined, type: "keyword" })));

/** What can stand at the end of the words before the cursor. */
export function choices(before, words, indent) {
  const key = /^\s*(?:- )?([a-z ]+):\s*(.*)$/i.exec(before);
  if (key) {
    const [, name, said] = key;
    const named = { rhythm: words.rhythms, position: words.positions, hold: words.holds, figure: words.figures };
    if (named[name]) return plain(named[name], "class");
    if (name === "gent" || name === "lady")
      return said.includes(",") ? plain(words.called, "keyword") : [...plain(words.derived, "keyword"), ...plain(words.figures, "class")];
    if (name === "on") return plain(["opposite feet"], "keyword");
    return [];
  }
  if (STEP.test(before)) {
    const rest = before.replace(STEP, "").trimStart();
    if (rest.includes(",")) return kinds(words, AFTER);
    return /^(?:LF|RF|both)\s/.test(rest) ? kinds(words, ["action", "gesture", "place", "direction"]) : kinds(words, ["foot", "footless"]);
  }
  const keys = !indent ? words.keys : indent < 4 && before.includes("-") ? ["bars"] : [...words.passage, ...words.start];
  return keys.map((label) => ({ label, apply: `${label}: `, type: "property" }));
}

function completing(words) {
  return (context) => {
    const line = context.state.doc.lineAt(context.pos);
    const before = line.text.slice(0, context.pos - line.from);
    const options = choices(before, words(), before.search(/\S|$/));
    const word = typing(before, options);
    if (!word && !context.explicit) return null;
    return options.length ? { from: context.pos - word.length, options, validFor: /^[\w'/ -]*$/ } : null;
  };
}

export const danceLanguage = (words) => [dance, syntaxHighlighting(look), autocompletion({ icons: false, override: [completing(words)] })];
