"""What went wrong with a request, and what to do next: titles, details and pages of the problems.

``title.*``, ``detail.*`` and ``about.*`` (the page of the problem) go by the problem's code, ``mistake.*`` by the
mistake's, ``accepted.*`` by the kind of value.
"""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "title.malformed_json": "The body is not well-formed JSON",
    "detail.malformed_json": "{why}",
    "about.malformed_json": "The body could not be read as one JSON document in UTF-8. Keys may stand only once in an "
    "object, NaN and Infinity are no numbers in JSON, and nesting goes no deeper than 32. Mend the body and send it "
    "again.",
    "title.malformed_request": "The request is not well formed",
    "detail.malformed_request": "{why}",
    "about.malformed_request": "A header or the address of the request could not be read, or the body ended early. "
    "Mend the request and send it again.",
    "title.not_found": "There is nothing under this path",
    "detail.not_found": "Nothing is served under this path. GET /openapi.json lists the paths, /docs explains them.",
    "about.not_found": "The path is not one of this service's. Compare it with /docs; paths carry no slash at the end.",
    "title.unknown_area": "No local rule is kept under this code",
    "detail.unknown_area": "No card is kept under “{area}”. Codes are ISO 3166 in capitals, such as DE or US-UT; "
    "GET /v1/local-rules lists those that there are.",
    "about.unknown_area": "Areas are ISO 3166 codes in capitals, such as DE or US-UT. No card does not mean no rule: "
    "ask the grid operator.",
    "title.no_climate": "No weather is kept for this place",
    "detail.no_climate": "The embedded climate knows land between 57 S and 72 N, and {latitude}, {longitude} lies in "
    "none of its cells: at sea, or nearer to a pole. Give a point on land; on a small island or a narrow coast one a "
    "little further inland. Please check too that latitude and longitude are not swapped and that south and west are "
    "negative.",
    "about.no_climate": "The embedded climate covers land between 57 S and 72 N. At sea and nearer the poles nothing "
    "is said rather than something invented. Check the order and the signs of latitude and longitude.",
    "title.method_not_allowed": "This path does not take that method",
    "detail.method_not_allowed": "This path takes {allow}.",
    "about.method_not_allowed": "The path is right, the method is not. The Allow header tells what the path takes.",
    "title.not_acceptable": "No such format of the answer",
    "detail.not_acceptable": "This path can answer with {available}. Change the Accept header, or leave it out.",
    "about.not_acceptable": "The Accept header asks for a format that this path does not have. The problem lists those "
    "that it has.",
    "title.body_timeout": "The body took too long to arrive",
    "detail.body_timeout": "The body had not arrived after {seconds} seconds. Please send it again.",
    "about.body_timeout": "A body has to arrive within the time that the operator set. Check the connection and send "
    "it again.",
    "title.body_too_large": "The body is too large",
    "detail.body_too_large": "This path takes at most {limit}. Send less, or split the question.",
    "about.body_too_large": "Bodies are limited in bytes and in values, so that one caller cannot crowd out the "
    "others. Send less, or split the question.",
    "title.unsupported_media_type": "The body has a type that this path does not read",
    "detail.unsupported_media_type": "{why}",
    "about.unsupported_media_type": "Bodies are JSON in UTF-8, sent with “Content-Type: application/json” and without "
    "compression. With curl -d the header has to be given: -H 'Content-Type: application/json'.",
    "title.header_too_large": "The head of the request is too large",
    "detail.header_too_large": "Address and headers together may have at most {limit}.",
    "about.header_too_large": "Address and headers are limited, so that one caller cannot crowd out the others. Leave "
    "out what is not needed.",
    "title.unknown_host": "Not under this host name",
    "detail.unknown_host": "The service does not answer to the host name of this request. The operator can allow it "
    "with SUNSILL_ALLOWED_HOSTS.",
    "about.unknown_host": "The Host header is checked against a list, so that a page elsewhere cannot reach a service "
    "on your own machine through a name of its own. The operator sets the list with SUNSILL_ALLOWED_HOSTS.",
    "title.invalid_request": "The request cannot be used as it stands",
    "detail.invalid_request": "{count} of its values need mending.",
    "detail.invalid_request.one": "One of its values needs mending.",
    "detail.invalid_request.cut": "Many of its values need mending; the first {count} are listed.",
    "about.invalid_request": "The body is JSON, but some of its values are missing, out of range, of the wrong kind or "
    "unknown. Every mistake is listed with the place where it stands (RFC 6901), what was given, and what is "
    "accepted.",
    "title.contradiction": "Two parts of the request cannot both hold",
    "detail.contradiction": "{count} parts of the request contradict others.",
    "detail.contradiction.one": "One part of the request contradicts another.",
    "detail.contradiction.cut": "Many parts of the request contradict others; the first {count} are listed.",
    "about.contradiction": "Each value is possible by itself, but not with another one, such as an array on an input "
    "that the inverter lacks. The list tells where.",
    "title.internal": "Something went wrong here",
    "detail.internal": "That is our mistake and not yours. The operator finds it in the log under the Request-Id.",
    "about.internal": "The service met a fault of its own. Nothing of the request was kept. Tell the operator the "
    "Request-Id of the answer.",
    "title.overloaded": "Too much to do just now",
    "detail.overloaded": "More is asked than can be answered at once. Please try again in {seconds} s.",
    "about.overloaded": "The service takes only as many requests at once as it can answer in good time. Try again "
    "after the seconds that Retry-After names.",
    "mistake.missing": "is missing",
    "mistake.unknown_field": "is not known here",
    "mistake.unknown_field.near": "is not known here; did you mean {near}?",
    "mistake.unknown_field.elsewhere": "does not stand here but at {near}",
    "mistake.not_a_number": "is not a number",
    "mistake.not_a_number.text": "is text; a number is written without quotation marks",
    "mistake.not_a_number.truth": "is true or false and not a number",
    "mistake.not_whole": "is not a whole number",
    "mistake.out_of_range": "is out of range",
    "mistake.not_text": "is not text",
    "mistake.wrong_form": "is not written in the accepted form",
    "mistake.wrong_length": "is too short or too long",
    "mistake.not_one_of": "is not one of the accepted words",
    "mistake.not_one_of.near": "is not one of the accepted words; did you mean {near}?",
    "mistake.not_true_or_false": "is not true or false",
    "mistake.not_a_list": "is not a list",
    "mistake.wrong_count": "has too few or too many entries",
    "mistake.not_an_object": "is not an object",
    "mistake.not_served_yet": "is not served yet; leave it out, or null",
    "mistake.twice": "stands more than once",
    "mistake.wrong_value": "cannot be used",
    "mistake.contradiction": "contradicts another part",
    "mistake.contradiction.input": "is an input that the inverter does not have: it has {input_count}",
    "mistake.contradiction.inputs": "must have one entry for all inputs, or one for each of the {input_count}",
    "mistake.contradiction.order": "must not lie above {other}",
    "mistake.contradiction.coefficient": "is given in two units; give one of them",
    "mistake.contradiction.hours": "must run from the earlier to the later hour; split what spans midnight",
    "mistake.contradiction.limit": "must not lie above the rated a.c. power",
    "mistake.contradiction.same_day": "is the first day of another period too",
    "mistake.contradiction.demand": "is given twice over: as a yearly sum and as hours; give one of them",
    "mistake.contradiction.payback": "stands beside energy; give either the set, or its energy",
    "mistake.missing.identity": "is missing; send it, or the model code, or the text of the label",
    "mistake.missing.payback": "is missing: give site, arrays and inverter, or energy, use and tariff",
    "mistake.missing.price": "is missing, and no price per kWh is known for this place",
    "accepted.time_zone": "an IANA name of a time zone",
    "accepted.tariff": "a tariff with its currency and at least one period with import_price_per_kwh",
    "accepted.whole.one": "{low}",
    "accepted.number": "a number from {low} to {high}",
    "accepted.whole": "a whole number from {low} to {high}",
    "accepted.text": "text of {least} to {most} characters in one line, without control characters",
    "accepted.text.lines": "text of {least} to {most} characters",
    "accepted.text.form": "text like the example",
    "accepted.day": "a day between 2000-01-01 and 2199-12-31, written as in the example (ISO 8601)",
    "accepted.list": "a list of {least} to {most} entries",
    "accepted.list.of": "a list of {most} entries",
    "accepted.lengths": "a list of {lengths} entries",
    "accepted.one_of": "one of {words}",
    "accepted.truth": "true or false",
    "accepted.nothing": "nothing, or null",
    "accepted.object": "an object with {names}",
    "accepted.json": "one JSON object",
    "why.empty": "The body is empty; it should hold one JSON object.",
    "why.not_utf8": "The body is not UTF-8 (byte {at}).",
    "why.syntax": "The body stops being JSON at line {line}, column {column}.",
    "why.constant": "{name} is no number in JSON.",
    "why.duplicate": "The key “{key}” stands more than once in one object.",
    "why.surrogate": "A text holds half of a surrogate pair, which is no character.",
    "why.too_deep": "The body is nested deeper than {depth} levels.",
    "why.wire": "This is not a request of HTTP/1.1.",
    "why.header": "The header {header} cannot be read.",
    "why.body_cut": "The body ended before its stated length.",
    "why.no_type": "The request names no type for its body; send “Content-Type: application/json”.",
    "why.form_type": "The body came as a web form. With curl, add: -H 'Content-Type: application/json'.",
    "why.type": "Bodies of type “{given}” are not read here; send “Content-Type: application/json”.",
    "why.charset": "JSON is read in UTF-8; leave the charset out.",
    "why.coding": "Compressed bodies are not read; send it without “Content-Encoding”.",
}
