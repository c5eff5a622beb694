/**
 * The relays as they stand, and what may happen next: in step mode each of it is a button.
 * @param {App} app
 */
function relaysView(app) {
  const chips = app.data.lookups.relays.map((relay) => relayChip(app, relay));
  place("relays").append(...chips.map((one) => one.element));
  place("no-relays").hidden = chips.length > 0;
  return (run, now) => {
    chips.forEach((one) => one.render(run, now));
    renderNext(app, run, now);
  };
}

/**
 * @param {App} app
 * @param {Relay} relay
 */
function relayChip(app, relay) {
  const digit = app.data.digits[relay.digit];
  const word = make("span", { class: "word" });
  const wish = make("span", { class: "wish" });
  const name = make("span", {}, make("b", {}, relay.name), digit.label ? ` ${digit.label}` : "");
  const flag = make("span", { class: "flag", "aria-hidden": "true" });
  const element = make("li", { class: "relay" }, flag, name, word, wish);
  /**
   * @param {Run} run
   * @param {Now} now
   */
  function render(run, now) {
    element.dataset.value = String(run.state[relay.digit]);
    say(word, digit.values[run.state[relay.digit]]);
    const step = now.wishes.find((one) => one.digit === relay.digit);
    say(wish, step ? `wants to: ${digit.says[step.end].replace(`${relay.name} `, "")}` : "");
  }
  return { element, render };
}

/** @param {Candidate} candidate @returns {string} how long it takes */
function timeWords({ step }) {
  if (step.kind === "timer") return `its time: ${seconds(step.least)}`;
  if (step.kind !== "relay") return step.kind === "axis" ? "driven" : "the hand goes on";
  return `${milliseconds(step.least)}–${milliseconds(step.greatest)} ms${step.told ? "" : ", a usual time"}`;
}

const milliseconds = (time) => String(Number((time * 1000).toPrecision(2)));
const seconds = (time) => (time < 0.0995 ? `${milliseconds(time)} ms` : `${Number(time.toPrecision(3))} s`);

/**
 * @param {App} app
 * @param {Run} run
 * @param {Now} now
 */
function renderNext(app, run, now) {
  const stepping = app.mode === "step";
  const list = place("next");
  const quick = now.candidates.filter((one) => app.rules.isQuick(one.step));
  const offered = now.candidates.filter((one) => one.step.kind !== "hand" || app.rules.isQuick(one.step));
  const key = JSON.stringify([stepping, run.held, offered.map((one) => [one.step.digit, one.step.end, one.first])]);
  if (list.dataset.key === key) return;
  list.dataset.key = key;
  const focused = list.contains(document.activeElement);
  list.replaceChildren(...offered.map((one) => make("li", {}, nextItem(app, one, quick))));
  say(place("next-title"), nextTitle(run, stepping, offered, quick));
  if (focused) /** @type {HTMLElement} */ (list.querySelector("button:not([disabled])") ?? place("next-title")).focus();
}

/**
 * @param {App} app
 * @param {Candidate} candidate
 * @param {Candidate[]} quick
 */
function nextItem(app, candidate, quick) {
  const quiet = (text) => make("span", { class: "quiet" }, text);
  const words = [make("b", {}, app.rules.saysOf(candidate.step)), quiet(timeWords(candidate))];
  if (!candidate.first) {
    const before = quick.filter((one) => one.first).map((one) => app.data.digits[one.step.digit].name).join(" or ");
    words.push(quiet(`not first: by their times ${before} goes before it`));
  }
  if (app.mode !== "step" || app.run.held === "shown") return make("div", { class: "coming" }, ...words);
  const button = make("button", { type: "button", class: "coming", disabled: !candidate.first }, ...words);
  button.addEventListener("click", () => app.take(candidate));
  return button;
}

/**
 * @param {Run} run
 * @param {boolean} stepping
 * @param {Candidate[]} offered
 * @param {Candidate[]} quick
 */
function nextTitle(run, stepping, offered, quick) {
  if (run.held === "short") return "A shorted supply: nothing is followed any further.";
  if (run.held === "shown") return "Shown as the finding tells it. “Go on” lets things move.";
  if (!offered.length) return "Everything is at rest. Work a control or push an axis.";
  if (!stepping) return quick.length > 1 ? "Several want to move; their times decide." : "What comes next:";
  return offered.length > 1 ? "Several things may happen. Choose which comes first:" : "One thing may happen next:";
}
