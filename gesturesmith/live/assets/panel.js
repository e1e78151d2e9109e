// What comes of the block at the cursor: verdict, sketch, engraving, findings with their ways out.
import { $, button, fill, make, picture, spans } from "./dom.js";
import { ask, json } from "./api.js";

export const SIGNS = { playable: "●", "with-care": "▲", "not-as-written": "■", advice: "●", caution: "▲", refused: "■", unread: "◆" };
const SEVERITIES = { advice: "playable", caution: "with-care", refused: "not-as-written" };
const sign = (kind) => make("span", { className: "sign", "aria-hidden": "true" }, SIGNS[kind]);

// How hard it is, in words and as a bar.
export function hardness(said) {
  if (said.difficulty === null || said.difficulty === undefined) return null;
  const bar = make("span", { className: "bar", "aria-hidden": "true" }, make("span", { className: "bar-full" }));
  bar.firstChild.style.width = `${said.difficulty}%`;
  const why = said.demands.slice(0, 3).map((one) => one.name).join(", ");
  return make("p", { className: "hard" }, bar, `difficulty ${said.difficulty} of 100`, why ? make("span", { className: "why-hard" }, ` ${why}`) : null);
}

export class Panel {
  // take(finding, way) puts a way out into the text; go(line, column) goes to a place in it
  constructor({ take, go }) {
    Object.assign(this, { take, go });
    this.shown = null; // name of the block that is shown
  }

  // said: what the program says; errors: those that are to be told now; line: of the cursor
  show(said, errors, line) {
    const { here, report } = said;
    const known = here && [...report.gestures, ...report.passages].filter((one) => one.name.toLowerCase() === here.name.toLowerCase());
    this.ways = [];
    if (here && known?.length) {
      this.shown = here.name;
      this.dim(false);
      this.verdict(known, here, errors);
      this.sketches(said.sketches);
      this.findings(known, line);
    } else if (here && here.kind === "exercises" && report.exercises.some((one) => one.name === here.name)) {
      this.shown = here.name;
      this.dim(false);
      this.exercises(report.exercises.find((one) => one.name === here.name), errors);
    } else if (here && this.shown === here.name) {
      this.dim(true); // while it is being typed it keeps what it had
      this.unread(errors, here);
    } else {
      this.shown = null;
      this.dim(false);
      for (const id of ["sketch", "findings"]) $(id).replaceChildren();
      this.engraved(null);
      if (here) this.unread(errors, here);
      else this.overview(report, errors);
    }
    return known?.[0] ?? null;
  }

  dim(before) {
    for (const id of ["sketch", "engraving", "findings"]) $(id).classList.toggle("before", before);
  }

  verdict(known, here, errors) {
    const worst = [...known].sort((a, b) => Object.keys(SIGNS).indexOf(b.verdict) - Object.keys(SIGNS).indexOf(a.verdict))[0];
    const parts = known.filter((one) => one.part_title);
    $("verdict").className = worst.verdict;
    fill(
      $("verdict"),
      make("p", { className: "kind" }, here.kind, " ", make("code", {}, worst.name)),
      make("h2", {}, worst.title ?? worst.name),
      make("p", { className: "said" }, sign(worst.verdict), make("strong", {}, worst.words)),
      hardness([...known].sort((a, b) => (b.difficulty ?? 0) - (a.difficulty ?? 0))[0]),
      parts.length > 1 ? make("ul", { className: "parts" }, ...parts.map((one) => make("li", { className: one.verdict }, sign(one.verdict), `${one.part_title}: ${one.words}`))) : null,
      this.errors(errors),
    );
  }

  unread(errors, here) {
    if (!errors.length && here && this.shown === here.name) return; // it is being typed
    if (errors.length || here) $("verdict").className = errors.length ? "unread" : "";
    if (errors.length) {
      const head = here?.name ? [make("p", { className: "kind" }, here.kind, " ", make("code", {}, here.name)), make("h2", {}, here.title || here.name)] : [];
      fill($("verdict"), ...head, make("p", { className: "said" }, sign("unread"), make("strong", {}, "cannot be read yet")), this.errors(errors));
    } else if (here) $("verdict").replaceChildren();
  }

  // Beside settings and comments: how the file stands as a whole.
  overview(report, errors) {
    const all = [...report.gestures, ...report.passages];
    if (errors.length || !all.length) return this.unread(errors, null);
    const rows = ["not-as-written", "with-care", "playable"].map((verdict) => [verdict, all.filter((one) => one.verdict === verdict)]).filter(([, some]) => some.length);
    $("verdict").className = "";
    fill($("verdict"), make("h2", {}, "The whole file"), make("ul", { className: "parts overview" }, ...rows.map(([verdict, some]) => make("li", { className: verdict }, sign(verdict), make("strong", {}, `${some.length} ${some[0].words}`), ": ", ...some.slice(0, 12).flatMap((one, i) => [i ? ", " : "", button(one.title ?? one.name, () => this.go(one.line), { className: "place" })]), some.length > 12 ? ", …" : ""))));
  }

  errors(errors) {
    if (!errors.length) return null;
    const rows = errors.slice(0, 6).map((error) => {
      const row = make("li", {}, button(`line ${error.line}`, () => this.go(error.line, error.column), { className: "place" }), " ", ...spans(error.message));
      const ways = (error.nearest ?? []).slice(0, 3);
      if (ways.length) row.append(make("span", { className: "nearest" }, ...ways.map((word) => button(word, () => this.take({ ...error, rule: error.rule }, { words: word, replaces: error, word }), { className: "way short" }))));
      row.append(why(error));
      return row;
    });
    if (errors.length > rows.length) rows.push(make("li", {}, `and ${errors.length - rows.length} more`));
    return make("ul", { className: "errors" }, ...rows);
  }

  sketches(drawn) {
    $("sketch").replaceChildren(...drawn.map(({ part, svg }) => {
      const root = picture(svg);
      const box = root.viewBox.baseVal;
      root.setAttribute("viewBox", `0 26 ${box.width} ${box.height - 26}`);
      root.removeAttribute("width");
      root.removeAttribute("height");
      return make("figure", {}, part ? make("figcaption", {}, part) : null, root);
    }));
  }

  exercises(one, errors) {
    $("verdict").className = "";
    fill(
      $("verdict"),
      make("p", { className: "kind" }, "exercises ", make("code", {}, one.name)),
      make("p", { className: "said" }, make("strong", {}, `${one.made} variants`), one.left_out.length ? `, ${one.left_out.length} left out` : ""),
      this.errors(errors),
    );
    $("sketch").replaceChildren();
    this.engraved(null);
    $("findings").replaceChildren(
      make("ol", { className: "variants" }, ...one.kept.map((kept) => make("li", {}, `${kept.variant}: difficulty ${kept.difficulty}`))),
      ...(one.left_out.length ? [make("h3", {}, "Left out"), make("ul", { className: "variants" }, ...one.left_out.map((out) => make("li", {}, `${out.variant}: ${out.reason}`)))] : []),
    );
  }

  findings(known, line) {
    let number = 0;
    const all = known.flatMap((said) => said.findings.map((finding) => ({ finding, said, number: ++number })));
    const several = known.length > 1;
    const open = new Set([...document.querySelectorAll("#findings [aria-expanded=true]")].map((one) => one.dataset.rule));
    $("findings").replaceChildren(...all.map(({ finding, said, number: n }) => {
      const one = make("article", { className: SEVERITIES[finding.severity] });
      const where = [several ? said.part_title : null, finding.where].filter(Boolean).join(", ");
      one.append(make("h3", {}, make("span", { className: "number" }, String(n)), sign(finding.severity), finding.heading, where ? ": " : "", where ? button(where, () => this.go(finding.line, finding.column), { className: "place" }) : null));
      one.append(make("p", {}, ...spans(finding.message)));
      for (const way of finding.suggestions.slice(0, 3)) {
        this.ways.push({ line: finding.line, way, finding });
        one.append(this.way(finding, way));
      }
      if (!finding.suggestions.length && finding.hint) one.append(make("p", { className: "hint" }, ...spans(finding.hint)));
      one.append(why(finding, open.has(finding.rule)));
      return one;
    }));
  }

  // A way out: the lines as they would be, what differs marked.
  way(finding, way) {
    const rows = way.edits.filter((edit) => edit.old || edit.new).slice(0, 4).map((edit) => row(edit));
    const more = way.edits.length > 4 ? make("span", { className: "more" }, way.words) : null;
    const verdict = make("span", { className: `becomes ${way.verdict}` }, sign(way.verdict), way.verdict_words, way.changes_music ? ", changes the music" : "");
    return button("", () => this.take(finding, way), { className: "way" }).appendChild(make("span", { className: "rows" }, ...rows, more, verdict)).parentNode;
  }

  // The first way out of what is found at the line, else of anything here.
  firstWay(line) {
    return this.ways.find((one) => one.line === line) ?? this.ways[0] ?? null;
  }

  engraved(image, why_) {
    const figure = $("engraving");
    for (const old of figure.querySelectorAll("img")) URL.revokeObjectURL(old.src);
    figure.hidden = !image && !why_;
    figure.replaceChildren(...[image, why_ ? make("figcaption", {}, `No engraving: ${why_}`) : null].filter(Boolean));
  }
}

// One line of an edit: what goes struck through, what comes underlined.
function row({ line, old, new: then }) {
  const number = make("span", { className: "line-number" }, String(old ? line : line + 1));
  if (!old) return make("span", { className: "row" }, number, make("ins", {}, then.trim()));
  let a = 0, b = 0;
  const was = old.trim(), now = then.trim();
  while (a < was.length && a < now.length && was[a] === now[a]) a++;
  while (b < was.length - a && b < now.length - a && was[was.length - 1 - b] === now[now.length - 1 - b]) b++;
  const word = /[\p{L}\p{N}#@.-]/u; // whole words and pitches differ, not letters of them
  while (a > 0 && word.test(was[a - 1] ?? "")) a--;
  while (b > 0 && word.test(was[was.length - b] ?? "")) b--;
  const [gone, come] = [was.slice(a, was.length - b), now.slice(a, now.length - b)];
  return make("span", { className: "row" }, number, make("code", {}, was.slice(0, a), gone ? make("del", {}, gone) : null, gone && come ? " " : null, come ? make("ins", {}, come) : null, was.slice(was.length - b)));
}

// "Why?" with the numbers and the evidence, and on demand all that is known of the rule.
function why(finding, open = false) {
  const opens = button("Why?", () => toggle(), { className: "why", "aria-expanded": "false" });
  opens.dataset.rule = finding.rule;
  const box = make("span", { className: "whole-why" }, opens);
  async function toggle() {
    const is = opens.getAttribute("aria-expanded") === "true";
    opens.setAttribute("aria-expanded", String(!is));
    box.querySelector(".because")?.remove();
    if (is) return;
    const because = make("div", { className: "because" });
    box.append(because);
    if (finding.evidence) {
      because.append(make("p", {}, make("strong", {}, `${finding.evidence.kind}: `), finding.evidence.source));
      const numbers = finding.numbers.filter((one) => one.value !== null);
      if (numbers.length) because.append(make("ul", { className: "numbers" }, ...numbers.map((one) => make("li", {}, `${one.name} ${one.value}${one.limit === null ? "" : `, limit ${one.limit}`} ${one.unit}`))));
    }
    try {
      const { text } = await json("explain", { name: finding.rule });
      because.append(make("pre", { tabIndex: 0, "aria-label": `about ${finding.rule}` }, text.trim()));
    } catch { /* the program is gone, which is said elsewhere */ }
  }
  if (open) toggle();
  return box;
}

// --- the engraving ---------------------------------------------------------------------------------------------

export class Engraving {
  constructor(panel) {
    this.panel = panel;
    this.wish = 0;
    this.of = null;
  }

  async draw(request, of) {
    const wish = ++this.wish;
    $("engraving").setAttribute("aria-busy", "true");
    try {
      const answer = await ask("picture", request);
      if (wish !== this.wish) return;
      if (answer.status === 204) return;
      const image = make("img", { alt: `Engraving: ${decodeURIComponent(answer.headers.get("x-description") ?? of)}` });
      image.src = URL.createObjectURL(await answer.blob());
      await image.decode();
      if (wish !== this.wish) return URL.revokeObjectURL(image.src);
      // LilyPond's picture is in millimetres of a page; on the screen a little larger.
      image.style.width = `${Math.round(image.naturalWidth * 1.55)}px`;
      this.panel.engraved(image);
      $("engraving").dataset.of = of;
    } catch (error) {
      if (wish === this.wish && error.status === 503) this.panel.engraved(null, error.message);
    } finally {
      if (wish === this.wish) $("engraving").setAttribute("aria-busy", "false");
    }
  }

  none() {
    this.wish++;
    $("engraving").setAttribute("aria-busy", "false");
  }
}
