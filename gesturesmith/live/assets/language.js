// Colours for the words of the language. All words come from the program; none are listed here.
import { StreamLanguage, HighlightStyle, syntaxHighlighting, foldService, tags as t } from "./vendor.js";

const NOTE = /^x?[A-G](?:##|bb|[𝄪𝄫♮]|[#b♯♭]?[\^v𝄲𝄳]?)[0-9](?:[+-][0-9]+c?)?(?![\p{L}\p{N}#^♮])/u;
const NUMBER = /^[0-9]+(?:\.[0-9]+|\/[0-9]+)?%?/;
const WORD = /^[\p{L}_](?:[\p{L}\p{N}_]|-(?=[\p{L}\p{N}]))*/u;
const TEXT = /^["“„«][^"”“»]*["”“»]?/u;
const escaped = (sign) => sign.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

export function language(tables) {
  const keys = new Set(tables.keys), blocks = new Set(tables.blocks), kinds = new Map();
  for (const kind of ["values", "words", "heights", "marks", "levels", "rules", "instruments", "techniques"])
    for (const word of tables[kind]) kinds.set(word, kind);
  const LINE = new RegExp(`^(?:${tables.lines.map(escaped).join("|")})`);
  return StreamLanguage.define({
    name: "gesture",
    startState: () => ({ value: false, head: false }),
    copyState: (state) => ({ ...state }),
    token(stream, state) {
      if (stream.sol()) {
        // A value goes on in lines that begin no key.
        const starts = /^\s*([\p{L}_-]+)\s*:/u.exec(stream.string);
        state.value = state.value && !starts && /^\s/.test(stream.string);
        state.head = false;
      }
      const at = stream.pos, before = stream.string.slice(0, at);
      if (stream.eatSpace()) return null;
      if (stream.peek() === "#" && (!before.trim() || /(\s\s|\t)$/.test(before))) {
        stream.skipToEnd();
        return "comment";
      }
      if (stream.match(TEXT)) return "string";
      if (state.value && stream.match(NOTE)) return stream.string[at] === "x" ? "about" : "note";
      const word = stream.match(WORD);
      if (word) {
        if (!state.value && !before && blocks.has(word[0]) && !/^\s*:/.test(stream.string.slice(stream.pos))) {
          state.head = true;
          return "block";
        }
        if (state.head) return "name";
        if (!state.value && !before.trim()) return keys.has(word[0]) || /^\s/.test(stream.string) ? "key" : null;
        return kinds.get(word[0]) ?? null;
      }
      if (!state.value && stream.eat(":")) {
        state.value = true;
        return "sign";
      }
      if (stream.match(/^@[0-9]+(?:\.[0-9]+|\/[0-9]+)?/)) return "time";
      if (stream.match(LINE)) return "line";
      if (stream.match(NUMBER)) return "number";
      stream.next();
      return null;
    },
    tokenTable: {
      key: t.propertyName, block: t.keyword, name: t.definition(t.variableName), techniques: t.className,
      instruments: t.className, rules: t.className, note: t.literal, about: t.special(t.literal), heights: t.literal,
      marks: t.modifier, levels: t.modifier, values: t.atom, words: t.operatorKeyword, line: t.operator,
      time: t.labelName, number: t.number, sign: t.punctuation,
    },
    languageData: { commentTokens: { line: "#" }, closeBrackets: { brackets: ['"'] } },
  });
}

// The colours themselves are in page.css, for light and dark.
export const colours = syntaxHighlighting(HighlightStyle.define([
  { tag: t.keyword, class: "w-block" },
  { tag: t.definition(t.variableName), class: "w-name" },
  { tag: t.propertyName, class: "w-key" },
  { tag: t.className, class: "w-technique" },
  { tag: t.literal, class: "w-note" },
  { tag: t.special(t.literal), class: "w-note w-about" },
  { tag: t.operator, class: "w-line" },
  { tag: t.labelName, class: "w-time" },
  { tag: t.number, class: "w-number" },
  { tag: t.modifier, class: "w-mark" },
  { tag: t.atom, class: "w-value" },
  { tag: t.operatorKeyword, class: "w-word" },
  { tag: t.string, class: "w-string" },
  { tag: t.comment, class: "w-comment" },
]));

// A block folds from its heading to its last line that is not blank.
export const folding = (tables) => {
  const heading = new RegExp(`^(?:${tables.blocks.join("|")})\\b`);
  return foldService.of((state, from) => {
    const head = state.doc.lineAt(from);
    if (!heading.test(head.text)) return null;
    let end = head.to;
    for (let n = head.number + 1; n <= state.doc.lines; n++) {
      const line = state.doc.line(n);
      if (/^\S/.test(line.text)) break;
      if (line.text.trim()) end = line.to;
    }
    return end > head.to ? { from: head.to, to: end } : null;
  });
};
