// What is said above the adverts: how far it is, or what went wrong and what to do?

let notice = null;

/** Show something above the first advert; screen readers are told of it, and a focus that was in it stays there. */
function tell(adverts, children) {
  if (notice === null) {
    notice = made("div", "", [], { class: "sunsill sunsill-notice", role: "status", lang: "en", tabindex: "-1" });
    adverts[0].element.before(notice);
  }
  const held = notice.contains(document.activeElement);
  notice.replaceChildren(...children);
  if (held) {
    notice.focus();
  }
}

/** A failure in words, without buttons. */
function failureParts(failure) {
  return [made("strong", "", [failure.title]), ...failure.todo.map((text) => made("p", "", [text]))];
}

/** A failure with what can be done about it. */
function tellFailure(adverts, failure, again) {
  const buttons = [button("Try again", again)];
  if (failure.settings) {
    buttons.push(button("Open the settings", () => asked({ ask: "open_settings" })));
  }
  tell(adverts, [...failureParts(failure), made("div", "buttons", buttons)]);
}

/** What was done, by what the sets were ranked, in which currency, and what the shortlist notes. */
function tellDone(adverts, list) {
  const noted = list.notes.map(noteWords).filter(Boolean);
  const sets = `${list.shortlist.length} of ${list.sets_looked_at} sets are listed, ${rankedWords(list.ranked_by)}.`;
  const amounts = list.currency ? `Amounts are in ${list.currency}.` : "No currency is known: amounts are as the adverts tell them.";
  const summary = `Sunsill read ${adverts.length} adverts. ${sets} ${amounts}`;
  const more = listed("", noted);
  tell(adverts, [
    made("p", "", [summary]),
    ...(more ? [made("details", "", [made("summary", "", ["Notes on the list"]), more])] : []),
  ]);
}
