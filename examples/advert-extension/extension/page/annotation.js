// What is written beside an advert?

/**
 * The set by which an advert is judged: of its goods alone if there is one, else with my inverter, else the best.
 * @param {string} id
 * @param {any[]} sets of a shortlist, best first
 */
function setOf(id, sets) {
  const mine = sets.filter((set) => set.adverts.includes(id));
  return mine.find((set) => set.adverts.length === 1) ?? mine.find((set) => set.inverter === null) ?? mine[0] ?? null;
}

/**
 * Write beside an advert what its reading tells.
 * @param {{element: Element, sent: any}} advert
 * @param {any} reading
 */
function annotate(advert, reading) {
  const facts = made("dl", "facts", factsOf(reading));
  const doubts = listed("doubts", reading.doubts.map((doubt) => doubt.text), { "aria-label": "Doubts" });
  const label = `Sunsill on ${advert.sent.id}: ${advert.sent.title.slice(0, 80)}`;
  const shown = made("section", "", [facts], { class: "sunsill", lang: "en", "aria-label": label });
  if (doubts) {
    shown.append(made("p", "label", ["Doubts"], { "aria-hidden": "true" }), doubts);
  }
  const details = detailsOfReading(reading);
  if (details.length) {
    shown.append(made("details", "", [made("summary", "", ["Ratings, reasons and what to ask"]), ...details]));
  }
  advert.element.append(shown);
  advert.shown = shown;
}

/** The facts of a reading: what it is where nothing is on offer that could be used, else its prices. */
function factsOf({ kind, is_offer, price }) {
  if (!is_offer || kind === "other") {
    return [fact("kind", "What it is", is_offer ? "Neither panel nor inverter" : "No offer")];
  }
  const each = fact("each", kind === "set" ? "Price of the set" : "Price of one", priceWords(price.each, price.currency));
  const per_watt = fact("per_watt", "Price per watt", priceWords(price.per_watt, price.currency, 3));
  return kind === "panel" ? [per_watt, each] : [each];
}

/**
 * Add what the shortlist tells: fit, payback, and the details of the set.
 * @param {{shown: Element, sent: any}} advert
 * @param {any} list the whole answer
 * @param {Map<string, string>} titles of all adverts, by name
 */
function addSet(advert, list, titles) {
  const row = list.adverts.find((one) => one.advert === advert.sent.id);
  const double = row?.double_of ?? null;
  const id = double ?? advert.sent.id;
  const set = setOf(id, list.shortlist);
  const facts = advert.shown.querySelector("dl");
  const details = advert.shown.querySelector("details");
  if (set === null) {
    if (["does_not_fit", "refused"].includes(row?.because?.code)) {
      facts.append(fact("fit", "Fit with my inverter", VERDICTS.does_not_fit));
    }
    facts.after(made("p", "because", [row?.because ? noteWords(row.because) : "The service says nothing of it."]));
    return;
  }
  facts.append(fact("fit", fitLabel(set, id, titles), fitWords(set)));
  facts.append(fact("payback", "Paid back after (years)", yearsBand(set.simple_payback_years)));
  const same = double === null ? "" : `The same once more as “${titles.get(double) ?? double}”. `;
  facts.after(made("p", "because", [same + setWords(set, id, list.currency, titles)]));
  details?.append(...detailsOfSet(set, id, list.currency));
}

/** With what the fit is told: my inverter, its own, or that of another advert. */
function fitLabel(set, id, titles) {
  if (set.inverter === null) {
    return "Fit with my inverter";
  }
  if (set.adverts.length === 1) {
    return "Fit of its own parts";
  }
  const other = set.inverter === id ? set.adverts.find((name) => name !== id) : set.inverter;
  return `Fit with “${titles.get(other) ?? other}”`;
}

/** What the set is made of, and what it costs and gives. */
function setWords(set, id, currency, titles) {
  const goods = (name) => (name === id ? "this advert" : `“${titles.get(name) ?? name}”`);
  const counts = new Map();
  for (const { advert, count } of set.panels) {
    counts.set(advert, (counts.get(advert) ?? 0) + count);
  }
  const panels = [...counts].map(([name, count]) => {
    const some = count === 1 ? "1 panel" : `${count} panels`;
    return name === null ? `${some} of mine` : `${some} of ${goods(name)}`;
  });
  const inverter = set.inverter === null ? "my inverter" : `the inverter of ${goods(set.inverter)}`;
  const { cautious, hopeful } = set.year_kwh;
  const year = `${figure(cautious, 0)} to ${figure(hopeful, 0)} kWh a year`;
  const paid = set.outlay === 0 ? "nothing to pay" : amount(set.outlay, currency);
  const all = `${paid} in all${withExtras(set) ? "" : ", brackets and leads not counted"}`;
  return `Reckoned for ${panels.join(" and ")} with ${inverter}: ${all}, ${year}.`;
}

/** Is anything counted beside what the adverts sell? */
function withExtras({ request }) {
  return (request?.outlay?.items ?? []).some(({ what }) => !["panels", "inverter", "set"].includes(what));
}
