// How is a piece of page made? Texts go in as text and as nothing else: no string here is ever read as HTML.

/**
 * An element with its class, its children (elements or texts) and further attributes.
 * @param {string} tag
 * @param {string} name of the class, without the prefix; "" for none
 * @param {(Node | string)[]} children
 * @param {Record<string, string>} attributes
 */
function made(tag, name = "", children = [], attributes = {}) {
  const element = document.createElement(tag);
  if (name) {
    element.className = `sunsill-${name}`;
  }
  for (const [key, value] of Object.entries(attributes)) {
    element.setAttribute(key, value);
  }
  element.append(...children); // a string becomes a text node
  return element;
}

/** A list of texts or elements; null where there are none. */
function listed(name, items, attributes = {}) {
  return items.length ? made("ul", name, items.map((item) => made("li", "", [item])), attributes) : null;
}

/** A heading with what belongs under it; null where nothing does. */
function part(title, ...children) {
  const kept = children.filter(Boolean);
  return kept.length ? made("div", "part", [made("h4", "", [title]), ...kept]) : null;
}

/** A row of a list of facts; `fact` names it for whoever looks for it. */
function fact(name, label, value) {
  return made("div", "", [made("dt", "", [label]), made("dd", "", [value], { "data-fact": name })]);
}

/** A button that does something. */
function button(label, press) {
  const element = made("button", "", [label], { type: "button" });
  element.addEventListener("click", press);
  return element;
}
