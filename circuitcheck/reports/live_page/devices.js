/**
 * Motors as winches, lamps as lanterns; each with its word, since a picture alone is not for everybody.
 * @param {App} app
 */
function devicesView(app) {
  const shown = app.data.lookups.devices.map((device) => (device.kind === "motor" ? motorOf(device) : lampOf(device)));
  place("devices").append(...shown.map((one) => one.element));
  return {
    render: (now) => shown.forEach((one, number) => one.render(now.words[number])),
    turn: (seconds) => shown.map((one) => one.turn(seconds)).some(Boolean),
  };
}

/** How fast a motor comes to the speed that its word means, in shares a second: driven, braked, or left to itself. */
const PULLS = { forward: 5, reverse: 5, braked: 20, shorted: 20, "braked one way": 5 };
const COASTS = 0.9;
const TURNS_A_SECOND = 0.7;

/** @param {Device} device */
function motorOf(device) {
  const spokes = [0, 60, 120].map((angle) => draw("path", { d: "M0-26V26", transform: `rotate(${angle})` }));
  const rotor = draw("g", { class: "rotor" }, draw("circle", { r: 26 }), ...spokes,
    draw("circle", { r: 7, class: "hub" }), draw("circle", { r: 3.5, cx: 0, cy: -20, class: "peg" }));
  const shoes = draw("g", { class: "shoes" }, draw("path", { d: "M-36-16V16M36-16V16" }));
  const arrow = draw("path", { class: "arrow", d: "M-25-33A42 42 0 0 1 25-33m-1-11 3 12-12 1" });
  const picture = draw("svg", { viewBox: "-50 -56 100 104", "aria-hidden": "true" }, arrow, shoes, rotor);
  const word = make("span", { class: "word" });
  const element = make("div", { class: "device motor" }, picture, make("b", {}, device.name), word);
  let speed = 0;
  let angle = 0;
  /** @param {string} does */
  function render(does) {
    element.dataset.does = does;
    say(word, does || "not told here");
  }
  /**
   * @param {number} seconds
   * @returns {boolean} whether it still turns or is about to
   */
  function turn(seconds) {
    const does = element.dataset.does ?? "";
    const goal = does === "forward" ? 1 : does === "reverse" ? -1 : 0;
    speed += (goal - speed) * Math.min(1, (PULLS[does] ?? COASTS) * seconds);
    if (goal === 0 && Math.abs(speed) < 0.02) speed = 0;
    angle = (angle + 360 * TURNS_A_SECOND * speed * seconds) % 360;
    if (!calm.matches) setAttributes(rotor, { transform: `rotate(${angle.toFixed(1)})` });
    element.classList.toggle("turning", speed !== 0);
    return speed !== 0 || goal !== 0;
  }
  return { element, render, turn };
}

const calm = matchMedia("(prefers-reduced-motion: reduce)");

/** @param {Device} device */
function lampOf(device) {
  const rays = [...Array(8).keys()].map((ray) => draw("path", { d: "M0-30V-40", transform: `rotate(${45 * ray})` }));
  const picture = draw("svg", { viewBox: "-50 -56 100 104", "aria-hidden": "true" },
    draw("g", { class: "rays" }, ...rays), draw("circle", { r: 22, class: "bulb" }),
    draw("path", { d: device.kind === "lamp" ? "M-15.5-15.5 15.5 15.5M15.5-15.5-15.5 15.5" : "M-13 0H13" }));
  const word = make("span", { class: "word" });
  const kind = device.kind === "lamp" ? "" : ` ${device.kind}`;
  const element = make("div", { class: "device lamp" }, picture, make("b", {}, device.name, kind), word);
  /** @param {string} does */
  function render(does) {
    element.dataset.does = does;
    say(word, does || "not told here");
  }
  return { element, render, turn: () => false };
}
