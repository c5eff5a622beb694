/**
 * Supplies, hand switches and outside contacts: whatever somebody, or something outside, brings to a position.
 * @param {App} app
 */
function controlsView(app) {
  const kinds = [["supply", "Power"], ["control", "Controls"], ["outside", "From outside"]];
  const shown = [];
  for (const [kind, title] of kinds) {
    const digits = app.data.digits.flatMap((digit, number) => (digit.kind === kind ? [number] : []));
    if (!digits.length) continue;
    const controls = digits.map((number) => controlOf(app, number));
    shown.push(...controls);
    const group = make("div", { class: "group" }, make("h3", {}, title), ...controls.map((one) => one.element));
    place("controls").append(group);
  }
  return (run) => shown.forEach((one) => one.render(run));
}

/**
 * One control: a choice between its positions, or buttons to hold where it springs back.
 * @param {App} app
 * @param {number} number
 */
function controlOf(app, number) {
  const digit = app.data.digits[number];
  const note = make("span", { class: "note" });
  const choices = [...Array(digit.positions).keys()].map((value) => (
    digit.springs_to === null || digit.springs_to === value
      ? choiceOf(app, number, value)
      : heldButton(app, number, value)
  ));
  const legend = make("legend", {}, make("b", {}, digit.name), digit.label ? ` ${digit.label}` : "");
  const held = digit.springs_to === null ? [] : [keptHeld(app, number)];
  const row = make("div", { class: "choices" }, ...choices.map((one) => one.element));
  const element = make("fieldset", { class: "control", "data-kind": digit.kind }, legend, row, ...held, note);
  /** @param {Run} run */
  function render(run) {
    choices.forEach((choice, value) => choice.render(run.state[number] === value));
    const between = run.state[number] >= digit.positions;
    const waits = run.waiting.find((one) => one.digit === number);
    element.classList.toggle("between", between);
    const where = between ? digit.values[run.state[number]] : "";
    say(note, waits ? `→ ${digit.values[waits.end]}: waits until relays are at rest` : where);
  }
  return { element, render };
}

/**
 * @param {App} app
 * @param {number} number
 * @param {number} value
 */
function choiceOf(app, number, value) {
  const digit = app.data.digits[number];
  const input = /** @type {HTMLInputElement} */ (make("input", { type: "radio", name: `digit-${number}`, value }));
  input.addEventListener("change", () => app.work(number, value));
  const element = make("label", { class: "choice" }, input, make("span", {}, digit.values[value]));
  return { element, render: (here) => { input.checked = here; } };
}

/**
 * Pressed as long as it is held, by pointer or key; by whoever only clicks, until the next click.
 * @param {App} app
 * @param {number} number
 * @param {number} value
 */
function heldButton(app, number, value) {
  const digit = app.data.digits[number];
  const element = make("button", { type: "button", class: "choice held", "aria-pressed": "false" },
    make("span", {}, digit.values[value]));
  let holding = false;
  const press = () => {
    holding = true;
    app.work(number, value);
  };
  const release = () => {
    if (!holding) return;
    holding = false;
    if (!app.keepsHeld(number)) app.work(number, /** @type {number} */ (digit.springs_to));
  };
  element.addEventListener("pointerdown", (event) => { if (event.button === 0) press(); });
  for (const end of ["pointerup", "pointercancel", "pointerleave", "blur"]) element.addEventListener(end, release);
  element.addEventListener("keydown", (event) => {
    if ((event.key !== " " && event.key !== "Enter") || event.repeat) return;
    event.preventDefault();
    press();
  });
  element.addEventListener("keyup", (event) => { if (event.key === " " || event.key === "Enter") release(); });
  element.addEventListener("click", (event) => {
    const assisted = event.detail === 0;
    if (assisted) app.work(number, app.run.state[number] === value ? digit.springs_to : value);
  });
  return { element, render: (here) => setAttributes(element, { "aria-pressed": String(here) }) };
}

/**
 * Whoever has two hands too few lets the page hold it.
 * @param {App} app
 * @param {number} number
 */
function keptHeld(app, number) {
  const digit = app.data.digits[number];
  const input = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox" }));
  input.addEventListener("change", () => app.keepHeld(number, input.checked));
  return make("label", { class: "keep" }, input, ` keep ${digit.name} where it is put`);
}
