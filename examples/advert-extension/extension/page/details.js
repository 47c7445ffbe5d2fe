// What stands in the details of an advert: ratings, questions to the seller, findings, cautions?

const MOST_FINDINGS = 12;
const ON_RAILING = /^railing \d+: /; // the place as asking/questions.js names it
const BEWARE =
  "Nothing here is a permission or a promise. Mains voltage, direct current under load and falling glass can hurt " +
  "people: local codes, the grid operator, the landlord and a licensed electrician have the last word.";

/** Parts of the details that a reading gives; none where nothing is on offer that could be used. */
function detailsOfReading({ is_offer, kind, panel, inverter, missing }) {
  if (!is_offer || kind === "other") {
    return [];
  }
  const ofOneInput = { ...inverter, ...inverter.inputs?.[0] };
  return [
    kind !== "inverter" && part("Ratings of one panel", ratings(panel, PANEL_RATINGS)),
    kind !== "panel" && part("Ratings of the inverter", ratings(ofOneInput, INVERTER_RATINGS)),
    missing.length && made("p", "", ["What is not known is never taken to fit. Ask for a picture of the label."]),
  ].filter(Boolean);
}

function ratings(told, wanted) {
  const rows = wanted.map(([name, label, unit]) => {
    const value = told[name];
    return fact(name, label, Number.isFinite(value) ? `${value} ${unit}` : NOT_KNOWN);
  });
  return made("dl", "ratings", rows);
}

/** Parts of the details that the set gives. */
function detailsOfSet(set, id, currency) {
  const bid = set.bids.find((one) => one.advert === id);
  const worth = bid && [
    `${bid.asked === 0 ? "Nothing" : amount(bid.asked, currency)} is asked for ${bid.must_take ?? bid.pieces}. `,
    bid.left_over_text && `${bid.left_over_text} `,
    Number.isFinite(bid.beside_others) && besideOthers(bid, currency),
    `It would be earned back at this home up to ${amount(bid.bid_up_to, currency)}. `,
    set.bid_because?.code === "no_new_price" && "A new set from a shop may cost far less: look one up before you offer.",
  ].filter(Boolean);
  return [
    part("What it is worth here", worth && made("p", "", worth)),
    part("What to ask the seller", listed("asks", set.ask.filter((one) => one.advert === id).map(questionWords))),
    part("What does not simply fit", findingList(set.findings)),
    part("What was taken where nobody told", listed("assumed", (set.assumptions ?? []).map((one) => takenWords(one, currency)))),
    cautionsOf(set),
  ].filter(Boolean);
}

/** Up to what price it does as well as another set of the page; what is not earned back as a gift needs no other. */
function besideOthers({ beside_others: most, bid_up_to: bid }, currency) {
  if (most >= 0.005) {
    return `Above ${amount(most, currency)} another set here does better. `;
  }
  return bid > 0 && "Even as a gift it would do no better than another set here. ";
}

/** A question in English and, marked as such, in the seller's language. */
function questionWords(ask) {
  if (ask.seller_language === "en") {
    return ask.text;
  }
  const theirs = made("q", "", [ask.seller_text], { lang: ask.seller_language });
  return made("span", "", [`${ask.text} `, theirs]);
}

/** What was assumed of the adverts of a set; an amount with its range. */
function takenWords({ pointer, text, value, low, high }, currency) {
  const taken = pointer?.endsWith("_km") ? `${figure(value, 0)} km` : amount(value, currency, 0);
  const range = Number.isFinite(low) ? ` Taken: ${taken} (${figure(low, 0)} to ${figure(high, 0)}).` : "";
  return withoutWay(text) + range;
}

/** Findings that are not `fits`; what is said alike of two places on the railing, once. */
function findingList(findings) {
  const told = [...new Set(findings.map(({ verdict, text }) => `${verdictWords(verdict)}: ${text.replace(ON_RAILING, "")}`))];
  const left = told.length - MOST_FINDINGS;
  return listed("findings", left > 0 ? [...told.slice(0, MOST_FINDINGS), `and ${left} more`] : told);
}

/** Cautions and steps come from the appraisal of the set, asked for when somebody wants them. */
function cautionsOf(set) {
  const place = made("div", "cautions", [], { "aria-live": "polite" });
  const more = button("Cautions and next steps for this set", async () => {
    if (more.getAttribute("aria-disabled") === "true") {
      return;
    }
    more.setAttribute("aria-disabled", "true"); // not disabled: it keeps the focus
    place.replaceChildren(made("p", "", ["Asking …"]));
    const { answer, failure } = await asked({ ask: "appraisal", request: set.request });
    more.removeAttribute("aria-disabled");
    place.replaceChildren(...(failure ? failureParts(failure) : adviceParts(answer)));
  });
  return made("div", "part", [made("h4", "", ["Before you buy"]), made("p", "", [BEWARE]), more, place]);
}

/** Cautions, dangers named as such, and steps, by the moment for them. */
function adviceParts({ cautions, steps }) {
  const said = [
    ...cautions.map((one) => [one.step, `${plain(one.severity)}: ${one.text}`]),
    ...steps.map((one) => [one.when, one.text]),
  ];
  const moments = [...new Set([...MOMENTS, ...said.map(([moment]) => moment)])];
  return moments.map((moment) => {
    const texts = said.filter(([when]) => when === moment).map(([, text]) => text);
    return part(capital(plain(moment)), listed("advice", texts));
  }).filter(Boolean);
}
