/**
 * What the page's data are, as circuitcheck/page/ writes them. A number in place of a set says where it stands among
 * `sets`; null that it was too wide.
 *
 * A set of states: the digits that it depends on, what each of their values counts, and its bits in base64.
 * @typedef {{digits: number[], strides: number[], bits: string}} PackedSet
 *
 * A moment that a hand passes: its value, and the (from, to) whose way leads through it.
 * @typedef {{value: number, moves: [number, number][]}} Between
 *
 * Something that stands in one of several positions. says: when it goes to each value; stands: when it is there.
 * @typedef {{name: string, kind: string, label: string, positions: number, values: string[], says: string[],
 *            stands: string[], between: Between[], springs_to: ?number}} Digit
 *
 * @typedef {{name: string, label: string, digit: number, zones: number[]}} Limit
 * @typedef {{start: number, end: number, wanted: ?number, timed: boolean, least: number, greatest: number,
 *            told: boolean}} Wish
 * @typedef {{name: string, digit: number, wishes: Wish[]}} Relay
 * @typedef {{digits: number[], endless: ?number}} Cone
 * @typedef {{name: string, kind: string, words: {word: string, states: ?number}[]}} Device
 * @typedef {{name: string, digit: number, motors: string[],
 *            ways: {start: number, end: number, direction: number, driven: ?number}[]}} Axis
 * @typedef {{digit: ?number, values: number[], fed: (?number)[], braking: (?number)[],
 *            shorting: (?number)[]}} Conductor
 * @typedef {{forward: ?number, backward: ?number, braking: ?number}} Load
 * @typedef {{supplies: string[], states: ?number}} Short
 * @typedef {{relays: Relay[], cones: Cone[], devices: Device[], axes: Axis[], conductors: Conductor[], loads: Load[],
 *            shorts: Short[]}} Lookups
 *
 * @typedef {{quicker: string, steps: string[], ends: string}} Order
 * @typedef {{check: string, severity: string, what: string, parts: string[], why: string, remedy: string,
 *            accepted: string, where: string[], orders: Order[]}} Finding
 * @typedef {{words: string, state: ?State}} Shown
 * @typedef {{finding: Finding, steps: Shown[], way: string[], conductors: number[], loads: number[]}} Incident
 *
 * Pairs are of a digit and its value, null for any.
 * @typedef {[number, ?number][]} Pairs
 * @typedef {{cells: string[], given: Pairs, relays: Pairs}} Row
 *
 * @typedef {{name: string, label: string, digits: Digit[], limits: Limit[], beginning: State, lookups: Lookups,
 *            incidents: Incident[], sets: PackedSet[], table: ?{headings: string[], rows: Row[]}}} Data
 *
 * And what the page makes of them.
 *
 * A state: the value of each digit, by the digit's number.
 * @typedef {number[]} State
 *
 * Something that may happen next. kind: "relay" (in milliseconds), "timer", "hand" or "axis". least, greatest: seconds
 * after which a relay or a timer does it, told: by the plan. direction: of an axis, else 0.
 * @typedef {{kind: string, digit: number, start: number, end: number, least: number, greatest: number, told: boolean,
 *            direction: number}} Step
 *
 * What has happened. number: counted from 0; says: in words; state: afterwards; others: what else could have come
 * first.
 * @typedef {{number: number, says: string, seconds: number, state: State, others: string[]}} Entry
 *
 * Where the page has come to. It is never changed: what happens next makes another. seconds: the page's clock. since:
 * when each wish that relays now have began, by `wishKey`. heading: where a hand that is between two positions goes.
 * waiting: what hands have asked for while relays were still moving. spots: where in its zone each axis is, from -0.5
 * to 0.5. held: "short" (it ends here), "shown" (as a finding tells it) or "". entries: what has happened, the last at
 * the end.
 * @typedef {{state: State, seconds: number, since: Object<string, number>, heading: Object<number, number>,
 *            waiting: {digit: number, end: number}[], spots: Object<number, number>, held: string,
 *            entries: Entry[]}} Run
 *
 * A step with the page's clock at which it can come at the earliest and at the latest, and does by itself. first: do
 * the times leave it to be the first?
 * @typedef {{step: Step, earliest: number, latest: number, due: number, first: boolean}} Candidate
 *
 * All that is looked up for a state.
 * @typedef {{shorts: number[], rest: boolean, words: string[], wishes: Step[], steps: Step[], flows: string[],
 *            loads: string[]}} Told
 * @typedef {Told & {candidates: Candidate[]}} Now
 *
 * A lane of the timing chart: filled in the columns in which `name` stands at (or does) `word`.
 * @typedef {{name: string, word: string, filled: boolean[]}} Lane
 *
 * @typedef {ReturnType<typeof appOf>} App
 * @typedef {(run: Run, now: Now) => void} View
 */
