/**
 * Ladder and wiring drawing: what carries current is lit, what is closed is closed, and controls can be worked there.
 * Whoever drew them has said on each element which conductors, part, load or digit it stands for; in a ladder also in
 * which sense current runs there.
 * @param {App} app
 * @returns {View}
 */
function picturesView(app) {
  const drawn = document.querySelectorAll(".picture :is([data-conductors], [data-load]):not([data-rung])");
  const elements = [...drawn].map((element) => ({
    element, conductors: numbersOf(element, "data-conductors"), loads: numbersOf(element, "data-load"),
    sense: element.closest("[data-sense]")?.getAttribute("data-sense") ?? "",
  }));
  const contacts = [...document.querySelectorAll(".picture [data-digit]")];
  const workable = contacts.filter((element) => makeWorkable(app, element));
  // What a drawing holds is hidden from screen readers as long as it is an image.
  const drawings = workable.length ? document.querySelectorAll(".picture > svg") : [];
  drawings.forEach((drawing) => setAttributes(drawing, { role: "group" }));
  pictureTabs();
  return (run, now) => {
    document.body.classList.toggle("shows-way", app.shownWay.conductors.length > 0);
    for (const { element, conductors, loads, sense } of elements) {
      const flows = [
        ...conductors.map((number) => FLOWS[now.flows[number]]),
        ...loads.map((number) => loadClass(now.loads[number], sense)),
      ];
      const worst = ["short", "lit", "brake"].find((name) => flows.includes(name));
      for (const name of ["short", "lit", "brake"]) element.classList.toggle(name, name === worst);
      element.classList.toggle("closed", conductors.some((number) => app.lookups.closed(number, run.state)));
      const along = conductors.some((one) => app.shownWay.conductors.includes(one));
      element.classList.toggle("found", along || loads.some((one) => app.shownWay.loads.includes(one)));
    }
    workable.forEach((element) => nameWorkable(app, element, run));
  };
}

/** What is drawn as what. @type {Object<string, string>} */
const FLOWS = { fed: "lit", braking: "brake", shorting: "short" };

/**
 * A load counts where its current runs as it does on the way that is drawn; in no sense where it doesn't matter.
 * @param {string} flow
 * @param {string} sense
 */
function loadClass(flow, sense) {
  if (flow === "braking") return sense === "" || sense === "brake" ? "brake" : "";
  return flow !== "" && (sense === "" || sense === flow) ? "lit" : "";
}

/**
 * @param {Element} element
 * @param {string} name
 */
const numbersOf = (element, name) => (element.getAttribute(name) ?? "").split(" ").filter(Boolean).map(Number);

/**
 * @param {App} app
 * @param {Element} element
 * @param {Run} run
 */
function nameWorkable(app, element, run) {
  const number = Number(element.getAttribute("data-digit"));
  const { name, values } = app.data.digits[number];
  setAttributes(element, { "aria-label": `${name} ${values[run.state[number]]}: on to its next position` });
}

/**
 * A contact of something that a hand works brings it to its next position.
 * @param {App} app
 * @param {Element} element
 * @returns {boolean} whether it is one
 */
function makeWorkable(app, element) {
  const number = Number(element.getAttribute("data-digit"));
  const digit = app.data.digits[number];
  if (!digit || !["control", "outside", "supply"].includes(digit.kind)) return false;
  setAttributes(element, { tabindex: 0, role: "button" });
  element.classList.add("workable");
  const next = () => app.work(number, (Math.min(app.run.state[number], digit.positions - 1) + 1) % digit.positions);
  element.addEventListener("click", next);
  element.addEventListener("keydown", (event) => {
    const { key } = /** @type {KeyboardEvent} */ (event);
    if (key !== " " && key !== "Enter") return;
    event.preventDefault();
    next();
  });
  return true;
}

/** One picture at a time, as large as it is drawn or as wide as the page. */
function pictureTabs() {
  /** @type {NodeListOf<HTMLInputElement>} */
  const radios = document.querySelectorAll("#picture-choice input[type=radio]");
  const show = () => radios.forEach((radio) => { place(radio.value).hidden = !radio.checked; });
  radios.forEach((radio) => radio.addEventListener("change", show));
  show();
  const whole = /** @type {?HTMLInputElement} */ (document.getElementById("whole"));
  if (!whole) return;
  const fit = () => place("pictures").classList.toggle("whole", whole.checked);
  // On a phone it could not be read so.
  whole.checked = innerWidth >= 900;
  whole.addEventListener("change", fit);
  fit();
}
