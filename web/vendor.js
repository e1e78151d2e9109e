// All that the page takes from others: the editor. Versions are in package.json, licences in assets/vendor.txt.
export { EditorState, StateEffect, StateField } from "@codemirror/state";
export {
  EditorView, Decoration, keymap, lineNumbers, highlightActiveLine, highlightActiveLineGutter, drawSelection,
  hoverTooltip, highlightSpecialChars,
} from "@codemirror/view";
export { defaultKeymap, insertNewlineAndIndent, history, historyKeymap } from "@codemirror/commands";
export {
  StreamLanguage, HighlightStyle, syntaxHighlighting, foldService, foldGutter, foldKeymap, indentUnit, indentService,
} from "@codemirror/language";
export {
  autocompletion, completionKeymap, acceptCompletion, completionStatus, moveCompletionSelection, selectedCompletion,
  startCompletion, closeBrackets, closeBracketsKeymap,
} from "@codemirror/autocomplete";
export { lintGutter, nextDiagnostic, previousDiagnostic, setDiagnostics } from "@codemirror/lint";
export { search, searchKeymap } from "@codemirror/search";
export { tags } from "@lezer/highlight";
