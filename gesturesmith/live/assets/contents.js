// All gestures and passages of the file, with verdict and difficulty.
import { $, button, make } from "./dom.js";
import { SIGNS } from "./panel.js";

export function contents(said, go) {
  const { report, here } = said;
  const unread = report.unread.filter((name) => ![...report.gestures, ...report.passages].some((one) => one.name === name));
  const rows = [
    ...report.gestures.map((one) => ({ ...one, kind: "gesture" })),
    ...report.passages.map((one) => ({ ...one, kind: "passage" })),
  ].sort((a, b) => a.line - b.line);
  const focused = $("contents").contains(document.activeElement) ? document.activeElement.dataset.name : null;
  const list = make("ul", {}, ...rows.map((one) => {
    const current = here && one.name === here.name;
    const label = button("", () => go(one.line), { className: "entry", "aria-current": current ? "true" : "false" });
    label.dataset.name = `${one.name} ${one.part ?? ""}`;
    label.append(
      make("span", { className: `sign ${one.verdict}`, "aria-hidden": "true" }, SIGNS[one.verdict]),
      make("span", { className: "title" }, one.title ?? one.name, one.part_title ? make("span", { className: "of-part" }, ` ${one.part_title}`) : null),
      make("span", { className: "how" }, one.words),
      make("span", { className: "how-hard" }, ...(one.difficulty === null ? [] : [make("span", { className: "unseen" }, "difficulty "), String(one.difficulty)])),
    );
    return make("li", {}, label);
  }), ...unread.map((name) => make("li", { className: "unread-entry" }, make("span", { className: "sign unread", "aria-hidden": "true" }, SIGNS.unread), `${name}: cannot be read yet`)));
  const count = (number, word) => `${number} ${word}${number === 1 ? "" : "s"}`;
  const written = (all) => new Set(all.map((one) => one.line)).size; // one that several parts play is one
  const heading = [[written(report.gestures), "gesture"], [written(report.passages), "passage"]].map(([number, word]) => (number ? count(number, word) : "")).filter(Boolean).join(", ");
  $("contents").replaceChildren(...(rows.length + unread.length ? [make("h2", {}, heading || "Gestures"), list] : []));
  if (focused) [...$("contents").querySelectorAll("button")].find((one) => one.dataset.name === focused)?.focus();
}
