/** How long the page lets an axis take from zone to zone, and a hand between two positions: shown, not measured. */
const ZONE_SECONDS = 1.2;
const HAND_SECONDS = 0.03;
/** So many things that happened are kept. */
const MOST_ENTRIES = 200;

const wishKey = (step) => `${step.digit} ${step.start} ${step.end}`;

/**
 * Makes the rules by which a run goes on: it only ever takes steps that are looked up.
 * @param {Data} data
 * @param {ReturnType<typeof lookupsOf>} lookups
 */
function rulesOf(data, lookups) {
  const isQuick = (step) => step.kind === "relay" || (step.kind === "hand" && step.start >= positionsOf(step.digit));
  const positionsOf = (digit) => data.digits[digit].positions;

  /**
   * @param {State} state
   * @returns {Run} a run that begins in this state
   */
  function begin(state, says, held = "") {
    const entry = { number: 0, says, seconds: 0, state, others: [] };
    const run = { state, seconds: 0, since: {}, heading: {}, waiting: [], spots: {}, held, entries: [entry] };
    return withWishes(run);
  }

  /**
   * @param {Run} run
   * @returns {Run} the same with the wishes that there are now; those that go on keep their beginning
   */
  function withWishes(run) {
    const since = {};
    const wanted = lookups.shortsIn(run.state).length ? [] : lookups.wishes(run.state);
    const passing = lookups.steps(run.state).filter((step) => step.kind === "hand" && isQuick(step));
    for (const step of [...wanted, ...passing]) since[wishKey(step)] = run.since[wishKey(step)] ?? run.seconds;
    const held = lookups.shortsIn(run.state).length ? "short" : run.held;
    return { ...run, since, held };
  }

  /**
   * @param {Run} run
   * @returns {Candidate[]} what may happen by itself; `first` tells whether the times leave it to be the first
   */
  function candidates(run) {
    if (run.held === "short") return [];
    const own = lookups.steps(run.state).filter((step) => {
      if (step.kind === "hand") return isQuick(step) && run.heading[step.digit] === step.end;
      return true;
    });
    const timed = own.map((step) => ({ step, first: true, ...times(run, step) }));
    const end = Math.min(...timed.filter((one) => isQuick(one.step)).map((one) => one.latest));
    return timed.map((one) => ({ ...one, first: !isQuick(one.step) || one.earliest <= end }));
  }

  /**
   * @param {Run} run
   * @param {Step} step
   */
  function times(run, step) {
    if (step.kind === "axis") {
      const left = 0.5 - step.direction * (run.spots[step.digit] ?? 0);
      return { earliest: run.seconds, latest: Infinity, due: run.seconds + left * ZONE_SECONDS };
    }
    const since = run.since[wishKey(step)] ?? run.seconds;
    if (step.kind === "hand") {
      return { earliest: run.seconds, latest: Infinity, due: Math.max(run.seconds, since + HAND_SECONDS) };
    }
    const earliest = Math.max(run.seconds, since + step.least);
    const due = Math.max(run.seconds, since + (step.least + step.greatest) / 2);
    return { earliest, latest: since + step.greatest, due };
  }

  /**
   * @param {Run} run
   * @param {Candidate} candidate
   * @param {number} seconds
   * @returns {Run} after this candidate, at so many seconds
   */
  function take(run, candidate, seconds) {
    const { step } = candidate;
    const rivals = candidates(run).filter((one) => one.first && wishKey(one.step) !== wishKey(step));
    const others = isQuick(step) ? rivals.filter((one) => isQuick(one.step)).map((one) => saysOf(one.step)) : [];
    const passed = isQuick(step) ? run : { ...run, since: shifted(run, seconds - run.seconds) };
    return after({ ...passed, seconds }, step, saysOf(step), others);
  }

  /**
   * Relays that go round for ever do so beside what takes long: its seconds are none of theirs.
   * @param {Run} run
   * @param {number} seconds
   */
  function shifted(run, seconds) {
    const quick = new Set(lookups.wishes(run.state).filter(isQuick).map(wishKey));
    const later = (key, since) => (quick.has(key) ? since + seconds : since);
    return Object.fromEntries(Object.entries(run.since).map(([key, since]) => [key, later(key, since)]));
  }

  const saysOf = (step) => data.digits[step.digit].says[step.end];

  /**
   * @param {Run} run
   * @param {Step} step
   */
  function after(run, step, says, others) {
    const state = run.state.map((value, digit) => (digit === step.digit ? step.end : value));
    const number = run.entries[run.entries.length - 1].number + 1;
    const entries = [...run.entries, { number, says, seconds: run.seconds, state, others }].slice(-MOST_ENTRIES);
    const spots = { ...run.spots, [step.digit]: -0.5 * step.direction };
    const heading = { ...run.heading };
    if (step.end < positionsOf(step.digit)) delete heading[step.digit];
    return served(withWishes({ ...run, state, entries, spots, heading }));
  }

  /**
   * @param {Run} run
   * @returns {Run} once hands have done what they waited for, as far as they may
   */
  function served(run) {
    const [next, ...waiting] = run.waiting;
    if (!next || run.held) return run;
    const left = { ...run, waiting };
    if (run.state[next.digit] === next.end) return served(left);
    const moved = workedNow(left, next.digit, next.end);
    return moved === left ? run : moved;
  }

  /**
   * @param {Run} run
   * @param {number} digit
   * @param {number} end
   * @returns {Run} after a hand brings a control there: at once, or as soon as relays are at rest
   */
  function work(run, digit, end) {
    if (run.held === "short") return run;
    return goOn({ ...run, waiting: [...run.waiting, { digit, end }] });
  }

  /** @returns {Run} let go of what a finding shows */
  const goOn = (run) => (run.held === "short" ? run : served({ ...run, held: "" }));

  /**
   * @param {Run} run
   * @param {number} digit
   * @param {number} end
   */
  function workedNow(run, digit, end) {
    const ways = lookups.steps(run.state).filter((step) => step.kind === "hand" && step.digit === digit);
    const start = run.state[digit];
    const leads = (one) => one.moves.some((move) => move[0] === start && move[1] === end);
    const moment = data.digits[digit].between.find(leads);
    // A hand that is between two positions may turn back, or go on.
    const step = ways.find((one) => one.end === (moment ? moment.value : end));
    if (!step) return run;
    return after({ ...run, heading: { ...run.heading, [digit]: end } }, step, saysOf(step), []);
  }

  /**
   * @param {Run} run
   * @param {number} digit
   * @param {number} zone
   * @returns {Run} after somebody has pushed an axis by hand, zone by zone; no motor had to
   */
  function push(run, digit, zone) {
    let pushed = { ...run, held: run.held === "shown" ? "" : run.held };
    while (pushed.state[digit] !== zone && !pushed.held) {
      const start = pushed.state[digit];
      const step = { ...UNTIMED, kind: "axis", digit, start, end: start + Math.sign(zone - start) };
      pushed = after(pushed, step, `by hand: ${saysOf(step)}`, []);
    }
    return pushed;
  }

  /**
   * Lets the page's clock go on, up to the next thing that happens by itself.
   * @param {Run} run
   * @param {number} seconds
   * @returns {Run}
   */
  function wait(run, seconds) {
    if (run.held) return run;
    const coming = candidates(run).filter((one) => one.first);
    const [next] = [...coming].sort((one, other) => one.due - other.due);
    const comes = next && next.due <= run.seconds + seconds;
    const passed = comes ? next.due - run.seconds : seconds;
    const spots = { ...run.spots };
    for (const { step } of coming.filter((one) => one.step.kind === "axis")) {
      spots[step.digit] = (spots[step.digit] ?? 0) + step.direction * passed / ZONE_SECONDS;
    }
    return comes ? take({ ...run, spots }, next, next.due) : { ...run, spots, seconds: run.seconds + passed };
  }

  /** Is something going on in milliseconds, that slow motion has to stretch? */
  const isHasty = (run) => candidates(run).some((one) => isQuick(one.step));

  return { begin, candidates, take, work, goOn, push, wait, isHasty, saysOf, isQuick };
}
