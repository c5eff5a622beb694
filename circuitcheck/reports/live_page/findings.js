/**
 * What the checks have found. A click shows the state that it is about, and the way of the current.
 * @param {App} app
 */
function findingsView(app) {
  const items = app.data.incidents.map((incident, number) => findingOf(app, incident, number));
  place("finding-list").append(...items.map((one) => one.element));
  place("no-findings").hidden = items.length > 0;
  return () => items.forEach((one, number) => one.render(app.shownIncident === number));
}

const SEVERITIES = { error: "✖ error", warning: "▲ warning", note: "● note" };

/**
 * @param {App} app
 * @param {Incident} incident
 * @param {number} number
 */
function findingOf(app, incident, number) {
  const { finding } = incident;
  const body = make("div", { class: "finding-body", id: `finding-${number}` }, ...findingWords(app, incident, number));
  const accepted = finding.accepted ? " (accepted)" : "";
  const head = make("button", { type: "button", class: "finding-head", "aria-controls": `finding-${number}` },
    make("span", { class: `severity ${finding.severity}` }, SEVERITIES[finding.severity] + accepted),
    make("span", {}, finding.what), make("code", {}, finding.check));
  const last = incident.steps.findLastIndex((step) => step.state !== null);
  head.addEventListener("click", () => {
    if (app.shownIncident === number) app.showIncident(null);
    else app.showIncident(number, last);
  });
  /** @param {boolean} open */
  function render(open) {
    body.hidden = !open;
    setAttributes(head, { "aria-expanded": String(open) });
  }
  return { element: make("li", { class: "finding" }, head, body), render };
}

/**
 * @param {App} app
 * @param {Incident} incident
 * @param {number} number
 */
function findingWords(app, incident, number) {
  const { finding } = incident;
  const words = [make("p", { class: "quiet" }, finding.where.join(", "))];
  if (finding.accepted) words.push(make("p", {}, `Accepted in the plan: ${finding.accepted}`));
  if (incident.steps.length) {
    words.push(make("h4", {}, "How it comes about"));
    const steps = incident.steps.map((step, order) => stepOf(app, step, number, order));
    words.push(make("ol", { class: "steps" }, ...steps));
  }
  for (const order of finding.orders) {
    const when = order.quicker ? `If ${order.quicker} is quicker` : "Then";
    words.push(make("p", {}, `${when}: ${[...order.steps, order.ends].join(", ")}`));
  }
  if (incident.way.length) {
    words.push(make("h4", {}, "Way of the current"), make("p", { class: "way-words" }, incident.way.join(" → ")));
    const link = make("a", { href: "#pictures" }, "See it in the pictures");
    if (document.getElementById("pictures")) words.push(make("p", {}, link));
  }
  words.push(make("h4", {}, "Why"), make("p", {}, finding.why));
  words.push(make("h4", {}, "Remedy"), make("p", {}, finding.remedy));
  return words;
}

/**
 * @param {App} app
 * @param {Shown} step
 * @param {number} number
 * @param {number} order
 */
function stepOf(app, step, number, order) {
  if (step.state === null) {
    return make("li", {}, step.words, make("span", { class: "quiet" }, " (the page has no picture of this)"));
  }
  const button = make("button", { type: "button", class: "step" }, step.words);
  button.addEventListener("click", () => app.showIncident(number, order));
  return make("li", {}, button);
}
