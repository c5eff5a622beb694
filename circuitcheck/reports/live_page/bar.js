/**
 * The bar that stays in sight: how relays move, back and over, and the alarm where a supply is shorted.
 * @param {App} app
 */
function connectBar(app) {
  for (const radio of document.querySelectorAll("#mode input")) {
    const input = /** @type {HTMLInputElement} */ (radio);
    if (input.checked) app.mode = input.value;
    input.addEventListener("change", () => {
      app.mode = input.value;
      app.render();
    });
  }
  place("back").addEventListener("click", () => app.back());
  place("start-over").addEventListener("click", () => app.startOver());
  place("go-on").addEventListener("click", () => app.goOn());
}

/**
 * @param {App} app
 * @param {Now} now
 */
function renderBar(app, now) {
  const { run } = app;
  setAttributes(place("back"), { disabled: app.past.length === 0 });
  place("go-on").hidden = run.held !== "shown";
  document.body.dataset.held = run.held;
  renderAlarm(app, now);
  say(place("clock"), seconds(run.seconds));
  if (run.entries !== app.told) announce(run.entries[run.entries.length - 1].says);
  app.told = run.entries;
}

/**
 * A short stops the page; the finding about it is a click away, and open already.
 * @param {App} app
 * @param {Now} now
 */
function renderAlarm(app, now) {
  const supplies = now.shorts.map((number) => app.data.lookups.shorts[number].supplies.join(" and "));
  const number = supplies.length ? shortFinding(app, app.run.state) : null;
  const link = place("alarm-link");
  const words = `Short of ${[...new Set(supplies)].join("; ")}. ${NOTHING_FOLLOWS}`;
  say(place("alarm-words"), supplies.length ? words : "");
  say(link, number === null ? "" : `The finding: ${app.data.incidents[number].finding.what}`);
  setAttributes(link, { href: number === null ? false : `#finding-${number}` });
  place("alarm").hidden = supplies.length === 0;
}

const NOTHING_FOLLOWS = "Nothing is followed from here: go back one step, or start over. ";

/**
 * The number of the finding that is about the short of this state, if there is one.
 * @param {App} app
 * @param {State} state
 */
function shortFinding(app, state) {
  const names = app.lookups.shortsIn(state).flatMap((number) => app.data.lookups.shorts[number].supplies);
  const number = app.data.incidents.findIndex(({ finding }) => (
    finding.check === "supply-short" && finding.parts.some((part) => names.includes(part))));
  return number < 0 ? null : number;
}

/**
 * Told to who listens instead of looks. Relays that chatter are told so often that only the latest of it counts.
 * @param {string} words
 */
function announce(words) {
  clearTimeout(announcing);
  announcing = setTimeout(() => say(place("said"), words), 150);
}

let announcing = 0;
