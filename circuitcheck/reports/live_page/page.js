/**
 * The page: one run, shown by several views. Whatever changes the run goes through `show`.
 *
 * lookup and run stand on a property of the body, so that a test can compare every state with the engine.
 */
function startPage() {
  const data = JSON.parse(place("data").textContent ?? "");
  const lookups = lookupsOf(data);
  const app = appOf(data, lookups);
  const devices = devicesView(app);
  const views = [
    controlsView(app), axesView(app), relaysView(app), findingsView(app), picturesView(app), chartView(app),
    tableView(app),
  ];
  app.render = () => {
    const now = nowOf(app);
    for (const view of views) view(app.run, now);
    devices.render(now);
    renderBar(app, now);
    app.wake();
  };
  app.wake = wakerOf(app, devices);
  connectBar(app);
  connectAppearance();
  const lookup = (state) => lookedUp(lookups, data, state);
  Object.assign(document.body, { circuitcheck: { lookup, run: () => app.run } });
  app.render();
}

/**
 * What the views need to know of the present state, looked up once.
 * @param {App} app
 */
function nowOf(app) {
  const { state } = app.run;
  return { ...lookedUp(app.lookups, app.data, state), candidates: app.rules.candidates(app.run) };
}

/**
 * All that the page tells of a state.
 * @param {ReturnType<typeof lookupsOf>} lookups
 * @param {Data} data
 * @param {State} state
 */
function lookedUp(lookups, data, state) {
  return {
    shorts: lookups.shortsIn(state),
    rest: lookups.atRest(state),
    words: lookups.words(state),
    wishes: lookups.wishes(state),
    steps: lookups.steps(state),
    flows: data.lookups.conductors.map((_, number) => lookups.flow(number, state)),
    loads: data.lookups.loads.map((_, number) => lookups.loadFlow(number, state)),
  };
}

/** @type {{conductors: number[], loads: number[]}} */
const NO_WAY = { conductors: [], loads: [] };

/**
 * What the page is about, how far it has come, and everything that can be done with it.
 * @param {Data} data
 * @param {ReturnType<typeof lookupsOf>} lookups
 */
function appOf(data, lookups) {
  const rules = rulesOf(data, lookups);
  const beginning = () => rules.begin(data.beginning, "power-up: supplies on, relays released");
  const held = new Set();
  const app = {
    data, lookups, rules, run: beginning(), mode: "slow", past: /** @type {Run[]} */ ([]),
    told: /** @type {Entry[]} */ ([]), shownIncident: /** @type {?number} */ (null), shownWay: NO_WAY,
    render: () => {}, wake: () => {},
    /** The run goes on as `run`; what was before can be taken back to. */
    show(run) {
      if (run === app.run) return;
      if (run.entries !== app.run.entries) app.past = [...app.past, app.run].slice(-MOST_ENTRIES);
      if (run.held === "short" && app.run.held !== "short") app.shownIncident ??= shortFinding(app, run.state);
      app.run = run;
      app.render();
    },
    work(digit, end) {
      app.shownWay = NO_WAY;
      app.show(rules.work(app.run, digit, end));
    },
    push(digit, zone) { app.show(rules.push(app.run, digit, zone)); },
    /** Step by step a relay moves as early as it can, so that those beside it lose least of their time. */
    take(candidate) {
      const moment = rules.isQuick(candidate.step) ? candidate.earliest : candidate.due;
      app.show(rules.take(app.run, candidate, Math.max(app.run.seconds, moment)));
    },
    goOn() { app.show(rules.goOn(app.run)); },
    back() {
      const run = app.past.pop();
      if (run) app.run = run;
      app.render();
    },
    startOver() {
      app.shownIncident = null;
      app.shownWay = NO_WAY;
      app.show(beginning());
    },
    showIncident(number, step) {
      app.shownIncident = number;
      const incident = number === null ? null : data.incidents[number];
      const shown = incident?.steps[step];
      const last = incident?.steps.findLastIndex((one) => one.state !== null);
      app.shownWay = incident && step === last ? incident : NO_WAY;
      if (shown?.state) app.show(rules.begin(shown.state, `as found: ${shown.words}`, "shown"));
      else app.render();
    },
    keepsHeld: (digit) => held.has(digit),
    keepHeld(digit, keeps) {
      const home = data.digits[digit].springs_to;
      if (keeps) held.add(digit);
      else held.delete(digit);
      if (!keeps && home !== app.run.state[digit]) app.work(digit, home);
    },
  };
  return app;
}

/** Light, dark, or as the system has it; kept only as long as the page is open. */
function connectAppearance() {
  const select = /** @type {HTMLSelectElement} */ (place("appearance"));
  select.addEventListener("change", () => { document.documentElement.dataset.appearance = select.value; });
}

startPage();
