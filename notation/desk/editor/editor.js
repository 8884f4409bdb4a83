// What the desk uses of CodeMirror, bundled into ../static/codemirror.js by `npm run build`.
export { EditorState, Compartment } from "@codemirror/state";
export {
  EditorView, keymap, lineNumbers, drawSelection, highlightActiveLine, highlightActiveLineGutter,
} from "@codemirror/view";
export { defaultKeymap, history, historyKeymap, undo } from "@codemirror/commands";
export { autocompletion, completionKeymap, startCompletion } from "@codemirror/autocomplete";
export { setDiagnostics, lintGutter, lintKeymap } from "@codemirror/lint";
export { searchKeymap, highlightSelectionMatches } from "@codemirror/search";
export { StreamLanguage, HighlightStyle, syntaxHighlighting } from "@codemirror/language";
export { tags } from "@lezer/highlight";
