/**
 * @param {PackedSet} packed
 * @returns {(state: State) => boolean} whether a state is in the set
 */
function membership(packed) {
  const bytes = Uint8Array.from(atob(packed.bits), (sign) => sign.charCodeAt(0));
  return (state) => {
    let number = 0;
    packed.digits.forEach((digit, place) => { number += state[digit] * packed.strides[place]; });
    return (bytes[number >> 3] >> (number & 7) & 1) === 1;
  };
}

/** What the current of a load may be. @type {("forward"|"backward"|"braking")[]} */
const LOAD_FLOWS = ["forward", "backward", "braking"];

/** A step that no figures of a relay are about, and that is no axis'. */
const UNTIMED = { least: 0, greatest: 0, told: true, direction: 0 };

/**
 * Everything that the page says of a state is looked up here, in sets that were worked out before the page was
 * written. Nothing of the circuit is solved, and nothing is guessed.
 * @param {Data} data
 */
function lookupsOf(data) {
  const { relays, cones, devices, axes, conductors, loads, shorts } = data.lookups;
  const members = data.sets.map(membership);
  const holds = (number, state) => number !== null && members[number](state);
  const proper = (state) => data.digits.every((digit, number) => state[number] < digit.positions);

  /** The numbers of the shorts that there are. In a shorted state nothing else is told. */
  const shortsIn = (state) => shorts.flatMap((short, number) => (holds(short.states, state) ? [number] : []));

  /**
   * @param {State} state
   * @returns {Step[]} what relays want to do
   */
  function wishes(state) {
    return relays.flatMap((relay) => relay.wishes
      .filter((wish) => state[relay.digit] === wish.start && holds(wish.wanted, state))
      .map((wish) => ({ ...UNTIMED, ...wish, kind: wish.timed ? "timer" : "relay", digit: relay.digit })));
  }

  /**
   * Do relays stand still, or go round for ever? Only then do hands, motors and timers move anything.
   * @param {State} state
   */
  function atRest(state) {
    const moving = wishes(state).filter((wish) => wish.kind === "relay").map((wish) => wish.digit);
    return cones.every((cone) => !moving.some((digit) => cone.digits.includes(digit)) || holds(cone.endless, state));
  }

  /**
   * @param {State} state
   * @returns {Step[]} where motors drive axes
   */
  function axisSteps(state) {
    return axes.flatMap((axis) => axis.ways
      .filter((way) => state[axis.digit] === way.start && holds(way.driven, state))
      .map((way) => ({ ...UNTIMED, kind: "axis", digit: axis.digit, ...way })));
  }

  /**
   * @param {number} digit
   * @param {number} start
   * @returns {Step[]} where a hand can bring a control at once: past a moment where there is one on its way
   */
  function handSteps(digit, start) {
    const { kind, positions, between } = data.digits[digit];
    if (kind !== "control" && kind !== "outside" && kind !== "supply") return [];
    const step = (/** @type {number} */ end) => ({ ...UNTIMED, kind: "hand", digit, start, end });
    if (start >= positions) {
      const moves = between.filter((moment) => moment.value === start).flatMap((moment) => moment.moves);
      return [...new Set(moves.map((move) => move[1]))].map(step);
    }
    const passed = between.filter((moment) => moment.moves.some((move) => move[0] === start));
    const led = passed.flatMap((moment) => moment.moves.filter((move) => move[0] === start).map((move) => move[1]));
    const direct = [...Array(positions).keys()].filter((end) => end !== start && !led.includes(end));
    return [...direct, ...passed.map((moment) => moment.value)].map(step);
  }

  /**
   * @param {State} state
   * @returns {Step[]} all that may happen next; nothing follows a short
   */
  function steps(state) {
    if (shortsIn(state).length) return [];
    const asked = wishes(state);
    const hands = data.digits.flatMap((_, digit) => handSteps(digit, state[digit]));
    const quick = [
      ...asked.filter((wish) => wish.kind === "relay"),
      ...hands.filter((step) => step.start >= data.digits[step.digit].positions),
    ];
    if (!proper(state) || !atRest(state)) return quick;
    return [...quick, ...asked.filter((wish) => wish.kind === "timer"), ...axisSteps(state), ...hands];
  }

  /**
   * The word for what each motor and lamp does; "" where the page doesn't hold it.
   * @param {State} state
   */
  function words(state) {
    const shorted = shortsIn(state).length > 0;
    return devices.map((device) => {
      if (shorted) return "shorted";
      return device.words.find((word) => holds(word.states, state))?.word ?? "";
    });
  }

  /**
   * Is this conductor a contact, and closed?
   * @param {number} number
   * @param {State} state
   */
  function closed(number, state) {
    const { digit, values } = conductors[number];
    return digit !== null && values.includes(state[digit]);
  }

  /**
   * What flows through a conductor: "fed", "braking", "shorting", or "" for nothing.
   * @param {number} number
   * @param {State} state
   */
  function flow(number, state) {
    const flows = (/** @type {string} */ kind) => conductors[number][kind].some((set) => holds(set, state));
    return ["shorting", "fed", "braking"].find(flows) ?? "";
  }

  /** The same of a load: "forward", "backward", "braking", or "". */
  const loadFlow = (number, state) => LOAD_FLOWS.find((kind) => holds(loads[number][kind], state)) ?? "";

  return { shortsIn, wishes, atRest, steps, words, closed, flow, loadFlow };
}
