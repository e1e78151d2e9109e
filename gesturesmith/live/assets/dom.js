// Elements from values; text never becomes markup.
export const $ = (id) => document.getElementById(id);
export function make(tag, properties = {}, ...inside) {
  const one = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (name.includes("-") || name === "role" || name === "for") one.setAttribute(name, value);
    else one[name] = value;
  }
  one.append(...inside.filter((part) => part !== null && part !== undefined && part !== ""));
  return one;
}
// As `replaceChildren`, without what is not there.
export const fill = (where, ...inside) => where.replaceChildren(...inside.filter((part) => part !== null && part !== undefined && part !== ""));
export const button = (label, run, properties = {}) => {
  const one = make("button", { type: "button", ...properties }, label);
  one.addEventListener("click", run);
  return one;
};

// The little Markdown that the texts of the language have: paragraphs, `code`, **strong**, *stress*, fenced lines.
export function prose(text) {
  const parts = text.split(/```\w*\n([\s\S]*?)\n?```/);
  return parts.flatMap((part, i) => {
    if (i % 2) return [make("pre", {}, part)];
    return part.split(/\n\s*\n/).filter((one) => one.trim()).map((one) => make("p", {}, ...spans(one.trim().replace(/\s*\n\s*/g, " "))));
  });
}
export function spans(text) {
  return text.split(/(`[^`]+`|\*\*[^*]+\*\*|\*[^*\s][^*]*\*|\[[^\]]+\]\([^)]+\))/).filter(Boolean).map((part) => {
    if (part.startsWith("`") && part.length > 2) return make("code", {}, part.slice(1, -1));
    if (part.startsWith("**") && part.length > 4) return make("strong", {}, part.slice(2, -2));
    if (/^\*[^*]+\*$/.test(part)) return make("em", {}, part.slice(1, -1));
    return /^\[[^\]]+\]\([^)]+\)$/.test(part) ? part.slice(1, part.indexOf("](")) : part;
  });
}

// A picture of the program as elements: it has escaped every text in it, and the page allows no scripts but its own.
const pictures = globalThis.trustedTypes?.createPolicy("pictures", { createHTML: (svg) => svg }) ?? { createHTML: (svg) => svg };
export function picture(svg) {
  const read = new DOMParser().parseFromString(pictures.createHTML(svg), "image/svg+xml").documentElement;
  return document.importNode(read, true);
}
