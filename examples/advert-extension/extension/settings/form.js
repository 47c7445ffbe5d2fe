// From settings to the fields of the form, and back. A field's name is its place in the settings, with dots between.

/** Fill the form. */
export function fill(form, settings) {
  for (const field of fieldsOf(form)) {
    const value = field.name.split(".").reduce((node, key) => node?.[key], flat(settings));
    field.value = value ?? "";
  }
}

/** What the form says; an empty field is left out. */
export function read(form) {
  const found = { rail: {}, inverter: {} };
  for (const field of fieldsOf(form)) {
    if (field.value.trim() !== "") {
      const keys = field.name.split(".");
      const last = keys.pop();
      const node = keys.reduce((at, key) => at[key], found);
      node[last] = field.type === "number" ? field.valueAsNumber : field.value.trim();
    }
  }
  found.inverter = asAsked(found.inverter);
  return found;
}

/** Say beside each field what is wrong with it; the first of them gets the focus. Answers whether all is well. */
export function showMistakes(form, mistakes) {
  let first = null;
  for (const field of fieldsOf(form)) {
    const mistake = wrongAlone(field) || (mistakes[field.name] ?? "");
    document.getElementById(`${field.name}-mistake`).textContent = mistake;
    field.setAttribute("aria-invalid", String(mistake !== ""));
    first ??= mistake === "" ? null : field;
  }
  first?.focus();
  return first === null;
}

/** What is wrong with what stands in a field, whatever stands in the others; in our words, whatever the browser speaks. */
function wrongAlone(field) {
  const { validity, min, max } = field;
  if (validity.badInput) {
    return "That is no number.";
  }
  if (validity.valueMissing || (field.required && field.value.trim() === "")) {
    return "Please fill this in.";
  }
  if (validity.rangeUnderflow || validity.rangeOverflow) {
    return `A number from ${min} to ${max}.`;
  }
  return validity.stepMismatch ? `A whole number from ${min} to ${max}.` : "";
}

export function fieldsOf(form) {
  return [...form.querySelectorAll("input")];
}

const OF_ALL_INPUTS = ["ac_power_w", "input_count"];

/** The inverter as a request names it: what holds for each of its inputs stands once in a list. */
function asAsked(fields) {
  const inverter = {};
  const input = {};
  for (const [name, value] of Object.entries(fields)) {
    (OF_ALL_INPUTS.includes(name) ? inverter : input)[name] = value;
  }
  return Object.keys(input).length ? { ...inverter, inputs: [input] } : inverter;
}

function flat(settings) {
  const { inputs, ...inverter } = settings.inverter;
  return { ...settings, inverter: { ...inverter, ...inputs?.[0] } };
}
