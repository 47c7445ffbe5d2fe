"""Can every text of a page be read? Contrast by WCAG 2.2, 1.4.3, of the colours that the browser computed."""

from tests.browser.chromium import Tab

# The least contrast of all texts within what a selector finds, and the text that has it.
LEAST = """
(() => {
  const parse = (text) => text.match(/[\\d.]+/g).map(Number);
  const linear = (c) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4);
  const luminance = ([r, g, b]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  const behind = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const colour = parse(getComputedStyle(at).backgroundColor);
      if (colour.length === 3 || colour[3] === 1) return colour;
    }
    return [255, 255, 255];
  };
  let least = [99, ""];
  for (const root of document.querySelectorAll(SELECTOR)) {
    const texts = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
    while (texts.nextNode()) {
      const element = texts.currentNode.parentElement;
      if (!texts.currentNode.data.trim() || !element.checkVisibility()) continue;
      const [a, b] = [parse(getComputedStyle(element).color), behind(element)].map(luminance);
      const contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
      if (contrast < least[0]) least = [contrast, texts.currentNode.data];
    }
  }
  return least;
})()
"""
ENOUGH = 4.5


def least_contrast(tab: Tab, selector: str) -> tuple[float, str]:
    """The least contrast of a text within what a selector finds, and that text."""
    contrast, text = tab.script(LEAST.replace("SELECTOR", repr(selector)))
    return float(contrast), str(text)
