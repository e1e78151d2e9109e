import {
  EditorState, StateEffect, StateField, EditorView, Decoration, keymap, lineNumbers, highlightActiveLine,
  highlightActiveLineGutter, drawSelection, highlightSpecialChars, defaultKeymap, insertNewlineAndIndent, history,
  historyKeymap, foldGutter, foldKeymap, indentUnit, indentService, autocompletion, completionKeymap,
  acceptCompletion, completionStatus, moveCompletionSelection, selectedCompletion, startCompletion, closeBrackets,
  closeBracketsKeymap, lintGutter, nextDiagnostic, previousDiagnostic, search, searchKeymap,
} from "./vendor.js";
import { language, colours, folding } from "./language.js";
import { json } from "./api.js";
import { offset, place } from "./places.js";
import { make } from "./dom.js";

// --- words that may follow -----------------------------------------------------------------------------------

async function words(context) {
  const { state, pos } = context;
  const here = place(state.doc, pos), row = state.doc.lineAt(pos), before = row.text.slice(0, pos - row.from);
  if (!context.explicit && !/[\p{L}\p{N}]$|:\s*$|~$|-$/u.test(before)) return null;
  let said;
  try {
    said = await json("words", { text: state.doc.toString(), ...here });
  } catch {
    return null; // the rest of the page says that the program is gone
  }
  const from = offset(state.doc, here.line, said.start);
  const typed = state.sliceDoc(from, pos);
  const offers = said.offers.filter((offer) => context.explicit || offer.insert.trimEnd() !== typed);
  if (context.aborted || !offers.length) return null;
  return {
    from, to: pos, filter: false,
    options: offers.map((offer) => ({
      label: offer.word,
      detail: offer.said || shortened(offer.help),
      type: offer.kind,
      info: offer.said || offer.help.length > 56 ? () => make("div", { className: "offer-help" }, offer.help) : undefined,
      apply: (view, _, start, end) => put(view, offer.insert, start, end),
    })),
  };
}
const shortened = (help) => (help.length > 56 ? `${help.slice(0, 54).replace(/[\s,;]+\S*$/, "")} …` : help);
function put(view, insert, from, to) {
  view.dispatch({ changes: { from, to, insert }, selection: { anchor: from + insert.length }, userEvent: "input.complete", scrollIntoView: true });
  if (/[:\s]$/.test(insert) && !/\n\s*$/.test(insert)) startCompletion(view);
}

// --- what a suggestion has changed is marked until something is typed ------------------------------------------

export const markPut = StateEffect.define();
const putMark = Decoration.mark({ class: "put-in", attributes: { title: "put in from a suggestion" } });
const marked = StateField.define({
  create: () => Decoration.none,
  update(marks, transaction) {
    marks = transaction.docChanged && transaction.isUserEvent("input") ? Decoration.none : marks.map(transaction.changes);
    for (const effect of transaction.effects)
      if (effect.is(markPut)) marks = Decoration.set(effect.value.map(({ from, to }) => putMark.range(from, to)), true);
    return marks;
  },
  provide: (field) => EditorView.decorations.from(field),
});

// --- keys --------------------------------------------------------------------------------------------------

// Below a heading two spaces in, else as the line above.
const indenting = (tables) => {
  const heading = new RegExp(`^(?:${tables.blocks.join("|")})\\b`);
  return indentService.of((context, at) => {
    const broken = context.simulatedBreak;
    const row = broken === null || broken === undefined ? context.state.doc.lineAt(at) : context.state.doc.lineAt(broken);
    const above = (broken === null || broken === undefined) && row.number > 1 ? context.state.doc.line(row.number - 1) : row;
    return heading.test(above.text) ? context.unit : /^\s*/.exec(above.text)[0].length;
  });
};
// Enter on an empty line of a block ends the block: back to the margin.
function enter(view) {
  const { state } = view, row = state.doc.lineAt(state.selection.main.head);
  if (!/^\s+$/.test(row.text) || !state.selection.main.empty) return insertNewlineAndIndent(view);
  view.dispatch({ changes: { from: row.from, to: row.to, insert: "\n" }, selection: { anchor: row.from + 1 }, userEvent: "input", scrollIntoView: true });
  return true;
}
// Enter always ends the line; Tab takes what is offered, as soon as it is, and leaves the text when nothing is.
let tabWaits = false;
function tab(view) {
  const status = completionStatus(view.state);
  tabWaits = status === "pending";
  if (status !== "active") return tabWaits;
  if (!selectedCompletion(view.state)) moveCompletionSelection(true)(view);
  return acceptCompletion(view);
}
const tabHasWaited = EditorView.updateListener.of((update) => {
  if (!tabWaits) return;
  if (update.docChanged) tabWaits = false;
  else if (completionStatus(update.state) === "active") setTimeout(() => tabWaits && tab(update.view));
});

export function makeState(text, { tables, nonce, changed, moved, keys }) {
  return EditorState.create({
    doc: text,
    extensions: [
      EditorView.cspNonce.of(nonce),
      lintGutter(), lineNumbers(), foldGutter(), highlightActiveLineGutter(), highlightActiveLine(), highlightSpecialChars(),
      history(), drawSelection(), closeBrackets(), indentUnit.of("  "), search({ top: true }), EditorView.lineWrapping,
      language(tables), colours, folding(tables), indenting(tables), marked, tabHasWaited,
      autocompletion({ override: [words], icons: false, selectOnOpen: false, interactionDelay: 0, activateOnTypingDelay: 50, closeOnBlur: true }),
      EditorView.contentAttributes.of({ "aria-label": "Gestures, as text", tabindex: "0", spellcheck: "false", autocorrect: "off", autocapitalize: "off", translate: "no" }),
      keymap.of([
        { key: "Tab", run: tab },
        { key: "Enter", run: enter },
        { key: "F8", run: nextDiagnostic },
        { key: "Shift-F8", run: previousDiagnostic },
        ...keys,
        ...closeBracketsKeymap, ...defaultKeymap.filter((one) => one.key !== "Mod-Enter"), ...searchKeymap, ...historyKeymap, ...foldKeymap,
        ...completionKeymap.filter((one) => one.key !== "Enter"),
      ]),
      EditorView.updateListener.of((update) => {
        if (update.docChanged) changed(update);
        if (update.docChanged || update.selectionSet) moved(update);
      }),
    ],
  });
}
export const makeView = (parent, state) => new EditorView({ parent, state });
