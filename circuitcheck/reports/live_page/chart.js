/**
 * The timing chart of what has been done on this page, and the same in words. A lane for whatever has changed.
 * @param {App} app
 */
function chartView(app) {
  let before = null;
  return (run) => {
    if (run.entries === before) return;
    before = run.entries;
    const entries = run.entries.slice(-MOST_COLUMNS);
    place("chart").replaceChildren(chartOf(lanesOf(app, entries), entries));
    place("log").replaceChildren(...entries.map(logLine));
    place("log-box").scrollTop = place("log-box").scrollHeight;
  };
}

const MOST_COLUMNS = 40;
const LANE = 22;
const COLUMN = 34;
const SIGN = 7.4;

/**
 * @param {App} app
 * @param {Entry[]} entries
 * @returns {Lane[]}
 */
function lanesOf(app, entries) {
  const lanes = [];
  const add = (name, words, taken) => {
    if (new Set(taken).size < 2) return;
    for (const word of words.filter((one) => taken.includes(one))) {
      lanes.push({ name, word, filled: taken.map((one) => one === word) });
    }
  };
  const ofDigits = (kinds) => app.data.digits.forEach((digit, number) => {
    const words = kinds[0] === "axis" ? [...digit.values].reverse() : lanesWords(digit);
    if (kinds.includes(digit.kind)) add(digit.name, words, entries.map((entry) => digit.values[entry.state[number]]));
  });
  ofDigits(["supply", "control", "outside"]);
  ofDigits(["relay"]);
  const told = entries.map((entry) => app.lookups.words(entry.state));
  app.data.lookups.devices.forEach((device, number) => {
    const taken = told.map((words) => words[number]);
    add(device.name, [...new Set(taken)].filter((word) => word !== "dark" && word !== "off"), taken);
  });
  ofDigits(["axis"]);
  return lanes;
}

/** Off and released are where the lane of on, pressed or operated is empty. */
const lanesWords = (digit) => (["off", "released"].includes(digit.values[0]) ? digit.values.slice(1) : digit.values);

/**
 * @param {Lane[]} lanes
 * @param {Entry[]} entries
 */
function chartOf(lanes, entries) {
  const count = entries.length;
  const labels = lanes.map((lane, number) => /** @type {[string, string]} */ ([
    lanes[number - 1]?.name === lane.name ? "" : lane.name, lane.word,
  ]));
  const nameWidth = Math.max(40, ...lanes.map((lane) => lane.name.length * SIGN + 14));
  const left = nameWidth + Math.max(40, ...lanes.map((lane) => lane.word.length * SIGN)) + 12;
  const width = left + count * COLUMN + 8;
  const height = 26 + lanes.length * LANE + 4;
  const parts = entries.flatMap((entry, column) => [
    draw("path", { class: "grid", d: `M${left + column * COLUMN} 22V${height}` }),
    draw("text", { x: left + column * COLUMN + COLUMN / 2, y: 15, class: "count" }, String(entry.number)),
  ]);
  const sizes = { left, nameWidth, width };
  lanes.forEach((lane, number) => parts.push(...laneOf(lane, labels[number], 26 + number * LANE, sizes)));
  const title = draw("title", {}, "Timing chart; the list beside it tells the same in words");
  return draw("svg", { viewBox: `0 0 ${width} ${height}`, width, height, role: "img" }, title, ...parts);
}

/** @param {Lane} lane */
function laneOf(lane, [name, word], top, { left, nameWidth, width }) {
  const parts = [
    draw("text", { x: 2, y: top + 15, class: "name" }, name),
    draw("text", { x: nameWidth, y: top + 15 }, word),
    draw("path", { class: "grid", d: `M${name ? 0 : nameWidth} ${top}H${width}` }),
  ];
  lane.filled.forEach((filled, column) => {
    if (filled) parts.push(draw("rect", { x: left + column * COLUMN, y: top + 5, width: COLUMN, height: LANE - 10 }));
    else parts.push(draw("path", { class: "low", d: `M${left + column * COLUMN} ${top + LANE - 5}h${COLUMN}` }));
  });
  return parts;
}

/** @param {Entry} entry */
function logLine(entry) {
  const others = entry.others.length ? ` Could have come first as well: ${entry.others.join(", ")}.` : "";
  const time = make("time", {}, seconds(entry.seconds));
  return make("li", { value: entry.number }, time, ` ${entry.says}.`, make("span", { class: "quiet" }, others));
}
