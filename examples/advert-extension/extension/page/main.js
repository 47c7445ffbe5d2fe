// The way from a page to its annotations: one question for the readings of all adverts, one for their shortlist.

const SLOW_AFTER_MS = 2000;

/** What the worker replies: {answer} or {failure}. */
async function asked(message) {
  try {
    return await chrome.runtime.sendMessage(message);
  } catch {
    const todo = ["It was updated or switched off. Load this page anew."];
    return { failure: { title: "The extension does not answer.", todo } };
  }
}

async function run() {
  const adverts = advertsOf(document);
  if (!adverts.length) {
    return;
  }
  document.querySelectorAll("section.sunsill").forEach((shown) => shown.remove());
  tell(adverts, [made("p", "", [`Sunsill is reading ${adverts.length} adverts …`])]);
  const slow = setTimeout(() => {
    tell(adverts, [made("p", "", ["The service takes its time. Still waiting …"])]);
  }, SLOW_AFTER_MS);
  try {
    await annotateAll(adverts);
  } catch {
    const todo = ["Its version may be another than the extension was made for."];
    tellFailure(adverts, { title: "The answer was not understood.", todo }, run);
  } finally {
    clearTimeout(slow);
  }
}

async function annotateAll(adverts) {
  const sent = adverts.map((advert) => advert.sent);
  const [read, ranked] = [asked({ ask: "readings", adverts: sent }), asked({ ask: "shortlist", adverts: sent })];
  const readings = await read;
  if (readings.failure) {
    tellFailure(adverts, readings.failure, run);
    return;
  }
  adverts.forEach((advert, at) => annotate(advert, readings.answer.readings[at]));
  const list = await ranked;
  if (list.failure) {
    tellFailure(adverts, list.failure, run);
    return;
  }
  const titles = new Map(sent.map(({ id, title }) => [id, title]));
  adverts.forEach((advert) => addSet(advert, list.answer, titles));
  tellDone(adverts, list.answer);
}

run();
