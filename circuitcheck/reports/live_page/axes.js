/**
 * The ways along which motors move something, with the switches on them; each can be pushed by hand.
 * @param {App} app
 */
function axesView(app) {
  const shown = app.data.lookups.axes.map((axis) => axisOf(app, axis));
  place("axes").append(...shown.map((one) => one.element));
  place("no-axes").hidden = shown.length > 0;
  return (run, now) => shown.forEach((one) => one.render(run, now));
}

/**
 * @param {App} app
 * @param {Axis} axis
 */
function axisOf(app, axis) {
  const digit = app.data.digits[axis.digit];
  const count = digit.positions;
  const marker = make("div", { class: "marker", "aria-hidden": "true" });
  const cells = digit.values.map((word) => make("div", { class: `zone ${zoneClass(word)}` }, zoneLabel(word)));
  const slider = /** @type {HTMLInputElement} */ (make("input", {
    type: "range", min: 0, max: count - 1, step: 1, "aria-label": `${axis.name}, pushed by hand`,
  }));
  slider.addEventListener("input", () => app.push(axis.digit, Number(slider.value)));
  const limits = app.data.limits.filter((limit) => limit.digit === axis.digit).map((limit) => limitOf(limit, count));
  const stands = make("output", { class: "stands" });
  const way = make("div", { class: "way", style: `--zones: ${count}` },
    make("div", { class: "zones", "aria-hidden": "true" }, ...cells), marker, slider,
    ...limits.map((one) => one.element));
  const drivers = axis.motors.length ? make("span", { class: "quiet" }, ` moved by ${axis.motors.join(", ")}`) : "";
  const title = make("h3", {}, axis.name, drivers);
  const element = make("div", { class: "axis" }, title, stands, way);
  /**
   * @param {Run} run
   * @param {Now} now
   */
  function render(run, now) {
    const zone = run.state[axis.digit];
    const spot = zone + 0.5 + (run.spots[axis.digit] ?? 0);
    marker.style.left = `${100 * spot / count}%`;
    cells.forEach((cell, number) => cell.classList.toggle("here", number === zone));
    if (document.activeElement !== slider || Number(slider.value) !== zone) slider.value = String(zone);
    setAttributes(slider, { "aria-valuetext": digit.values[zone] });
    const step = now.steps.find((one) => one.kind === "axis" && one.digit === axis.digit);
    marker.dataset.way = step ? (step.direction > 0 ? "up" : "down") : "";
    say(stands, digit.stands[zone] + (step ? ` → on its way to ${digit.values[step.end]}` : ""));
    limits.forEach((one) => one.render(zone));
  }
  return { element, render };
}

const zoneClass = (word) => (/^(between|away) /.test(word) ? "open" : /^past /.test(word) ? "past" : "spot");
const zoneLabel = (word) => (zoneClass(word) === "spot" ? word : zoneClass(word) === "past" ? "past" : "");

/**
 * A switch on the way: a bar over the zones in which it is pressed.
 * @param {Limit} limit
 * @param {number} count
 */
function limitOf(limit, count) {
  const bars = [...Array(count).keys()].map((zone) => make("i", { class: limit.zones.includes(zone) ? "acts" : "" }));
  const word = make("span", { class: "word" });
  const label = limit.label ? ` ${limit.label}` : "";
  const name = make("span", { class: "limit-name" }, make("b", {}, limit.name), label, word);
  const element = make("div", { class: "limit" }, make("div", { class: "bars", "aria-hidden": "true" }, ...bars), name);
  /** @param {number} zone */
  function render(zone) {
    const pressed = limit.zones.includes(zone);
    element.classList.toggle("pressed", pressed);
    say(word, pressed ? " pressed" : " free");
  }
  return { element, render };
}
