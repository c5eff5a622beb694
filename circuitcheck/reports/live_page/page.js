/**
 * The page: one run, shown by several views. Whatever changes the run goes through `show`.
 *
 * lookup and state stand on the body's own property, so that a test can compare every state with the engine.
 */
function startPage() {
  const data = JSON.parse(place("data").textContent ?? "");
  const lookups = lookupsOf(data);
  const app = appOf(data, lookups);
  const devices = devicesView(app);
  const views = [controlsView(app), axesView(app), relaysView(app), picturesView(app), findingsView(app), tableView(app), chartView(app)];
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
  Object.assign(document.body, { circuitcheck: { lookup: (state) => lookedUp(lookups, data, state), run: () => app.run } });
  app.render();
}

/** What the views need to know of the present state, looked up once. */
function nowOf(app) {
  const { state } = app.run;
  return { ...lookedUp(app.lookups, app.data, state), candidates: app.rules.candidates(app.run) };
}

/** All that the page tells of a state. */
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

const NO_WAY = { conductors: [], loads: [] };

function appOf(data, lookups) {
  const rules = rulesOf(data, lookups);
  const beginning = () => rules.begin(data.beginning, "power-up: supplies on, relays released");
  const held = new Set();
  const app = {
    data, lookups, rules, run: beginning(), mode: "slow", past: /** @type {Run[]} */ ([]),
    told: /** @type {Entry[]} */ ([]), shownIncident: /** @type {?number} */ (null), shownWay: NO_WAY, render: () => {}, wake: () => {},
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
      app.shownWay = incident && step === incident.steps.findLastIndex((one) => one.state !== null) ? incident : NO_WAY;
      if (shown) app.show(rules.begin(shown.state, `as found: ${shown.words}`, "shown"));
      else app.render();
    },
    keepsHeld: (digit) => held.has(digit),
    keepHeld(digit, keeps) {
      if (keeps) held.add(digit);
      else held.delete(digit);
      if (!keeps && data.digits[digit].springs_to !== app.run.state[digit]) app.work(digit, data.digits[digit].springs_to);
    },
  };
  return app;
}

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

/** A short stops the page; the finding about it is a click away, and open already. */
function renderAlarm(app, now) {
  const supplies = now.shorts.map((number) => app.data.lookups.shorts[number].supplies.join(" and "));
  const number = supplies.length ? shortFinding(app, app.run.state) : null;
  const link = place("alarm-link");
  say(place("alarm-words"), supplies.length ? `Short of ${[...new Set(supplies)].join("; ")}. Nothing is followed from here: go back one step, or start over. ` : "");
  say(link, number === null ? "" : `The finding: ${app.data.incidents[number].finding.what}`);
  setAttributes(link, { href: number === null ? false : `#finding-${number}` });
  place("alarm").hidden = supplies.length === 0;
}

/** The number of the finding that is about the short of this state, if there is one. */
function shortFinding(app, state) {
  const names = app.lookups.shortsIn(state).flatMap((number) => app.data.lookups.shorts[number].supplies);
  const number = app.data.incidents.findIndex(({ finding }) => (
    finding.check === "supply-short" && finding.parts.some((part) => names.includes(part))));
  return number < 0 ? null : number;
}

/** Told to who listens instead of looks. Relays that chatter are told so often that only the latest of it counts. */
function announce(words) {
  clearTimeout(announcing);
  announcing = setTimeout(() => say(place("said"), words), 150);
}

let announcing = 0;

/** Lets time pass as long as something goes on: the page's clock, but for step mode, and motors that still turn. */
function wakerOf(app, devices) {
  let asked = false;
  let last = 0;
  function frame(time) {
    asked = false;
    const passed = Math.min(0.1, last ? (time - last) / 1000 : 0);
    last = time;
    const goes = passTime(app, passed);
    if (devices.turn(passed) || goes) wake();
    else last = 0;
  }
  function wake() {
    if (asked) return;
    asked = true;
    requestAnimationFrame(frame);
  }
  return wake;
}

/** In slow motion what takes milliseconds takes a hundred times as long; a frame sees at most so many things happen. */
const SLOWNESS = 100;
const MOST_A_FRAME = 4;

/** @returns {boolean} whether anything goes on by itself */
function passTime(app, passed) {
  if (app.mode === "step" || app.run.held) return false;
  let { run } = app;
  let left = passed;
  for (let count = 0; count < MOST_A_FRAME && left > 0 && app.rules.candidates(run).length; count += 1) {
    const pace = app.mode === "slow" && app.rules.isHasty(run) ? 1 / SLOWNESS : 1;
    const later = app.rules.wait(run, left * pace);
    left -= (later.seconds - run.seconds) / pace;
    run = later;
    if (run.held) break;
  }
  app.show(run);
  return app.rules.candidates(run).length > 0 && !run.held;
}

/** Light, dark, or as the system has it; kept only as long as the page is open. */
function connectAppearance() {
  const select = /** @type {HTMLSelectElement} */ (place("appearance"));
  select.addEventListener("change", () => { document.documentElement.dataset.appearance = select.value; });
}

startPage();
