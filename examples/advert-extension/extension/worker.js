// What does the page want to know? The worker alone talks to the service; pages only send messages.

import { appraisalOf, readingsOf, shortlistOf } from "./asking/questions.js";
import { homeMissing } from "./asking/failures.js";
import { ask } from "./asking/service.js";
import { hasHome, settingsKept } from "./asking/settings.js";

/** What may be asked, by name: from a message to an answer or a failure. */
const QUESTIONS = {
  readings: (message, settings) => ask(settings, "/v1/adverts/reading", readingsOf(message.adverts), "readings"),
  shortlist: async (message, settings) =>
    hasHome(settings)
      ? ask(settings, "/v1/adverts/shortlist", shortlistOf(message.adverts, settings), "shortlist")
      : { failure: homeMissing() },
  appraisal: (message, settings) => ask(settings, "/v1/appraisal", appraisalOf(message.request), "decision"),
  version: (message, settings) => ask(settings, "/version", null, "service_version"),
  open_settings: async () => {
    await chrome.runtime.openOptionsPage();
    return { answer: {} };
  },
};

chrome.runtime.onMessage.addListener((message, sender, reply) => {
  const question = Object.hasOwn(QUESTIONS, message?.ask) ? QUESTIONS[message.ask] : null;
  if (sender.id !== chrome.runtime.id || question === null) {
    return false;
  }
  settingsKept()
    .then((settings) => question(message, settings))
    .then(reply, (error) => reply({ failure: { title: "The extension stumbled.", todo: [String(error)] } }));
  return true; // the reply comes later
});
