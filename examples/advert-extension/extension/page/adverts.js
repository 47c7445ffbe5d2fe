// Which adverts stand on this page? The one place that knows how a page marks them up; change it for another page.

const ADVERT = "article[data-advert]";
const PARTS = { title: ["title", 1000], price_text: ["price", 200], body: ["body", 6000] };
const MOST_ADVERTS = 200; // of these lengths they stay within what one question may weigh

/**
 * The adverts in their order, each with its element and with what is sent of it. Texts are taken as a reader sees them
 * and cut where the service's limits are; names are ours, for a page may use one twice.
 */
function advertsOf(page) {
  return [...page.querySelectorAll(ADVERT)].slice(0, MOST_ADVERTS).map((element, at) => {
    const sent = { id: `advert ${at + 1}` };
    for (const [name, [marked, longest]] of Object.entries(PARTS)) {
      const text = element.querySelector(`[data-part="${marked}"]`)?.innerText ?? "";
      sent[name] = text.trim().slice(0, longest).toWellFormed();
    }
    return { element, sent };
  });
}
