/**
 * A set of states as it comes: the digits that it depends on, what each of their values counts, and its bits.
 * @typedef {{digits: number[], strides: number[], bits: string}} PackedSet
 *
 * A state: the value of each digit, by the digit's number.
 * @typedef {number[]} State
 *
 * Something that may happen next. kind: "relay" (in milliseconds), "timer", "hand" or "axis".
 * least, greatest: seconds after which it does, told: by the plan; for relays and timers. direction: of an axis.
 * @typedef {{kind: string, digit: number, start: number, end: number, least?: number, greatest?: number,
 *            told?: boolean, direction?: number}} Step
 */

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

/**
 * Everything that the page says of a state is looked up here, in sets that were worked out before the page was
 * written. Nothing of the circuit is solved, and nothing is guessed.
 */
function lookupsOf(data) {
  const { relays, cones, devices, axes, conductors, loads, shorts } = data.lookups;
  const members = data.sets.map(membership);
  const holds = (number, state) => number !== null && members[number](state);
  const proper = (state) => data.digits.every((digit, number) => state[number] < digit.positions);

  /** The numbers of the shorts that there are. In a shorted state nothing else is told. */
  const shortsIn = (state) => shorts.flatMap((short, number) => (holds(short.states, state) ? [number] : []));

  /** @returns {Step[]} what relays want to do */
  function wishes(state) {
    return relays.flatMap((relay) => relay.wishes
      .filter((wish) => state[relay.digit] === wish.start && holds(wish.wanted, state))
      .map((wish) => ({ ...wish, kind: wish.timed ? "timer" : "relay", digit: relay.digit })));
  }

  /** Do relays stand still, or go round for ever? Only then do hands, motors and timers move anything. */
  function atRest(state) {
    const moving = wishes(state).filter((wish) => wish.kind === "relay").map((wish) => wish.digit);
    return cones.every((cone) => !moving.some((digit) => cone.digits.includes(digit)) || holds(cone.endless, state));
  }

  /** @returns {Step[]} where motors drive axes */
  function axisSteps(state) {
    return axes.flatMap((axis) => axis.ways
      .filter((way) => state[axis.digit] === way.start && holds(way.driven, state))
      .map((way) => ({ kind: "axis", digit: axis.digit, start: way.start, end: way.end, direction: way.direction })));
  }

  /** @returns {Step[]} where a hand can bring a control at once: past a moment where there is one on its way */
  function handSteps(digit, start) {
    const { kind, positions, between } = data.digits[digit];
    if (kind !== "control" && kind !== "outside" && kind !== "supply") return [];
    const step = (end) => ({ kind: "hand", digit, start, end });
    if (start >= positions) {
      const moves = between.filter((moment) => moment.value === start).flatMap((moment) => moment.moves);
      return [...new Set(moves.map((move) => move[1]))].map(step);
    }
    const passed = between.filter((moment) => moment.moves.some((move) => move[0] === start));
    const led = passed.flatMap((moment) => moment.moves.filter((move) => move[0] === start).map((move) => move[1]));
    const direct = [...Array(positions).keys()].filter((end) => end !== start && !led.includes(end));
    return [...direct, ...passed.map((moment) => moment.value)].map(step);
  }

  /** @returns {Step[]} all that may happen next; nothing follows a short */
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

  /** The word for what each motor and lamp does; "" where the page doesn't hold it. */
  function words(state) {
    const shorted = shortsIn(state).length > 0;
    return devices.map((device) => {
      if (shorted) return "shorted";
      return device.words.find((word) => holds(word.states, state))?.word ?? "";
    });
  }

  /** Is this conductor closed? Wires always are. */
  function closed(number, state) {
    const { digit, values } = conductors[number];
    return digit === null || values.includes(state[digit]);
  }

  /** What flows through a conductor: "fed", "braking", "shorting", or "" for nothing. */
  function flow(number, state) {
    return ["shorting", "fed", "braking"].find((kind) => holds(conductors[number][kind], state)) ?? "";
  }

  /** The same of a load: "fed", "braking", or "". */
  const loadFlow = (number, state) => ["fed", "braking"].find((kind) => holds(loads[number][kind], state)) ?? "";

  return { shortsIn, wishes, atRest, steps, words, closed, flow, loadFlow };
}
